//! Stories of a site: build, look at the main part, change one file, build, look again.
//! Never calls our functions: the program is run in a club's folder, as a coach does.

#[path = "site/club.rs"]
mod club;
#[path = "site/theme.rs"]
mod theme;
#[path = "site/turns.rs"]
mod turns;

use club::{Club, difference, tree};
use std::fs;
use std::time::Duration;

const ENTRY: &str = "content/movements/pull-horizontal/strap-row.md";
const PAGE: &str = "movements/strap-row.html";

#[test]
fn a_changed_entry_changes_its_page_and_little_else() {
    let club = Club::starter();
    club.build();
    assert!(club.main_part(PAGE).contains("Elbows to back pockets"), "{}", club.main_part(PAGE));
    let before = club.site();

    club.change(ENTRY, "Elbows to back pockets", "Zip your jacket with elbows");
    let said = club.build();
    let main = club.main_part(PAGE);
    assert!(main.contains("Zip your jacket with elbows") && !main.contains("back pockets"));
    let after = club.site();
    assert_eq!(before.len(), after.len());
    assert_eq!(before["kit/straps.html"], after["kit/straps.html"]);
    assert!(said.out.contains(" 0 removed"), "{}", said.out);
}

#[test]
fn the_same_content_gives_the_same_bytes() {
    let first = Club::starter();
    first.build();
    let once = first.site();
    first.run(&["build", "--out", "again"]);
    assert_eq!(difference(&once, &tree(&first.at("again"))), None);

    // Another folder, and the files made in the opposite order.
    let names: Vec<String> = tree(&first.at("content")).into_keys().collect();
    let other = Club::written_in_order(names.iter().rev());
    other.build();
    assert_eq!(difference(&once, &other.site()), None);

    // A different entry must show, or this test could not fail.
    other.change(ENTRY, "Elbows to back pockets", "Elbows back");
    other.build();
    assert!(difference(&once, &other.site()).is_some());
}

#[cfg(unix)]
#[test]
fn unchanged_files_are_not_rewritten() {
    use std::os::unix::fs::MetadataExt;
    let club = Club::starter();
    club.build();
    let mark = |name: &str| {
        let file = fs::metadata(club.at("site").join(name)).expect("it is there");
        (file.ino(), file.mtime(), file.mtime_nsec())
    };
    let (kit, page) = (mark("kit/straps.html"), mark(PAGE));

    std::thread::sleep(Duration::from_millis(20));
    club.change(ENTRY, "Elbows to back pockets", "Elbows back");
    club.build();
    assert_eq!(mark("kit/straps.html"), kit);
    assert_ne!(mark(PAGE), page);

    let again = club.build();
    assert!(again.out.contains(" 0 changed"), "{}", again.out);
}

#[test]
fn files_of_somebody_else_survive() {
    let club = Club::starter();
    club.build();
    club.write("site/photos/hall.txt", "ours");
    club.write("site/.nojekyll", "");
    club.change(ENTRY, "Elbows to back pockets", "Elbows back");
    club.build();
    assert_eq!(club.read("site/photos/hall.txt"), "ours");
    assert!(club.at("site/.nojekyll").exists());
}

#[test]
fn a_folder_that_is_not_ours_is_refused() {
    let club = Club::starter();
    club.write("papers/rota.txt", "Tuesday: Wren");
    club.write("papers/index.html", "mine");
    let before = tree(&club.at("papers"));
    let said = club.run(&["build", "--out", "papers"]);
    assert_eq!(said.code, Some(2), "{}", said.err);
    assert!(said.err.contains("papers") && said.err.contains("help:"), "{}", said.err);
    assert_eq!(difference(&before, &tree(&club.at("papers"))), None);
}

#[test]
fn a_site_inside_the_library_is_refused() {
    let club = Club::starter();
    let before = tree(&club.at("content"));
    for out in ["content/site", "content", "."] {
        let said = club.run(&["build", "--out", out]);
        assert_eq!(said.code, Some(2), "{out}: {}", said.err);
    }
    assert_eq!(difference(&before, &tree(&club.at("content"))), None);
}

#[test]
fn a_removed_entry_takes_its_page_along() {
    let club = Club::starter();
    let text = club.read("content/movements/mobility/cat-camel.md");
    let renamed = text.replace("name: Cat-camel", "name: Rolling hillside");
    let lines = renamed.lines().map(|line| match line.starts_with("aliases:") {
        true => "aliases: []",
        false => line,
    });
    let entry = lines.collect::<Vec<_>>().join("\n") + "\n";
    club.write("content/movements/mobility/rolling-hillside.md", entry);
    club.run(&["build"]);
    assert!(club.main_part("movements/rolling-hillside.html").contains("Rolling hillside"));
    assert!(club.main_part("movements/index.html").contains("rolling-hillside.html"));

    fs::remove_file(club.at("content/movements/mobility/rolling-hillside.md")).expect("removed");
    club.build();
    let left = club.site();
    let named = left.iter().find(|(name, bytes)| {
        name.contains("rolling-hillside")
            || String::from_utf8_lossy(bytes).contains("rolling-hillside")
    });
    assert_eq!(named.map(|(name, _)| name), None);
}

#[test]
fn errors_leave_the_old_site() {
    let club = Club::starter();
    club.build();
    let before = club.site();
    club.change(ENTRY, "sides: together", "sides: sideways");
    let said = club.run(&["build"]);
    assert_eq!(said.code, Some(1), "{}", said.out);
    assert!(said.err.contains("strap-row.md:"), "{}", said.err);
    assert!(said.err.contains("sideways"), "{}", said.err);
    assert_eq!(difference(&before, &club.site()), None);
}

#[test]
fn a_roster_never_reaches_the_site() {
    let club = Club::starter();
    club.build();
    let before = club.site();
    let roster = "who:\n  - {name: Dotterel, limits: [impact], rungs: {row: 3}}\n";
    for place in ["roster.yaml", "content/roster.yaml", "content/rosters/tuesday.yaml"] {
        club.write(place, roster);
    }
    // Whether the build ignores it or refuses it, the site stays as it was.
    club.run(&["build"]);
    assert_eq!(difference(&before, &club.site()), None);
}

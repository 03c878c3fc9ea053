//! Stories of a site: build, look at the main part, change one file, build, look again.
//! Never calls our functions: the program is run in a club's folder, as a coach does.

#[path = "site/club.rs"]
mod club;

use club::{Club, difference, tree};
use std::fs;
use std::time::{Duration, Instant};

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
fn a_killed_build_leaves_a_whole_site() {
    let club = Club::starter();
    club.build();
    let old = club.site();
    club.change("content/club.yaml", "name: Thornmere Hall", "name: Thornmere Barn");
    let start = Instant::now();
    club.run(&["build", "--out", "elsewhere"]);
    let whole = start.elapsed();
    let new = tree(&club.at("elsewhere"));
    assert!(difference(&old, &new).is_some());

    let mut kills = 0;
    for part in 1..=16u32 {
        let mut build = club.program(&["build"]).spawn().expect("it starts");
        std::thread::sleep(whole * part / 16);
        kills += u32::from(build.kill().is_ok() && build.wait().is_ok_and(|s| !s.success()));
        let now = club.site();
        let is_whole = difference(&old, &now).is_none() || difference(&new, &now).is_none();
        assert!(is_whole, "after a kill at {part}/16 of {whole:?}: {:?}", difference(&old, &now));
        if difference(&old, &now).is_some() {
            break; // The build was done before the kill.
        }
    }
    assert!(kills >= 3, "only {kills} builds were killed on their way");

    club.build();
    assert_eq!(difference(&new, &club.site()), None);
    let beside = fs::read_dir(club.at("")).expect("the folder").flatten();
    let left = beside.filter(|e| e.file_name().to_string_lossy().contains("rungbook-new"));
    assert_eq!(left.count(), 0, "a half-made site was left behind");
}

#[test]
fn a_theme_overrides_one_block_without_copying_the_page() {
    let club = Club::starter();
    club.write(
        "ours/templates/movement.html",
        "{% extends \"slate/movement.html\" %}{% block cues %}<p id=\"ours\">{{ cues[0].say }}, said our way</p>{% endblock %}",
    );
    club.write("ours/styles/club.css", "main { max-width: 60rem }\n");
    let said = club.run(&["build", "--theme", "ours"]);
    assert!(said.out.starts_with("site: "), "{}", said.err);
    let main = club.main_part(PAGE);
    assert!(main.contains("Elbows to back pockets, said our way"), "{main}");
    assert!(main.contains("<h2>Faults</h2>"), "the rest of the page stays");
    assert!(!main.contains("<section class=\"cues\">"), "our own block stands in its place");
    assert!(club.at("site/styles/club.css").exists());
    assert!(club.at("site/styles/slate.css").exists());

    club.write("ours/templates/movement.html", "{{ no_such_name }}");
    let said = club.run(&["build", "--theme", "ours"]);
    assert_eq!(said.code, Some(2));
    assert!(said.err.contains("movement.html") && said.err.contains("help:"), "{}", said.err);
    assert!(club.main_part(PAGE).contains("said our way"), "the old site stands");
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

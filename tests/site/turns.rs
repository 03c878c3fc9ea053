//! Builds that meet each other, and builds that were killed: the site is whole, and nothing stays
//! beside it. Never judged by times: what stands on the disk decides when a build is killed.

use super::club::{Club, Said, Tree, difference, tree};
use std::fs;
use std::path::Path;
use std::process::{Child, Stdio};
use std::time::{Duration, Instant};

const TINY: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/libraries/tiny");
const HALL: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/libraries/hall");
/// Longer than any build; a test that meets it has failed.
const TOO_LONG: Duration = Duration::from_secs(900);

/// The site of a library, built where nobody else is.
fn alone(library: &str) -> Tree {
    let club = Club::empty();
    let said = club.run(&["build", "--library", library]);
    assert!(matches!(said.code, Some(0 | 1)), "{}", said.err);
    club.site()
}

fn start(club: &Club, arguments: &[&str]) -> Child {
    let mut program = club.program(arguments);
    program.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("it starts")
}

/// What stands beside the site and is none of the club's, but for what builds keep for the next one.
fn left_behind(club: &Club) -> Vec<String> {
    let entries = fs::read_dir(club.at("")).expect("the folder").flatten();
    let names = entries.map(|entry| entry.file_name().to_string_lossy().into_owned());
    names.filter(|name| name.contains("rungbook") && !name.ends_with("-kept")).collect()
}

#[test]
fn two_builds_at_once_leave_one_whole_site() {
    let (tiny, hall) = (alone(TINY), alone(HALL));
    let mut waited = 0;
    for pair in 0..20 {
        let club = Club::empty();
        if pair % 2 == 1 {
            club.run(&["build", "--library", if pair % 4 == 1 { TINY } else { HALL }]);
        }
        let both = [TINY, HALL].map(|library| start(&club, &["build", "--library", library]));
        for child in both {
            let said = Said::from(child.wait_with_output().expect("it ends"));
            assert!(matches!(said.code, Some(0 | 1)), "pair {pair}: {}{}", said.out, said.err);
            waited += usize::from(said.err.contains("another build (process "));
        }
        let site = club.site();
        let is_whole = [&tiny, &hall].iter().any(|one| difference(one, &site).is_none());
        assert!(is_whole, "pair {pair} left a mixed site: {:?}", difference(&tiny, &site));
        assert_eq!(left_behind(&club), Vec::<String>::new(), "pair {pair}");
    }
    assert!(waited > 0, "no build of 20 pairs said that it waits");
}

/// Waits until `reached`, or the build is over; true when it was reached first.
fn until(build: &mut Child, reached: impl Fn() -> bool) -> bool {
    let start = Instant::now();
    while start.elapsed() < TOO_LONG {
        if reached() {
            return true;
        }
        if build.try_wait().expect("a build").is_some() {
            return false;
        }
        std::thread::sleep(Duration::from_micros(200));
    }
    panic!("the build neither ends nor gets there");
}

/// Starts a build and kills it as soon as `reached`; false when the build was faster.
fn killed_when(club: &Club, reached: impl Fn() -> bool) -> bool {
    let mut build = club.program(&["build"]);
    let mut build = build.stdout(Stdio::null()).stderr(Stdio::null()).spawn().expect("it starts");
    until(&mut build, reached);
    let _ = build.kill();
    // A build that a signal ended has no exit code.
    build.wait().expect("it ends").code().is_none()
}

fn files_in(folder: &Path) -> usize {
    walkdir::WalkDir::new(folder).into_iter().flatten().filter(|e| e.file_type().is_file()).count()
}

#[test]
fn a_killed_build_leaves_a_whole_site() {
    let club = Club::starter();
    let names = ["name: Thornmere Hall", "name: Thornmere Barn"];
    let sites = names.map(|name| {
        let text = club.read("content/club.yaml").replace(names[0], name);
        club.write("content/club.yaml", text.replace(names[1], name));
        club.run(&["build", "--out", "elsewhere"]);
        tree(&club.at("elsewhere"))
    });
    assert!(difference(&sites[0], &sites[1]).is_some());
    club.build();
    let (lock, fresh) = (club.at(".site.rungbook-lock"), club.at(".site.rungbook-new"));
    let half = sites[0].len() / 2;
    // At the start, while the library is read, and at three moments of writing.
    let moments: [(&str, &dyn Fn() -> bool); 5] = [
        ("started", &|| true),
        ("took its turn", &|| lock.exists()),
        ("began to write", &|| fresh.exists()),
        ("wrote some", &|| files_in(&fresh) > 20),
        ("wrote half", &|| files_in(&fresh) > half),
    ];
    for (what, reached) in moments {
        // A build that was faster than the kill is followed by another one.
        let killed = (0..30).any(|_| {
            let before = club.site();
            let other = usize::from(difference(&sites[0], &before).is_none());
            let now = names[1 - other];
            let text = club.read("content/club.yaml").replace(now, names[other]);
            club.write("content/club.yaml", text);
            let killed = killed_when(&club, reached);
            let after = club.site();
            let is_whole = sites.iter().any(|site| difference(site, &after).is_none());
            assert!(is_whole, "killed when it {what}: {:?}", difference(&before, &after));
            killed
        });
        assert!(killed, "no build could be killed when it {what}");
    }
    club.build();
    assert!(sites.iter().any(|site| difference(site, &club.site()).is_none()));
    assert_eq!(left_behind(&club), Vec::<String>::new());
}

#[test]
fn a_build_that_changes_nothing_takes_leftovers_away() {
    let club = Club::tiny();
    club.build();
    let site = club.site();
    club.write(".site.rungbook-new/movements/half.html", "half");
    club.write(".site.rungbook-gone/movements/old.html", "old");
    club.write(".site.rungbook-lock", "1\n");
    let said = club.build();
    assert!(said.out.contains(" 0 changed"), "{}", said.out);
    assert_eq!(left_behind(&club), Vec::<String>::new());
    assert_eq!(difference(&site, &club.site()), None);
}

/// Where two folders cannot be exchanged in one step, a build may be killed when the old site has
/// gone aside and the new one has not yet come.
#[test]
fn an_old_site_that_was_put_aside_comes_back_first() {
    let club = Club::tiny();
    club.build();
    let site = club.site();
    club.write("site/photos/hall.txt", "ours");
    fs::rename(club.at("site"), club.at(".site.rungbook-old")).expect("put aside");
    club.write(".site.rungbook-new/movements/half.html", "half");

    // Even a library that cannot be built brings it back.
    club.change("content/club.yaml", "caution-line:", "caution-lime:");
    assert_eq!(club.run(&["build"]).code, Some(1));
    assert_eq!(club.read("site/photos/hall.txt"), "ours");
    club.change("content/club.yaml", "caution-lime:", "caution-line:");
    club.build();
    assert_eq!(club.read("site/photos/hall.txt"), "ours");
    fs::remove_dir_all(club.at("site/photos")).expect("removed");
    assert_eq!(difference(&site, &club.site()), None);
    assert_eq!(left_behind(&club), Vec::<String>::new());
}

/// A kill right after the exchange leaves the old site aside, perhaps with a file that the coach put
/// there while the new one was made.
#[test]
fn what_a_coach_put_into_an_old_site_is_taken_along() {
    let club = Club::tiny();
    club.build();
    let list = club.read("site/.rungbook");
    let site = club.site();
    let list = format!("{list}movements/gone.html\n");
    for (name, text) in [
        (".rungbook", list.as_str()),
        ("movements/gone.html", "a page of the old site"),
        ("photos/hall.txt", "ours"),
        ("index.html", "the old front"),
    ] {
        club.write(&format!(".site.rungbook-old/{name}"), text);
    }
    club.build();
    assert_eq!(club.read("site/photos/hall.txt"), "ours");
    fs::remove_dir_all(club.at("site/photos")).expect("removed");
    assert_eq!(difference(&site, &club.site()), None);
    assert_eq!(left_behind(&club), Vec::<String>::new());
}

#[test]
fn a_build_that_is_refused_leaves_no_folder_behind() {
    let club = Club::tiny();
    club.change("content/club.yaml", "caution-line:", "caution-lime:");
    assert_eq!(club.run(&["build", "--out", "new/deep/site"]).code, Some(1));
    assert!(!club.at("new").exists());
}

#[cfg(unix)]
#[test]
fn nothing_is_written_through_a_link_inside_the_site() {
    use std::os::unix::fs::symlink;
    for linked in ["movements", "data"] {
        let club = Club::tiny();
        club.build();
        club.write("mine/strap-row.html", "my own");
        fs::remove_dir_all(club.at("site").join(linked)).expect("removed");
        symlink("../mine", club.at("site").join(linked)).expect("a link");
        let (site, mine) = (club.site(), tree(&club.at("mine")));
        let said = club.run(&["build"]);
        assert_eq!(said.code, Some(2), "{linked}: {}{}", said.out, said.err);
        assert!(said.err.contains(&format!("site/{linked}` is a link")), "{}", said.err);
        assert!(said.err.contains("help: "), "{}", said.err);
        assert_eq!(difference(&site, &club.site()), None);
        assert_eq!(difference(&mine, &tree(&club.at("mine"))), None, "{linked}");
        assert_eq!(left_behind(&club), Vec::<String>::new());
    }
    // A link of the coach's where no page goes stays, and so does a site that is a link itself.
    let club = Club::tiny();
    club.write("photos/hall.txt", "ours");
    club.run(&["build", "--out", "real"]);
    symlink("real", club.at("site")).expect("a link");
    symlink("../photos", club.at("real/photos")).expect("a link");
    club.change("content/club.yaml", "Thornmere Hall", "Thornmere Barn");
    let said = club.build();
    assert!(!said.out.contains(" 0 changed"), "{}", said.out);
    assert!(fs::symlink_metadata(club.at("site")).expect("there").is_symlink());
    assert!(fs::symlink_metadata(club.at("real/photos")).expect("there").is_symlink());
    assert_eq!(club.read("site/photos/hall.txt"), "ours");
}

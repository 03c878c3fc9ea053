//! New entries: they read, they say what is left to write, they are tidy, and nothing is written over.

use super::club::Club;
use serde_json::Value;

fn codes(club: &Club, file: &str) -> Vec<String> {
    let (_, said, why) = club.run(&["check", &format!("content/{file}"), "--format", "json"]);
    let said: Value = serde_json::from_str(&said).unwrap_or_else(|_| panic!("{said}{why}"));
    let findings = said["findings"].as_array().expect("findings").iter();
    let pressing = findings.filter(|finding| finding["severity"] != "advice");
    pressing.map(|finding| finding["code"].as_str().expect("a code").to_string()).collect()
}

#[test]
fn each_kind_reads_and_says_what_is_left() {
    let club = Club::tiny();
    for (kind, name, like, file, left) in [
        (
            "movement",
            "Get-up",
            "strap-row",
            "movements/pull-horizontal/get-up.md",
            &["still-to-write", "traits-unsaid", "orphan-movement", "no-fault"][..],
        ),
        (
            "ladder",
            "Carry",
            "row",
            "ladders/carry.yaml",
            &["still-to-write", "ladder-without-test", "one-rung-ladder"],
        ),
        ("session", "Friday", "monday", "sessions/friday.yaml", &["still-to-write"]),
        ("cycle", "Autumn", "spring", "cycles/autumn.yaml", &["still-to-write"]),
        ("kit", "Sandbag", "towel", "words/kit.yaml", &["still-to-write"]),
        (
            "caution",
            "Stiff neck",
            "weak-grip",
            "words/cautions.yaml",
            &["still-to-write", "caution-without-traits"],
        ),
        ("source", "Measured rows", "common-practice", "words/sources.yaml", &["still-to-write"]),
    ] {
        let (code, said, why) = club.run(&["add", kind, name, "--like", like]);
        assert_eq!(code, 0, "{kind}: {said}{why}");
        assert!(said.contains(&format!("next: rungbook check content/{file}")), "{said}");
        let (code, said, _) = club.run(&["tidy", "--check", &format!("content/{file}")]);
        assert!(code == 0 || file.starts_with("words/"), "{kind}: {said}\n{}", club.read(file));
        let found = codes(&club, file);
        let more: Vec<&String> =
            found.iter().filter(|code| !left.contains(&code.as_str())).collect();
        assert!(more.is_empty(), "{kind}: {found:?}\n{}", club.read(file));
        assert!(found.iter().any(|code| code == "still-to-write"), "{kind}: {found:?}");
    }
}

#[test]
fn what_can_hurt_someone_is_never_taken_over_unasked() {
    let club = Club::tiny();
    club.run(&["add", "movement", "Get-up", "--like", "strap-row"]);
    let text = club.read("movements/pull-horizontal/get-up.md");
    assert!(text.contains("# traits: {strong-grip: 1}"), "{text}");
    assert!(
        text.contains("# What of these can hurt someone here? As strap-row has them:"),
        "{text}"
    );
    for line in ["traits:", "cues: [", "faults:", "figure:", "beside:"] {
        assert!(text.lines().all(|found| !found.starts_with(line)), "{line}\n{text}");
    }
    assert!(
        !text.contains("Elbows to back pockets") && text.contains("caution: \"...\""),
        "{text}"
    );
    assert!(text.contains("settings:") && text.contains("kit: [straps]"), "{text}");
}

#[test]
fn without_a_like_every_key_is_shown_as_a_remark() {
    let club = Club::tiny();
    let (code, said, why) =
        club.run(&["add", "movement", "Deep", "row", "--pattern", "pull-horizontal"]);
    assert_eq!(code, 0, "{said}{why}");
    let text = club.read("movements/pull-horizontal/deep-row.md");
    assert!(
        text.starts_with("---\nname: Deep row\npattern: pull-horizontal\n# purpose: strength\n"),
        "{text}"
    );
    assert!(text.contains("# traits: {strong-grip: 1, balance: 2}"), "{text}");
    assert!(
        codes(&club, "movements/pull-horizontal/deep-row.md").contains(&"traits-unsaid".into())
    );
}

#[test]
fn names_that_yaml_would_read_otherwise_stay_names() {
    let club = Club::tiny();
    for (name, id) in
        [("No", "no"), ("2 hands: up", "2-hands-up"), ("# one", "one"), ("\"Q\"", "q")]
    {
        let (code, said, why) = club.run(&["add", "kit", name]);
        assert_eq!(code, 0, "{said}{why}");
        let library = rungbook::library::reader::read(&club.path("content")).expect("it is there");
        let item = library.words.kit.get(&id.into()).unwrap_or_else(|| panic!("{id}"));
        assert_eq!(item.name, name);
    }
}

#[test]
fn nothing_is_written_over_and_every_mistake_is_said() {
    let club = Club::tiny();
    let before = club.all();
    for (arguments, sentence, next) in [
        (
            &["add", "movement", "Strap row", "--like", "towel-row"][..],
            "there is a movement `strap-row` already",
            "--id",
        ),
        (&["add", "kit", "Straps"], "there is a kit `straps` already", "--id"),
        (
            &["add", "movment", "Get-up"],
            "no kind of entry is called `movment`",
            "did you mean `movement`?",
        ),
        (&["add", "movement", "Get-up"], "a movement has a pattern", "--pattern"),
        (
            &["add", "movement", "Get-up", "--like", "strap-rwo"],
            "there is no movement `strap-rwo`",
            "did you mean `strap-row`?",
        ),
        (&["add", "movement", "Üben", "--like", "strap-row"], "`Üben` gives no id", "--id"),
        (&["add", "movement", "Index", "--like", "strap-row"], "`Index` gives no id", "--id"),
        (
            &["add", "kit", "Bag", "--pattern", "squat"],
            "a kit has no pattern",
            "leave `--pattern` out",
        ),
    ] {
        let (code, said, why) = club.run(arguments);
        assert!(
            code == 2 && why.contains(sentence) && why.contains(next),
            "{arguments:?}: {said}{why}"
        );
        assert_eq!(club.all(), before, "{arguments:?}");
    }
    // A file of that name that cannot be read is somebody's work too.
    club.write("ladders/carry.yaml", "name Carry\n");
    let (code, _, why) = club.run(&["add", "ladder", "Carry"]);
    assert!(code == 2 && why.contains("there is a ladder `carry` already"), "{why}");
    assert_eq!(club.read("ladders/carry.yaml"), "name Carry\n");
}

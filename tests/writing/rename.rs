//! Another id for an entry: everywhere that it is named and nowhere else, all files or none, and old links
//! still lead there.

use super::club::Club;
use rungbook::library::named::Named;
use rungbook::library::reader::Texts;
use rungbook::library::rename::Rename;
use std::path::Path;

const STRAP: &str = "movements/pull-horizontal/strap-row.md";

/// Every kind of the starter library: one of its ids, and the type that the program has for such an id.
const STARTER: [(Named, &str, &str); 9] = [
    (Named::Movement, "plank", "MovementId"),
    (Named::Ladder, "row", "LadderId"),
    (Named::Session, "push-and-pull", "SessionId"),
    (Named::Cycle, "six-weeks-push-and-pull", "CycleId"),
    (Named::Kit, "straps", "KitId"),
    (Named::Caution, "sore-wrist", "CautionId"),
    (Named::Fault, "hips-sag", "FaultId"),
    (Named::Change, "fists", "ChangeId"),
    (Named::Source, "common-practice", "SourceId"),
];

fn starter() -> Texts {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    Texts::read(&content, "content").expect("it is there")
}

fn after(of: Named, old: &str, new: &str) -> (Texts, usize) {
    let texts = starter();
    let edits = Rename { of, old, new }.edits(texts.files()).expect("all is read");
    let places = edits.iter().map(|edit| edit.places).sum();
    let after = edits.into_iter().fold(texts, |texts, edit| {
        let texts = if edit.from == edit.to { texts } else { texts.without(&edit.from) };
        texts.with_unsaved(&edit.to, edit.text)
    });
    (after, places)
}

/// How often a library, in words and without its texts, has an id of a type.
fn has(texts: Texts, kind: &str, id: &str) -> usize {
    let mut library = texts.library();
    assert!(library.findings.is_empty(), "{:?}", library.findings);
    library.sources = rungbook::finding::Sources::default();
    let in_words = format!("{library:?}");
    in_words.matches(&format!("{kind}(\"{id}\")")).count()
}

#[test]
fn every_place_that_names_an_entry_of_the_starter_library_is_renamed() {
    for (of, old, kind) in STARTER {
        let before = has(starter(), kind, old);
        let (texts, places) = after(of, old, "quite-new");
        // Nothing names a cycle.
        assert!(
            before > 1 && (places > 0 || of == Named::Cycle),
            "{kind} {old}: {before} {places}"
        );
        assert_eq!(has(texts, kind, "quite-new"), before, "{kind} {old}");
        let (texts, _) = after(of, old, "quite-new");
        assert_eq!(has(texts, kind, old), 0, "{kind} {old}");
    }
}

#[test]
fn other_words_of_the_same_letters_stay() {
    // Ids that begin as this one does, and words for people.
    let (texts, _) = after(Named::Movement, "push-up", "floor-press-up");
    let all: Vec<(String, String)> =
        texts.files().map(|(parts, text)| (parts.join("/"), text.to_string())).collect();
    let old: Vec<(String, String)> =
        starter().files().map(|(parts, text)| (parts.join("/"), text.to_string())).collect();
    let text = |all: &[(String, String)], path: &str| {
        all.iter().find(|(known, _)| known == path).map(|(_, text)| text.clone())
    };
    assert_eq!(text(&all, "words/synonyms.yaml"), text(&old, "words/synonyms.yaml"));
    let lowering =
        text(&all, "movements/push-horizontal/lowering-push-up.md").expect("it is there");
    assert!(
        lowering.contains("(floor-press-up)") || lowering.contains("to: floor-press-up"),
        "{lowering}"
    );
    assert!(lowering.contains("name: Lowering push-up"));
    let ladder = text(&all, "ladders/push-up.yaml").expect("a ladder of the same id stays");
    assert!(
        ladder.contains("{movement: floor-press-up")
            && ladder.contains("movement: incline-push-up")
    );
    assert!(text(&all, "movements/push-horizontal/push-up.md").is_none());
}

#[test]
fn links_in_a_body_follow_and_those_to_others_do_not() {
    let club = Club::tiny();
    let body = "See [a](strap-row), [b](movements/strap-row#cue-1), [c](ladders/row), [d](towel-row),\n\
        [e](https://strap-row.example/strap-row), [strap-row](strap-row#rung-row-2) and `strap-row`.\n\n\
        [f]\n\n[f]: strap-row\n";
    club.spoil(STRAP, "Hang the straps at shoulder height.", body);
    let (code, said, why) = club.run(&["rename", "strap-row", "hanging-row"]);
    assert_eq!(code, 0, "{said}{why}");
    let text = club.read("movements/pull-horizontal/hanging-row.md");
    let renamed = "See [a](hanging-row), [b](movements/hanging-row#cue-1), [c](ladders/row), [d](towel-row),\n\
        [e](https://strap-row.example/strap-row), [strap-row](hanging-row#rung-row-2) and `strap-row`.\n\n\
        [f]\n\n[f]: hanging-row\n";
    assert!(text.contains(renamed), "{text}");
    assert!(text.starts_with("---\nname: Strap row\nformerly: [strap-row]\n"), "{text}");
    let (code, said, why) = club.run(&["rename", "row", "pull", "--kind", "ladder"]);
    assert_eq!(code, 0, "{said}{why}");
    let text = club.read("movements/pull-horizontal/hanging-row.md");
    assert!(
        text.contains("[c](ladders/pull)") && text.contains("(hanging-row#rung-pull-2)"),
        "{text}"
    );
}

#[test]
fn a_rename_leaves_nothing_to_mend_and_old_links_lead_on() {
    let club = Club::tiny();
    for (old, new) in [
        ("Strap row", "hanging-row"),
        ("row", "pull"),
        ("monday", "first-hour"),
        ("spring", "six-weeks"),
        ("straps", "slings"),
        ("weak-grip", "tired-hands"),
        ("common-practice", "as-coaches-do"),
    ] {
        let (code, said, why) = club.run(&["rename", old, new]);
        assert_eq!(code, 0, "{old}: {said}{why}");
        let (code, said, _) = club.run(&["check", "--quiet"]);
        assert_eq!((code, said.as_str()), (0, ""), "after {old}");
    }
    let left: Vec<_> =
        club.all().into_iter().filter(|(name, _)| name.contains(".rungbook")).collect();
    assert!(left.is_empty(), "{left:?}");
    let (code, said, why) = club.run(&["build", "--out", "site"]);
    assert_eq!(code, 0, "{said}{why}");
    for (old, new) in [
        ("movements/strap-row", "hanging-row"),
        ("ladders/row", "pull"),
        ("sessions/monday", "first-hour"),
        ("cycles/spring", "six-weeks"),
        ("kit/straps", "slings"),
        ("cautions/weak-grip", "tired-hands"),
    ] {
        let page = std::fs::read_to_string(club.path("site").join(format!("{old}.html")));
        let page = page.unwrap_or_else(|error| panic!("{old}: {error}"));
        let folder = old.split('/').next().expect("a folder");
        assert!(page.contains(&format!("content=\"0; url=../{folder}/{new}.html\"")), "{page}");
        assert!(page.contains(&format!("href=\"../{folder}/{new}.html\"")), "{page}");
        assert!(club.path("site").join(format!("{folder}/{new}.html")).is_file());
    }
}

#[test]
fn there_and_back_is_as_before_but_for_the_former_id() {
    let club = Club::tiny();
    let before = club.all();
    club.run(&["rename", "strap-row", "hanging-row"]);
    let (code, _, why) = club.run(&["rename", "hanging-row", "strap-row"]);
    assert_eq!(code, 0, "{why}");
    for ((name, old), (again, new)) in before.iter().zip(club.all()) {
        let without = new.replace("formerly: [hanging-row]\n", "");
        assert_eq!((name, old), (&again, &without));
    }
    assert!(club.read(STRAP).contains("formerly: [hanging-row]"));
}

#[test]
fn nothing_is_written_unless_all_of_it_can_be() {
    let club = Club::tiny();
    let before = club.all();
    let (code, said, _) = club.run(&["rename", "strap-row", "hanging-row", "--dry-run"]);
    assert_eq!((code, club.all()), (0, before.clone()));
    assert!(said.contains("strap-row.md -> movements/pull-horizontal/hanging-row.md"), "{said}");
    assert!(
        said.contains("ladders/row.yaml: 2 places") && said.contains("nothing was written"),
        "{said}"
    );
    for (arguments, sentence, next) in [
        (
            &["rename", "strap-row", "towel-row"][..],
            "there is a movement `towel-row` already",
            "another id",
        ),
        (
            &["rename", "strap-row", "Hanging Row"],
            "`Hanging Row` cannot be an id",
            "write `hanging-row`",
        ),
        (
            &["rename", "strap-rwo", "x"],
            "there is no entry `strap-rwo`",
            "did you mean `strap-row`?",
        ),
        (&["rename", "strap-row", "index"], "`index` cannot be an id", "lower-case words"),
        (
            &["rename", "row", "x", "--kind", "laddre"],
            "is called `laddre`",
            "did you mean `ladder`?",
        ),
        (&["rename", "strap-row", "x", "--roster", "none.yaml"], "the roster", "`--roster FILE`"),
    ] {
        let (code, said, why) = club.run(arguments);
        assert!(code == 2 && why.contains(sentence) && why.contains(next), "{said}{why}");
        assert_eq!(club.all(), before, "{arguments:?}");
    }
    // A file that cannot be read may name it.
    club.spoil("ladders/row.yaml", "goal: Ten", "goal Ten");
    let before = club.all();
    let (code, _, why) = club.run(&["rename", "strap-row", "hanging-row"]);
    assert!(code == 2 && why.contains("`ladders/row.yaml` cannot be read"), "{why}");
    assert_eq!(club.all(), before);
}

/// The old address would lead to two entries: only the whole library knows.
#[test]
fn a_rename_that_makes_a_new_error_is_refused() {
    let club = Club::tiny();
    let (code, _, why) = club.run(&["rename", "strap-row", "hanging-row"]);
    assert_eq!(code, 0, "{why}");
    let before = club.all();
    let (code, _, why) = club.run(&["rename", "towel-row", "strap-row"]);
    assert!(code == 2 && why.contains("there is a movement `strap-row` now"), "{why}");
    assert!(why.contains("the library would have a new error; nothing was written"), "{why}");
    assert_eq!(club.all(), before);
}

#[test]
fn a_roster_follows_where_it_is_named() {
    let club = Club::tiny();
    let roster = "wren:\n  kit: [straps]\n  rungs: {row: {rung: 2, was: {movement: strap-row, lean: 60 deg}}}\n  \
        results:\n    - {ladder: row, rung: 2, reps: 8, day: 2026-11-20}\n";
    std::fs::write(club.path("roster.yaml"), roster).expect("written");
    for (old, new) in [("row", "pull"), ("strap-row", "hanging-row"), ("straps", "slings")] {
        let (code, said, why) = club.run(&["rename", old, new, "--roster", "roster.yaml"]);
        assert!(code == 0 && said.contains("roster.yaml"), "{said}{why}");
    }
    let text = std::fs::read_to_string(club.path("roster.yaml")).expect("it reads");
    let renamed = roster.replace("row: {", "pull: {").replace("strap-row", "hanging-row");
    let renamed = renamed.replace("ladder: row", "ladder: pull").replace("[straps]", "[slings]");
    assert_eq!(text, renamed);
}

/// What a command leaves that is killed after its list is written: the next one goes on with it.
#[test]
fn a_change_that_was_cut_off_is_finished_by_the_next_command_that_writes() {
    let club = Club::tiny();
    let fresh = club.read(STRAP).replace("name: Strap row", "name: Hanging row");
    let content = club.path("content");
    let folder = content.join("movements/pull-horizontal");
    std::fs::write(folder.join(".strap-row.md.rungbook-new"), &fresh).expect("written");
    std::fs::write(club.path("outside.txt"), "mine").expect("written");
    let list = format!(
        "put {STRAP}\nput ladders/row.yaml\ngone words/synonyms.yaml\ngone ../outside.txt\n"
    );
    std::fs::write(content.join(".rungbook-change"), list).expect("written");
    let (_, _, why) = club.run(&["check"]);
    assert!(why.contains("was cut off") && why.contains("rungbook tidy --check"), "{why}");
    let (_, _, why) = club.run(&["tidy", "--check"]);
    assert!(why.contains("it is finished now"), "{why}");
    assert_eq!(club.read(STRAP), fresh);
    assert!(!content.join("words/synonyms.yaml").exists(), "what goes is gone");
    assert!(club.path("outside.txt").exists(), "nothing outside the library is touched");
    assert!(!content.join(".rungbook-change").exists());
}

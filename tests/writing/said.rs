//! What scripts read: of a build, and of a roster no more than a person is shown.

use super::club::Club;
use serde_json::{Value, json};

fn value(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{error}: {text}"))
}

#[test]
fn a_build_says_what_it_wrote_and_warnings_stop_it_on_request() {
    let club = Club::tiny();
    let (code, said, why) = club.run(&["build", "--format", "json"]);
    let said = value(&said);
    assert_eq!(
        (code, &said["written"], &said["to_mend"]),
        (0, &json!(true), &json!(false)),
        "{why}"
    );
    assert!(said["pages"].as_u64() > Some(10) && said["changed"] == said["files"], "{said}");
    club.spoil(
        "movements/pull-horizontal/strap-row.md",
        "standard: Arms straight, then hands to ribs.\n",
        "",
    );
    let page = club.path("site/movements/strap-row.html");
    let before = std::fs::read(&page).expect("it is there");
    // Asked twice: the second time nothing has changed since what was built in between.
    let refused = ["build", "--format", "json", "--warnings-fail"];
    for _ in 0..2 {
        let (code, said, why) = club.run(&refused);
        assert_eq!((code, value(&said)), (1, json!({"written": false})), "{why}");
        assert!(why.contains("no site was written: mend the warnings first"), "{why}");
    }
    assert_eq!(std::fs::read(&page).expect("it is there"), before);
    let (code, _, _) = club.run(&["build"]);
    assert_eq!(code, 1);
    assert_ne!(std::fs::read(&page).expect("it is there"), before);
    let (code, said, _) = club.run(&refused);
    assert_eq!((code, value(&said)), (1, json!({"written": false})));
}

#[test]
fn a_roster_tells_a_script_limits_of_nobody_unasked() {
    let club = Club::tiny();
    let roster = "wren:\n  limits: {strong-grip: 1}\n  rungs: {row: 2}\n  results:\n    \
        - {ladder: row, rung: 2, reps: 8, day: 2026-11-20}\nrobin:\n  kit: [towel]\n";
    std::fs::write(club.path("roster.yaml"), roster).expect("written");
    let show = |name: &[&str]| {
        let (_, said, why) = club.run(&[&["roster", "show", "--format", "json"], name].concat());
        assert!(!said.is_empty(), "{why}");
        value(&said)
    };
    let all = show(&[]);
    assert_eq!(
        all["members"][0],
        json!({"name": "wren", "results": 1, "classes": 0, "rungs": {"row": 2}})
    );
    assert!(!all.to_string().contains("strong-grip"), "{all}");
    let one = show(&["wren"]);
    assert_eq!(one["limits"], json!({"strong-grip": 1}));
    assert_eq!(one["results"][0]["text"], "row rung 2, 8 reps, 2026-11-20");
    assert_eq!((&show(&["robin"])["kit"], &one["kit"]), (&json!(["towel"]), &Value::Null));
}

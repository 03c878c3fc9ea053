//! Commands asked badly: rosters, what members hand over, arguments, questions, themes.
//! Never with a library that is spoilt.

use super::case::{Case, Lay};
use super::spoil::quoted;

/// All of them.
pub fn cases() -> Vec<Case> {
    [rosters(), handed(), misfiled(), arguments(), questions(), themes()].concat()
}

const SHOW: [&str; 2] = ["roster", "show"];

fn rosters() -> Vec<Case> {
    let result = "{ladder: push-up, rung: 4, reps: 12, day: 2026-11-25}";
    let bad = [
        "wren: [".to_string(),
        "wren: &a {results: [*a]}\n".to_string(),
        "[".repeat(50_000),
        format!("wren:\n  kit: [{}]\n", "chair, ".repeat(500_000)),
        "a".repeat(5 << 20),
        "wren: {limits: {impact: 9}}\n".to_string(),
        "wren: {rungs: {row: -1}}\n".to_string(),
        "wren: {rungs: {row: 99999999999}}\n".to_string(),
        "wren: {results: [{ladder: ../x, rung: 1, reps: 1, day: 2026-01-01}]}\n".to_string(),
        "wren: {results: [{ladder: row, rung: 1, reps: nan, day: 2026-01-01}]}\n".to_string(),
        "wren: {results: [{ladder: row, rung: 1, day: 2026-01-01}]}\n".to_string(),
        "wren: {results: 3}\n".to_string(),
        "wren: {done: 3}\n".to_string(),
        "wren: {done: [{day: 2026-01-01}]}\n".to_string(),
        "wren: {done: [{day: [1], session: x, did: [y]}]}\n".to_string(),
        "wren: 3\nwren: 4\n".to_string(),
        "Wren: {}\nwren: {}\n".to_string(),
        "\"a b\": {}\n".to_string(),
        "\"\\e[31mred\": {}\n".to_string(),
        "<script>: {}\n".to_string(),
        "? [a, b]\n: x\n".to_string(),
        "---\nwren: {}\n---\nrobin: {}\n".to_string(),
        "wren: {unknown: key}\n".to_string(),
        "\u{1}\n".to_string(),
        // The next step that is said repeats what stands there.
        "wren:\n\u{3} others\n".to_string(),
        "\u{1b}[31mred\nwren:\n".to_string(),
        "wren:\n  results:\n    - {ladder: push-up, rung: 4, reps: 12, hands: 1e9 cm, day: 2026-11-25}\n"
            .to_string(),
    ];
    let bad = bad.into_iter().map(|text| (text, true));
    let many: String = (0..20_000).map(|nth| format!("m{nth}: {{}}\n")).collect();
    let class =
        |nth| format!("    - {{day: 2026-01-01, session: s{nth}, left-out: [line {nth}]}}\n");
    let classes: String = (0..15_000).map(class).collect();
    let fine = [
        (String::new(), false),
        ("\u{feff}wren:\r\n".to_string(), false),
        (many, false),
        (format!("wren:\n  done:\n{classes}"), false),
        (format!("wren:\n  results:\n{}", format!("    - {result}\n").repeat(15_000)), false),
        (
            "wren: {results: [{ladder: row, rung: 1, reps: 4294967295, day: 9999-99-99}]}\n"
                .to_string(),
            false,
        ),
    ];
    let case = |(nth, (text, refused)): (usize, (String, bool))| {
        let case =
            Case::asking(format!("rosters: #{nth}"), &SHOW).with(Lay::file("roster.yaml", text));
        if refused { case.refused() } else { case }
    };
    let mut cases: Vec<Case> = bad.chain(fine).enumerate().map(case).collect();
    for (name, lay) in [
        ("a link to nowhere", Lay::Link("roster.yaml".into(), "nowhere.yaml".into())),
        ("a device", Lay::Link("roster.yaml".into(), "/dev/zero".into())),
        ("not UTF-8", Lay::file("roster.yaml", b"wren\xff: {}\n")),
        ("a folder", Lay::file("roster.yaml/x", "x")),
        ("somebody else's file", Lay::Link("roster.yaml".into(), "../outside/secret.yaml".into())),
    ] {
        // The words of a roster are shown to its coach alone, who named the file.
        let case = Case::asking(format!("rosters: {name}"), &SHOW).with(lay).refused();
        if name != "somebody else's file" {
            cases.push(case);
        }
    }
    cases
}

fn handed() -> Vec<Case> {
    let texts = [
        "wren push-up rung 4 12 reps 2026-13-45".to_string(),
        "wren push-up rung -1 12 reps 2026-11-25".to_string(),
        "wren push-up rung 4 99999999999 reps 2026-11-25".to_string(),
        "wren push-up rung 4 900 reps 2026-11-25".to_string(),
        "wren push-up rung 4 12 reps 9999-01-01".to_string(),
        "wren nobody rung 4 12 reps 2026-11-25".to_string(),
        "wren push-up rung 400 12 reps 2026-11-25".to_string(),
        "wr\u{1b}[31men push-up rung 4 12 reps 2026-11-25".to_string(),
        "<script> push-up rung 4 12 reps 2026-11-25".to_string(),
        "wren push-up rung 2 12 reps 2026-11-25 hands 1e99 cm".to_string(),
        "wren push-up rung 2 12 reps 2026-11-25 hands nan cm".to_string(),
        "wren push-up rung 2 12 reps 2026-11-25 added -5 kg".to_string(),
        "{\"book\": {\"results\": []}}".to_string(),
        "x ".repeat(400_000),
        "y".repeat(2 << 20),
        "\u{0}\u{1}\u{2}".to_string(),
        ": {} [] & * ! | > ' \" % @ `".to_string(),
    ];
    let case = |(nth, text): (usize, String)| {
        let asked = ["roster", "add", "-", "--today", "2026-12-01"];
        let case = Case::asking(format!("handed: #{nth}"), &asked).refused();
        Case { input: text.into_bytes(), ..case }
    };
    let mut cases: Vec<Case> = texts.into_iter().enumerate().map(case).collect();
    let notes = [
        "note \"} {x: y",
        "note \\ \\\\ \" '",
        "note # : - [",
        "note \u{202e}abc\u{7}\u{fffe}",
        "note 😀 \u{2028}",
        "note",
    ];
    for note in notes {
        let asked = ["roster", "add", "-", "--today", "2026-12-01"];
        let input = format!("wren push-up rung 4 12 reps 2026-11-25 {note}\n").into_bytes();
        cases.push(Case { input, ..Case::asking(format!("handed: {note}"), &asked) });
    }
    cases
}

/// A roster among the library's files, and links to one.
fn misfiled() -> Vec<Case> {
    let roster = "SECRETWORD:\n  kit: [chair]\n  limits: {SECRETWORD: 1}\n  results:\n    - {ladder: row, rung: 1, reps: 5, day: 2026-01-01, note: SECRETWORD}\n";
    let plain = "SECRETWORD: {kit: [chair]}\nrobin:\n";
    let handed = "SECRETWORD push-up rung 4 12 reps 2026-11-25\n";
    let book =
        "{\"nickname\": \"SECRETWORD\", \"book\": {\"results\": [{\"note\": \"SECRETWORD\"}]}}\n";
    let broken = format!("{roster}  \tSECRETWORD: [\n");
    let latin = [roster.as_bytes(), b"SECRETWORD\xff"].concat();
    let mut cases = Vec::new();
    let places = [
        "roster.yaml",
        "ladders/roster.yaml",
        "ladders/people.yaml",
        "sessions/monday.yaml",
        "cycles/class.yaml",
        "words/kit.yaml",
        "words/cautions.yaml",
        "words/people.yaml",
        "movements/pull-horizontal/people.md",
        "club.yaml",
        "results.txt",
        "book.json",
    ];
    for place in places {
        let texts: [&[u8]; 6] = [
            roster.as_bytes(),
            plain.as_bytes(),
            handed.as_bytes(),
            book.as_bytes(),
            broken.as_bytes(),
            &latin,
        ];
        for (nth, text) in texts.into_iter().enumerate() {
            // Words may be anybody's names: a kit is not told from a member by its name alone.
            if nth == 1 && place.starts_with("words/") && place != "words/people.yaml"
                || nth == 2 && place.ends_with(".md")
                || nth == 1 && place.ends_with(".md")
            {
                continue;
            }
            let format = ["human", "json", "sarif"][nth % 3];
            let case =
                Case::asking(format!("misfiled: {place} #{nth}"), &["check", "--format", format]);
            cases.push(case.with(Lay::file(&format!("content/{place}"), text)));
        }
    }
    cases
}

fn arguments() -> Vec<Case> {
    let long = "x".repeat(100_000);
    let lists: Vec<Vec<&str>> = vec![
        vec![],
        vec!["nothing"],
        vec!["--help", "x"],
        vec!["build", "--out", ""],
        vec!["build", "--out", "content/site"],
        vec!["build", "--out", "."],
        vec!["build", "--out", "/"],
        vec!["build", "--out", "/dev/null"],
        vec!["build", "--out", "../outside"],
        vec!["build", "--out", "content"],
        vec!["build", "--library", "nowhere"],
        vec!["build", "--library", "/dev/zero"],
        vec!["build", "--library", ".", "--out", "site"],
        vec!["check", "--library", "../outside"],
        vec!["check", "--format", "xml"],
        vec!["find"],
        vec!["find", "--limit", "-1", "x"],
        vec!["find", "--limit", "99999999999999999999", "x"],
        vec!["find", "--limit", "18446744073709551615", "row"],
        vec!["swap"],
        vec!["swap", "nobody"],
        vec!["swap", "\u{1b}[31mred"],
        vec!["swap", "push-up", "--kit", "nobody"],
        vec!["swap", "push-up", "--avoid", "<script>"],
        vec!["swap", &long],
        vec!["swap", "push-up", "--avoid", &long],
        vec!["explain", "nothing"],
        vec!["explain", &long],
        vec!["explain", "../x"],
        vec!["demand", "nobody"],
        vec!["demand", "incline-push-up", "--set", "hands=1e99cm"],
        vec!["demand", "incline-push-up", "--set", "hands=nan"],
        vec!["demand", "incline-push-up", "--set", "hands"],
        vec!["demand", "incline-push-up", "--stature", "nan"],
        vec!["demand", "incline-push-up", "--stature", "-1"],
        vec!["demand", "incline-push-up", "--stature", "1e99"],
        vec!["demand", "incline-push-up", "--body-mass", "inf"],
        vec!["place", "push-up", "--rung", "0", "--reps", "1"],
        vec!["place", "push-up", "--rung", "4294967296", "--reps", "1"],
        vec!["place", "push-up", "--rung", "2", "--reps", "4294967295"],
        vec!["place", "push-up", "--rung", "2", "--reps", "-1"],
        vec!["place", "push-up", "--rung", "2", "--reps", "9", "--set", "hands=1e9cm"],
        vec!["place", "nobody", "--rung", "1", "--reps", "1"],
        vec!["place", "push-up", "--set", "hands=-5cm"],
        vec!["plan", "nobody"],
        vec!["plan", "spring", "--start", "push-up=0"],
        vec!["plan", "spring", "--start", "push-up=99999999999"],
        vec!["plan", "spring", "--start", "="],
        vec!["own", "nobody"],
        vec!["own", "monday", "--kit", "\u{7}"],
        vec!["own", "monday", "--people", "4294967295"],
        vec!["own", "monday", "--people", "0"],
        vec!["own", "monday", "--member", "nobody"],
        vec!["cover", "--library", "nowhere"],
        vec!["new", "content"],
        vec!["new", ""],
        vec!["new", "/dev/null"],
        vec!["new", "../outside"],
        vec!["new", "roster.yaml/x"],
        vec!["roster", "add", "nowhere"],
        vec!["roster", "add", "/dev/zero"],
        vec!["roster", "add", "content"],
        vec!["roster", "show", "nobody"],
        vec!["roster", "add", "-", "--today", "9999-99-99"],
        vec!["roster", "add", "-", "--roster", "/dev/full"],
        vec!["roster", "add", "-", "--roster", "nowhere/roster.yaml"],
        vec!["roster", "add", "-", "--roster", "content"],
        vec!["preview", "--port", "99999"],
        vec!["preview", "--library", "nowhere"],
        vec!["completions", "nobody"],
        vec!["build", "--theme", "nowhere"],
        vec!["build", "--theme", "content"],
        vec!["build", "--theme", "."],
        vec!["build", "--theme", "/dev/null"],
        vec!["roster", "relate", "--roster", "nowhere"],
        vec!["check", "--format"],
        vec!["\u{1b}]0;x\u{7}"],
    ];
    let case = |(nth, list): (usize, &Vec<&str>)| {
        let shown: String = list.join(" ").chars().take(40).collect();
        let input = b"wren push-up rung 4 12 reps 2026-11-25\n".to_vec();
        Case { input, ..Case::asking(format!("arguments: {nth} {shown}"), list) }
    };
    lists.iter().enumerate().map(case).collect()
}

fn questions() -> Vec<Case> {
    let texts = [
        "a ".repeat(50_000),
        "x".repeat(100_000),
        "wrist hurts ".repeat(8_000),
        "\u{1b}[31mred\u{7}".to_string(),
        "<script>alert(1)</script>".to_string(),
        "\"' OR 1=1 --".to_string(),
        "field:value AND (x OR y) NOT *".to_string(),
        "*".to_string(),
        "~99".to_string(),
        "[a TO z]".to_string(),
        "\u{202e}row".to_string(),
        "😀".to_string(),
        "ß".repeat(5_000),
        "a\u{301}".repeat(5_000),
        "no ".repeat(5_000),
        "".to_string(),
        " ".to_string(),
        "-".to_string(),
        "row\nrow".to_string(),
        "\u{feff}row".to_string(),
        "ﬁ ﷽ \u{1e9e}".to_string(),
        "'".repeat(9_000),
        "no bar".repeat(9_000),
    ];
    let cases = texts.iter().enumerate().flat_map(|(nth, text)| {
        let human = Case::asking(format!("questions: #{nth}"), &["find", "--", text]);
        let json = Case::asking(
            format!("questions: json #{nth}"),
            &["find", "--format", "json", "--", text],
        );
        [human, json]
    });
    cases.collect()
}

fn themes() -> Vec<Case> {
    let theme = |name: &str, lay: Vec<Lay>| Case {
        lay,
        ..Case::asking(format!("themes: {name}"), &["build", "--theme", "look"])
    };
    let file = |name: &str, text: &str| Lay::file(&format!("look/{name}"), text);
    let roster = "SECRETWORD:\n  limits: {impact: 1}\n";
    vec![
        theme("a roster", vec![file("roster.yaml", roster)]).refused(),
        theme("a roster below", vec![file("styles/roster.yaml", roster)]).refused(),
        theme("a library", vec![file("club.yaml", "name: x\n")]).refused(),
        theme(
            "other kinds",
            vec![
                file("people.yaml", roster),
                file(".env", roster),
                file("styles/a.css~", roster),
                file("scripts/x.mjs", roster),
            ],
        ),
        theme(
            "links out",
            vec![
                file("styles/a.css", ""),
                Lay::Link("look/styles/b.css".into(), "../../../outside/secret.yaml".into()),
                Lay::Link("look/images".into(), "../../outside".into()),
            ],
        ),
        theme("a pipe", vec![file("styles/a.css", ""), Lay::Pipe("look/styles/b.css".into())]),
        theme(
            "quotes in a name",
            vec![
                file("scripts/a\"b'.js", "1"),
                file("images/<b>.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>"),
            ],
        ),
        theme("a broken template", vec![file("templates/movement.html", "{% block %}{{ {{")])
            .refused(),
        theme(
            "an endless template",
            vec![file("templates/movement.html", "{% extends \"movement.html\" %}")],
        )
        .refused(),
        theme(
            "templates in a ring",
            vec![
                file("templates/movement.html", "{% extends \"a.html\" %}"),
                file("templates/a.html", "{% extends \"movement.html\" %}"),
            ],
        )
        .refused(),
        theme(
            "a template that includes itself",
            vec![file("templates/movement.html", "{% include \"movement.html\" %}")],
        )
        .refused(),
        theme(
            "another file",
            vec![file("templates/movement.html", "{% include \"../../content/club.yaml\" %}")],
        )
        .refused(),
        theme(
            "a template that counts",
            vec![file(
                "templates/movement.html",
                "{% for a in range(end=4000000000) %}x{% endfor %}",
            )],
        )
        .refused(),
        theme("not UTF-8", vec![Lay::file("look/templates/movement.html", b"\xff\xfe")]).refused(),
        theme(
            "one of ours written over",
            vec![file("index.html", "mine"), file("data/words.js", "alert(1)")],
        ),
        theme(&quoted("deep"), vec![file(&format!("styles/{}a.css", "d/".repeat(80)), "x")]),
    ]
}

//! Libraries spoilt by hand: bombs, sizes, graphs, numbers, poses.
//! Never by chance: each is here because it broke something, here or elsewhere.

use super::case::{Case, Lay};
use super::spoil::{edit, library};

pub const STRAP_ROW: &str = "movements/pull-horizontal/strap-row.md";
const INCLINE: &str = "movements/push-horizontal/incline-push-up.md";
const ROW: &str = "ladders/row.yaml";
const MONDAY: &str = "sessions/monday.yaml";

/// All of them.
pub fn cases() -> Vec<Case> {
    [bombs(), sizes(), graphs(), numbers(), poses()].concat()
}

pub fn named(kind: &str, cases: impl IntoIterator<Item = Case>) -> Vec<Case> {
    let named = |case: Case| Case { name: format!("{kind}: {}", case.name), ..case };
    cases.into_iter().map(named).collect()
}

/// A file put into the tiny library.
pub fn put(name: &str, text: impl AsRef<[u8]>) -> Case {
    Case::built(name, "tiny", vec![Lay::file(&format!("content/{name}"), text)])
}

/// A ladder of the hall that is not known there.
fn ladder(more: &str) -> String {
    format!(
        "name: Odd\ngoal: far\npattern: push-horizontal\nmoves-up: x\nmoves-down: x\n{more}\nsources: [common-practice]\n"
    )
}

fn bombs() -> Vec<Case> {
    let lines = |first: &str, next: &dyn Fn(usize) -> String| {
        (1..12).fold(first.to_string(), |text, at| text + &next(at))
    };
    let nine = |at: usize| vec![format!("*a{}", at - 1); 9].join(", ");
    let texts = [
        lines("a0: &a0 [x, x, x]\n", &|at| format!("a{at}: &a{at} [{}]\n", nine(at))),
        lines("a0: &a0 {k: x}\n", &|at| format!("a{at}: &a{at} {{<<: *a{}}}\n", at - 1)),
        "name: &a [*a]\n".to_string(),
        "name: *nowhere\n".to_string(),
        "[".repeat(100_000),
        "{a: ".repeat(50_000),
        "- ".repeat(100_000),
        "? ".repeat(50_000),
        "!!map ".repeat(50_000),
        "&a ".repeat(50_000),
        "'".repeat(100_001),
        "\"\\".repeat(50_001),
        (0..2_000).map(|at| format!("{}a:\n", " ".repeat(at))).collect(),
        format!("name: {}\n", "a: ".repeat(30_000)),
        "---\n".repeat(50_000),
        "%YAML 9.9\n---\nname: x\n".to_string(),
        "name: !!python/object/apply:os.system ['true']\n".to_string(),
        "name: !include ../../outside/secret.yaml\n".to_string(),
        "name: \u{1b}[31mred\n".to_string(),
        "\u{1b}]0;a title\u{7} others\n".to_string(),
    ];
    let ladders = texts.iter().map(|text| put("ladders/odd.yaml", text).refused());
    let movements = texts.iter().take(6).map(|text| {
        put("movements/pull-horizontal/odd.md", format!("---\n{text}\n---\nbody\n")).refused()
    });
    named("bombs", ladders.chain(movements))
}

fn sizes() -> Vec<Case> {
    let many = |count: usize, line: &str| line.repeat(count);
    let rungs = |count| format!("rungs:\n{}", many(count, "  - {movement: push-up}\n"));
    let long = "a word ".repeat(100_000);
    let items = |count| {
        library("hall", MONDAY).replacen(
            "      - {ladder: row}\n",
            &many(count, "      - {ladder: row}\n"),
            1,
        )
    };
    let tiny = |file: &str, from: &str, to: &str| edit("tiny", file, from, to);
    let mut cases = vec![
        put("ladders/odd.yaml", "x".repeat(2 << 20)).refused(),
        put("ladders/odd.yaml", format!("rungs: [{}]", "1,".repeat(60_000))).refused(),
        put("words/odd.bin", vec![0; 5 << 20]).refused(),
        tiny(STRAP_ROW, "name: Strap row", &format!("name: {long}")).refused(),
        tiny(STRAP_ROW, "standard: Arms", &format!("standard: {long}Arms")).refused(),
        tiny(STRAP_ROW, "aliases: [body row]", &format!("aliases: [{}]", "a, ".repeat(5_000)))
            .refused(),
        tiny(STRAP_ROW, "Hang the straps", &"word ".repeat(150_000)),
        tiny("club.yaml", "stop-signs: [", &format!("stop-signs: [{}", "pain, ".repeat(3_000)))
            .refused(),
        tiny("words/synonyms.yaml", "[row, ", &format!("[{}", "w, ".repeat(4_000))),
        Case::built(
            "a ladder of 300 rungs",
            "hall",
            vec![Lay::file("content/ladders/odd.yaml", ladder(&rungs(300)))],
        ),
        Case::built(
            "a ladder of 700 rungs",
            "hall",
            vec![Lay::file("content/ladders/odd.yaml", ladder(&rungs(700)))],
        )
        .refused(),
        Case::built(
            "a session of 200 lines",
            "hall",
            vec![Lay::file("content/sessions/monday.yaml", items(200))],
        ),
        Case::built(
            "a session of 1,500 lines",
            "hall",
            vec![Lay::file("content/sessions/monday.yaml", items(1_500))],
        )
        .refused(),
        edit(
            "hall",
            "cycles/spring.yaml",
            "focus: [row, push-up]",
            &format!("focus: [{}]", "row, ".repeat(120)),
        )
        .refused(),
        edit(
            "hall",
            "cycles/spring.yaml",
            "weeks:\n",
            &format!("weeks:\n{}", many(500, "  - {week: 1, kind: build, sessions: [monday]}\n")),
        )
        .refused(),
        edit(
            "hall",
            "club.yaml",
            "name: ",
            &format!(
                "usual-kits: {{{}}}\nname: ",
                (0..3_000).map(|n| format!("k{n}: [], ")).collect::<String>()
            ),
        ),
    ];
    let mut movements = Case::built("600 movements", "tiny", Vec::new());
    let mut folders = Case::built("deep folders", "tiny", Vec::new()).refused();
    for nth in 0..600 {
        let text = library("tiny", STRAP_ROW)
            .replace("name: Strap row", &format!("name: Strap row {nth}"));
        movements
            .lay
            .push(Lay::file(&format!("content/movements/pull-horizontal/row-{nth}.md"), text));
    }
    folders.lay.push(Lay::file(&format!("content/movements/{}x.md", "d/".repeat(60)), "x"));
    cases.extend([movements, folders]);
    named("sizes", cases)
}

fn graphs() -> Vec<Case> {
    let two = |one: &str, other: &str| {
        ladder(&format!("rungs:\n  - {{movement: {one}}}\n  - {{movement: {other}}}"))
    };
    let ladders = |texts: &[String]| {
        let lay = texts.iter().enumerate();
        let lay = lay.map(|(at, text)| Lay::file(&format!("content/ladders/odd-{at}.yaml"), text));
        Case::built("ladders", "hall", lay.collect())
    };
    let beside = |to: &str| {
        edit("tiny", STRAP_ROW, "beside: [{to: towel-row", &format!("beside: [{{to: {to}"))
    };
    let ring: Vec<String> = ["push-up", "wall-push-up", "band-row", "strap-row", "push-up"]
        .windows(2)
        .map(|pair| two(pair[0], pair[1]))
        .collect();
    let many: Vec<String> = (0..200).map(|_| two("wall-push-up", "push-up")).collect();
    named(
        "graphs",
        [
            ladders(&[two("push-up", "wall-push-up"), two("wall-push-up", "push-up")]).refused(),
            ladders(&ring).refused(),
            ladders(&many),
            ladders(&[two("push-up", "push-up")]),
            ladders(&[two("nobody", "nobody-else")]).refused(),
            ladders(&[ladder("rungs: []")]),
            ladders(&[ladder("rungs: [{movement: push-up}]\ntest: {rung: 9}")]).refused(),
            ladders(&[ladder("rungs: [{movement: push-up}]\ntest: {rung: 0}")]).refused(),
            ladders(&[ladder("rungs: [[[[]]]]")]).refused(),
            beside("strap-row").refused(),
            beside("nobody").refused(),
            beside("../../club").refused(),
            edit("hall", MONDAY, "{ladder: row}", "{ladder: monday}").refused(),
            edit("hall", MONDAY, "{ladder: row}", "{ladder: row, below: 4000000000}").refused(),
            edit(
                "hall",
                MONDAY,
                "{ladder: row}",
                "{options: [{options: [{options: [{ladder: row}]}]}]}",
            ),
            edit("hall", "cycles/spring.yaml", "sessions: [monday]", "sessions: [spring]")
                .refused(),
            edit("hall", "cycles/spring.yaml", "week: 1", "week: 10000"),
            edit("hall", "cycles/spring.yaml", "week: 1", "week: 0"),
            edit("hall", "words/faults.yaml", "hips-sag:", "hips-sag: {fault: hips-sag}\nother:"),
        ],
    )
}

fn numbers() -> Vec<Case> {
    let wrong = [
        "0",
        "-1",
        "nan",
        "inf",
        "1e308",
        "4294967295",
        "99999999999999999999",
        "6-2",
        "0-4294967295",
        "1.5",
        "",
        "[]",
        "six",
    ];
    let of_ladder = |key: &str, from: &str| -> Vec<Case> {
        wrong.iter().map(|n| edit("tiny", ROW, from, &format!("{key}: {n}"))).collect()
    };
    let slip = |case: Case| case.refused();
    let refused = [
        ("to: 75", "to: 10500"),
        ("to: 75", "to: 9000000000"),
        ("to: 75", "to: nan"),
        ("to: 75", "to: -1"),
        ("from: 15", "from: -1"),
        ("usual: 45", "usual: 1e300"),
        ("pace: 3 s", "pace: -3 s"),
        ("pace: 3 s", "pace: 0 s"),
        ("pace: 3 s", "pace: 90000 h"),
        ("length: 2 m", "length: -3 m"),
        ("length: 2 m", "length: 1e9 m"),
        ("strong-grip: 1", "strong-grip: 9"),
        ("strong-grip: 1", "strong-grip: -1"),
        ("lean: {unit: deg, from: 15, to: 75", "lean: {unit: cm, from: 0, to: 105000"),
        ("unit: deg", "unit: parsec"),
        ("unit: deg", "unit: [deg]"),
    ];
    let of_row = refused.iter().map(|(from, to)| edit("tiny", STRAP_ROW, from, to).refused());
    let session = [
        ("window: 24 min", "window: -24 min"),
        ("window: 24 min", "window: 1e9 h"),
        ("rounds: 2", "rounds: 0"),
        ("rounds: 2", "rounds: 4294967295"),
        ("length: 30 min", "length: 9e99 min"),
        ("reps: 8", "reps: 1-4294967295"),
        ("seconds: 20 s", "seconds: 4294967295 s"),
        ("rounds: 2", "rounds: 2\n    cap: -5 min"),
        ("format: rounds", "format: descending\n    from: 4294967295\n    to: 0"),
    ];
    let of_session = session.iter().map(|(from, to)| edit("hall", MONDAY, from, to).refused());
    let allowed = [
        ("format: rounds", "format: descending\n    from: 10000\n    to: 1"),
        ("window: 24 min", "window: 0 min"),
        ("format: timed-sets", "format: every-minute"),
        ("format: timed-sets", "format: most-rounds"),
        ("format: rounds", "format: intervals\n    work: 4 h\n    rest: 4 h"),
        ("reps: 8", "reps: 1000"),
        ("rounds: 2", "rounds: 100"),
        ("seconds: 20 s", "seconds: 3600 s"),
    ];
    let of_allowed = allowed.iter().map(|(from, to)| edit("hall", MONDAY, from, to));
    let days = [
        "0000-00-00",
        "9999-99-99",
        "99999999999-01-01",
        "2027-02-30",
        "yesterday",
        "-1",
        "2027-01-05T99:99",
    ];
    let of_days = days.iter().map(|day| {
        edit(
            "hall",
            "cycles/spring.yaml",
            "days: [monday]",
            &format!("days: [monday]\nstarts: {day:?}"),
        )
        .refused()
    });
    let sets = of_ladder("sets", "sets: 3").into_iter().map(slip);
    let sets = sets.filter(|case| !case.name.ends_with("sets: \""));
    let reps = of_ladder("reps", "reps: 6-10")
        .into_iter()
        .filter(|c| !c.name.ends_with("reps: \""))
        .map(slip);
    let rest = wrong.iter().map(|n| edit("tiny", ROW, "rest: 90 s", &format!("rest: {n} s")));
    let straps =
        wrong.iter().map(|n| edit("tiny", "club.yaml", "straps: 4", &format!("straps: {n}")));
    named(
        "numbers",
        sets.chain(reps)
            .chain(rest)
            .chain(straps)
            .chain(of_row)
            .chain(of_session)
            .chain(of_allowed)
            .chain(of_days),
    )
}

fn poses() -> Vec<Case> {
    let start =
        "{hands: \"box hands, 66 apart\", toes: floor, body: straight, elbow: 0, ankle: 15}";
    let end = "{body: straight, chest: hands + 7, ankle: hands * 0.25 - 33}";
    let pose = |from: &str, to: &str| {
        let figure = format!("figure:\n  start: {start}\n  end: {end}");
        assert!(figure.contains(from));
        edit(
            "hall",
            INCLINE,
            "no-figure: Left out to keep this library short",
            &figure.replacen(from, to, 1),
        )
    };
    let refused = [
        ("hands + 7", "5 * nan"),
        ("hands + 7", "nan"),
        ("hands + 7", "1e308"),
        ("hands + 7", "hands * inf"),
        ("hands + 7", "1e12"),
        ("hands + 7", "-1e9"),
        ("hands + 7", "hands * hands"),
        ("hands + 7", "1/0"),
        ("hands + 7", "\"\""),
        ("hands + 7", "[1, 2]"),
        ("hands + 7", "{a: b}"),
        ("66 apart", "1e12 apart"),
        ("66 apart", "nan apart"),
        ("box hands", "box 1e300"),
        ("box hands", "nowhere"),
        ("toes: floor", "toes: wall 1e12 behind"),
        ("elbow: 0", "elbow: 1e308"),
        ("elbow: 0", "elbow: 720"),
        ("ankle: 15", "ankle: nan"),
        ("body: straight", "body: bent"),
        ("toes: floor", "toes: [floor, floor]"),
        ("elbow: 0", "elbow: 0, elbow: 90"),
        ("elbow: 0", "wing: 3"),
        (start, "{}"),
        (start, "[]"),
        (start, "floor"),
        (start, "{hands: floor}"),
    ];
    let refused = refused.iter().map(|(from, to)| pose(from, to).refused());
    let either = [
        ("hands + 7", "hands + 7 + 0 * hands"),
        ("ankle: 15", "ankle: -359"),
        ("66 apart", "0 apart"),
        ("66 apart", "999 apart"),
        ("elbow: 0", "elbow: 1e-300"),
        (end, "{}"),
        (end, start),
        ("hands + 7", "--------7"),
        ("hands + 7", "+"),
        ("hands + 7", "hands + hands + hands + hands"),
    ];
    let either = either.iter().map(|(from, to)| pose(from, to));
    let deep = format!("figure: {}", "{start: ".repeat(2_000));
    let others =
        [deep, format!("figure: {{between: [{}]}}", "{}, ".repeat(2_000)), "figure: 3".to_string()];
    let others = others.iter().map(|figure| {
        edit("hall", INCLINE, "no-figure: Left out to keep this library short", figure).refused()
    });
    named("poses", refused.chain(either).chain(others))
}

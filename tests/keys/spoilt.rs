//! What a reader refuses its schema refuses, and the other way: good files and more than a hundred ways to
//! spoil them. The schemas are held by the jsonschema crate, which knows nothing of our readers.

use crate::laid::Laid;
use crate::{validator, yaml};
use rungbook::library::keys::schema;

/// A movement that both take, and ways to spoil it.
const MOVEMENT: &str = "name: Bar row
pattern: pull-horizontal
purpose: strength
kit: [straps]
settings: {lean: {unit: deg, from: 15, to: 75, usual: 45}}
traits: {strong-grip: [{level: 2, lean: from 60 deg}], balance: 1}
changes: [fists, {use: fists, how: Slowly}]
room: {length: 2 m, noise: quiet}
muscles: {prime: [lats]}
pace: 3 s
standard: Arms straight
cues: [{say: Elbows back, when: pulling}, Long neck]
faults: [{see: Shoulders shrug, say: Long neck, then: stop}]
beside: [{to: strap-row, because: no bar}]
sources: [common-practice]
";
const LADDER: &str = "name: Pull
goal: One
test: {rung: 1, count: Repetitions, stop: Two faults}
dose: {sets: 3, reps: 6-10, rest: 90 s}
rungs: [{movement: strap-row, lean: 15 deg, changes: share, dose: 3 x 8}]
";
const SESSION: &str = "name: Hour
length: 60 min
blocks: [{name: Rows, format: timed-sets, window: 12 min, items: [{ladder: row, dose: 3 x 8}]}]
";
const CYCLE: &str = "name: Weeks
focus: [row]
days: [tuesday]
weeks: [{week: 1, kind: test, sessions: [push-and-pull]}]
";

const KIT: &str = "slings: {name: Slings, kind: hall, about: A pair, hazards: [An anchor that shifts], never: [{what: A door top}], aliases: [hanging straps], sources: [common-practice]}
";
const CAUTION: &str = "sore: {name: Sore wrist, also-said: [bad wrist], start: lowest, leave-out: [{trait: balance}], change: [{trait: strong-grip, from: 1, how: Loops}], clinician: Ask, emergency: [{sign: Chest pain, do: Ring now}], stop: [Sharp pain]}
";
const CHANGE: &str = "fists: {name: on fists, how: Slowly, part: hands, leaves: {strong-grip: 0}, eases: [balance], brings: {balance: 1}, takes: [weight], kit: [[straps, towel]]}
";
const SOURCE: &str = "wren-2011: {title: Rows, authors: Wren A, read: abstract, supports: A lot}
";
const CLUB: &str = "name: A club
language: en-GB
address: https://club.example/
colours: {light: \"#1f4e79\", dark: \"#8ab4e8\"}
stop-signs: [Chest pain]
hall: {kit: {straps: 4}}
usual-kits: {bar: [straps]}
findings: {off: [{code: cue-too-long, because: They rhyme}]}
repetitions-across-rungs: {factor: 0.7, give-or-take: 0.3}
";

/// A good text and its spoilt ones: what is replaced, and by what.
type Spoilt = (&'static str, &'static str, &'static str, &'static [(&'static str, &'static str)]);

const SPOILT: [Spoilt; 9] = [
    (
        "movement",
        "movements/pull-horizontal/bar-row.md",
        MOVEMENT,
        &[
            ("name: Bar row\n", ""),
            ("pattern: pull-horizontal\n", ""),
            ("name: Bar row", "name: [Bar row]"),
            ("purpose: strength", "purpose: strenght"),
            ("kit: [straps]", "kit: straps"),
            ("kit: [straps]", "kit: {straps: 1}"),
            ("kit: [straps]", "equipment: [straps]"),
            ("unit: deg", "unit: degrees"),
            ("from: 15, to: 75", "from: 15"),
            ("to: 75", "to: many"),
            ("usual: 45", "usual: [45]"),
            ("usual: 45", "usually: 45"),
            ("balance: 1", "balance: 3"),
            ("balance: 1", "balance: a lot"),
            ("traits: {", "traits: [{"),
            ("level: 2, ", ""),
            ("lean: from 60 deg", "lean: over 60 deg"),
            ("lean: from 60 deg", "lean: 60 deg"),
            ("use: fists, ", ""),
            ("length: 2 m", "length: 2"),
            ("length: 2 m", "length: 2 kg"),
            ("noise: quiet", "noise: silent"),
            ("muscles: {prime: [lats]}", "muscles: [lats]"),
            ("muscles: {prime: [lats]}", "muscles: {main: [lats]}"),
            ("pace: 3 s", "pace: 3"),
            ("pace: 3 s", "pace: 1,5 s"),
            ("pace: 3 s", "pace: three seconds"),
            ("standard: Arms straight", "standard: {text: Arms straight}"),
            ("say: Elbows back, ", ""),
            ("when: pulling", "while: pulling"),
            ("{see: Shoulders shrug, say", "{say"),
            ("to: strap-row, ", ""),
            ("sources: [common-practice]", "sources: common-practice"),
        ],
    ),
    (
        "ladder",
        "ladders/pull.yaml",
        LADDER,
        &[
            ("name: Pull\n", ""),
            ("goal: One", "goal: [One]"),
            ("rung: 1, ", ""),
            ("rung: 1", "rung: first"),
            ("rung: 1", "rung: 1.5"),
            ("sets: 3", "sets: many"),
            ("reps: 6-10", "reps: six"),
            ("reps: 6-10", "repetitions: 6-10"),
            ("rest: 90 s", "rest: 90"),
            ("movement: strap-row, ", ""),
            ("lean: 15 deg", "lean: 15"),
            ("lean: 15 deg", "lean: steep"),
            ("changes: share", "changes: all"),
            ("dose: 3 x 8", "dose: 3 by 8"),
            ("rungs: [{", "rungs: {a: {"),
            ("rungs:", "steps:"),
        ],
    ),
    (
        "session",
        "sessions/hour.yaml",
        SESSION,
        &[
            ("name: Hour\n", ""),
            ("length: 60 min", "length: 60"),
            ("length: 60 min", "length: an hour"),
            ("{name: Rows, ", "{"),
            ("format: timed-sets", "format: timed"),
            ("window: 12 min", "window: 12"),
            ("window: 12 min", "window: 12 kg"),
            ("items: [{", "exercises: [{"),
            ("dose: 3 x 8", "dose: [3, 8]"),
        ],
    ),
    (
        "cycle",
        "cycles/weeks.yaml",
        CYCLE,
        &[
            ("name: Weeks\n", ""),
            ("focus: [row]", "focus: row"),
            ("week: 1, ", ""),
            ("week: 1", "week: one"),
            ("kind: test", "kind: hard"),
            ("sessions: [push-and-pull]", "sessions: push-and-pull"),
        ],
    ),
    (
        "words-kit",
        "words/kit.yaml",
        KIT,
        &[
            ("kind: hall", "kind: gym"),
            ("kind: hall", "type: hall"),
            ("hazards: [An anchor that shifts]", "hazards: An anchor that shifts"),
            ("never: [{what: A door top}]", "never: [A door top]"),
            ("never: [{what", "never: [{thing"),
            ("aliases: [hanging straps]", "aliases: {a: b}"),
            ("sources: [common-practice]", "sources: common-practice"),
            ("about: A pair", "about: [A pair]"),
            ("slings: {", "slings: [{"),
        ],
    ),
    (
        "words-cautions",
        "words/cautions.yaml",
        CAUTION,
        &[
            ("trait: strong-grip, ", ""),
            ("from: 1", "from: 3"),
            ("from: 1", "from: a lot"),
            ("from: 1", "level: 1"),
            ("change: [{", "changes: [{"),
            ("leave-out: [{trait: balance}]", "leave-out: [balance]"),
            ("leave-out: [{trait: balance}]", "leave-out: balance"),
            ("start: lowest", "start: middle"),
            ("start: lowest", "start: {because: x}"),
            ("do: Ring now", "then: Ring now"),
            ("sign: Chest pain, ", ""),
            ("stop: [Sharp pain]", "stop: Sharp pain"),
            ("also-said: [bad wrist]", "also-said: bad wrist"),
            ("clinician: Ask", "doctor: Ask"),
        ],
    ),
    (
        "words-changes",
        "words/changes.yaml",
        CHANGE,
        &[
            ("leaves: {strong-grip: 0}", "leaves: [strong-grip]"),
            ("leaves: {strong-grip: 0}", "leaves: {strong-grip: 3}"),
            ("eases: [balance]", "eases: balance"),
            ("brings: {balance: 1}", "brings: {balance: yes}"),
            ("takes: [weight]", "takes: weight"),
            ("kit: [[straps, towel]]", "kit: straps"),
            ("part: hands", "parts: hands"),
        ],
    ),
    (
        "words-sources",
        "words/sources.yaml",
        SOURCE,
        &[
            ("read: abstract", "read: yes"),
            ("read: abstract", "seen: abstract"),
            ("title: Rows", "title: [Rows]"),
            ("authors: Wren A", "author: Wren A"),
            ("supports: A lot", "supports: {a: b}"),
        ],
    ),
    (
        "club",
        "club.yaml",
        CLUB,
        &[
            ("name: A club\n", ""),
            ("language: en-GB", "language: Deutsch"),
            ("address: https://club.example/", "address: club.example"),
            ("light: \"#1f4e79\"", "light: blue"),
            ("light: \"#1f4e79\", ", ""),
            ("colours: {", "colors: {"),
            ("stop-signs: [Chest pain]", "stop-signs: Chest pain"),
            ("straps: 4", "straps: four"),
            ("straps: 4", "straps: [4]"),
            ("bar: [straps]", "bar: straps"),
            ("usual-kits: {", "usual-kits: [{"),
            ("code: cue-too-long, ", ""),
            ("factor: 0.7", "factor: 7"),
            ("factor: 0.7", "factor: low"),
        ],
    ),
];

/// What a reader says of one file laid on the tiny library.
fn refused(path: &str, text: &str) -> bool {
    let text = match path.ends_with(".md") {
        true => format!("---\n{text}---\nHow to.\n"),
        false => text.to_string(),
    };
    let laid = Laid::on("tiny", "");
    let file = laid.path().join(path);
    std::fs::create_dir_all(file.parent().expect("a folder")).expect("the folder can be made");
    std::fs::write(&file, text).expect("it can be written");
    let library = laid.read();
    let here = |span: rungbook::finding::Span| library.sources.name(span.file).ends_with(path);
    library.findings.iter().any(|finding| here(finding.place.span))
}

#[test]
fn what_a_reader_refuses_a_schema_refuses_and_the_other_way() {
    let mut tried = 0;
    for (kind, path, good, ways) in SPOILT {
        let validator = validator(schema::kind_named(kind).expect("a kind"));
        assert!(validator.is_valid(&yaml(good)), "{kind}: the good one");
        assert!(!refused(path, good), "{kind}: the good one is read");
        for (old, new) in ways {
            assert!(good.contains(old), "{kind}: {old}");
            let mut spoilt = good.replacen(old, new, 1);
            // What was opened is closed.
            spoilt = match *new {
                "traits: [{" => spoilt.replacen("balance: 1}", "balance: 1}]", 1),
                "rungs: {a: {" => spoilt.replacen("3 x 8}]", "3 x 8}}", 1),
                "slings: [{" => spoilt.replacen("practice]}", "practice]}]", 1),
                "usual-kits: [{" => spoilt.replacen("bar: [straps]}", "bar: [straps]}]", 1),
                _ => spoilt,
            };
            assert!(!validator.is_valid(&yaml(&spoilt)), "the schema takes {new:?} for {old:?}");
            assert!(refused(path, &spoilt), "the reader takes {new:?} for {old:?}");
            tried += 1;
        }
    }
    println!("{tried} ways to spoil a file");
    assert!(tried >= 100, "{tried} ways");
}

//! Mistakes that coaches make when they write, each with its place, its sentence and its next step,
//! and with nothing besides that only follows from it.
//! Each is one edit of one file of the tiny library.

mod laid;

use laid::Laid;
use rungbook::check;
use rungbook::finding::{Finding, Severity, Sources};
use rungbook::gym::Gym;

/// One mistake.
struct Mistake {
    /// The file, and what is replaced in it by what.
    edit: (&'static str, &'static str, &'static str),
    /// The line that the finding points at, from 1, and the words pointed at.
    at: (usize, &'static str),
    /// A stretch of the headline.
    says: &'static str,
    /// A stretch of the next step.
    next: &'static str,
}

const STRAP: &str = "movements/pull-horizontal/strap-row.md";
const ROW: &str = "ladders/row.yaml";
const MONDAY: &str = "sessions/monday.yaml";
const SPRING: &str = "cycles/spring.yaml";
const CLUB: &str = "club.yaml";
const STANDARD: &str = "standard: Arms straight, then hands to ribs.";

const fn slip(
    edit: (&'static str, &'static str, &'static str),
    at: (usize, &'static str),
    says: &'static str,
    next: &'static str,
) -> Mistake {
    Mistake { edit, at, says, next }
}

/// Mistakes that stop the reading of a file.
const YAML: &[Mistake] = &[
    slip(
        (STRAP, STANDARD, "standard Arms straight, then hands to ribs."),
        (14, "standard"),
        "no colon stands after `standard`",
        "write `standard: Arms straight, then hands to ribs.`",
    ),
    slip(
        (STRAP, STANDARD, "standard:Arms straight"),
        (14, "standard"),
        "no space stands after `standard:`",
        "write `standard: Arms straight`",
    ),
    slip(
        (STRAP, "pace: 3 s", "pace = 3 s"),
        (13, "pace"),
        "an equals sign stands after `pace`",
        "write `pace: 3 s`",
    ),
    slip(
        (STRAP, STANDARD, "  standard: Arms straight"),
        (14, "standard"),
        "`standard` is indented, and `pace` above it has its value already",
        "in the same column as `pace`",
    ),
    slip(
        (STRAP, STANDARD, "standard: Arms straight,\nthen hands to ribs."),
        (15, "then"),
        "the text of `standard` seems to go on here",
        "indent this line by two spaces",
    ),
    slip(
        (STRAP, STANDARD, "standard: \"Arms straight, then hands to ribs."),
        (14, "\""),
        "the quote that opens here is not closed in its line",
        "close it with `\"` at the end of the text",
    ),
    slip(
        (STRAP, "sources: [common-practice]", "sources: ['common-practice]"),
        (22, "'"),
        "this quote is never closed",
        "close it with `'`",
    ),
    slip(
        (STRAP, STANDARD, "standard: \"Arms\" straight"),
        (14, "straight"),
        "words stand after the quote",
        "round the whole text",
    ),
    slip(
        (STRAP, STANDARD, "standard: Arms straight: then hands"),
        (14, ":"),
        "a second `: `",
        "`standard: \"Arms straight: then hands\"`",
    ),
    slip(
        (STRAP, "sources: [common-practice]", "sources: [common-practice"),
        (22, "["),
        "a bracket is never closed",
        "close it with `]`",
    ),
    slip(
        (STRAP, "when: pulling}", "when: pulling"),
        (16, "{"),
        "a bracket is never closed",
        "close it with `}`",
    ),
    slip(
        (STRAP, "say: Long neck", "say: Long neck # always"),
        (18, "#"),
        "hides the bracket",
        "put quotes round the text that holds ` #`",
    ),
    slip(
        (STRAP, STANDARD, "standard: %Arms straight"),
        (14, "%"),
        "a text cannot start with `%`",
        "`\"%Arms straight\"`",
    ),
    slip(
        (STRAP, STANDARD, "standard: @home"),
        (14, "@"),
        "a text cannot start with `@`",
        "`\"@home\"`",
    ),
    slip(
        (STRAP, "  lean: {unit", "  lean {unit"),
        (10, "lean"),
        "no colon stands after `lean`",
        "write `lean: {unit: deg,",
    ),
    slip(
        (STRAP, "cues:\n", "cues\n"),
        (15, "cues"),
        "no colon stands after `cues`",
        "write `cues:`",
    ),
    slip(
        (ROW, "  - {movement: strap-row, lean: 60", "    - {movement: strap-row, lean: 60"),
        (10, "-"),
        "this item does not start where the one above it does",
        "2 spaces in",
    ),
    slip(
        (ROW, "  - {movement: strap-row, lean: 60", " - {movement: strap-row, lean: 60"),
        (10, "-"),
        "this item does not start where the one above it does",
        "2 spaces in",
    ),
    slip(
        (ROW, "  - {movement: strap-row, lean: 60", "  -{movement: strap-row, lean: 60"),
        (10, "-"),
        "no space stands after the dash",
        "write `- {movement: strap-row,",
    ),
];

/// Mistakes in a value or a key.
const VALUES: &[Mistake] = &[
    slip(
        (STRAP, "{say: Elbows to back pockets, when", "{say: Elbows to, back pockets, when"),
        (16, "back pockets"),
        "cut off from the text before it by a comma",
        "put quotes round the whole text",
    ),
    slip(
        (STRAP, "{say: Elbows", "{say:Elbows"),
        (16, "say:Elbows to back pockets"),
        "no space stands after `say:`",
        "write `say: Elbows to back pockets`",
    ),
    slip(
        (STRAP, "pace: 3 s", "pace: 1,5 s"),
        (13, "1,5 s"),
        "a comma where a decimal has a point",
        "write `1.5 s`",
    ),
    slip(
        (STRAP, "usual: 45", "usual: 45,5"),
        (10, "5"),
        "cut off from the number before it by a comma",
        "write a decimal with a point",
    ),
    slip((STRAP, "kit: [straps]", "kit: no"), (8, "no"), "not a list", "write `kit: []` for none"),
    slip(
        (STRAP, "kit: [straps]", "kit: straps"),
        (8, "straps"),
        "`kit` is one value, not a list",
        "put it in square brackets: `kit: [straps]`",
    ),
    slip(
        (STRAP, "kit: [straps]", "equipment: [straps]"),
        (8, "equipment"),
        "`equipment` is not a key that is read here",
        "write `kit`",
    ),
    slip(
        (STRAP, "name: Strap row", "title: Strap row"),
        (2, "title"),
        "`title` is not a key",
        "write `name`",
    ),
    slip((STRAP, "name: Strap row", "nmae: Strap row"), (2, "nmae"), "`nmae` is not", "`name`"),
    slip(
        (STRAP, STANDARD, "standard: Arms straight # then hands"),
        (14, "# then hands"),
        "from ` #` on this text is not read",
        "write `\"Arms straight # then hands\"`",
    ),
    slip(
        (STRAP, "prime: [lats", "prime: [latissimus"),
        (7, "latissimus"),
        "there is no muscle `latissimus`",
        "did you mean `lats`?",
    ),
    slip(
        (MONDAY, "movement: towel-row", "movement: body-row"),
        (9, "body-row"),
        "there is no movement `body-row`",
        "did you mean `strap-row`?",
    ),
    slip(
        (STRAP, "(towel-row)", "(../pull-horizontal/towel-row.md)"),
        (30, "../pull-horizontal/towel-row.md"),
        "this link goes nowhere",
        "write `towel-row`: links lead to ids",
    ),
    slip(
        (STRAP, "Hang the straps at shoulder height.", "Hang them.[^1]\n\n[^1]: Test-them"),
        (26, "[^1]"),
        "footnotes are not read",
        "write the note into the text",
    ),
    slip(
        (SPRING, "focus: [row]", "starts: 29.11.2026\nfocus: [row]"),
        (2, "29.11.2026"),
        "is a day, written another way than here",
        "write `2026-11-29`",
    ),
    slip(
        (SPRING, "focus: [row]", "starts: 5 Jan 2027\nfocus: [row]"),
        (2, "5 Jan 2027"),
        "is a day, written another way than here",
        "write `2027-01-05`",
    ),
    slip(
        (SPRING, "focus: [row]", "starts: 5/6/2027\nfocus: [row]"),
        (2, "5/6/2027"),
        "is not a day that exists",
        "the year, the month, the day",
    ),
    slip(
        (CLUB, "language: en-GB", "language: Deutsch"),
        (2, "Deutsch"),
        "`Deutsch` is not the tag of a language",
        "write `de`",
    ),
    slip(
        (MONDAY, "window: 12 min", "window: 12"),
        (6, "12"),
        "`12` has no unit",
        "write it like `90 s`",
    ),
    slip(
        (MONDAY, "format: timed-sets", "format: timed"),
        (5, "timed"),
        "`timed` is not a word for `format`",
        "write one of",
    ),
];

/// The rest of the table, a row each: file, what is replaced, by what; line, words pointed at; a stretch
/// of the headline, and one of the next step.
fn table() -> Vec<Mistake> {
    type Row = (String, String, String, usize, String, String, String);
    let rows: Vec<Row> =
        serde_json::from_str(include_str!("mistakes/table.json")).expect("a table");
    let kept = |text: String| -> &'static str { Box::leak(text.into_boxed_str()) };
    let row = |(file, old, new, line, at, says, next): Row| {
        slip((kept(file), kept(old), kept(new)), (line, kept(at)), kept(says), kept(next))
    };
    rows.into_iter().map(row).collect()
}

/// What the mistake sets off, without advice.
fn found(mistake: &Mistake) -> (Vec<Finding>, Sources) {
    let (file, old, new) = mistake.edit;
    let laid = Laid::on("tiny", "");
    let path = laid.path().join(file);
    let text = std::fs::read_to_string(&path).expect("the file is there");
    assert!(text.contains(old), "{file} has `{old}`");
    std::fs::write(&path, text.replacen(old, new, 1)).expect("it can be written");
    let gym = Gym::open(laid.read());
    let mut findings = check::run(&gym);
    findings.retain(|finding| finding.severity != Severity::Advice);
    (findings, gym.library.sources)
}

fn fault(mistake: &Mistake) -> Option<String> {
    let (findings, sources) = found(mistake);
    let (file, _, new) = mistake.edit;
    let [only] = findings.as_slice() else {
        let all: Vec<&String> = findings.iter().map(|finding| &finding.headline).collect();
        return Some(format!("{new:?}: one finding, not {all:#?}"));
    };
    let span = only.place.span;
    let (line, _) = sources.line_column(span.file, span.start);
    let here = sources.name(span.file).ends_with(file);
    let right = here && (line, sources.words(span)) == mistake.at;
    let said = only.headline.contains(mistake.says) && only.help.contains(mistake.next);
    (!right || !said).then(|| {
        let place = (line, sources.words(span));
        format!("{new:?}: at {place:?}: {} / {}", only.headline, only.help)
    })
}

#[test]
fn each_mistake_is_one_finding_at_its_place_with_its_next_step() {
    let table = table();
    let all: Vec<&Mistake> = YAML.iter().chain(VALUES).chain(&table).collect();
    let faults: Vec<String> = all.iter().filter_map(|mistake| fault(mistake)).collect();
    println!("{} mistakes, {} wrong", all.len(), faults.len());
    assert!(faults.is_empty(), "{} wrong\n{}", faults.len(), faults.join("\n"));
    assert!(all.len() >= 240);
    let mut edits: Vec<_> = all.iter().map(|mistake| mistake.edit).collect();
    edits.sort_unstable();
    edits.dedup();
    assert_eq!(edits.len(), all.len(), "each stands once");
}

/// Files that stand where nothing reads them.
#[test]
fn a_misplaced_movement_is_said_once_and_a_picture_stops_nothing() {
    let laid = Laid::on("tiny", "");
    let from = laid.path().join(STRAP);
    std::fs::rename(&from, laid.path().join("strap-row.md")).expect("it moves");
    std::fs::write(laid.path().join("hall.png"), b"\x89PNG\xff\xfe").expect("it can be written");
    let gym = Gym::open(laid.read());
    let findings = check::run(&gym);
    let said: Vec<(&str, &str)> = findings
        .iter()
        .filter(|finding| finding.severity != Severity::Advice)
        .map(|finding| (finding.headline.as_str(), finding.help.as_str()))
        .collect();
    assert_eq!(
        said,
        [
            (
                "nothing reads `hall.png`",
                "keep pictures outside the library: figures are drawn from `figure:`"
            ),
            (
                "nothing reads `strap-row.md` here, and it looks like a movement",
                "move it to movements/<pattern>/strap-row.md"
            ),
        ]
    );
}

/// A figure that can be solved, and ends that cannot.
fn posed(end: &str) -> Vec<(usize, String, String)> {
    let laid = Laid::on("tiny", "");
    let path = laid.path().join(STRAP);
    let text = std::fs::read_to_string(&path).expect("the file is there");
    let figure = format!(
        "figure:\n  start: {{feet: floor, back: floor, arms: flat, knee: 90}}\n  end: {end}\n"
    );
    let text = text.replacen("no-figure: Left out to keep this library short\n", &figure, 1);
    std::fs::write(&path, text).expect("it can be written");
    let gym = Gym::open(laid.read());
    let sources = &gym.library.sources;
    let pose = check::run(&gym).into_iter().filter(|finding| {
        ["pose-angle-not-met", "pose-out-of-reach", "pose-off-balance"].contains(&finding.code.0)
    });
    pose.map(|finding| {
        let line = sources.line_column(finding.place.span.file, finding.place.span.start).0;
        (line, finding.headline, finding.help)
    })
    .collect()
}

#[test]
fn a_contact_that_still_holds_is_named_where_it_is_in_the_way() {
    let good = posed("{lift: back, trunk: 40}");
    assert!(good.iter().all(|(_, _, help)| !help.contains("lift")), "{good:?}");
    let bad = posed("{trunk: -40, balance: free}");
    let wrong: Vec<_> = bad.iter().filter(|(line, ..)| *line != 23).collect();
    assert!(!bad.is_empty() && wrong.is_empty(), "the end is blamed, not the start: {bad:?}");
    let (_, headline, help) = &bad[0];
    assert!(headline.contains("`back: floor` still holds"), "{headline}");
    assert!(help.contains("write `lift: back`"), "{help}");
}

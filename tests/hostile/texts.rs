//! Texts that want to be more than text: scripts, ends of tags, line ends of a calendar, signs that
//! nobody sees, in every field that people read. Never the same field twice for one text.

use super::case::{Case, Lay};
use super::spoil::{library, quoted};

/// Files of the tiny library, the words of each field, and what stands before them.
const FIELDS: [(&str, &str, &str); 36] = [
    ("club.yaml", "name: ", "Thornmere Hall"),
    (
        "club.yaml",
        "caution-line: ",
        "General education, not medical advice; ask your clinician if you are unwell or being treated.",
    ),
    ("club.yaml", "stop-signs: [", "chest pain"),
    ("club.yaml", "room: ", "12 m x 8 m"),
    ("movements/pull-horizontal/strap-row.md", "name: ", "Strap row"),
    ("movements/pull-horizontal/strap-row.md", "aliases: [", "body row"),
    ("movements/pull-horizontal/strap-row.md", "standard: ", "Arms straight, then hands to ribs."),
    ("movements/pull-horizontal/strap-row.md", "say: ", "Elbows to back pockets"),
    ("movements/pull-horizontal/strap-row.md", "when: ", "pulling"),
    ("movements/pull-horizontal/strap-row.md", "see: ", "Shoulders shrug"),
    ("movements/pull-horizontal/strap-row.md", "cause: ", "Too much lean"),
    ("movements/pull-horizontal/strap-row.md", "say: ", "Long neck"),
    (
        "movements/pull-horizontal/strap-row.md",
        "caution: ",
        "Test the anchor with your full weight first.",
    ),
    ("movements/pull-horizontal/strap-row.md", "because: ", "no straps"),
    (
        "movements/pull-horizontal/strap-row.md",
        "no-figure: ",
        "Left out to keep this library short",
    ),
    ("ladders/row.yaml", "name: ", "Row"),
    ("ladders/row.yaml", "goal: ", "Ten strap rows at 60 deg"),
    (
        "ladders/row.yaml",
        "moves-up: ",
        "Two extra repetitions in the last set, two sessions running",
    ),
    ("ladders/row.yaml", "moves-down: ", "Two form breaks, pain, or the target missed twice"),
    ("ladders/row.yaml", "count: ", "Repetitions to the standard"),
    ("ladders/row.yaml", "stop: ", "Two faulty repetitions running"),
    ("ladders/row.yaml", "because: ", "More of you hangs from the straps"),
    ("sessions/monday.yaml", "name: ", "Monday"),
    ("sessions/monday.yaml", "name: ", "Pull\n"),
    ("cycles/spring.yaml", "name: ", "Spring"),
    ("words/kit.yaml", "name: ", "Straps"),
    ("words/kit.yaml", "check: ", "Pull it hard and look for a tear."),
    ("words/traits.yaml", "name: ", "Strong grip"),
    ("words/cautions.yaml", "name: ", "Weak grip"),
    ("words/cautions.yaml", "how: ", "Loop the strap round the forearm"),
    ("words/cautions.yaml", "says: ", "Holding on gives out before the back does."),
    ("words/cautions.yaml", "clinician: ", "When the hand is numb."),
    ("words/muscles.yaml", "name: ", "Lats"),
    ("words/patterns.yaml", "name: ", "Pull,"),
    ("words/sources.yaml", "title: ", "Common practice"),
    ("words/synonyms.yaml", "- [row, ", "rowing"),
];

const TEXTS: [&str; 9] = [
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(1)>",
    "</title></textarea></script><svg/onload=alert(1)>",
    "]]>--><iframe src=//other.example></iframe><!--",
    "'};alert(1);//{{ 7 * 7 }}{% include \"x\" %}",
    "a\r\nATTENDEE:mailto:x@other.example\r\nURL:http://other.example",
    "&#x3c;script&#x3e; &lt;script&gt; &amp;lt; javascript:alert(1)",
    "😀 👩\u{200d}🏫 \u{202e}abc\u{202c} \u{fffe}\u{7}\u{0}",
    "\\\"};\u{2028}alert(1)\u{2029}//`${alert(1)}` ﷽",
];

/// Every text in every field.
pub fn cases() -> Vec<Case> {
    let mut cases = Vec::new();
    for (file, key, words) in FIELDS {
        for (nth, text) in TEXTS.iter().enumerate() {
            let whole = library("tiny", file);
            let (words, end) =
                words.strip_suffix(['\n', ',']).map_or((words, ""), |w| (w, &words[w.len()..]));
            let from = format!("{key}{words}{end}");
            assert!(whole.contains(&from), "{file} has no {from:?}");
            let to = format!("{key}{}{end}", quoted(&format!("{words} {text}")));
            let spoilt = whole.replacen(&from, &to, 1);
            let name = format!("texts: {file} {}{words:.12} #{nth}", key.trim());
            let case =
                Case::built(name, "tiny", vec![Lay::file(&format!("content/{file}"), spoilt)]);
            // What nobody sees is refused wherever it stands.
            cases.push(if text.contains('\u{7}') || text.contains('\u{2028}') {
                case.refused()
            } else {
                case
            });
        }
    }
    cases.extend(bodies());
    cases
}

/// What a body of Markdown may try.
fn bodies() -> Vec<Case> {
    let file = "movements/pull-horizontal/strap-row.md";
    let bad = [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "[a](javascript:alert(1))",
        "[a](JaVaScRiPt&colon;alert(1))",
        "[a](data:text/html,x) <javascript:alert(1)>",
        "[a](//other.example/x)",
        "![a](http://other.example/x.png)",
        "![a](x\" onerror=\"alert(1))",
        "[a]: javascript:alert(1)\n\n[a]",
        "[a](towel-row \"x\\\" onclick=alert(1) \")",
        "<style>@import 'http://other.example'</style>",
        "&#1;&#0;&#x1f;&#xfffe;&#8238;",
        "| a | b |\n|---|---|\n| <b onmouseover=alert(1)> | x |",
        "```html\n</code></pre><script>x</script>\n```",
        "# One\n## <script>\n###### six",
        "<!-- --><script>--> x",
        "<a href='javascript:x'>y</a>",
        "[x](<towel-row\" onclick=x>)",
        "{{ 7 * 7 }}{% raw %}",
        "\u{b}\u{1b}[31mred",
    ];
    let nested = [
        ("![[", 20_000),
        ("> ", 20_000),
        ("- ", 20_000),
        ("*a ", 20_000),
        ("[", 50_000),
        ("`", 50_000),
        ("<", 50_000),
        ("&", 50_000),
        ("| ", 20_000),
        ("**", 50_000),
        ("\\", 50_000),
        ("1. ", 10_000),
    ];
    let deep = nested.iter().map(|(part, times)| part.repeat(*times));
    let texts = bad.iter().map(|text| text.to_string()).chain(deep);
    let case = |(nth, text): (usize, String)| {
        let spoilt = format!("{}\n\n{text}\n", library("tiny", file));
        Case::built(
            format!("texts: body #{nth}"),
            "tiny",
            vec![Lay::file(&format!("content/{file}"), spoilt)],
        )
    };
    texts.enumerate().map(case).collect()
}

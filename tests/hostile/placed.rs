//! Libraries spoilt by hand: links and devices, names of files and ids, addresses.
//! Never by chance: each is here because it broke something, here or elsewhere.

use super::case::{Case, Lay};
use super::made::{STRAP_ROW, named, put};
use super::spoil::{edit, library};

/// All of them.
pub fn cases() -> Vec<Case> {
    [places(), names(), addresses()].concat()
}

fn places() -> Vec<Case> {
    let lay = |name: &str, lay: Vec<Lay>| Case::built(name, "tiny", lay);
    let link = |from: &str, to: &str| Lay::Link(from.to_string(), to.to_string());
    let within = [
        ("ladders/odd.yaml", "/dev/zero"),
        ("ladders/odd.yaml", "/dev/full"),
        ("ladders/odd.yaml", "/dev/tty"),
        ("ladders/odd.yaml", "/proc/self/environ"),
        ("ladders/odd.yaml", "/proc/kmsg"),
        ("ladders/odd.yaml", "/etc/passwd"),
        ("ladders/odd.yaml", "../../../outside/secret.yaml"),
        ("ladders/odd.yaml", "odd.yaml"),
        ("ladders/odd.yaml", "nowhere.yaml"),
        ("movements/out", "../../../outside"),
        ("movements/up", ".."),
        ("ladders/all", "/"),
        ("words/kit.yaml", "../../../outside/secret.yaml"),
    ];
    let mut cases: Vec<Case> = within
        .iter()
        .map(|(from, to)| {
            lay(&format!("{from} -> {to}"), vec![link(&format!("content/{from}"), to)]).refused()
        })
        .collect();
    let folder = |name: &str| Lay::file(&format!("content/{name}/x"), "x");
    cases.extend([
        lay("a pipe", vec![Lay::Pipe("content/ladders/odd.yaml".into())]).refused(),
        lay("a socket", vec![Lay::Socket("content/ladders/odd.yaml".into())]).refused(),
        lay(
            "a pipe for the club",
            vec![Lay::Gone("content/club.yaml".into()), Lay::Pipe("content/club.yaml".into())],
        )
        .refused(),
        lay("no club", vec![Lay::Gone("content/club.yaml".into())]).refused(),
        lay("a folder as club", vec![Lay::Gone("content/club.yaml".into()), folder("club.yaml")])
            .refused(),
        lay("nothing", vec![Lay::Gone("content".into()), folder(".")]).refused(),
        lay("a file as library", vec![Lay::Gone("content".into()), Lay::file("content", "x")])
            .refused(),
        lay("a link as site", vec![link("site", "../outside")]).refused(),
        lay("a link to nowhere as site", vec![link("site", "nowhere/at/all")]).refused(),
        lay("a link to the library as site", vec![link("site", "content")]).refused(),
        lay("a file as site", vec![Lay::file("site", "mine")]).refused(),
        lay("a site of somebody else's", vec![Lay::file("site/index.html", "<p>mine</p>")])
            .refused(),
        lay(
            "a link in the site",
            vec![link("site/movements", "../../outside"), Lay::file("site/.rungbook", "# x\n")],
        )
        .refused(),
        lay(
            "a list that leads out",
            vec![Lay::file("site/.rungbook", "# x\n../../outside/mine.html\n/etc/passwd\n")],
        ),
        lay("a link as lock", vec![link(".site.rungbook-lock", "../outside/mine.html")]).refused(),
        lay("a link as new site", vec![link(".site.rungbook-new", "../outside")]),
        lay("a link as what is kept", vec![link(".site.rungbook-kept", "../outside")]),
        lay(
            "kept rubbish",
            vec![
                Lay::file(".site.rungbook-kept/stamps", "x".repeat(9_999)),
                Lay::file(".site.rungbook-kept/0", vec![7; 9_999]),
            ],
        ),
    ]);
    named("places", cases)
}

fn names() -> Vec<Case> {
    let movement = library("tiny", STRAP_ROW)
        .replace("name: Strap row", "name: Odd row")
        .replace("aliases: [body row]", "aliases: []");
    let odd = |id: &str| put(&format!("movements/pull-horizontal/{id}.md"), &movement);
    let bad = [
        "index",
        "con",
        "nul",
        "aux",
        "com1",
        "lpt9",
        "Odd Row",
        "odd row",
        "-odd",
        "odd-",
        "odd--row",
        "ödd",
        "\u{202e}row",
        "a\nb",
        "a\u{1b}[31mb",
        "a\"b",
        "a<b>",
        "a'b",
        "a&b",
        "a%2fb",
        "a\\b",
        "a..b",
        "ROW",
        "a\u{fffd}b",
        "😀",
    ];
    let mut cases: Vec<Case> = bad.iter().map(|id| odd(id).refused()).collect();
    cases.push(odd(&"a".repeat(200)).refused());
    let taken = [
        "ladder-row",
        "session-monday",
        "fault-x",
        "404",
        "data",
        "offline",
        "towel-row-2",
        "constructor",
        "proto",
        "tostring",
    ];
    cases.extend(taken.iter().map(|id| odd(id)));
    for folder in ["ladders", "sessions", "cycles"] {
        let file = ["ladders/row.yaml", "sessions/monday.yaml", "cycles/spring.yaml"];
        let text = library("tiny", file.iter().find(|f| f.starts_with(folder)).expect("one"));
        for id in ["index", "con", "Row", "__proto__", "constructor"] {
            let case = put(&format!("{folder}/{id}.yaml"), &text);
            cases.push(if id == "constructor" { case } else { case.refused() });
        }
    }
    for id in ["index", "__proto__", "a b", "<b>", "nul", "\"\"", "[a]", "*x", "constructor"] {
        for file in
            ["words/kit.yaml", "words/muscles.yaml", "words/traits.yaml", "words/cautions.yaml"]
        {
            let case = put(file, format!("{}{id}: {{name: Odd}}\n", library("tiny", file)));
            cases.push(Case {
                name: format!("{file} {id}"),
                ..if id == "constructor" { case } else { case.refused() }
            });
        }
    }
    cases
        .push(edit("tiny", STRAP_ROW, "name: Strap row", "id: ../../x\nname: Strap row").refused());
    cases.push(edit("tiny", STRAP_ROW, "pattern: pull-horizontal", "pattern: ../../x").refused());
    cases.push(edit("tiny", STRAP_ROW, "lean: {unit", "<b>: {unit").refused());
    named("names", cases)
}

fn addresses() -> Vec<Case> {
    let bad = [
        "//other.example/",
        "javascript:alert(1)",
        "https://x.example//a",
        "https:///a",
        "https://",
        "http://u:p@x.example/",
        "https://x.example/\\\"><script>",
        "https://x.example/\\nURL:http://other.example",
        "https://x.example/../..",
        "ftp://x.example/",
        "https://x.example/a?b",
        "https://x.example/#a",
        "https://x.example/ a",
        "data:text/html,x",
        "https://x.example/\\u202e",
        "",
        "https://x.example/a;b",
        "https://x.example/'a",
        "https://x.example/{{7*7}}",
        "https://x.example:port space/",
    ];
    let refused = bad.iter().filter(|a| !a.is_empty()).map(|address| {
        edit(
            "tiny",
            "club.yaml",
            "language: en-GB",
            &format!("language: en-GB\naddress: \"{address}\""),
        )
        .refused()
    });
    let fine =
        ["https://x.example", "https://x.example:8080/book/", "http://bücher.example/a%20b/"]
            .iter()
            .map(|address| {
                edit(
                    "tiny",
                    "club.yaml",
                    "language: en-GB",
                    &format!("language: en-GB\naddress: {address:?}"),
                )
            });
    let languages = ["en\\\" onload=\\\"x", "<script>", "\\u0000", "x".repeat(40).as_str(), "-"]
        .map(|language| {
            edit("tiny", "club.yaml", "language: en-GB", &format!("language: \"{language}\""))
        });
    named("addresses", refused.chain(fine).chain(languages))
}

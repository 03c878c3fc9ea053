//! One page a rule: each page of `tests/rules/` lays a small library and says what is found.
//! Never asks about other rules: a page answers for its own code only.
//!
//! A page has two sections, `## Sets it off` and `## Leaves it alone`. Fenced blocks change the
//! library in `tests/libraries/tiny`, by the first word after the fence:
//! `file PATH` writes a file, `bytes PATH` one with `\xNN` for any byte, `fill PATH COUNT` one that
//! repeats the block, `add PATH` adds to the end, `change PATH` replaces each run of `-` lines by
//! the `+` lines after it, `link PATH` makes a link to the block's first line, and `remove PATH`
//! takes a file away. The block `findings` is what a terminal would show.
//!
//! `RUNGBOOK_BLESS=1 cargo test --test rules` rewrites the expected findings. Read every one.

mod laid;

use laid::{Laid, blocks};
use rungbook::check;
use rungbook::finding::{Finding, Paint, render, summary};
use rungbook::gym::Gym;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn pages_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules")
}

/// What `code` finds in the tiny library as `section` changes it, as a terminal shows it.
fn found(section: &str, code: &str) -> String {
    let laid = Laid::on("tiny", section);
    let gym = Gym::open(laid.read());
    let findings: Vec<Finding> =
        check::run(&gym).into_iter().filter(|finding| finding.code.0 == code).collect();
    render(&findings, &gym.library.sources, Paint::Plain).trim_end().to_string()
}

/// The page's two sections.
fn sections<'p>(page: &'p str, code: &str) -> (&'p str, &'p str) {
    let (head, rest) = page.split_once("\n## Sets it off\n").unwrap_or_else(|| {
        panic!("{code}: no section `## Sets it off`");
    });
    assert!(head.starts_with(&format!("# {code}\n")), "{code}: the page's title is its code");
    rest.split_once("\n## Leaves it alone\n").unwrap_or_else(|| {
        panic!("{code}: no section `## Leaves it alone`");
    })
}

fn expected(section: &str) -> String {
    let found = blocks(section).into_iter().find(|block| block.verb == "findings");
    found.map(|block| block.text.trim_end().to_string()).unwrap_or_default()
}

fn bless(path: &Path, page: &str, old: &str, new: &str) {
    let fence = |text: &str| format!("```findings\n{text}\n```");
    let page = page.replace(&fence(old), &fence(new)).replace("```findings\n```", &fence(new));
    fs::write(path, page).expect("the page can be written");
}

/// What is wrong with one page.
fn fault(code: &str, blessing: bool) -> Option<String> {
    let path = pages_folder().join(format!("{code}.md"));
    let Ok(page) = fs::read_to_string(&path) else { return Some(format!("{code}: no page")) };
    let (sets_off, leaves) = sections(&page, code);
    let (now, wanted) = (found(sets_off, code), expected(sets_off));
    if now.is_empty() {
        return Some(format!("{code}: nothing is found"));
    }
    if blessing && now != wanted {
        bless(&path, &page, &wanted, &now);
    } else if now != wanted {
        return Some(format!("{code}: wanted\n{wanted}\n\nfound\n{now}"));
    }
    if blocks(leaves).is_empty() {
        return Some(format!("{code}: no example that leaves it alone"));
    }
    let quiet = found(leaves, code);
    (!quiet.is_empty()).then(|| format!("{code}: should be left alone, found\n{quiet}"))
}

#[test]
fn every_rule_finds_what_its_page_says() {
    let blessing = std::env::var_os("RUNGBOOK_BLESS").is_some();
    let faults: Vec<String> =
        check::rules().iter().filter_map(|rule| fault(rule.code.0, blessing)).collect();
    assert!(faults.is_empty(), "\n{}\n", faults.join("\n\n"));
}

#[test]
fn every_page_has_a_rule_and_no_code_stands_twice() {
    let codes: BTreeSet<String> = check::rules().iter().map(|r| r.code.0.to_string()).collect();
    assert_eq!(codes.len(), check::rules().len(), "a code stands twice in the rule table");
    let pages: BTreeSet<String> = fs::read_dir(pages_folder())
        .expect("tests/rules is a folder")
        .map(|page| page.expect("a page").path())
        .map(|path| path.file_stem().expect("a name").to_string_lossy().into_owned())
        .collect();
    assert_eq!(pages, codes);
}

#[test]
fn the_tiny_library_is_sound() {
    let laid = Laid::on("tiny", "");
    let gym = Gym::open(laid.read());
    let findings = check::run(&gym);
    assert_eq!(gym.library.movements.len(), 3);
    assert_eq!(render(&findings, &gym.library.sources, Paint::Plain), "");
}

#[test]
fn explain_knows_every_code_and_the_near_spelling() {
    for rule in check::rules() {
        let text = check::explain(rule.code.0).expect("a known code");
        assert!(text.starts_with(rule.code.0) && text.contains(rule.next), "{text}");
    }
    let unknown = check::explain("ladder-lop").expect_err("no such code");
    assert!(unknown.contains("did you mean `ladder-loop`?"), "{unknown}");
    assert_eq!(check::rule_facts().len(), check::rules().len());
}

#[test]
fn everything_wrong_with_the_broken_library_is_said_in_one_run() {
    let path = pages_folder().with_file_name("libraries").join("broken.txt");
    let gym = Gym::open(Laid::on("broken", "").read());
    let findings = check::run(&gym);
    let shown = render(&findings, &gym.library.sources, Paint::Plain) + &summary(&findings) + "\n";
    if std::env::var_os("RUNGBOOK_BLESS").is_some() {
        fs::write(&path, &shown).expect("the snapshot can be written");
    }
    let codes: BTreeSet<&str> = findings.iter().map(|finding| finding.code.0).collect();
    assert!(codes.len() >= 15, "only {codes:?}");
    assert_eq!(shown, fs::read_to_string(path).expect("the snapshot"));
}

//! Corrections that are certain, made in the files: what `rungbook check --mend` does.
//! Never guesses: a finding without a correction of its own is left to its author, and a file that would
//! read worse afterwards stays as it is.

use super::exchange::{Change, Writing};
use super::say::{self, Trouble};
use crate::check;
use crate::finding::{Finding, Sources};
use crate::gym::Gym;
use crate::library::keys::kind_of_file;
use crate::library::reader::Texts;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The most rounds: a correction may show the next mistake of its file.
const MOST_ROUNDS: usize = 20;

/// Mends what is certain, in all files or only in some, and says what was put in the place of what.
pub fn mend(library: &Path, only: Option<&BTreeSet<String>>) -> Result<(), Trouble> {
    let writing = Writing::begin(library)?;
    let read = || Texts::read(library, &library.to_string_lossy()).map_err(say::no_library);
    let first = read()?;
    let mut fresh: BTreeMap<String, String> = BTreeMap::new();
    let mut refused: BTreeSet<String> = BTreeSet::new();
    let mut said = String::new();
    for _ in 0..MOST_ROUNDS {
        let wanted =
            |name: &str| !refused.contains(name) && only.is_none_or(|only| only.contains(name));
        let mended = round(library, with(read()?, &fresh), &wanted);
        if mended.is_empty() {
            break;
        }
        for (name, text, lines) in mended {
            let mut next = fresh.clone();
            next.insert(name.clone(), text);
            if syntax_errors(with(read()?, &next), library)
                > syntax_errors(with(read()?, &fresh), library)
            {
                refused.insert(name);
                continue;
            }
            fresh = next;
            said += &lines;
        }
    }
    let change = |(name, text): (String, String)| {
        let old = first.files().find(|(parts, _)| parts.join("/") == name);
        let old = old.map(|(_, text)| text.to_string());
        Change { path: PathBuf::from(name), old, new: Some(text) }
    };
    let changes: Vec<Change> = fresh.into_iter().map(change).collect();
    writing.make(&changes)?;
    say::print(said);
    Ok(())
}

fn with(texts: Texts, fresh: &BTreeMap<String, String>) -> Texts {
    let parts = |name: &str| name.split('/').map(str::to_string).collect::<Vec<_>>();
    fresh.iter().fold(texts, |texts, (name, text)| texts.with_unsaved(&parts(name), text.clone()))
}

fn syntax_errors(texts: Texts, library: &Path) -> usize {
    let read = texts.library();
    let of_entries = |finding: &&Finding| {
        let name = super::files::name_below(library, read.sources.name(finding.place.span.file));
        finding.code.0 == "yaml-syntax" && kind_of_file(name).is_some()
    };
    read.findings.iter().filter(of_entries).count()
}

/// One round: for each file its name, its text with every correction, and what was done in words.
fn round(
    library: &Path,
    texts: Texts,
    wanted: &dyn Fn(&str) -> bool,
) -> Vec<(String, String, String)> {
    let gym = Gym::open(texts.library());
    let sources = &gym.library.sources;
    let mut by_file: BTreeMap<String, Vec<Finding>> = BTreeMap::new();
    for finding in check::run(&gym) {
        let name = super::files::name_below(library, sources.name(finding.place.span.file));
        if finding.mend.is_some() && wanted(name) {
            by_file.entry(name.to_string()).or_default().push(finding);
        }
    }
    let one = |(name, findings): (String, Vec<Finding>)| {
        let (text, said) = corrected(&name, &findings, sources)?;
        Some((name, text, said))
    };
    by_file.into_iter().filter_map(one).collect()
}

/// The text of a file with its corrections, from the last to the first, none within another.
fn corrected(name: &str, findings: &[Finding], sources: &Sources) -> Option<(String, String)> {
    let file = findings.first()?.place.span.file;
    let mut text = sources.text(file).to_string();
    let mut mends: Vec<_> =
        findings.iter().filter_map(|f| f.mend.as_ref().map(|m| (f, m))).collect();
    mends.sort_by_key(|(_, (span, _))| std::cmp::Reverse(span.start));
    let mut before = text.len();
    let mut said = Vec::new();
    for (finding, (span, words)) in mends {
        let (start, end) = (span.start as usize, span.end as usize);
        if end > before || text.get(start..end).is_none() {
            continue;
        }
        let line = sources.line_column(file, span.start).0;
        let old: String = text[start..end].chars().take(60).collect();
        let what = if old.trim().is_empty() {
            finding.headline.clone()
        } else {
            format!("`{}` is now `{}`", old.trim(), words.trim())
        };
        said.push(format!("{name}:{line}: {what}\n"));
        text.replace_range(start..end, words);
        before = start;
    }
    said.reverse();
    (!said.is_empty()).then(|| (text, said.concat()))
}

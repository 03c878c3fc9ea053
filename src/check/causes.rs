//! Two findings of one slip: which of them is the slip, and which goes.
//! Never lets the last error of an entry go.

use super::follow::entry;
use crate::finding::{Finding, Severity, Sources, Span};
use crate::library::Library;
use std::collections::BTreeSet;

/// Rules that name an id, and the file of words that has such ids.
const HOMES: [(&str, &str); 6] = [
    ("unknown-kit", "words/kit.yaml"),
    ("unknown-trait", "words/traits.yaml"),
    ("unknown-muscle", "words/muscles.yaml"),
    ("unknown-source", "words/sources.yaml"),
    ("unknown-change", "words/changes.yaml"),
    ("unknown-pattern", "words/patterns.yaml"),
];

/// What a pose is measured by once all of its words are known.
const WORDS_OF_POSES: [&str; 3] = ["pose-unknown-word", "pose-unreadable-value", "pose-wrong-unit"];

/// Keeps the slips themselves.
pub fn keep(findings: &mut Vec<Finding>, library: &Library) {
    let all = findings.clone();
    findings.retain(|finding| !all.iter().any(|cause| follows(finding, cause, library)));
}

/// Whether a finding only follows from another one.
fn follows(finding: &Finding, cause: &Finding, library: &Library) -> bool {
    let (code, of) = (finding.code.0, cause.code.0);
    let sources = &library.sources;
    let (span, at) = (finding.place.span, cause.place.span);
    let same_entry = || entry(span, sources) == entry(at, sources);
    let same_line = || span.file == at.file && line(span, sources) == line(at, sources);
    let is_error = cause.severity == Severity::Error;
    match code {
        "pattern-not-folder" => of == "unknown-pattern" && span == at,
        // What the club lacks, where it is there and could not be read.
        "no-club" => is_error && of != "no-club" && same_entry() && at.file == span.file,
        "setting-missing" if of == "setting-unknown" => same_line(),
        "setting-backwards" => of == "setting-outside-range" && span.file == at.file,
        "setting-unknown" | "setting-missing" => is_error && unread_movement(finding, at, library),
        "no-standard"
        | "no-cue"
        | "no-fault"
        | "no-sources"
        | "no-pace"
        | "ladder-without-goal" => {
            of == "wrong-shape"
                && cause.headline.starts_with("nothing stands behind")
                && same_entry()
        }
        _ if code.starts_with("pose-") && !WORDS_OF_POSES.contains(&code) => {
            WORDS_OF_POSES.contains(&of) && same_entry()
        }
        _ => is_error && id_is_lost(finding, cause, sources),
    }
}

fn line(span: Span, sources: &Sources) -> usize {
    sources.line_column(span.file, span.start).0
}

/// A rung's settings are unknown where the movement's own could not be read.
fn unread_movement(finding: &Finding, at: Span, library: &Library) -> bool {
    let sources = &library.sources;
    let named: BTreeSet<&str> = finding.headline.split('`').skip(1).step_by(2).collect();
    let name = sources.name(at.file);
    let stem = name.rsplit('/').next().and_then(|name| name.strip_suffix(".md"));
    let in_settings = || {
        let text = sources.text(at.file);
        let before = text.get(..at.start as usize).unwrap_or("");
        let top = before.rfind("\n").map_or(0, |end| end + 1);
        let line = &text[top..];
        let is_top = |line: &str| line.starts_with(|c: char| c.is_alphabetic());
        let key = if is_top(line) { Some(line) } else { before.lines().rev().find(|l| is_top(l)) };
        key.is_some_and(|key| key.starts_with("setting"))
    };
    at.file != finding.place.span.file
        && stem.is_some_and(|stem| named.contains(stem))
        && in_settings()
}

/// An id that nobody knows, because the entry that has it could not be read under that id.
fn id_is_lost(finding: &Finding, cause: &Finding, sources: &Sources) -> bool {
    let home = HOMES.iter().find(|(code, _)| *code == finding.code.0).map(|(_, home)| *home);
    let at = cause.place.span;
    if home.is_none_or(|home| !sources.name(at.file).ends_with(home)) {
        return false;
    }
    match cause.code.0 {
        "bad-id" | "duplicate-id" => true,
        _ => {
            let (_, start) = entry(at, sources);
            let id = sources.text(at.file)[start..].split(':').next().unwrap_or_default();
            id.trim() == sources.words(finding.place.span)
        }
    }
}

//! Findings for machines, as JSON.
//! Never prints; returns text.

use super::{Finding, Place, Sources};
use serde::Serialize;

#[derive(Serialize)]
struct Report<'a> {
    findings: Vec<Row<'a>>,
}

#[derive(Serialize)]
struct Row<'a> {
    code: &'a str,
    severity: &'a str,
    headline: &'a str,
    place: Where<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    also: Option<Where<'a>>,
    help: &'a str,
}

#[derive(Serialize)]
struct Where<'a> {
    file: &'a str,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    words: &'a str,
    label: &'a str,
}

/// All findings as one JSON object; lines and columns count from 1, columns in characters.
pub fn to_json(findings: &[Finding], sources: &Sources) -> String {
    let rows = findings
        .iter()
        .map(|finding| Row {
            code: finding.code.0,
            severity: finding.severity.word(),
            headline: &finding.headline,
            place: place(&finding.place, sources),
            also: finding.also.as_ref().map(|also| place(also, sources)),
            help: &finding.help,
        })
        .collect();
    // Plain strings and numbers always serialise.
    serde_json::to_string_pretty(&Report { findings: rows }).unwrap_or_default() + "\n"
}

fn place<'a>(place: &'a Place, sources: &'a Sources) -> Where<'a> {
    let (line, column) = sources.line_column(place.span.file, place.span.start);
    let (end_line, end_column) = sources.line_column(place.span.file, place.span.end);
    Where {
        file: sources.name(place.span.file),
        line,
        column,
        end_line,
        end_column,
        words: sources.words(place.span),
        label: &place.label,
    }
}

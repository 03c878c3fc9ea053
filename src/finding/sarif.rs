//! Findings as SARIF 2.1.0 (OASIS), which code hosts show beside a change.
//! Never prints; returns text.

use super::{Code, Finding, Place, Severity, Sources};
use serde_json::{Value, json};

/// What SARIF tells about a rule: its code, one line, and the whole explanation.
#[derive(Debug, Clone)]
pub struct RuleFacts {
    /// The rule's word.
    pub code: Code,
    /// One line.
    pub short: String,
    /// The explanation that `rungbook explain` prints.
    pub full: String,
    /// Its usual severity.
    pub severity: Severity,
}

/// One SARIF run. File addresses are the names in `sources`.
pub fn to_sarif(findings: &[Finding], sources: &Sources, rules: &[RuleFacts]) -> String {
    let log = json!({
        "version": "2.1.0",
        "$schema": "https://json.schemastore.org/sarif-2.1.0.json",
        "runs": [{
            "tool": {"driver": {
                "name": "rungbook",
                "semanticVersion": env!("CARGO_PKG_VERSION"),
                "rules": rules.iter().map(rule).collect::<Vec<_>>(),
            }},
            "columnKind": "unicodeCodePoints",
            "results": findings.iter().map(|f| result(f, sources)).collect::<Vec<_>>(),
        }],
    });
    serde_json::to_string_pretty(&log).unwrap_or_default() + "\n"
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Advice => "note",
    }
}

fn rule(rule: &RuleFacts) -> Value {
    json!({
        "id": rule.code.0,
        "shortDescription": {"text": rule.short},
        "fullDescription": {"text": rule.full},
        "defaultConfiguration": {"level": level(rule.severity)},
    })
}

fn result(finding: &Finding, sources: &Sources) -> Value {
    let text = if finding.help.is_empty() {
        finding.headline.clone()
    } else {
        format!("{}. Next step: {}.", finding.headline, finding.help.trim_end_matches('.'))
    };
    let mut result = json!({
        "ruleId": finding.code.0,
        "level": level(finding.severity),
        "message": {"text": text},
        "locations": [location(&finding.place, sources)],
    });
    if let Some(also) = &finding.also {
        result["relatedLocations"] = json!([location(also, sources)]);
    }
    result
}

fn location(place: &Place, sources: &Sources) -> Value {
    let path = percent_encoded(sources.name(place.span.file));
    let mut physical = json!({"artifactLocation": {"uri": path}});
    if !place.span.is_whole_file() {
        let (line, column) = sources.line_column(place.span.file, place.span.start);
        let (end_line, end_column) = sources.line_column(place.span.file, place.span.end);
        physical["region"] = json!({
            "startLine": line, "startColumn": column, "endLine": end_line, "endColumn": end_column,
        });
    }
    let mut location = json!({"physicalLocation": physical});
    if !place.label.is_empty() {
        location["message"] = json!({"text": place.label});
    }
    location
}

/// A path as a relative URI reference (RFC 3986): every byte outside the unreserved set and `/` is
/// percent-encoded.
fn percent_encoded(path: &str) -> String {
    path.bytes()
        .map(|byte| match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => {
                char::from(byte).to_string()
            }
            _ => format!("%{byte:02X}"),
        })
        .collect()
}

//! A source that cannot be found from what is written of it.
//! Never asks whether the source is a good one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::{ReadMark, Source};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("source-incomplete"),
    severity: Severity::Warning,
    what: "A source that was read lacks its authors, title, body or year.",
    why: "Whoever doubts a claim must be able to find where it comes from, and to see when nobody \
          can: what is only remembered says so.",
    example: r#"
some-paper-2015: {title: Squats and knees, read: abstract}
"#,
    next: "Write what is missing, or `read: memory` where it is only remembered.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    gym.library.words.sources.values().filter_map(incomplete).collect()
}

fn incomplete(source: &Source) -> Option<Finding> {
    if matches!(source.read, ReadMark::Memory | ReadMark::Practice) {
        return None;
    }
    let parts = [
        ("authors", source.authors.is_some()),
        ("title", source.titled),
        ("body", source.body.is_some()),
        ("year", source.year.is_some()),
    ];
    let lacking = parts.iter().filter(|(_, written)| !written).map(|(name, _)| format!("`{name}`"));
    let lacking: Vec<String> = lacking.collect();
    if lacking.is_empty() {
        return None;
    }
    let headline = format!("the source `{}` lacks {}", source.id.value, lacking.join(", "));
    let help = "write what is missing, or `read: memory` where it is only remembered";
    Some(RULE.finding(headline, source.id.span).help(help))
}

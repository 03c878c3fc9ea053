//! Findings: what a check says, with a code, a place and one next step.
//! Never decides what is wrong; it only carries and words the verdicts of others.

mod json;
mod letters;
mod near;
mod sarif;
mod sources;
mod terminal;

pub use json::to_json;
pub use letters::{capital, small};
pub use near::{did_you_mean, near};
pub use sarif::{RuleFacts, to_sarif};
pub use sources::{FileId, Placed, Sources, Span, plain};
pub use terminal::{Paint, render, summary};

use std::fmt;

/// The word that names a fault, such as `ladder-loop`. Stable: people switch advice off by it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Code(pub &'static str);

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}

/// How much a finding matters. An error stops a build; a warning asks for a change; advice may be
/// switched off in `club.yaml`, with a reason.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The library contradicts itself or cannot be read; no site is written.
    Error,
    /// A coach or member would be misled or left without an answer.
    Warning,
    /// Good practice, a matter of taste or of later work.
    Advice,
}

impl Severity {
    /// The word shown to people.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Error => "error",
            Severity::Warning => "warning",
            Severity::Advice => "advice",
        }
    }
}

/// One place in one file, with a short label for the words under the carets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// Where.
    pub span: Span,
    /// What is there; may be empty.
    pub label: String,
}

/// One thing that is wrong: code, severity, headline, places and one next step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// Names the fault.
    pub code: Code,
    /// How much it matters.
    pub severity: Severity,
    /// Stands alone, in the coach's words.
    pub headline: String,
    /// The exact word at fault.
    pub place: Place,
    /// A second place, where one explains the first.
    pub also: Option<Place>,
    /// One next step.
    pub help: String,
    /// What is to be put in the place of what, where only one correction can be meant.
    pub mend: Option<(Span, String)>,
}

impl Finding {
    /// A finding at `span`; give it labels, a second place and a next step with the methods below.
    pub fn new(code: Code, severity: Severity, headline: impl Into<String>, span: Span) -> Self {
        let place = Place { span, label: String::new() };
        Finding {
            code,
            severity,
            headline: headline.into(),
            place,
            also: None,
            help: String::new(),
            mend: None,
        }
    }

    /// Words under the carets.
    pub fn label(mut self, label: impl Into<String>) -> Self {
        self.place.label = label.into();
        self
    }

    /// A second place that explains the first.
    pub fn also(mut self, span: Span, label: impl Into<String>) -> Self {
        self.also = Some(Place { span, label: label.into() });
        self
    }

    /// The correction, where it is certain: these words in the place of those at `span`.
    pub fn mend(mut self, span: Span, words: impl Into<String>) -> Self {
        self.mend = Some((span, words.into()));
        self
    }

    /// The one next step.
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = help.into();
        self
    }
}

/// Sorts findings by file name, then place, then code, so that two runs print the same.
pub fn sort(findings: &mut [Finding], sources: &Sources) {
    findings.sort_by(|a, b| {
        let key = |f: &Finding| (f.place.span.start, f.place.span.end, f.code);
        sources
            .name(a.place.span.file)
            .cmp(sources.name(b.place.span.file))
            .then_with(|| key(a).cmp(&key(b)))
            .then_with(|| a.headline.cmp(&b.headline))
    });
}

//! A rule: the fault it names, why it matters, an example, and how to mend it.
//! Never words a particular finding; the function of each rule does.

use crate::finding::{Code, Finding, Severity, Span};
use crate::gym::Gym;

/// One rule.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Names the fault.
    pub code: Code,
    /// How much it matters.
    pub severity: Severity,
    /// The fault, in one line.
    pub what: &'static str,
    /// Why it matters on the floor.
    pub why: &'static str,
    /// A few lines that set it off.
    pub example: &'static str,
    /// How to mend it.
    pub next: &'static str,
    /// Finds the fault; nothing where reading finds it.
    pub run: Option<fn(&Gym) -> Vec<Finding>>,
}

impl Rule {
    /// A finding of this rule.
    pub fn finding(&self, headline: impl Into<String>, span: Span) -> Finding {
        Finding::new(self.code, self.severity, headline, span)
    }
}

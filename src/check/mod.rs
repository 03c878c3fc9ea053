//! Check: every rule of a sound library, run over the whole gym in one go.
//! Never prints, never mends, never stops at the first fault; each rule is a file in `rules/`.

mod bodies;
mod causes;
mod coming;
mod done;
mod explain;
mod follow;
mod mentions;
mod poses;
mod roster;
mod rule;
mod rules;
mod steps;
mod then;
mod unknown;
mod uses;

pub use explain::{explain, rule_facts};
pub use roster::{member, not_yet, result};
pub use rule::Rule;

use crate::finding::{Code, Finding, Severity, sort};
use crate::gym::Gym;
use rayon::prelude::*;

/// Every rule, reading's own first, then in the order of the book: club, words, movements,
/// ladders, sessions, cycles.
pub fn rules() -> &'static [Rule] {
    rules::RULES
}

/// Everything that is wrong with the library: what reading found and what the rules find, without
/// the advice that the club has switched off with a reason; sorted by file and place.
pub fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    let mut findings = library.findings.clone();
    let asked = rules().par_iter().filter_map(|rule| rule.run);
    findings.par_extend(asked.flat_map_iter(|run| run(gym)));
    findings.retain(|finding| finding.severity != Severity::Advice || !is_off(finding.code, gym));
    follow::causes_only(&mut findings, gym);
    sort(&mut findings, &library.sources);
    findings
}

/// Whether there is an error, which a build refuses: only the rules that find any are asked.
pub fn has_errors(gym: &Gym) -> bool {
    let is_error = |finding: &Finding| finding.severity == Severity::Error;
    let serious = rules().par_iter().filter(|rule| rule.severity == Severity::Error);
    gym.library.findings.iter().any(is_error)
        || serious.filter_map(|rule| rule.run).any(|run| run(gym).iter().any(is_error))
}

/// Traits that are named and not there: whoever avoids one is kept from nothing by it.
pub fn unknown_traits(gym: &Gym) -> Vec<Finding> {
    rules::unknown_trait::RULE.run.map_or_else(Vec::new, |run| run(gym))
}

/// Whether the club has switched advice off, and said why.
fn is_off(code: Code, gym: &Gym) -> bool {
    let silenced = &gym.library.club.silenced;
    silenced.iter().any(|off| off.code.value == code.0 && off.because.is_some())
}

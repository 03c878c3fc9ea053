//! A movement on no ladder and with no link.
//! Never invents a link.

use crate::check::Rule;
use crate::check::unknown::something_is_unread;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("orphan-movement"),
    severity: Severity::Warning,
    what: "A movement is on no ladder, and no link leads to or from it.",
    why: "Whoever cannot do it, or lacks its kit, is left with nothing else to do.",
    example: r#"
beside: []        (and no ladder has it)
"#,
    next: "Put it on a ladder, or add `beside: [{to: ..., because: ...}]`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    if something_is_unread(library) {
        return Vec::new(); // The ladder that holds it may be the file that could not be read.
    }
    let orphans = gym.ladders.dead_ends(library).into_iter();
    orphans
        .filter_map(|id| library.movements.get(id))
        .map(|movement| {
            let headline =
                format!("`{}` is on no ladder and no link leads to or from it", movement.id);
            let help = "put it on a ladder, or add `beside: [{to: ..., because: ...}]`";
            RULE.finding(headline, movement.name.span).help(help)
        })
        .collect()
}

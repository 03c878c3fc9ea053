//! A movement whose pattern is not the folder it stands in.
//! Never says which of the two is right.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pattern-not-folder"),
    severity: Severity::Error,
    what: "A movement's `pattern` differs from the folder that holds it.",
    why: "Whoever looks for it looks in the wrong place, and one of the two is a slip.",
    example: r#"
content/movements/squat/strap-row.md:
pattern: pull-horizontal
"#,
    next: "Move the file, or correct the pattern.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let movements = gym.library.movements.values();
    let astray = movements.filter(|m| m.pattern.as_str() != m.folder);
    astray
        .map(|movement| {
            let folder = match movement.folder.as_str() {
                "" => "no pattern's folder".to_string(),
                folder => format!("the folder `{folder}`"),
            };
            let pattern = &movement.pattern;
            let headline =
                format!("`{}` is a `{}` movement in {folder}", movement.id, pattern.value);
            let help =
                format!("move the file to movements/{}/, or correct the pattern", pattern.value);
            RULE.finding(headline, pattern.span).help(help)
        })
        .collect()
}

//! A movement linked to itself.
//! Never follows links further.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("beside-itself"),
    severity: Severity::Error,
    what: "A movement stands beside itself.",
    why: "Whoever cannot do it is sent back to it.",
    example: r#"
content/movements/pull-horizontal/strap-row.md:
beside: [{to: strap-row, because: no straps}]
"#,
    next: "Name another movement, or remove the link.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let movements = gym.library.movements.values();
    let links = movements.flat_map(|m| m.beside.iter().map(move |link| (m, link)));
    links
        .filter(|(movement, link)| link.to.value == movement.id)
        .map(|(movement, link)| {
            RULE.finding(format!("`{}` stands beside itself", movement.id), link.to.span)
                .help("name another movement, or remove the link")
        })
        .collect()
}

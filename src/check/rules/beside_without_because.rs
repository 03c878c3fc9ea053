//! A link that does not say when to take it.
//! Never invents a reason.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("beside-without-because"),
    severity: Severity::Warning,
    what: "A link to a movement beside does not say why one would go there.",
    why: "Every suggestion carries its reason.",
    example: r#"
beside: [{to: towel-row}]
"#,
    next: "Add `because: ...` to the link.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let links = gym.library.movements.values().flat_map(|movement| &movement.beside);
    let bare = links.filter(|link| link.because.is_none());
    bare.map(|link| {
        RULE.finding(format!("the link to `{}` has no reason", link.to.value), link.to.span)
            .help("add `because: ...`, such as `no straps`")
    })
    .collect()
}

//! A movement that somebody without the hall's kit can replace with nothing.
//! Never ranks; the swap room finds what stands for it.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::swap;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("kit-free-dead-end"),
    severity: Severity::Advice,
    what: "Nothing in the library does the work of a movement with household kit or none.",
    why: "Half the class trains at home; here the only answer is to ask the coach.",
    example: r#"
name: Lat pulldown
pattern: pull-vertical
kit: [pulldown-machine]        # and no other vertical or horizontal pull without hall kit
"#,
    next: "Add a movement of the same pattern and prime movers that a household can do, or link one.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let stuck = swap::kit_free_dead_ends(gym);
    let movements = stuck.iter().filter_map(|id| gym.library.movements.get(id));
    movements
        .map(|movement| {
            let headline = format!("`{}` has no swap without hall kit", movement.id);
            RULE.finding(headline, movement.name.span).help(
                "add a movement of its pattern and prime movers that needs household kit or none",
            )
        })
        .collect()
}

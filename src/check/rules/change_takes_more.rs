//! A change that takes more out of a movement than its words say.
//! Never asks whether the movement has the trait; only whether somebody said how it goes.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::{ChangeOf, TraitChange};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("change-takes-more"),
    severity: Severity::Warning,
    what: "An entry lets a change lessen a trait that its general words do not, and does not say how.",
    why: "On fists the floor is as far away as before: who must not get down there is offered it all the same.",
    example: r#"
changes: [{use: fists, leaves: {loaded-wrist-extension: 0, floor-transfer: 0}}]
"#,
    next: "Say here with `how: ...` what takes the trait out, or leave the trait out of the change.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let general = &gym.library.words.changes;
    let own = gym.library.movements.values().flat_map(|movement| &movement.changes);
    let silent = own.filter(|own| own.how.is_none());
    silent.filter_map(|own| Some((own, general.get(&own.id.value)?))).flat_map(more).collect()
}

fn more((own, general): (&ChangeOf, &TraitChange)) -> Vec<Finding> {
    let written = own.leaves.iter().flatten().map(|(id, _)| id).chain(own.eases.iter().flatten());
    let lessened = |id| {
        general.leaves.iter().any(|(known, _)| known.value == id)
            || general.eases.iter().any(|known| known.value == id)
    };
    let extra = written.filter(|id| !lessened(id.value.clone()));
    extra
        .map(|id| {
            let headline = format!("`{}` does not say how it lessens `{}`", own.id.value, id.value);
            RULE.finding(headline, id.span)
                .help("add `how: ...` here, or take the trait out of the change")
        })
        .collect()
}

//! Effort that no pose shows and that the entry does not say: breath, belly pressure, holds, jolts.
//! Never more than advice: it follows from rules of thumb, stated in `gym::witness::effort`.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::gym::witness::effort::{Expected, expected};
use crate::library::{Dose, Movement, TraitId};
use std::collections::BTreeSet;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("effort-unsaid"),
    severity: Severity::Advice,
    what: "Pattern, purpose, count or dose point to a trait of effort that the entry does not say.",
    why: "Held breath, pressure in the belly, all-out holds and jolts stand in no figure. Who must \
          avoid them relies on the entry alone.",
    example: r#"
pattern: brace
purpose: strength
counts: seconds
traits: {prone: 1}        (and no `maximal-hold`)
"#,
    next: "Write the trait, or say why it does not apply: `maximal-hold: {level: 0, because: ...}`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    gym.library.movements.values().flat_map(|movement| of(gym, movement)).collect()
}

fn of(gym: &Gym, movement: &Movement) -> Vec<Finding> {
    let unsaid = |found: &Expected| {
        let id = TraitId(found.shows.to_string());
        let overruled = movement.trait_of(&id).is_some_and(|of| of.because.is_some());
        let known = gym.library.words.traits.contains_key(&id);
        known && !overruled && movement.trait_level(&id) < found.level
    };
    let all = expected(movement, gym.posed.get(&movement.id), &doses(gym, movement));
    // Two rules may point to one trait; the first says it.
    let mut said = BTreeSet::new();
    all.into_iter()
        .filter(unsaid)
        .filter(|found| said.insert(found.shows))
        .map(|found| finding(movement, &found))
        .collect()
}

/// The doses that rungs of this movement have of their own, or else from their ladder.
fn doses<'g>(gym: &'g Gym, movement: &Movement) -> Vec<&'g Dose> {
    let ladders = gym.library.ladders.values();
    let rungs = ladders.flat_map(|ladder| ladder.rungs.iter().map(move |rung| (ladder, rung)));
    rungs
        .filter(|(_, rung)| rung.movement.value == movement.id)
        .filter_map(|(ladder, rung)| rung.dose.as_ref().or(ladder.dose.as_ref()))
        .collect()
}

fn finding(movement: &Movement, found: &Expected) -> Finding {
    let Expected { shows, level, words } = found;
    let headline = format!("`{}` may have `{shows}: {level}`: {words}", movement.id);
    RULE.finding(headline, movement.name.span).help(format!(
        "write `{shows}: {level}` under `traits`, or `{{level: 0, because: ...}}` if it does not apply"
    ))
}

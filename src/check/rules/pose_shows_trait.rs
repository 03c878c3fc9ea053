//! The pose shows a trait that the entry does not say, or says lower.
//! Never takes an entry's trait away: an entry may know more than its figure.

use crate::check::{Rule, poses};
use crate::finding::{Code, Finding, Severity};
use crate::gym::witness::{Seen, seen};
use crate::gym::{Gym, Posed};
use crate::library::{Movement, Quantity, TraitId};
use rayon::prelude::*;
use std::collections::BTreeSet;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-shows-trait"),
    severity: Severity::Error,
    what: "The drawn pose shows a trait that the entry does not say, or says lower.",
    why: "Traits decide who is offered a movement. What the figure shows can hurt someone whether \
          the entry says so or not.",
    example: r#"
traits: {}
figure: {start: {hands: floor, toes: floor, body: straight, elbow: 0}}
"#,
    next: "Write the trait at the level that is shown, or keep your level and say why with `because`.",
    run: Some(run),
};

/// Settings by name, with their values.
type At<'a> = Vec<(&'a str, Quantity)>;

fn run(gym: &Gym) -> Vec<Finding> {
    // The ends of settings are solved here, which takes a while: on every core, in the same order.
    let movements: Vec<&Movement> = gym.library.movements.values().collect();
    movements.par_iter().flat_map_iter(|movement| of(gym, movement)).collect()
}

/// Each trait once at each level: at the usual settings, else on the first rung, else at the first
/// end of a setting's range that shows it.
fn of(gym: &Gym, movement: &Movement) -> Vec<Finding> {
    let mut said = BTreeSet::new();
    let mut findings = Vec::new();
    for (at, posed) in poses_of(gym, movement) {
        for seen in beyond(gym, movement, &at, posed) {
            if said.insert((seen.shows, seen.level)) {
                findings.push(finding(gym, movement, &at, &seen));
            }
        }
    }
    findings
}

/// Every pose of a movement that is looked at, with its settings.
fn poses_of<'g>(gym: &'g Gym, movement: &'g Movement) -> Vec<(At<'g>, &'g Posed)> {
    let usual = gym.posed.get(&movement.id).map(|posed| (At::new(), posed));
    let own = gym.rungs.iter().filter(|(key, _)| key.movement == movement.id);
    let rungs = own.map(|(key, posed)| {
        (key.settings.iter().map(|(name, value)| (name.as_str(), *value)).collect(), posed)
    });
    let ends = gym.at_ends(movement).iter();
    let ends = ends.map(|end| (At::from([(end.at.0.as_str(), end.at.1)]), &end.posed));
    usual.into_iter().chain(rungs).chain(ends).collect()
}

/// What the pose shows beyond what the entry says, of traits that the library has words for.
fn beyond(gym: &Gym, movement: &Movement, at: &At, posed: &Posed) -> Vec<Seen> {
    let Some(figure) = &posed.figure else { return Vec::new() };
    let unsaid = |seen: &Seen| {
        let id = TraitId(seen.shows.to_string());
        let overruled = movement.trait_of(&id).is_some_and(|of| of.because.is_some());
        let known = gym.library.words.traits.contains_key(&id);
        known && !overruled && movement.level_at(&id, at) < seen.level
    };
    seen(figure).into_iter().filter(unsaid).collect()
}

fn finding(gym: &Gym, movement: &Movement, at: &At, seen: &Seen) -> Finding {
    let Seen { shows, level, words, pose, .. } = seen;
    let id = TraitId(shows.to_string());
    let settings: Vec<String> = at.iter().map(|(name, value)| format!("{name} {value}")).collect();
    let at_settings = match settings.is_empty() {
        true => String::new(),
        false => format!(", at {}", settings.join(", ")),
    };
    let less = movement.level_at(&id, at);
    let says = match less {
        0 => "the entry says nothing of it".to_string(),
        _ => format!("the entry says {less}"),
    };
    let headline = format!("the pose shows `{shows}: {level}` and {says}: {words}{at_settings}");
    let help = format!(
        "write `{shows}: {level}`, or keep yours and say why: `{shows}: {{level: {less}, because: ...}}`"
    );
    let place = poses::written_at(gym, movement, seen.at);
    let found = RULE.finding(headline, place).label(format!("in `{}`", pose.word())).help(help);
    match movement.trait_of(&id) {
        Some(of) => found.also(of.id.span, "said here"),
        None => found,
    }
}

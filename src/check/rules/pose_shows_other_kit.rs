//! The figure shows kit that is not what the entry names first.
//! Never asks for kit that a figure leaves out: a box to step up from need not be drawn.

use crate::check::{Rule, poses};
use crate::finding::{Code, Finding, Severity};
use crate::gym::{Gym, Posed};
use crate::library::{KitId, KitNeed, Movement};
use crate::mechanics::words::contact::{Contact, Surface};
use crate::mechanics::words::props::Item;
use crate::mechanics::words::recipe::Recipe;
use std::collections::BTreeSet;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-shows-other-kit"),
    severity: Severity::Warning,
    what: "The figure shows kit that the entry does not name, or not the one it names first.",
    why: "A member sets up what the picture shows. Where several things serve, the picture shows \
          the first of them.",
    example: r#"
kit: [[bench, chair]]
figure: {start: {near: {foot: floor}, far: {toes: "chair 45, 78 behind near foot"}}}
"#,
    next: "Draw the kit that the entry names first, or put what is drawn first in its list.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (id, posed) in &gym.posed {
        let Some(movement) = gym.library.movements.get(id) else { continue };
        let mut said = BTreeSet::new();
        for (word, kit, at) in drawn(posed) {
            // A library that has no such kit at all has its own words for it.
            let known = |name: &str| gym.library.words.kit.keys().any(|k| k.as_str() == name);
            if kit.iter().any(|name| known(name)) && said.insert(word) {
                findings.extend(amiss(movement, (word, &kit, at), gym));
            }
        }
    }
    findings
}

/// What is wrong with one drawn thing: its word, the kit it may be, where it is written.
fn amiss(movement: &Movement, drawn: (&str, &[&str], usize), gym: &Gym) -> Option<Finding> {
    let (word, kit, at) = drawn;
    let is = |id: &KitId| kit.contains(&id.as_str());
    let span = poses::written_at(gym, movement, at);
    let need = movement.kit.iter().find(|need| need.0.iter().any(|id| is(&id.value)));
    let Some(KitNeed(any)) = need else {
        let headline = format!("the figure shows `{word}`, which the entry does not name");
        return Some(
            RULE.finding(headline, span)
                .help(format!("name `{}` under `kit`, or draw the kit that it names", kit[0])),
        );
    };
    let first = any.first().filter(|first| !is(&first.value))?;
    let headline =
        format!("the figure shows `{word}`, but the entry names `{}` first", first.value);
    Some(
        RULE.finding(headline, span).also(first.span, "named first").help(format!(
            "draw `{}`, or put the one that is drawn first in the list",
            first.value
        )),
    )
}

/// Everything drawn that could be kit: its word, the kit ids it may stand for, where it is said.
fn drawn(posed: &Posed) -> Vec<(&'static str, Vec<&'static str>, usize)> {
    let Some(figure) = &posed.figure else { return Vec::new() };
    let Recipe { poses, held, at, .. } = &figure.recipe;
    let mut all: Vec<_> = poses
        .iter()
        .flat_map(|pose| &pose.contacts)
        .filter(|contact| stands(contact))
        .map(|contact| (contact.surface.word(), surface_kit(contact.surface), contact.at))
        .collect();
    if let Some(held) = held.as_ref().filter(|held| !held.is_nothing()) {
        let kit = item_kit(held.item);
        all.extend(kit.first().copied().map(|word| (word, kit, *at)));
    }
    all.retain(|(_, kit, _)| !kit.is_empty());
    all
}

/// Feet "on a box" of 0 cm stand on the floor.
fn stands(contact: &Contact) -> bool {
    !contact.surface.is_block() || contact.height.is_some_and(|h| h >= 0.01)
}

fn surface_kit(surface: Surface) -> Vec<&'static str> {
    match surface {
        Surface::Floor | Surface::Air => Vec::new(),
        Surface::Bar => vec!["pull-up-bar", "doorframe-bar", "low-bar"],
        Surface::ParallelBars => vec!["parallel-bars"],
        // A towel slides under a heel as well.
        Surface::Slider => vec!["slider", "towel"],
        other => vec![other.word()],
    }
}

fn item_kit(item: Item) -> Vec<&'static str> {
    match item {
        Item::Dumbbell => vec!["dumbbell"],
        Item::Kettlebell => vec!["kettlebell"],
        Item::Backpack => vec!["backpack"],
        Item::Bottle => vec!["water-bottle"],
        Item::Stick => vec!["stick"],
        Item::Towel => vec!["towel"],
        // Any weight.
        Item::Plate => Vec::new(),
    }
}

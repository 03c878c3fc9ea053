//! Poses of a library, solved and weighed: one for each movement, one for each rung.
//! Never draws; solving runs on every core, and the result does not depend on how many there are.

use crate::finding::Placed;
use crate::kept::{Inputs, Kept, Print};
use crate::ladder::{LadderGraph, RungKey};
use crate::library::reader::node::{Kind, Node};
use crate::library::{Library, Movement, MovementId, Quantity, Setting, SettingName, Unit};
use crate::mechanics::demand::{Demand, demand};
use crate::mechanics::guard::checked;
use crate::mechanics::node::{PoseNode, PoseProblem};
use crate::mechanics::solve::{Person, SolvedFigure};
use crate::mechanics::words::number::SettingValue;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// A pose at its settings: the solved figure, what it asks, and what is wrong with it.
#[derive(Debug, Clone)]
pub struct Posed {
    /// The solved figure; nothing when there is no start to solve.
    pub figure: Option<SolvedFigure>,
    /// What it asks of the body.
    pub demand: Option<Demand>,
    /// What is wrong with it, at bytes of the movement's file.
    pub problems: Vec<PoseProblem>,
    /// The print of everything that the figure follows from, for what is made from it alone.
    pub print: Print,
}

/// A pose at one end of a setting's range.
#[derive(Debug, Clone)]
pub struct AtEnd {
    /// The setting and its value.
    pub at: (SettingName, Quantity),
    /// The pose there.
    pub posed: Posed,
}

/// The person for whom figures are drawn and demands are shown: 1.72 m, 70 kg, Winter's table.
pub fn pose_person() -> Person {
    Person::default()
}

/// Every movement's pose at its usual settings.
pub fn movements(library: &Library, kept: &Kept) -> BTreeMap<MovementId, Posed> {
    let movements: Vec<&Movement> = library.movements.values().collect();
    let solve = |movement: &&Movement| {
        Some((movement.id.clone(), found(kept, movement, &[], &pose_person())?))
    };
    movements.par_iter().filter_map(solve).collect()
}

/// Every rung's pose at the rung's settings.
pub fn rungs(library: &Library, ladders: &LadderGraph, kept: &Kept) -> BTreeMap<RungKey, Posed> {
    let keys: Vec<&RungKey> = ladders.rungs().map(|(_, key)| key).collect();
    let solve = |key: &&RungKey| {
        let movement = library.movements.get(&key.movement)?;
        let at: Vec<(&str, Quantity)> =
            key.settings.iter().map(|(name, value)| (name.as_str(), *value)).collect();
        Some(((*key).clone(), found(kept, movement, &at, &pose_person())?))
    };
    keys.par_iter().filter_map(solve).collect()
}

/// The poses at both ends of every setting that a figure can show: people use heights and weights
/// that no ladder names. Seconds move nothing. One after the other: a [`std::sync::OnceLock`] waits for
/// this, and work shared out from under such a lock can come to wait for itself.
pub fn at_ends(movement: &Movement, kept: &Kept) -> Vec<AtEnd> {
    let shown = movement.settings.iter().filter(|(_, setting)| setting.unit != Unit::Second);
    let both =
        shown.flat_map(|(name, s)| [(name.value.clone(), s.from), (name.value.clone(), s.to)]);
    let ends: Vec<(SettingName, Quantity)> = both.collect();
    let solve = |at: &(SettingName, Quantity)| {
        let posed = found(kept, movement, &[(at.0.as_str(), at.1)], &pose_person())?;
        Some(AtEnd { at: at.clone(), posed })
    };
    ends.iter().filter_map(solve).collect()
}

/// The pose of a movement for `person`, with some settings given and the others as usual.
pub fn posed(movement: &Movement, at: &[(&str, Quantity)], person: &Person) -> Option<Posed> {
    found(&Kept::default(), movement, at, person)
}

/// The same, solved only where it is not kept. A pose is the same wherever its entry has it: places
/// are counted from where the figure begins, and from the file's beginning only afterwards.
pub fn found(
    kept: &Kept,
    movement: &Movement,
    at: &[(&str, Quantity)],
    person: &Person,
) -> Option<Posed> {
    let node = movement.figure.as_ref()?;
    let settings = settings(movement, at);
    let base = node.span.start as usize;
    let tree = tree_from(node, base);
    let print = print(&tree, &settings, person);
    let (figure, demand, mut problems) = kept.get(print, || {
        let (figure, problems) = checked(&tree, 0, &settings, person);
        let demand = figure.as_ref().map(demand);
        (figure, demand, problems)
    });
    problems.iter_mut().for_each(|problem| problem.at += base);
    let figure = figure.map(|figure: SolvedFigure| figure.written_on(base));
    Some(Posed { figure, demand, problems, print })
}

/// A movement's settings as the mechanics room reads them: what is given, the others as usual.
pub(super) fn settings(movement: &Movement, at: &[(&str, Quantity)]) -> Vec<SettingValue> {
    let one = |(name, setting): &(Placed<SettingName>, Setting)| {
        let given = at.iter().find(|(known, _)| *known == name.as_str()).map(|(_, value)| *value);
        let usual = setting.usual.as_ref().map(|usual| usual.value);
        setting_value(name.as_str(), given.or(usual).unwrap_or(setting.from))
    };
    movement.settings.iter().map(one).collect()
}

/// Everything that a solved pose follows from.
fn print(tree: &PoseNode, settings: &[SettingValue], person: &Person) -> Print {
    let inputs = add_tree(Inputs::of("posed"), tree).whole(settings.len() as u64);
    let add = |inputs: Inputs, setting: &SettingValue| {
        inputs.text(&setting.name).number(setting.value).text(&setting.unit)
    };
    let inputs = settings.iter().fold(inputs, add);
    let inputs = inputs.number(person.stature).number(person.kilograms);
    inputs.text(person.table.name()).print()
}

fn add_tree(inputs: Inputs, tree: &PoseNode) -> Inputs {
    match tree {
        PoseNode::Text(text) => inputs.whole(0).text(text),
        PoseNode::List(items) => {
            let inputs = inputs.whole(1).whole(items.len() as u64);
            items.iter().fold(inputs, |inputs, (item, at)| add_tree(inputs.whole(*at as u64), item))
        }
        PoseNode::Map(entries) => {
            let inputs = inputs.whole(2).whole(entries.len() as u64);
            entries.iter().fold(inputs, |inputs, (key, at, value, value_at)| {
                let inputs = inputs.text(key).whole(*at as u64).whole(*value_at as u64);
                add_tree(inputs, value)
            })
        }
    }
}

fn setting_value(name: &str, value: Quantity) -> SettingValue {
    let unit = value.unit.symbol().to_string();
    SettingValue { name: name.to_string(), value: value.number(), unit }
}

/// The entry's tree as the mechanics room reads it.
pub fn pose_tree(node: &Node) -> PoseNode {
    tree_from(node, 0)
}

/// The same with its places counted from a byte of the file.
fn tree_from(node: &Node, base: usize) -> PoseNode {
    let place = |start: u32| (start as usize).saturating_sub(base);
    match &node.kind {
        Kind::Empty => PoseNode::Text(String::new()),
        Kind::Scalar(text) => PoseNode::Text(text.clone()),
        Kind::List(items) => PoseNode::List(
            items.iter().map(|item| (tree_from(item, base), place(item.span.start))).collect(),
        ),
        Kind::Map(entries) => PoseNode::Map(
            entries
                .iter()
                .map(|(key, value)| {
                    let (at, value_at) = (place(key.span.start), place(value.span.start));
                    (key.value.clone(), at, tree_from(value, base), value_at)
                })
                .collect(),
        ),
    }
}

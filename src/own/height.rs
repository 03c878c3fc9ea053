//! Height: a rung at a height of the person's own, the counter in place of the box.
//! Never a height that asks for what they leave out, nor, without a result, one that asks more.

use super::member::Member;
use super::standing::{number, setting_of};
use super::words::told;
use crate::gym::Gym;
use crate::library::{KitId, KitKind, Ladder, Movement, Quantity, Unit};
use crate::placing::{RungDemand, demand_at, demands_of, share_table};
use crate::swap::{Change, Fit, RungOf, fit, kit_name, taken};

/// A height is the written one within this much, cm: a shoe's worth. Common practice, no source.
const SAME_CM: f64 = 2.5;
/// Nobody is sent to a height that asks more than their rung by more than this share of body mass.
const NO_HARDER: f64 = 0.005;

/// A rung as a person does it.
#[derive(Debug, Clone)]
pub(super) struct Stood<'g> {
    /// The rung, at their own height where they have one.
    pub rung: RungOf,
    /// Its setting in words.
    pub setting: String,
    /// What it asks there, where that is not what the rung asks.
    pub demand: Option<RungDemand>,
    /// What is said about it; empty where nothing is.
    pub say: String,
    /// The answer for it.
    pub fit: Fit<'g>,
}

/// Why a rung cannot be stood on.
#[derive(Debug, Clone)]
pub(super) enum NotHere {
    /// No height at home is near enough.
    NoHeight,
    /// Limits, kit or noise; with the rung that met them.
    Out(RungOf),
}

/// The rung at `at` for a person: as written where no height of their own is known, else at the one
/// nearest in demand, those that need no change first.
pub(super) fn stand<'g>(
    gym: &'g Gym,
    (ladder, at): (&Ladder, usize),
    member: &Member,
) -> Result<Stood<'g>, NotHere> {
    let written = RungOf::on(gym, &ladder.id, at).ok_or(NotHere::NoHeight)?;
    let heights = heights_for(gym, (ladder, at), member);
    if heights.is_empty() {
        let answer = fit(gym, &member.person, &written);
        return match answer {
            Fit::Out(_) => Err(NotHere::Out(written)),
            fit => Ok(Stood {
                setting: written.said_changed(made(&fit)),
                rung: written,
                demand: None,
                say: String::new(),
                fit,
            }),
        };
    }
    let here = heights.iter().map(|(id, cm)| {
        let rung = at_height(&written, *cm);
        (id, *cm, fit(gym, &member.person, &rung), rung)
    });
    let here: Vec<Here<'g, '_>> = here.collect();
    let fine: Vec<_> = here.iter().filter(|one| one.2 == Fit::Fine).collect();
    let changed: Vec<_> = here.iter().filter(|one| matches!(one.2, Fit::Changed(_))).collect();
    if let ([], [], Some(first)) = (&fine[..], &changed[..], here.first()) {
        return Err(NotHere::Out(first.3.clone()));
    }
    let near = |list: &[&Here<'g, '_>]| nearest(gym, (ladder, at), member, list);
    near(&fine).or_else(|| near(&changed)).ok_or(NotHere::NoHeight)
}

/// A thing at home, its height in cm, the answer for the rung there, and that rung.
type Here<'g, 'k> = (&'k KitId, f64, Fit<'g>, RungOf);

fn nearest<'g>(
    gym: &'g Gym,
    (ladder, at): (&Ladder, usize),
    member: &Member,
    heights: &[&Here<'g, '_>],
) -> Option<Stood<'g>> {
    let rung = ladder.rungs.get(at)?;
    let table = share_table(gym, gym.library.movements.get(&rung.movement.value)?)?;
    let written = setting_of(rung, &table.setting)?;
    let replaced = |fit: &Fit<'_>| taken(made(fit), &table.setting);
    let said = |id: &KitId, cm: f64, fit: &Fit<'_>| match replaced(fit) {
        true => String::new(),
        false => format!("{} {cm} cm", kit_name(gym, id)),
    };
    if let Some((id, cm, fit, rung)) =
        heights.iter().find(|(_, cm, ..)| (cm - written).abs() <= SAME_CM)
    {
        let (rung, setting, fit) = (rung.clone(), said(id, *cm, fit), fit.clone());
        return Some(Stood { rung, setting, demand: None, say: String::new(), fit });
    }
    let wanted = demands_of(gym, ladder, member.stature).get(at).copied().flatten()?;
    let possible = heights.iter().filter_map(|here| {
        let demand = demand_at(gym, ladder, (at, here.1), member.stature)?;
        (demand.share <= wanted.share + NO_HARDER).then_some((*here, demand))
    });
    let off = |demand: &RungDemand| (demand.share - wanted.share).abs();
    let ((id, cm, fit, rung), demand) = possible.min_by(|a, b| off(&a.1).total_cmp(&off(&b.1)))?;
    let asks = if demand.share > wanted.share { "more" } else { "less" };
    let say = format!(
        "{} {} is {cm} cm, where the rung says {written} cm, and asks {asks}.",
        told(member, "Your", "Their"),
        kit_name(gym, id)
    );
    let say = if replaced(fit) { String::new() } else { say };
    let (rung, setting, fit) = (rung.clone(), said(id, *cm, fit), fit.clone());
    Some(Stood { rung, setting, demand: Some(demand), say, fit })
}

fn made<'f, 'g>(fit: &'f Fit<'g>) -> &'f [Change<'g>] {
    if let Fit::Changed(made) = fit { made } else { &[] }
}

fn at_height(written: &RungOf, cm: f64) -> RungOf {
    let mut rung = RungOf { measured: true, ..written.clone() };
    for (_, value) in &mut rung.key.settings {
        *value = Quantity::new(cm, Unit::Centimetre);
    }
    rung
}

/// The household heights that can stand for a rung's; none where the rung has no height in cm, where
/// no kit was picked, or where no height of it is known.
fn heights_for(gym: &Gym, (ladder, at): (&Ladder, usize), member: &Member) -> Vec<(KitId, f64)> {
    let found = || {
        let rung = ladder.rungs.get(at)?;
        let movement = gym.library.movements.get(&rung.movement.value)?;
        let table = share_table(gym, movement).filter(|table| table.unit == Unit::Centimetre)?;
        setting_of(rung, &table.setting)?;
        let kit = member.person.kit.as_ref().filter(|_| rung.settings.len() == 1)?;
        let serves = asked_kit(gym, movement).filter(|id| kit.contains(*id));
        let known = serves.filter_map(|id| Some((id.clone(), *member.heights.get(id)?)));
        Some(known.collect())
    };
    found().unwrap_or_default()
}

/// Kit that a movement asks for and that a place may lack.
fn asked_kit<'g>(gym: &'g Gym, movement: &'g Movement) -> impl Iterator<Item = &'g KitId> {
    let kit = &gym.library.words.kit;
    let anywhere = move |id: &KitId| kit.get(id).is_some_and(|k| k.kind == KitKind::Anywhere);
    let needs = movement.kit.iter();
    let needs = needs.filter(move |need| !need.0.iter().any(|id| anywhere(&id.value)));
    needs.flat_map(|need| need.0.iter().map(|id| &id.value))
}

/// `Incline push-up, hands 60 cm`.
pub(super) fn named(gym: &Gym, ladder: &Ladder, at: usize) -> String {
    let Some(rung) = ladder.rungs.get(at) else { return format!("rung {}", number(at)) };
    let movement = gym.library.movements.get(&rung.movement.value);
    let name = movement.map_or(rung.movement.value.as_str(), |movement| &movement.name.value);
    let settings = rung.settings_said();
    std::iter::once(name.to_string()).chain(settings).collect::<Vec<_>>().join(", ")
}

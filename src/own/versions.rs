//! Versions: every way in which a line fits a person, in the order in which their own is chosen.
//! Never one that the same filter leaves out: rungs and swaps come from the answer itself.

use super::answer::{Asked, as_asked, as_it_is, asked_rung, on_rung, swapped};
use super::held::held;
use super::line::{Line, Work, compared_as};
use super::member::Member;
use super::standing::number;
use super::words::starts_low;
use super::{Kind, Own};
use crate::gym::Gym;
use crate::library::{KitId, KitNeed, Ladder, Movement};
use crate::placing::Target;
use crate::swap::{Answer, Change, Fit, RungOf, Swap, fit, needs_at, swaps};

/// A way in which a line fits a person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Version {
    /// How it is done.
    pub own: Own,
    /// The rung as it was asked for.
    pub rung: RungOf,
    /// How many rungs it stands below what the line asks of them; a swap stands below the lowest.
    pub below: u32,
    /// Of a swap: how alike the work is, in thousandths.
    pub alike: Option<u32>,
    /// How many changes are made.
    pub changes: u32,
    /// Kit that it needs, each a choice.
    pub needs: Vec<Vec<KitId>>,
    /// Whether the first of these is held in each hand: two of the same kind.
    pub each_hand: bool,
    /// What the line asks of the rung that it is or stands for.
    pub asked: Option<Target>,
}

/// Every version of a line: from the own rung downward, then the swaps; empty where a coach decides.
/// Asked for one at a time, since swaps are seldom needed and cost the most.
pub fn versions<'a>(
    gym: &'a Gym,
    line: &'a Line<'a>,
    member: &'a Member,
) -> Box<dyn Iterator<Item = Version> + 'a> {
    match &line.work {
        Work::Ladder(ladder, middle) => on_ladder(gym, (ladder, *middle), line, member),
        Work::Movement(movement, rung) => {
            // Who starts low does here what they would do on its ladder, as in an own version.
            if let Some(held) = held(gym, (movement, rung), line, member) {
                let ladder = (held.ladder, held.own.rung);
                let found: Vec<_> = on_ladder(gym, ladder, &held.line, member).collect();
                return Box::new(found.into_iter());
            }
            let first = move || {
                let own = as_it_is(gym, (movement, rung), line, member)?;
                let found = version(gym, own, (rung, 0), member);
                Some(Version { asked: line.asks(0), ..found })
            };
            let asked = Asked {
                rung: rung.clone(),
                target: line.asks(0),
                line,
                why: vec![format!("In place of {}.", movement.name.value)],
            };
            let others = std::iter::once(asked)
                .flat_map(move |asked| swapped_versions(gym, &asked, 1, member));
            Box::new(std::iter::once_with(first).flatten().chain(others))
        }
        Work::Options(options) => of_options(gym, options, member),
        Work::Nothing => Box::new(std::iter::empty()),
    }
}

fn on_ladder<'a>(
    gym: &'a Gym,
    (ladder, middle): (&'a Ladder, u32),
    line: &'a Line<'a>,
    member: &'a Member,
) -> Box<dyn Iterator<Item = Version> + 'a> {
    let own = asked_rung(gym, ladder, (line, middle), member);
    let top = (own.rung as usize).min(ladder.rungs.len());
    let why = own.why.clone();
    let rungs = (0..top).rev().filter_map(move |at| {
        let rung = RungOf::on(gym, &ladder.id, at)?;
        let found = on_rung(gym, (ladder, at), line, member).ok()?;
        let why = std::iter::once(why.clone()).chain(found.why).collect();
        let below = number(top) - number(at) - 1;
        let found = version(gym, Own { why, ..found }, (&rung, below), member);
        Some(Version { asked: line.asks(at), ..found })
    });
    let others = std::iter::once_with(move || {
        let at = top.saturating_sub(1);
        let rung = RungOf::on(gym, &ladder.id, at)?;
        let asked = Asked { rung, target: line.asks(at), line, why: vec![own.why] };
        Some(swapped_versions(gym, &asked, number(at), member))
    });
    Box::new(rungs.chain(others.flatten().flatten()))
}

/// From the middle option, or the lowest where a situation says so, downward; then what stands for it.
fn of_options<'a>(
    gym: &'a Gym,
    options: &'a [Line<'a>],
    member: &'a Member,
) -> Box<dyn Iterator<Item = Version> + 'a> {
    let start = if starts_low(gym, member).is_some() { 0 } else { options.len() / 2 };
    let Some(first) = options.get(start) else { return Box::new(std::iter::empty()) };
    let is_own = |version: &Version| matches!(version.own.kind, Kind::Fine | Kind::Changed);
    let own = options[..=start].iter().rev().zip(0..).flat_map(move |(line, lower)| {
        let found = versions(gym, line, member).take_while(is_own);
        found.map(move |one| Version { below: one.below + lower, ..one })
    });
    let lowest = number(start) - 1;
    let others = versions(gym, first, member).skip_while(is_own);
    Box::new(own.chain(others.map(move |one| Version { below: one.below + lowest, ..one })))
}

fn version(gym: &Gym, own: Own, (rung, below): (&RungOf, u32), member: &Member) -> Version {
    let changes = match fit(gym, &member.person, rung) {
        Fit::Changed(changes) => changes,
        Fit::Fine | Fit::Out(_) => Vec::new(),
    };
    let (needs, each_hand) = needs(gym, rung, &changes);
    let changes = u32::try_from(changes.len()).unwrap_or(u32::MAX);
    Version { own, rung: rung.clone(), below, alike: None, changes, needs, each_hand, asked: None }
}

/// Kit for a rung and its changes, and whether the first of it is held in each hand.
fn needs(gym: &Gym, rung: &RungOf, changes: &[Change<'_>]) -> (Vec<Vec<KitId>>, bool) {
    let movement = gym.library.movements.get(&rung.key.movement);
    let own = movement.map(|movement| needs_at(movement, rung)).unwrap_or_default();
    let in_hands = |movement: &Movement| movement.settings.iter().any(|(_, one)| one.each_hand);
    let each_hand = !own.is_empty() && movement.is_some_and(in_hands);
    let ids = |need: &KitNeed| need.0.iter().map(|id| id.value.clone()).collect();
    let all = own.iter().chain(changes.iter().flat_map(|change| change.kit()));
    (all.map(ids).collect(), each_hand)
}

fn swapped_versions(gym: &Gym, asked: &Asked<'_, '_>, below: u32, member: &Member) -> Vec<Version> {
    let Some(from) = gym.library.movements.get(&asked.rung.key.movement) else { return Vec::new() };
    let compared = match asked.rung.place {
        Some(_) => asked.rung.clone(),
        None => compared_as(gym, from, &asked.rung).1,
    };
    let person = as_asked(gym, asked.line, member);
    let Answer::Swaps(found) = swaps(gym, &compared, &person, None) else { return Vec::new() };
    found.iter().map(|swap| of_swap(gym, asked, (from, swap, below), member)).collect()
}

fn of_swap(
    gym: &Gym,
    asked: &Asked<'_, '_>,
    (from, swap, below): (&Movement, &Swap<'_>, u32),
    member: &Member,
) -> Version {
    let (needs, each_hand) = needs(gym, &swap.rung, &swap.changes);
    Version {
        own: swapped(gym, asked, (from, swap), member),
        rung: swap.rung.clone(),
        below,
        alike: Some(swap.candidate.score.total.min(1000)),
        changes: u32::try_from(swap.changes.len()).unwrap_or(u32::MAX),
        needs,
        each_hand,
        asked: asked.target,
    }
}

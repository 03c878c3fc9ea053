//! Counted: what of a board in class is in use at each moment, what changed, and what else somebody could have
//! done, every way of it tried.
//! Never asks the room `board` whether a count is kept.

use crate::drawn::GYM;
use rungbook::board::weights::NOTHING;
use rungbook::board::{Offer, Place, Standing};
use rungbook::library::KitId;
use rungbook::own::Kind;
use std::collections::{BTreeMap, BTreeSet};

/// How much of each thing is in use in a block while everybody is where `line_of` says.
pub fn in_use(
    standing: &Standing,
    offer_of: impl Fn(Place) -> Option<Offer>,
    (block, line_of): (usize, &dyn Fn(usize) -> Option<usize>),
) -> BTreeMap<KitId, u32> {
    let mut used = BTreeMap::new();
    let people = standing.class.people.iter().enumerate();
    for (who, _) in people.filter(|(who, one)| standing.here[*who] && !one.at_home) {
        let offer = line_of(who).and_then(|line| offer_of((block, line, who)));
        for id in offer.into_iter().flat_map(|offer| offer.kit) {
            *used.entry(id).or_insert(0) += 1;
        }
    }
    used
}

/// What of a block is used beyond its count at some moment of its clock; where each moves on by themselves,
/// with each at whichever of their lines uses most of it.
pub fn overused(
    standing: &Standing,
    offer_of: &dyn Fn(Place) -> Option<Offer>,
    block: usize,
) -> BTreeMap<KitId, u32> {
    let rota = &standing.rotas[block];
    let mut over: BTreeMap<KitId, u32> = BTreeMap::new();
    let mut note = |used: BTreeMap<KitId, u32>| {
        for (id, n) in used {
            let more = n.saturating_sub(standing.class.hall.count(&id).unwrap_or(n));
            if more > 0 {
                let known = over.entry(id).or_insert(0);
                *known = (*known).max(more);
            }
        }
    };
    for stretch in &rota.stretches {
        let line_of = |who: usize| rota.doing(who, stretch.from_s);
        note(in_use(standing, offer_of, (block, &line_of)));
    }
    if rota.stretches.is_empty() {
        for (id, _) in &GYM.library.club.hall_kit {
            let most = |who: usize| {
                let uses = |line: &usize| {
                    let offer = offer_of((block, *line, who));
                    offer.map_or(0, |one| one.kit.iter().filter(|k| **k == id.value).count())
                };
                (0..rota.lines).max_by_key(uses)
            };
            let used = in_use(standing, offer_of, (block, &most));
            note(used.into_iter().filter(|(known, _)| *known == id.value).collect());
        }
    }
    over
}

/// How many choices must be others where too much is in use: at each moment of its clock one for each piece too
/// many; where each moves on by themselves somebody gives a piece up in all of their lines.
pub fn excess(
    standing: &Standing,
    offer_of: &dyn Fn(Place) -> Option<Offer>,
    block: usize,
) -> usize {
    let rota = &standing.rotas[block];
    if rota.stretches.is_empty() {
        let over: u32 = overused(standing, offer_of, block).values().sum();
        return over as usize * rota.lines;
    }
    let moments: BTreeSet<Vec<Option<usize>>> =
        rota.stretches.iter().map(|stretch| stretch.lines.clone()).collect();
    let at = |lines: &Vec<Option<usize>>| {
        let line_of = |who: usize| lines[rota.group_of(who)?];
        let used = in_use(standing, offer_of, (block, &line_of));
        let more = used
            .into_iter()
            .map(|(id, n)| n.saturating_sub(standing.class.hall.count(&id).unwrap_or(n)));
        more.sum::<u32>() as usize
    };
    moments.iter().map(at).sum()
}

pub fn name_of(standing: &Standing, who: usize) -> String {
    standing.class.people[who].name.clone()
}

/// Whether two offers are the same to do.
pub fn alike(one: Option<&Offer>, other: Option<&Offer>) -> bool {
    let words = |offer: &Offer| {
        let own = &offer.own;
        let said = [&own.setting, &own.change, &own.dose, &own.cue].map(String::clone);
        (own.movement.clone(), said, offer.kit.clone())
    };
    one.map(words) == other.map(words)
}

/// Choices that are others now, of people who were here before.
pub fn changed(before: &Standing, after: &Standing) -> Vec<Place> {
    let both = |who: usize| before.here[who] && after.here[who];
    let places = before.places().into_iter().filter(|(.., who)| both(*who));
    places.filter(|place| !alike(before.offer(*place), after.offer(*place))).collect()
}

/// The least misfit that one person's lines of a block come to while everybody else stays as they were: every
/// way of doing them is tried. Where a clock moves everybody on, each line for itself.
pub fn least_without_moving(before: &Standing, after: &Standing, block: usize, who: usize) -> u32 {
    let lines = after.class.blocks[block].offers.len();
    let all: Vec<Vec<Option<&Offer>>> =
        (0..lines).map(|line| ways(after, (block, line, who))).collect();
    let cost = |ways: &[Option<&Offer>]| -> u32 {
        ways.iter().map(|way| way.map_or(NOTHING, |one| one.misfit.total())).sum()
    };
    let fits = |ways: &[(usize, Option<&Offer>)]| {
        let offer_of = |place: Place| match place.2 == who {
            true => {
                ways.iter().find(|(line, _)| *line == place.1).and_then(|(_, one)| one.cloned())
            }
            false => before.offer(place).cloned(),
        };
        overused(after, &offer_of, block).is_empty()
    };
    if !after.rotas[block].stretches.is_empty() {
        let of_line = |line: usize| {
            let fitting = all[line].iter().filter(|way| fits(&[(line, **way)]));
            fitting.map(|way| cost(&[*way])).min().unwrap_or(NOTHING)
        };
        return (0..lines).map(of_line).sum();
    }
    let mut least = u32::MAX;
    let mut at = vec![0; lines];
    loop {
        let ways: Vec<Option<&Offer>> = (0..lines).map(|line| all[line][at[line]]).collect();
        let numbered: Vec<(usize, Option<&Offer>)> = ways.iter().copied().enumerate().collect();
        if cost(&ways) < least && fits(&numbered) {
            least = cost(&ways);
        }
        // The next of all combinations.
        let Some(line) = (0..lines).find(|line| at[*line] + 1 < all[*line].len()) else {
            return least;
        };
        at[line] += 1;
        at[..line].fill(0);
    }
}

/// Of offers with the same kit the one with the least misfit, and none at all.
pub fn ways(standing: &Standing, (block, line, who): Place) -> Vec<Option<&Offer>> {
    let offers = standing.class.blocks[block].offers[line][who].iter();
    let mut by_kit: BTreeMap<&[KitId], &Offer> = BTreeMap::new();
    for one in offers.filter(|one| one.own.kind != Kind::Ask) {
        let known = by_kit.entry(&one.kit).or_insert(one);
        if one.misfit.total() < known.misfit.total() {
            *known = one;
        }
    }
    by_kit.into_values().map(Some).chain([None]).collect()
}

pub fn misfit(standing: &Standing, block: usize, who: usize) -> u32 {
    let lines = 0..standing.class.blocks[block].offers.len();
    lines
        .map(|line| standing.offer((block, line, who)).map_or(NOTHING, |one| one.misfit.total()))
        .sum()
}

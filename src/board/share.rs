//! Share: the offers of a class as a puzzle, one resource for each thing at each moment.
//! Never counts anybody at home: what they have nobody shares.

use super::class::{Asked, Class};
use super::offers::Offer;
use super::puzzle::{Offered, Outcome, Puzzle, Resource, Set, Solved};
use super::rota::{Moment, Rota};
use super::weights::{HALVES, STATIONS};
use crate::library::{KitId, MovementId, Spread};
use crate::own::Kind;
use std::collections::BTreeMap;

/// A puzzle, and which choice each of its sets is.
#[derive(Debug, Clone, Default)]
pub struct Shared {
    /// The puzzle; its people are places among those in the hall.
    pub puzzle: Puzzle,
    /// Block, line and person of each set.
    pub places: Vec<(usize, usize, usize)>,
    /// What each resource is, and in which block.
    pub things: Vec<(usize, KitId)>,
}

impl Shared {
    /// The blocks of a class, each gone through as its rota says.
    pub fn of(class: &Class, rotas: &[(usize, &Rota)]) -> Shared {
        Shared::among(class, rotas, &class.in_the_hall())
    }

    /// The same for some of those in the hall, by their places.
    pub(super) fn among(class: &Class, rotas: &[(usize, &Rota)], hall: &[usize]) -> Shared {
        let mut shared = Shared::default();
        shared.puzzle.people = hall.len();
        let mut known: BTreeMap<(usize, Moment, KitId), usize> = BTreeMap::new();
        let mut movements: BTreeMap<MovementId, usize> = BTreeMap::new();
        let mut lines = 0;
        for (block, rota) in rotas {
            for (line, of_line) in class.blocks[*block].offers.iter().enumerate() {
                lines += 1;
                for (who, person) in hall.iter().enumerate() {
                    let moment = rota.moment(line, rota.group_of(*person).unwrap_or(0));
                    let mut resource = |id: &KitId| {
                        let count = class.hall.count(id)?;
                        let key = (*block, moment, id.clone());
                        let held = moment == Moment::AnyTime;
                        Some(*known.entry(key).or_insert_with(|| {
                            shared.things.push((*block, id.clone()));
                            shared.puzzle.resources.push(Resource { count, held });
                            shared.puzzle.resources.len() - 1
                        }))
                    };
                    let mut movement = |offer: &Offer| {
                        let next = movements.len();
                        let id = offer.own.movement.clone();
                        let is_done = offer.own.kind != Kind::Ask;
                        is_done.then(|| *movements.entry(id).or_insert(next))
                    };
                    let own = of_line[*person].first().and_then(&mut movement);
                    let offers = of_line[*person].iter().map(|offer| {
                        let mut uses: BTreeMap<usize, u32> = BTreeMap::new();
                        offer.kit.iter().filter_map(&mut resource).for_each(|at| {
                            *uses.entry(at).or_insert(0) += 1;
                        });
                        let uses = uses.into_iter().collect();
                        Offered { cost: offer.misfit.total(), movement: movement(offer), uses }
                    });
                    let offers = offers.collect();
                    shared.puzzle.sets.push(Set { who, line: lines, own, offers });
                    shared.places.push((*block, line, *person));
                }
            }
        }
        shared
    }
}

/// How the class goes through a block: as the block says, else in the way with the least misfit, the
/// trouble of halves and stations counted; of as good ones together before halves before stations.
pub fn spread(class: &Class, block: usize) -> Rota {
    let asked = &class.blocks[block];
    let rota = |spread| Rota::of(&asked.plan, spread, &class.people);
    if let Some(spread) = asked.spread {
        return rota(spread);
    }
    let ways = possible(asked, class).into_iter().map(|(spread, trouble)| {
        let rota = rota(spread);
        let sum = match Shared::of(class, &[(block, &rota)]).puzzle.lowest_sum() {
            Outcome::Solved(Solved { sum, .. }) => sum.saturating_add(trouble),
            Outcome::None | Outcome::TooHard => u32::MAX,
        };
        (sum, rota)
    });
    let best = ways.min_by_key(|(sum, _)| *sum);
    best.map_or_else(|| rota(Spread::Together), |(_, rota)| rota)
}

/// The ways that make sense for a block, and their trouble for all the people in the hall.
pub fn possible(asked: &Asked, class: &Class) -> Vec<(Spread, u32)> {
    use crate::library::Format::{Descending, EveryMinute, ForTime};
    let format = asked.plan.format;
    let people = class.in_the_hall().len();
    let all = u32::try_from(people).unwrap_or(u32::MAX);
    let lines = asked.offers.len();
    let mut ways = vec![(Spread::Together, 0)];
    // Who counts down or goes against the clock moves on when they are done: no half could wait for the
    // other. By the minute the halves change over with the clock, where all come round as often.
    let own_pace = matches!(format, Some(Descending | ForTime));
    let mut sets = asked.plan.items.iter().map(|item| item.sets);
    let first = sets.next();
    let uneven = format == Some(EveryMinute) && !sets.all(|other| Some(other) == first);
    if lines > 1 && people > 1 && !own_pace && !uneven {
        ways.push((Spread::Halves, HALVES.saturating_mul(all)));
    }
    // Counts that go down, and minutes, belong to one order for all.
    let in_order = own_pace || format == Some(EveryMinute);
    if lines > 2 && people >= lines && !in_order {
        ways.push((Spread::Stations, STATIONS.saturating_mul(all)));
    }
    ways
}

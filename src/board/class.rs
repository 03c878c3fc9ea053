//! Class: everybody's offers for every line of a session, before anything is shared out.
//! Never lets one person's offers depend on another's.

use super::hall::Hall;
pub(super) use super::offers::Timed;
use super::offers::{Offer, at_home, in_hall};
use super::people::Person;
use crate::gym::Gym;
use crate::library::{Block, Format, Session, Spread};
use crate::own;
use crate::plan::{BlockPlan, ItemPlan, block_plan, pace};
use rayon::prelude::*;

/// A session and who comes to it.
#[derive(Debug, Clone)]
pub struct Class {
    /// By nickname.
    pub people: Vec<Person>,
    /// What is shared.
    pub hall: Hall,
    /// Its blocks.
    pub blocks: Vec<Asked>,
}

/// A block and what everybody could do in it.
#[derive(Debug, Clone)]
pub struct Asked {
    /// The name shown.
    pub name: String,
    /// How the class goes through it, where the block says so.
    pub spread: Option<Spread>,
    /// Its time.
    pub plan: BlockPlan,
    /// Offers of each line, of each person.
    pub offers: Vec<Vec<Vec<Offer>>>,
}

impl Class {
    /// What everybody could do in a session.
    pub fn of(gym: &Gym, session: &Session, people: Vec<Person>) -> Class {
        let in_the_hall = people.iter().filter(|person| !person.at_home).count();
        Class::with_hall(gym, session, people, Hall::of(gym, in_the_hall))
    }

    /// The same with another hall.
    pub fn with_hall(gym: &Gym, session: &Session, people: Vec<Person>, hall: Hall) -> Class {
        let asked = |at: usize| {
            let block = &session.blocks[at];
            let plan = block_plan(gym, block);
            let lines = timed(gym, session, at, &plan);
            let offers = offers(gym, &lines, (&people, &hall));
            let name = block.name.value.clone();
            Asked { name, spread: block.spread, plan, offers }
        };
        let blocks = (0..session.blocks.len()).map(asked).collect();
        Class { people, hall, blocks }
    }

    /// The places of those in the hall.
    pub fn in_the_hall(&self) -> Vec<usize> {
        (0..self.people.len()).filter(|at| !self.people[*at].at_home).collect()
    }
}

/// The lines of a block against their time.
pub(super) fn timed<'g>(
    gym: &'g Gym,
    session: &'g Session,
    at: usize,
    plan: &BlockPlan,
) -> Vec<Timed<'g>> {
    let block = &session.blocks[at];
    let lines = block.items.iter().zip(&plan.items);
    let one = |(item, planned): (&'g crate::library::Item, &ItemPlan)| Timed {
        line: own::line_of(gym, session, at, item),
        set_s: set_s(block, planned),
    };
    lines.map(one).collect()
}

/// Block, line and what it asks.
pub(super) type Lines<'g> = Vec<(usize, usize, Timed<'g>)>;

/// Every line of a session, block by block.
pub(super) fn lines<'g>(gym: &'g Gym, session: &'g Session) -> Lines<'g> {
    let of = |block: usize| {
        let plan = block_plan(gym, &session.blocks[block]);
        let lines = timed(gym, session, block, &plan).into_iter().enumerate();
        lines.map(|(line, timed)| (block, line, timed)).collect::<Vec<_>>()
    };
    (0..session.blocks.len()).flat_map(of).collect()
}

/// What a set of a line may take: the minute, or the longest way of doing it as written.
fn set_s(block: &Block, item: &ItemPlan) -> Option<u32> {
    match block.format.as_ref().map(|format| format.value) {
        Some(Format::Intervals) => None,
        Some(Format::EveryMinute) => Some(pace::MINUTE_S),
        _ => item.ways.iter().map(|way| way.set.most).max(),
    }
}

fn offers(
    gym: &Gym,
    lines: &[Timed<'_>],
    (people, hall): (&[Person], &Hall),
) -> Vec<Vec<Vec<Offer>>> {
    let pairs: Vec<(usize, usize)> =
        (0..lines.len()).flat_map(|line| (0..people.len()).map(move |who| (line, who))).collect();
    let one = |(line, who): &(usize, usize)| offers_of(gym, &lines[*line], &people[*who], hall);
    // On every core, each result in its place.
    let flat: Vec<Vec<Offer>> = pairs.par_iter().map(one).collect();
    match people.len() {
        0 => vec![Vec::new(); lines.len()],
        n => flat.chunks(n).map(<[_]>::to_vec).collect(),
    }
}

/// What one person could do for a line.
pub(super) fn offers_of(gym: &Gym, timed: &Timed<'_>, person: &Person, hall: &Hall) -> Vec<Offer> {
    match person.at_home {
        true => vec![at_home(gym, timed, person, hall)],
        false => in_hall(gym, timed, person, hall),
    }
}

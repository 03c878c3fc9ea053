//! Live: a table from which the file alone answers what changes in class: somebody goes or comes, is sore
//! today, or a thing breaks.
//! Never an offer that was not filtered with everything that the person leaves out; never a reason.
//!
//! On the copy that others see no situation stands at all: where a touch on a name changed nothing, or
//! a list lacked one, it would tell what that person leaves out anyway.
//!
//! For each person and line stand all of their offers, and for each situation those that are left with
//! it. Whoever has two situations takes what stands in both lists, word for word: what is fine for each
//! is fine for both, and so is one and the same change.

use super::Board;
use super::class::{Lines, Timed, lines, offers_of};
use super::clock::{Clock, clock};
use super::hall::Hall;
use super::noted::ToNote;
use super::offers::Offer;
use super::people::{Person, with};
use super::rota::{Moment, Rota};
use super::sheet::Copy;
use super::standing::Standing;
use super::told::reasons;
use crate::gym::Gym;
use crate::library::{KitId, Session};
use crate::swap::{Limits, kit_name, limits_from, limits_of_situation};
use rayon::prelude::*;
use serde::Serialize;
use std::collections::BTreeMap;

/// The table, as the file's script reads it.
#[derive(Debug, Clone, Serialize)]
pub struct Live {
    /// Nickname, whether at home, whether not there yet, whether on no roster.
    people: Vec<(String, bool, bool, bool)>,
    /// Whom something hurts that nobody was told.
    asks: Vec<bool>,
    /// Name and count of each thing that is shared.
    kit: Vec<(String, u32)>,
    /// By block the group of each person, from 0; none at home, and empty where all are together.
    groups: Vec<Vec<Option<usize>>>,
    /// Which thing each resource is, and whether it is held through the block.
    moments: Vec<(usize, bool)>,
    /// What is done, what to say, how much.
    texts: Vec<[String; 3]>,
    /// Every choice: person, block, line, the offer taken, offers.
    sets: Vec<LiveSet>,
    /// What somebody may have today, on the coach's copy: its name, and what it leaves, where that is made.
    situations: Vec<(String, Option<LiveRows>)>,
    /// What its clock counts.
    clock: Clock,
    /// What is to be noted after class.
    done: ToNote,
    /// Why everybody does what they do, where the board is served and the copy is the coach's.
    why: Vec<(String, Vec<(String, String)>)>,
    /// Whether somebody at this address deals it out anew.
    served: bool,
}

/// Offers of the choices, by their places, in which a situation leaves others.
type LiveRows = BTreeMap<usize, Vec<LiveOffer>>;

/// How much of a table is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rows {
    /// All of it.
    All,
    /// Without what situations leave, which takes a while: until it comes the coach decides.
    NotYet,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct LiveSet {
    who: usize,
    block: usize,
    line: usize,
    /// Nothing for whoever is not there yet.
    taken: Option<usize>,
    offers: Vec<LiveOffer>,
}

/// Text, misfit, what it uses; no text where the coach decides.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct LiveOffer(Option<usize>, u32, Vec<(usize, u32)>);

/// What comes up overnight, by the first word of a situation's name; the club's own quick limits come
/// before them.
const OVERNIGHT: [&str; 2] = ["Sore ", "Painful "];

/// What somebody may say at the door.
pub(super) fn situations(gym: &Gym) -> Vec<(String, Limits)> {
    let quick = gym.library.club.quick_limits.iter().filter_map(|quick| {
        let limits = limits_from(gym, std::slice::from_ref(&quick.value)).ok()?;
        (!limits.levels.is_empty()).then(|| (quick.value.clone(), limits))
    });
    let cautions = gym.library.words.cautions.values();
    let sore = cautions.filter(|one| OVERNIGHT.iter().any(|word| one.name.starts_with(word)));
    let sore = sore.map(|caution| (caution.name.clone(), limits_of_situation(caution)));
    let mut found: Vec<(String, Limits)> = Vec::new();
    for (name, limits) in quick.chain(sore) {
        if !found.iter().any(|(other, _)| *other == name) {
            found.push((name, limits));
        }
    }
    found
}

/// What is made while the table is filled.
struct Filling<'b> {
    rotas: &'b [Rota],
    kit: Vec<KitId>,
    resources: BTreeMap<(usize, Moment, usize), usize>,
    moments: Vec<(usize, bool)>,
    texts: Vec<[String; 3]>,
    known: BTreeMap<[String; 3], usize>,
}

impl Filling<'_> {
    fn text(&mut self, gym: &Gym, offer: &Offer) -> Option<usize> {
        let doing = super::view::of_offer(gym, offer);
        doing.movement.as_ref()?;
        let text = [doing.said(), doing.cue, super::view::dose_of(gym, offer)];
        let next = self.texts.len();
        let at = *self.known.entry(text.clone()).or_insert(next);
        if at == next {
            self.texts.push(text);
        }
        Some(at)
    }

    fn offer(
        &mut self,
        gym: &Gym,
        place: (usize, usize, &Person, usize),
        offer: &Offer,
    ) -> LiveOffer {
        let (block, line, person, group) = place;
        let mut uses: BTreeMap<usize, u32> = BTreeMap::new();
        let moment = self.rotas[block].moment(line, group);
        for id in offer.kit.iter().filter(|_| !person.at_home) {
            let Some(thing) = self.kit.iter().position(|known| known == id) else { continue };
            let next = self.moments.len();
            let at = *self.resources.entry((block, moment, thing)).or_insert(next);
            if at == next {
                self.moments.push((thing, moment == Moment::AnyTime));
            }
            *uses.entry(at).or_insert(0) += 1;
        }
        LiveOffer(self.text(gym, offer), offer.misfit.total(), uses.into_iter().collect())
    }
}

/// The table of a board; those who are away may still come.
pub fn table(gym: &Gym, session: &Session, board: &Board, away: &[Person]) -> Live {
    let standing = Standing::of(gym, session, board, away);
    standing_table(gym, session, &standing, Rows::All)
}

/// The table of a board that is served, as it stands.
pub fn table_now(
    gym: &Gym,
    session: &Session,
    standing: &Standing,
    (copy, rows): (Copy, Rows),
) -> Live {
    match copy {
        Copy::Wall => {
            let table = standing_table(gym, session, standing, Rows::NotYet).for_the_wall();
            Live { served: true, ..table }
        }
        Copy::Coach => {
            let table = standing_table(gym, session, standing, rows);
            Live { served: true, why: reasons(gym, standing), ..table }
        }
    }
}

impl Live {
    /// Whether somebody at its address deals it out anew.
    pub(super) fn is_served(&self) -> bool {
        self.served
    }

    /// The same table for everybody's eyes: whom something hurts asks the coach.
    pub fn for_the_wall(self) -> Live {
        Live { situations: Vec::new(), why: Vec::new(), ..self }
    }
}

/// The table of a board as it stands.
fn standing_table(gym: &Gym, session: &Session, standing: &Standing, made: Rows) -> Live {
    let class = &standing.class;
    let kit: Vec<KitId> =
        gym.library.club.hall_kit.iter().map(|(id, _)| id.value.clone()).collect();
    let mut filling = Filling {
        rotas: &standing.rotas,
        kit,
        resources: BTreeMap::new(),
        moments: Vec::new(),
        texts: Vec::new(),
        known: BTreeMap::new(),
    };
    let mut sets = Vec::new();
    for (block, line, who) in standing.places() {
        let place = (block, line, &class.people[who], standing.group(block, who));
        let offers = class.blocks[block].offers[line][who].iter();
        let offers = offers.map(|one| filling.offer(gym, place, one)).collect();
        let taken = standing.taken[block][line][who].filter(|_| standing.here[who]);
        sets.push(LiveSet { who, block, line, taken, offers });
    }
    let lines = lines(gym, session);
    let mut rows = Vec::new();
    for (name, limits) in situations(gym) {
        if made == Rows::NotYet {
            rows.push((name, None));
            continue;
        }
        let limited: Vec<Person> = class.people.iter().map(|one| with(one, &limits)).collect();
        let found = everybody(gym, &lines, &limited, &class.hall);
        let mut other = BTreeMap::new();
        for (at, set) in sets.iter().enumerate() {
            let group = standing.group(set.block, set.who);
            let place = (set.block, set.line, &class.people[set.who], group);
            let offers: Vec<LiveOffer> =
                found[at].iter().map(|one| filling.offer(gym, place, one)).collect();
            if offers != set.offers {
                other.insert(at, offers);
            }
        }
        rows.push((name, Some(other)));
    }
    let people = class.people.iter().zip(&standing.here);
    let people =
        people.map(|(one, here)| (one.name.clone(), one.at_home, !here, one.is_guest)).collect();
    let count = |id: &KitId| class.hall.count(id).unwrap_or(0);
    let kit = filling.kit.iter().map(|id| (kit_name(gym, id), count(id))).collect();
    let Filling { moments, texts, .. } = filling;
    let (groups, clock) = (groups(standing), clock(standing));
    let (why, served, done) = (Vec::new(), false, ToNote::of(gym, session));
    let asks = standing.asks.clone();
    Live {
        people,
        asks,
        kit,
        groups,
        moments,
        texts,
        sets,
        situations: rows,
        clock,
        done,
        why,
        served,
    }
}

/// Whose group is which in each block, where there is more than one.
fn groups(standing: &Standing) -> Vec<Vec<Option<usize>>> {
    let of = |rota: &Rota| match rota.groups.len() > 1 {
        true => (0..standing.here.len()).map(|who| rota.group_of(who)).collect(),
        false => Vec::new(),
    };
    standing.rotas.iter().map(of).collect()
}

fn everybody(gym: &Gym, lines: &Lines<'_>, people: &[Person], hall: &Hall) -> Vec<Vec<Offer>> {
    let pairs: Vec<(&Timed<'_>, &Person)> =
        lines.iter().flat_map(|(.., timed)| people.iter().map(move |one| (timed, one))).collect();
    pairs.par_iter().map(|(timed, person)| offers_of(gym, timed, person, hall)).collect()
}

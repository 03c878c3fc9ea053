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
use super::class::{Class, Timed, offers_of, timed};
use super::offers::Offer;
use super::people::Person;
use super::rota::Moment;
use crate::gym::Gym;
use crate::library::{KitId, Session};
use crate::plan::block_plan;
use crate::swap::{Limits, kit_name, limits_from, limits_of_situation};
use rayon::prelude::*;
use serde::Serialize;
use std::collections::BTreeMap;

/// The table, as the file's script reads it.
#[derive(Debug, Clone, Serialize)]
pub struct Live {
    /// Nickname, whether at home, whether not there yet.
    people: Vec<(String, bool, bool)>,
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
    /// What somebody may have today, on the coach's copy: its name, and the offers of the choices in
    /// which it leaves others.
    situations: Vec<(String, BTreeMap<usize, Vec<LiveOffer>>)>,
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
fn situations(gym: &Gym) -> Vec<(String, Limits)> {
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

/// A person who has something more to leave out.
fn with(person: &Person, limits: &Limits) -> Person {
    let mut person = person.clone();
    let own = &mut person.member.person;
    for (id, from) in &limits.levels {
        let level = own.limits.entry(id.clone()).or_insert(*from);
        *level = (*level).min(*from);
    }
    own.situations.extend(limits.situations.iter().cloned());
    person
}

/// What is made while the table is filled.
struct Filling<'b> {
    board: &'b Board,
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
        let text = [doing.said(), doing.cue, offer.own.dose.clone()];
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
        let moment = self.board.rotas[block].moment(line, group);
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

impl Live {
    /// The same table for everybody's eyes: whom something hurts asks the coach.
    pub fn for_the_wall(self) -> Live {
        Live { situations: Vec::new(), ..self }
    }
}

/// The table of a board; those who are away may still come.
pub fn table(gym: &Gym, session: &Session, board: &Board, away: &[Person]) -> Live {
    let class = &board.class;
    let all: Vec<Person> = class.people.iter().chain(away).cloned().collect();
    let kit: Vec<KitId> =
        gym.library.club.hall_kit.iter().map(|(id, _)| id.value.clone()).collect();
    let mut filling = Filling {
        board,
        kit,
        resources: BTreeMap::new(),
        moments: Vec::new(),
        texts: Vec::new(),
        known: BTreeMap::new(),
    };
    let lines = lines(gym, session);
    let base = everybody(gym, &lines, &all, class);
    let mut sets = Vec::new();
    for (at, (block, line, who)) in places(&lines, all.len()).into_iter().enumerate() {
        let group = group(board, &all, block, who);
        let taken = class.people.get(who).map(|_| board.taken[block][line][who]);
        let place = (block, line, &all[who], group);
        let offers = base[at].iter().map(|one| filling.offer(gym, place, one)).collect();
        sets.push(LiveSet { who, block, line, taken, offers });
    }
    let mut rows = Vec::new();
    for (name, limits) in situations(gym) {
        let limited: Vec<Person> = all.iter().map(|person| with(person, &limits)).collect();
        let found = everybody(gym, &lines, &limited, class);
        let mut other = BTreeMap::new();
        for (at, set) in sets.iter().enumerate() {
            let place =
                (set.block, set.line, &all[set.who], group(board, &all, set.block, set.who));
            let offers: Vec<LiveOffer> =
                found[at].iter().map(|one| filling.offer(gym, place, one)).collect();
            if offers != set.offers {
                other.insert(at, offers);
            }
        }
        rows.push((name, other));
    }
    let people = all.iter().enumerate();
    let people = people.map(|(at, one)| (one.name.clone(), one.at_home, at >= class.people.len()));
    let count = |id: &KitId| class.hall.count(id).unwrap_or(0);
    let kit = filling.kit.iter().map(|id| (kit_name(gym, id), count(id))).collect();
    let Filling { moments, texts, .. } = filling;
    let groups = groups(board, &all);
    Live { people: people.collect(), kit, groups, moments, texts, sets, situations: rows }
}

/// The group of somebody, who may still come; those at home are in none, and it counts for nothing.
fn group(board: &Board, all: &[Person], block: usize, who: usize) -> usize {
    let (rota, here) = (&board.rotas[block], board.class.people.len());
    let before = all.iter().take(who).skip(here).filter(|person| !person.at_home).count();
    rota.group_of(who).unwrap_or_else(|| if who < here { 0 } else { rota.latecomer(before) })
}

/// Whose group is which in each block, where there is more than one.
fn groups(board: &Board, all: &[Person]) -> Vec<Vec<Option<usize>>> {
    let of = |block: usize| {
        let many = board.rotas[block].groups.len() > 1;
        let people = all.iter().enumerate().filter(|_| many);
        people.map(|(who, one)| (!one.at_home).then(|| group(board, all, block, who))).collect()
    };
    (0..board.rotas.len()).map(of).collect()
}

/// Block, line and what it asks.
type Lines<'g> = Vec<(usize, usize, Timed<'g>)>;

fn lines<'g>(gym: &'g Gym, session: &'g Session) -> Lines<'g> {
    let of = |block: usize| {
        let plan = block_plan(gym, &session.blocks[block]);
        let lines = timed(gym, session, block, &plan).into_iter().enumerate();
        lines.map(|(line, timed)| (block, line, timed)).collect::<Vec<_>>()
    };
    (0..session.blocks.len()).flat_map(of).collect()
}

fn places(lines: &Lines<'_>, people: usize) -> Vec<(usize, usize, usize)> {
    lines.iter().flat_map(|(block, line, _)| (0..people).map(|who| (*block, *line, who))).collect()
}

fn everybody(gym: &Gym, lines: &Lines<'_>, people: &[Person], class: &Class) -> Vec<Vec<Offer>> {
    let pairs: Vec<(&Timed<'_>, &Person)> =
        lines.iter().flat_map(|(.., timed)| people.iter().map(move |one| (timed, one))).collect();
    pairs.par_iter().map(|(timed, person)| offers_of(gym, timed, person, &class.hall)).collect()
}

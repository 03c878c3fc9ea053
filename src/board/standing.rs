//! Standing: a board in class, and what a touch makes of it: only those who must do something else.
//! Never an offer that was not filtered with everything that the person leaves out by then, never more of a
//! thing than is left, never a clock or chance.
//!
//! Blocks are dealt out one by one: what is shared is counted block by block and the cost of a change is a
//! sum, so that the parts are as good as the whole. That the worst-off is as well off as possible is settled
//! before class; now few are to change.

use super::Board;
use super::class::{Class, Lines, lines, offers_of};
use super::live::situations;
use super::offers::Offer;
use super::people::{Person, with};
use super::puzzle::{Offered, Outcome, Puzzle};
use super::rota::Rota;
use super::share::Shared;
use super::weights::{MOVED, NOTHING};
use crate::gym::Gym;
use crate::library::{KitId, Session};
use crate::own::Kind;
use rayon::prelude::*;
use std::collections::BTreeSet;

/// A class that is on: everybody who is here or may come, and what they do.
#[derive(Debug, Clone)]
pub struct Standing {
    /// Everybody, those who were away at the start last; the hall as it is by now.
    pub class: Class,
    /// How each block is gone through; it stays.
    pub rotas: Vec<Rota>,
    /// Who is here.
    pub here: Vec<bool>,
    /// Whom something hurts that nobody was told: the coach decides all of theirs, also when they go and come.
    pub asks: Vec<bool>,
    /// What is done, by block, line and person; nothing where the coach decides.
    pub taken: Vec<Vec<Vec<Option<usize>>>>,
}

/// What somebody says has changed; people, things and situations by their places.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Touch {
    /// Somebody has come.
    Here(usize),
    /// Somebody has gone.
    Gone(usize),
    /// Something hurts somebody, and nobody is told what.
    Hurts(usize),
    /// Somebody has one of the situations today.
    Sore(usize, usize),
    /// One less of a thing of the hall.
    Broke(usize),
}

/// A choice: block, line, person.
pub type Place = (usize, usize, usize);

impl Standing {
    /// A board as it stands when class begins; those who are away may still come.
    pub fn of(gym: &Gym, session: &Session, board: &Board, away: &[Person]) -> Standing {
        let mut class = board.class.clone();
        let before = class.people.len();
        class.people.extend(away.iter().cloned());
        for (block, line, timed) in lines(gym, session) {
            let later = away.iter().map(|one| offers_of(gym, &timed, one, &class.hall));
            class.blocks[block].offers[line].extend(later);
        }
        let later = before..class.people.len();
        let in_hall: Vec<usize> = later.filter(|who| !class.people[*who].at_home).collect();
        let rotas = board.rotas.iter().map(|rota| rota.clone().with_latecomers(&in_hall));
        let all = |line: &Vec<usize>| {
            let here = line.iter().map(|at| Some(*at));
            here.chain(away.iter().map(|_| None)).collect()
        };
        let taken = board.taken.iter().map(|block| block.iter().map(all).collect()).collect();
        let here = (0..class.people.len()).map(|who| who < before).collect();
        let asks = vec![false; class.people.len()];
        Standing { rotas: rotas.collect(), class, here, asks, taken }
    }

    /// Every choice, by block, line and person.
    pub fn places(&self) -> Vec<Place> {
        let people = self.class.people.len();
        let blocks = self.class.blocks.iter().enumerate();
        let lines = blocks
            .flat_map(|(block, asked)| (0..asked.offers.len()).map(move |line| (block, line)));
        lines.flat_map(|(block, line)| (0..people).map(move |who| (block, line, who))).collect()
    }

    /// The group of somebody; those at home are in none, and it counts for nothing.
    pub(super) fn group(&self, block: usize, who: usize) -> usize {
        self.rotas[block].group_of(who).unwrap_or(0)
    }

    /// What somebody does; nothing where they are not here or the coach decides.
    pub fn offer(&self, (block, line, who): Place) -> Option<&Offer> {
        let at = self.taken[block][line][who].filter(|_| self.here[who])?;
        self.class.blocks[block].offers[line][who].get(at).filter(|one| one.own.kind != Kind::Ask)
    }

    /// The board after a touch; nothing where it says what cannot be.
    pub fn after(&self, gym: &Gym, session: &Session, touch: Touch) -> Option<Standing> {
        let mut next = self.clone();
        let mut free: BTreeSet<Place> = BTreeSet::new();
        let mut of =
            |who: usize| free.extend(self.places().into_iter().filter(|(.., w)| *w == who));
        let is = |who: usize, here: bool| self.here.get(who) == Some(&here);
        match touch {
            Touch::Here(who) if is(who, false) => {
                next.here[who] = true;
                of(who);
            }
            Touch::Gone(who) if is(who, true) => next.here[who] = false,
            Touch::Hurts(who) if is(who, true) => next.asks[who] = true,
            Touch::Sore(who, situation) if self.here.get(who).is_some() => {
                let (_, limits) = situations(gym).into_iter().nth(situation)?;
                next.class.people[who] = with(&self.class.people[who], &limits);
                free = next.offered_anew(gym, &lines(gym, session), Some(who));
            }
            Touch::Broke(thing) => {
                let (id, _) = gym.library.club.hall_kit.get(thing)?;
                let left = self.class.hall.count(&id.value)?.checked_sub(1)?;
                next.class.hall = next.class.hall.with(&id.value, left);
                free = next.offered_anew(gym, &lines(gym, session), None);
            }
            _ => return None,
        }
        next.deal(&free);
        Some(next)
    }

    /// Asks again what somebody could do, or everybody in the hall; whose choice no longer stands is
    /// handed back.
    fn offered_anew(
        &mut self,
        gym: &Gym,
        lines: &Lines<'_>,
        who: Option<usize>,
    ) -> BTreeSet<Place> {
        let people: Vec<usize> = match who {
            Some(who) => vec![who],
            None => self.class.in_the_hall(),
        };
        let (class, people) = (&self.class, &people);
        let all: Vec<_> =
            lines.iter().flat_map(|line| people.iter().map(move |who| (line, *who))).collect();
        let found: Vec<(Place, Vec<Offer>)> = all
            .par_iter()
            .map(|((block, line, timed), who)| {
                let offers = offers_of(gym, timed, &class.people[*who], &class.hall);
                ((*block, *line, *who), offers)
            })
            .collect();
        let mut lost = BTreeSet::new();
        for ((block, line, w), mut offers) in found {
            let (old, hall) = (&self.class.blocks[block].offers[line][w], &self.class.hall);
            let stood = self.taken[block][line][w].and_then(|at| old.get(at));
            let mut stands = stood.and_then(|one| offers.iter().position(|other| same(one, other)));
            // Limits are as they were and its kit is there: that a shorter list no longer holds it takes it
            // from nobody.
            if let (None, None, Some(one)) = (stands, who, stood)
                && there_is(&one.kit, |id| hall.count(id))
            {
                offers.push(one.clone());
                stands = Some(offers.len() - 1);
            }
            if stood.is_some() && stands.is_none() {
                lost.insert((block, line, w));
            }
            self.taken[block][line][w] = stands;
            self.class.blocks[block].offers[line][w] = offers;
        }
        lost
    }

    /// Deals out what is free, block by block, and moves whoever must make room.
    fn deal(&mut self, free: &BTreeSet<Place>) {
        for (block, line, who) in self.places() {
            let at_home = self.class.people[who].at_home;
            if at_home && self.here[who] && free.contains(&(block, line, who)) {
                self.taken[block][line][who] = Some(0);
            }
            if self.asks[who] {
                self.taken[block][line][who] = None;
            }
        }
        for block in 0..self.rotas.len() {
            self.deal_block(block, free);
        }
    }

    fn deal_block(&mut self, block: usize, free: &BTreeSet<Place>) {
        let all = self.class.in_the_hall().into_iter();
        let among: Vec<usize> = all.filter(|who| self.here[*who] && !self.asks[*who]).collect();
        let shared = Shared::among(&self.class, &[(block, &self.rotas[block])], &among);
        let mut puzzle = shared.puzzle;
        let mut stays = Vec::new();
        for (set, place) in puzzle.sets.iter_mut().zip(&shared.places) {
            // The last of them: the coach decides.
            let coach = set.offers.len();
            set.offers.push(Offered { cost: NOTHING, movement: None, uses: Vec::new() });
            let (block, line, who) = *place;
            let at = (!free.contains(place)).then(|| self.taken[block][line][who].unwrap_or(coach));
            for (other, offer) in set.offers.iter_mut().enumerate() {
                offer.cost += if at.is_some_and(|at| at != other) { MOVED } else { 0 };
            }
            stays.push(at);
        }
        if stands(&puzzle, &stays) {
            return;
        }
        let picked = match puzzle.lowest_sum() {
            Outcome::Solved(solved) => solved.picked,
            Outcome::None | Outcome::TooHard => patched(&puzzle, &stays),
        };
        for ((set, place), at) in puzzle.sets.iter().zip(&shared.places).zip(picked) {
            let (block, line, who) = *place;
            self.taken[block][line][who] = Some(at).filter(|at| at + 1 < set.offers.len());
        }
    }
}

/// Whether everybody may go on as they are: they have something, and there is enough of everything.
fn stands(puzzle: &Puzzle, stays: &[Option<usize>]) -> bool {
    let picked: Option<Vec<usize>> = stays.iter().copied().collect();
    let has = |picked: &Vec<usize>| {
        let mut taken = puzzle.sets.iter().zip(picked);
        taken.all(|(set, at)| set.offers[*at].movement.is_some())
    };
    picked.is_some_and(|picked| has(&picked) && puzzle.is_kept(&picked))
}

/// Where no best is found: whoever may stays, by nickname, and the others take the least misfit of what is
/// left; at worst the coach decides.
fn patched(puzzle: &Puzzle, stays: &[Option<usize>]) -> Vec<usize> {
    let mut picked: Vec<usize> = puzzle.sets.iter().map(|set| set.offers.len() - 1).collect();
    for (place, at) in stays.iter().enumerate() {
        take(puzzle, &mut picked, place, at.iter().copied());
    }
    for (place, set) in puzzle.sets.iter().enumerate() {
        if stays[place] != Some(picked[place]) {
            let mut offers: Vec<usize> = (0..set.offers.len()).collect();
            offers.sort_by_key(|at| set.offers[*at].cost);
            take(puzzle, &mut picked, place, offers.into_iter());
        }
    }
    picked
}

/// The first of some offers for which there is enough.
fn take(puzzle: &Puzzle, picked: &mut [usize], place: usize, of: impl Iterator<Item = usize>) {
    let before = picked[place];
    for at in of {
        picked[place] = at;
        if puzzle.is_kept(picked) {
            return;
        }
    }
    picked[place] = before;
}

/// Whether there is enough of every thing for one person.
fn there_is(kit: &[KitId], count: impl Fn(&KitId) -> Option<u32>) -> bool {
    kit.iter().all(|id| {
        let n = kit.iter().filter(|other| *other == id).count();
        count(id).is_none_or(|count| n <= count as usize)
    })
}

/// Whether two offers ask the same of somebody, whatever the reason.
pub(super) fn same(one: &Offer, other: &Offer) -> bool {
    let (a, b) = (&one.own, &other.own);
    let work = |own: &crate::own::Own| (own.kind == Kind::Ask, own.movement.clone());
    let words = |own: &crate::own::Own| {
        [&own.setting, &own.change, &own.change_brief, &own.dose, &own.cue].map(String::clone)
    };
    one.kit == other.kit && one.rung == other.rung && work(a) == work(b) && words(a) == words(b)
}

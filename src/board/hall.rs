//! Hall: how many of each thing there are, and which things a version takes.
//! Never lets one piece serve two needs.

use crate::gym::Gym;
use crate::library::{KitId, KitKind};
use std::collections::{BTreeMap, BTreeSet};
use std::iter::repeat_n;

/// What the hall has.
#[derive(Debug, Clone, Default)]
pub struct Hall {
    counts: BTreeMap<KitId, u32>,
    people: u32,
    anywhere: BTreeSet<KitId>,
}

/// How many of one thing a person may need at once: two weights.
const MOST_EACH: u32 = 2;

impl Hall {
    /// What the club says its hall has, for so many people in it.
    pub fn of(gym: &Gym, people: usize) -> Hall {
        let kit = gym.library.club.hall_kit.iter();
        let anywhere = gym.library.words.kit.iter().filter(|(_, k)| k.kind == KitKind::Anywhere);
        Hall {
            counts: kit.map(|(id, count)| (id.value.clone(), *count)).collect(),
            people: u32::try_from(people).unwrap_or(u32::MAX),
            anywhere: anywhere.map(|(id, _)| id.clone()).collect(),
        }
    }

    /// The same with so many of one thing.
    pub fn with(mut self, id: &KitId, count: u32) -> Hall {
        self.counts.insert(id.clone(), count);
        self
    }

    /// How many there are; nothing where the club does not count.
    pub fn count(&self, id: &KitId) -> Option<u32> {
        match self.counts.is_empty() {
            true => None,
            false => Some(self.counts.get(id).copied().unwrap_or(0)),
        }
    }

    /// Everything there is any of; nothing where the club does not count.
    pub fn kit(&self) -> Option<BTreeSet<KitId>> {
        let there = self.counts.iter().filter(|(_, count)| **count > 0);
        (!self.counts.is_empty()).then(|| there.map(|(id, _)| id.clone()).collect())
    }

    /// Whether there is enough for everybody, whatever they do.
    pub fn is_plenty(&self, id: &KitId) -> bool {
        self.count(id).is_none_or(|count| count >= MOST_EACH * self.people)
    }

    /// Everything that is not scarce.
    pub fn plenty(&self) -> Option<BTreeSet<KitId>> {
        self.kit().map(|kit| kit.into_iter().filter(|id| self.is_plenty(id)).collect())
    }

    /// Whether a need is one that no place lacks.
    pub fn is_nowhere_lacking(&self, need: &[KitId]) -> bool {
        need.iter().any(|id| self.anywhere.contains(id))
    }

    /// Every way to meet some needs from what is here; a need that nobody lacks takes nothing.
    /// Where the first is held in each hand, both are of the same kind.
    pub fn ways(&self, needs: &[Vec<KitId>], each_hand: bool) -> Vec<Vec<KitId>> {
        let mut ways = vec![Vec::new()];
        for (at, need) in needs.iter().enumerate() {
            if self.is_nowhere_lacking(need) {
                continue;
            }
            let n = if at == 0 && each_hand { MOST_EACH } else { 1 };
            let here: Vec<&KitId> =
                need.iter().filter(|id| self.count(id).is_none_or(|count| count >= n)).collect();
            let plenty = here.iter().find(|id| self.is_plenty(id));
            let choices = plenty.map_or(here.clone(), |id| vec![*id]);
            let with = |way: &Vec<KitId>, id: &KitId| {
                way.iter().chain(repeat_n(id, n as usize)).cloned().collect::<Vec<KitId>>()
            };
            ways = ways.iter().flat_map(|way| choices.iter().map(|id| with(way, id))).collect();
        }
        ways
    }
}

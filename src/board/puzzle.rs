//! Puzzle: who takes which offer, in numbers alone, so that it can be held against an outside solver.
//! Never knows what an offer is; never a clock: effort is counted in nodes, so the answer is the same
//! on every machine.

use super::model::{Found, Limit, at_least};
use super::parts::{best, least};
use super::weights::ALONE;
use std::collections::BTreeMap;

/// Offers of which each set takes one, and counts that they may not exceed.
#[derive(Debug, Clone, Default)]
pub struct Puzzle {
    /// How many people; a set names one of them.
    pub people: usize,
    /// The choices.
    pub sets: Vec<Set>,
    /// What is counted.
    pub resources: Vec<Resource>,
}

/// One choice of one person.
#[derive(Debug, Clone)]
pub struct Set {
    /// Whose.
    pub who: usize,
    /// Of which line: sets of one line keep each other company.
    pub line: usize,
    /// The movement of their own version, in which nobody is ever alone.
    pub own: Option<usize>,
    /// One of these is taken.
    pub offers: Vec<Offered>,
}

/// One offer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offered {
    /// Its misfit.
    pub cost: u32,
    /// The movement; nothing where the coach decides.
    pub movement: Option<usize>,
    /// What it uses of which resource.
    pub uses: Vec<(usize, u32)>,
}

/// Something of which there are so many.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Resource {
    /// How many.
    pub count: u32,
    /// Whether a person holds it through all of their sets: then the most of them counts, not each.
    pub held: bool,
}

/// An answer to a puzzle.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Solved {
    /// Which offer each set takes.
    pub picked: Vec<usize>,
    /// The misfit of whoever has most of it.
    pub worst: u32,
    /// That of all together, with what it counts that somebody is alone with another movement.
    pub sum: u32,
    /// No answer has a lower worst than this.
    pub worst_bound: u32,
    /// No answer with this worst has a lower sum.
    pub sum_bound: u32,
}

/// What came of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// An answer with its bounds.
    Solved(Solved),
    /// There is none.
    None,
    /// None was found with the effort allowed, and none is ruled out.
    TooHard,
}

impl Solved {
    /// Whether no other answer is better.
    pub fn is_best(&self) -> bool {
        self.worst <= self.worst_bound && self.sum <= self.sum_bound
    }
}

impl Puzzle {
    /// What each person's picks add up to.
    pub fn totals(&self, picked: &[usize]) -> Vec<u32> {
        let mut totals = vec![0; self.people];
        for (set, at) in self.sets.iter().zip(picked) {
            totals[set.who] += set.offers[*at].cost;
        }
        totals
    }

    /// How many do another movement than their own version, and are alone with it in their line.
    pub fn alone(&self, picked: &[usize]) -> u32 {
        let mut with: BTreeMap<(usize, usize), u32> = BTreeMap::new();
        let movement = |set: &Set, at: &usize| set.offers[*at].movement;
        for (set, at) in self.sets.iter().zip(picked) {
            if let Some(movement) = movement(set, at) {
                *with.entry((set.line, movement)).or_insert(0) += 1;
            }
        }
        let alone = self.sets.iter().zip(picked).filter(|(set, at)| {
            let other = movement(set, at).filter(|movement| Some(*movement) != set.own);
            other.is_some_and(|movement| with.get(&(set.line, movement)) == Some(&1))
        });
        u32::try_from(alone.count()).unwrap_or(u32::MAX)
    }

    /// The misfit of all together.
    pub fn sum(&self, picked: &[usize]) -> u32 {
        self.totals(picked).iter().sum::<u32>() + ALONE * self.alone(picked)
    }

    /// How much of each resource is in use.
    pub fn used(&self, picked: &[usize]) -> Vec<u32> {
        let mut held: BTreeMap<(usize, usize), u32> = BTreeMap::new();
        let mut used = vec![0; self.resources.len()];
        for (set, at) in self.sets.iter().zip(picked) {
            for (resource, n) in &set.offers[*at].uses {
                if self.resources[*resource].held {
                    let most = held.entry((set.who, *resource)).or_insert(0);
                    *most = (*most).max(*n);
                } else {
                    used[*resource] += n;
                }
            }
        }
        held.into_iter().for_each(|((_, resource), n)| used[resource] += n);
        used
    }

    /// Whether nothing is used beyond its count.
    pub fn is_kept(&self, picked: &[usize]) -> bool {
        let used = self.used(picked);
        used.iter().zip(&self.resources).all(|(used, resource)| *used <= resource.count)
    }

    /// The answer with the lowest sum, whoever bears it.
    pub fn lowest_sum(&self) -> Outcome {
        outcome(self, best(self, Limit::None), 0)
    }

    /// First the worst-off person is as well off as possible, then the sum is least.
    pub fn solve(&self) -> Outcome {
        let mut kept = best(self, Limit::None);
        let worst = |found: &Found| self.totals(found.picked()).into_iter().max().unwrap_or(0);
        if kept.picked().len() < self.sets.len() {
            return outcome(self, kept, 0);
        }
        let mut high = worst(&kept);
        let own = least(self).into_iter().max().unwrap_or(0);
        let mut bound = own.min(high);
        // Mostly whoever has least to choose from is the worst off, and then nothing is to be searched.
        if bound < high {
            let found = best(self, Limit::Each(bound));
            if found.picked().len() == self.sets.len() {
                high = worst(&found);
                kept = found;
            } else {
                bound = at_least(self).min(high);
            }
        }
        let mut low = bound;
        // Halving: below `low` nothing was found, at `high` something was.
        while low < high {
            let middle = low + (high - low) / 2;
            let found = best(self, Limit::Each(middle));
            match found {
                Found::Best(..) | Found::Good(..) => {
                    high = worst(&found);
                    kept = found;
                }
                Found::None => {
                    bound = bound.max(middle + 1);
                    low = middle + 1;
                }
                Found::Unknown => low = middle + 1,
            }
        }
        outcome(self, kept, bound.min(high))
    }
}

fn outcome(puzzle: &Puzzle, found: Found, worst_bound: u32) -> Outcome {
    let (picked, sum_bound) = match found {
        Found::Best(picked, bound) | Found::Good(picked, bound) => (picked, bound),
        Found::None => return Outcome::None,
        Found::Unknown => return Outcome::TooHard,
    };
    let totals = puzzle.totals(&picked);
    let worst = totals.iter().copied().max().unwrap_or(0);
    let sum = puzzle.sum(&picked);
    Outcome::Solved(Solved { picked, worst, sum, worst_bound, sum_bound })
}

//! Rota: who is at which line of a block at which second: together, in two halves, or at stations.
//! Never puts anybody in a group by what they can do or lack: groups go by nickname, so that nobody's
//! limits are seen in them, and one limit fewer moves nobody.

use super::people::Person;
use crate::library::Spread;
use crate::plan::{BlockPlan, self_paced};

/// A block as the class goes through it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rota {
    /// How.
    pub spread: Spread,
    /// People of each group, by their places; those at home are in none.
    pub groups: Vec<Vec<usize>>,
    /// How many lines the block has.
    pub lines: usize,
    /// What the clock shows, from the start of the block; empty where each moves on by themselves.
    pub stretches: Vec<Stretch>,
}

/// A stretch of the clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stretch {
    /// Its first second.
    pub from_s: u32,
    /// The second after its last.
    pub to_s: u32,
    /// The line of each group; nothing while a group rests.
    pub lines: Vec<Option<usize>>,
}

/// When a person of a group is at a line, for what is counted: things in use at one moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Moment {
    /// The same step of the round for everybody there.
    Step(usize),
    /// Any time: each moves on by themselves and keeps what they hold.
    AnyTime,
}

/// Whole steps of five seconds: nobody calls a change at 5:57.
const STEP_S: u32 = 5;

impl Rota {
    /// A block of so many lines, gone through like that by the people in the hall.
    pub fn of(plan: &BlockPlan, spread: Spread, people: &[Person]) -> Rota {
        let lines = plan.items.len();
        let groups = match spread {
            Spread::Together => 1,
            Spread::Halves => 2,
            Spread::Stations => lines.max(1),
        };
        let groups = dealt(people, groups, spread);
        let mut rota = Rota { spread, groups, lines, stretches: Vec::new() };
        rota.stretches = rota.clock(plan);
        rota
    }

    /// Steps until every group has been everywhere: a single line in halves takes two.
    fn steps(&self) -> usize {
        match self.spread {
            Spread::Halves => self.lines.max(2),
            Spread::Together | Spread::Stations => self.lines,
        }
    }

    /// How many steps a group is ahead of the first.
    fn ahead(&self, group: usize) -> usize {
        match self.spread {
            Spread::Together => 0,
            Spread::Halves => group * (self.steps() / 2),
            Spread::Stations => group,
        }
    }

    /// The line of a group at a step; nothing while it rests.
    fn line_at(&self, step: usize, group: usize) -> Option<usize> {
        let at = (step + self.ahead(group)) % self.steps().max(1);
        (at < self.lines).then_some(at)
    }

    /// When somebody of a group is at a line.
    pub fn moment(&self, line: usize, group: usize) -> Moment {
        if self.spread == Spread::Together && self.stretches.is_empty() {
            return Moment::AnyTime;
        }
        let steps = self.steps().max(1);
        Moment::Step((line + steps - self.ahead(group) % steps) % steps)
    }

    /// The group of a person; nothing for those at home.
    pub fn group_of(&self, person: usize) -> Option<usize> {
        self.groups.iter().position(|group| group.contains(&person))
    }

    /// The group of whoever comes later, the first of them as 0: each goes to what is then the
    /// smallest, as if they had been dealt out last.
    pub fn latecomer(&self, nth: usize) -> usize {
        let mut sizes: Vec<usize> = self.groups.iter().map(Vec::len).collect();
        let smallest =
            |sizes: &[usize]| (0..sizes.len()).min_by_key(|at| sizes[*at]).unwrap_or_default();
        for _ in 0..nth {
            let at = smallest(&sizes);
            sizes.iter_mut().skip(at).take(1).for_each(|size| *size += 1);
        }
        smallest(&sizes)
    }

    /// Whoever may come later, in the group to which they would go.
    pub fn with_latecomers(mut self, later: &[usize]) -> Rota {
        let groups: Vec<usize> = (0..later.len()).map(|nth| self.latecomer(nth)).collect();
        for (who, group) in later.iter().zip(groups) {
            self.groups.iter_mut().skip(group).take(1).for_each(|group| group.push(*who));
        }
        self
    }

    /// The line at which a person is at a second of the block; nothing where the clock does not say.
    pub fn doing(&self, person: usize, second: u32) -> Option<usize> {
        let group = self.group_of(person)?;
        let now = self.stretches.iter().find(|s| (s.from_s..s.to_s).contains(&second))?;
        now.lines.get(group).copied().flatten()
    }

    fn clock(&self, plan: &BlockPlan) -> Vec<Stretch> {
        let paced = plan.format.is_some_and(self_paced);
        let total = plan.lasts_s();
        match self.spread {
            Spread::Together if paced => Vec::new(),
            Spread::Together => self.by_the_block(plan),
            // One line at a time would be over at half its time.
            Spread::Halves if !paced && self.lines > 1 => self.by_the_block(plan),
            Spread::Halves => {
                let sets = plan.items.iter().map(|item| item.sets.to.max(1)).max().unwrap_or(1);
                self.in_turn(total, sets)
            }
            Spread::Stations => self.in_turn(total, 1),
        }
    }

    /// As the block's own clock goes, each group at its line.
    fn by_the_block(&self, plan: &BlockPlan) -> Vec<Stretch> {
        let groups = 0..self.groups.len();
        let stretch = |slot: &crate::plan::Slot| {
            let step = slot.item?;
            let lines = groups.clone().map(|group| self.line_at(step, group)).collect();
            Some(Stretch { from_s: slot.from_s, to_s: slot.to_s, lines })
        };
        plan.timeline.iter().filter_map(stretch).collect()
    }

    /// So many times round, every step as long.
    fn in_turn(&self, total: u32, times: u32) -> Vec<Stretch> {
        let steps = u32::try_from(self.steps()).unwrap_or(u32::MAX).max(1);
        let all = steps.saturating_mul(times.max(1));
        let stay = (total / all / STEP_S * STEP_S).max(STEP_S);
        let stretch = |step: u32| {
            let groups = 0..self.groups.len();
            let lines = groups.map(|group| self.line_at((step % steps) as usize, group)).collect();
            Stretch { from_s: step * stay, to_s: (step + 1) * stay, lines }
        };
        (0..all).map(stretch).collect()
    }
}

/// People in the hall dealt out by nickname, the first group the largest. Who works with whom stands at
/// the same station, and in halves one works while the other does the other line.
fn dealt(people: &[Person], groups: usize, spread: Spread) -> Vec<Vec<usize>> {
    let mut dealt = vec![Vec::new(); groups];
    let smallest = |dealt: &mut Vec<Vec<usize>>, not: Option<usize>| {
        let places = (0..groups).filter(|at| Some(*at) != not || groups == 1);
        places.min_by_key(|at| dealt[*at].len()).unwrap_or(0)
    };
    let here = |at: usize| people.get(at).is_some_and(|person| !person.at_home);
    for at in (0..people.len()).filter(|at| here(*at)) {
        if dealt.iter().any(|group: &Vec<usize>| group.contains(&at)) {
            continue;
        }
        let group = smallest(&mut dealt, None);
        dealt[group].push(at);
        let named = |name: &String| people.iter().position(|person| person.name == *name);
        if let Some(other) = people[at].with.as_ref().and_then(named).filter(|at| here(*at)) {
            let beside = match spread {
                Spread::Halves => smallest(&mut dealt, Some(group)),
                Spread::Together | Spread::Stations => group,
            };
            dealt[beside].push(other);
        }
    }
    dealt.iter_mut().for_each(|group| group.sort_unstable());
    dealt
}

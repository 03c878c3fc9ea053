//! Ways: the steps from one rung up to another, across ladders.
//! Never says how long they take.

use super::{LadderGraph, RungIndex, RungKey, Step};
use crate::library::{Ladder, MovementId};
use std::collections::VecDeque;

impl LadderGraph {
    /// The fewest steps up from one rung to another; empty when they are the same rung.
    pub fn way(&self, from: RungIndex, to: RungIndex) -> Option<Vec<&Step>> {
        let mut arrived_by: Vec<Option<usize>> = vec![None; self.rungs.len()];
        let mut seen = vec![false; self.rungs.len()];
        seen[from.0] = true;
        let mut queue = VecDeque::from([from]);
        while let Some(rung) = queue.pop_front() {
            if rung == to {
                return Some(self.back_along(&arrived_by, from, to));
            }
            for at in &self.up[rung.0] {
                let next = self.steps[*at].to;
                if !std::mem::replace(&mut seen[next.0], true) {
                    arrived_by[next.0] = Some(*at);
                    queue.push_back(next);
                }
            }
        }
        None
    }

    fn back_along(&self, by: &[Option<usize>], from: RungIndex, to: RungIndex) -> Vec<&Step> {
        let mut way = Vec::new();
        let mut rung = to;
        while rung != from {
            let Some(step) = by[rung.0].map(|at| &self.steps[at]) else { break };
            way.push(step);
            rung = step.from;
        }
        way.reverse();
        way
    }

    /// The fewest steps from any rung of a movement to the top of a ladder.
    pub fn way_to_goal(&self, from: &MovementId, ladder: &Ladder) -> Option<Vec<&Step>> {
        let goal = self.find(&RungKey::of(ladder.rungs.last()?))?;
        self.rungs_of(from).filter_map(|rung| self.way(rung, goal)).min_by_key(Vec::len)
    }
}

//! Score: how alike the work of two movements is, part by part, in thousandths.
//! Never asks who is asking: a score belongs to two movements, so a page can print its order.

use super::links::FirstChoice;
use super::weights::{
    FLOOR, LINKED, LINKED_BACK, MOVERS_FLOOR, PATTERN_FLOOR, PER_LEVEL, PER_RUNG, WEIGHTS, counts,
    purposes, sides,
};
use crate::library::Movement;

/// How alike two movements are. Every part runs from 0 to 1000; nothing where it is not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Score {
    /// Pattern: 1000 for the same, else what `words/patterns.yaml` says under `near`.
    pub pattern: u32,
    /// Muscles by how hard they work; nothing where an entry names none.
    pub movers: Option<u32>,
    /// What it is trained for.
    pub purpose: Option<u32>,
    /// How near the effort is.
    pub demand: Option<u32>,
    /// Both sides at once, or one.
    pub sides: u32,
    /// The plane.
    pub plane: Option<u32>,
    /// How much balance it asks for.
    pub stability: u32,
    /// How hard the hands must hold.
    pub grip: u32,
    /// What is counted.
    pub counts: u32,
    /// Added for a link that the coach has written.
    pub linked: u32,
    /// The parts by their weights, and the link.
    pub total: u32,
}

impl Score {
    /// Every part: its name, its weight, and how alike the two are in it.
    pub fn parts(&self) -> [(&'static str, u32, Option<u32>); 9] {
        [
            ("pattern", WEIGHTS.pattern, Some(self.pattern)),
            ("prime movers", WEIGHTS.movers, self.movers),
            ("purpose", WEIGHTS.purpose, self.purpose),
            ("demand", WEIGHTS.demand, self.demand),
            ("sides", WEIGHTS.sides, Some(self.sides)),
            ("plane", WEIGHTS.plane, self.plane),
            ("stability", WEIGHTS.stability, Some(self.stability)),
            ("grip", WEIGHTS.grip, Some(self.grip)),
            ("counted in", WEIGHTS.counts, Some(self.counts)),
        ]
    }

    /// The score of `to` as a swap for the first choice, if it does the same work at all.
    pub fn of(first: &FirstChoice<'_>, to: &Movement) -> Option<Score> {
        let from = first.movement;
        let pattern = first.near(&to.pattern.value);
        let said = first.said(&to.id).is_some();
        // What must match must match, unless the coach has said that the two do like work.
        if !said && pattern < PATTERN_FLOOR {
            return None;
        }
        let movers = first.effort.shared_with(&to.muscles);
        let purpose = from.purpose.zip(to.purpose).map(|(a, b)| purposes(a, b));
        if !said && (movers.is_some_and(|m| m < MOVERS_FLOOR) || purpose == Some(0)) {
            return None;
        }
        let linked = match (said, first.said_back(to)) {
            (true, _) => LINKED,
            (false, true) => LINKED_BACK,
            (false, false) => 0,
        };
        let score = Score {
            pattern,
            movers,
            purpose,
            demand: demand(first, to),
            sides: sides(from.sides, to.sides),
            plane: from.plane.zip(to.plane).map(|(a, b)| if a == b { 1000 } else { 0 }),
            stability: levels(from, to, "balance"),
            grip: levels(from, to, "strong-grip"),
            counts: counts(from.counts, to.counts),
            linked,
            total: 0,
        };
        let total = score.weighed() + linked;
        // A link that the coach wrote is always an answer, however unlike the two are.
        (said || total >= FLOOR).then_some(Score { total, ..score })
    }

    /// The mean of the parts that are known, by their weights.
    fn weighed(&self) -> u32 {
        let known = || self.parts().into_iter().filter_map(|(_, w, part)| Some((w, part?)));
        let weights: u32 = known().map(|(weight, _)| weight).sum();
        known().map(|(weight, part)| weight * part).sum::<u32>() / weights.max(1)
    }
}

fn levels(from: &Movement, to: &Movement, name: &str) -> u32 {
    let apart = u32::from(level(from, name).abs_diff(level(to, name)));
    1000_u32.saturating_sub(PER_LEVEL * apart)
}

/// How much of a trait a movement has, by the trait's id as text.
pub fn level(movement: &Movement, name: &str) -> u8 {
    let traits = movement.traits.iter().flatten();
    let of = traits.map(|of| &of.id.value).find(|id| id.as_str() == name);
    of.map_or(0, |id| movement.trait_level(id))
}

/// How near the effort is. Where both poses give a number on one axis, their ratio; else only a
/// ladder that holds both says anything: its rungs stand in order of demand.
fn demand(first: &FirstChoice<'_>, to: &Movement) -> Option<u32> {
    match (first.asks, first.gym.asks_usually.get(&to.id).copied()) {
        (Some((one, a)), Some((other, b))) if one == other => {
            Some(1000 * a.min(b) / a.max(b).max(1))
        }
        _ => {
            let further = first.on_ladder(&to.id)?.apart().saturating_sub(1);
            let lost = PER_RUNG.saturating_mul(u32::try_from(further).unwrap_or(u32::MAX));
            Some(1000_u32.saturating_sub(lost))
        }
    }
}

//! A session: its blocks one after the other, its sets by pattern, and what its warm-up reaches.
//! Never changes a block to make the hour.

use super::band::{Band, add};
use super::block::{BlockPlan, ItemPlan, block_plan};
use super::joints::{self, Joint};
use super::pace::RE_RIG_S;
use super::ways::{ways, whole_seconds};
use crate::gym::Gym;
use crate::library::{Block, Count, KitId, Movement, MuscleId, PatternId, Session};
use std::collections::{BTreeMap, BTreeSet};

/// A session with its arithmetic done. Times in seconds.
#[derive(Debug, Clone)]
pub struct SessionPlan {
    /// Its blocks in order.
    pub blocks: Vec<BlockPlan>,
    /// Clearing away and rigging between the blocks, all of it.
    pub between: Band,
    /// The blocks and what is between them.
    pub total: Band,
    /// The length that the coach gave it.
    pub length: Option<u32>,
    /// Whether even the most it takes is inside its length.
    pub fits: bool,
    /// Sets of one person by pattern, without the warm-up and without what is for range.
    pub sets: BTreeMap<PatternId, Count>,
    /// Kit, and how many its block with the most lines for it needs at once when the class spreads
    /// over the lines; no two blocks run at the same time.
    pub kit: BTreeMap<KitId, u32>,
    /// Prime movers of the work, by whatever rung or option.
    pub muscles: BTreeSet<MuscleId>,
    /// Joints that the work works hard.
    pub joints: BTreeSet<Joint>,
    /// What the warm-up reaches; nothing without one.
    pub warm_up: Option<WarmUp>,
}

/// A warm-up against the work that follows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WarmUp {
    /// Which block it is, from 0.
    pub block: usize,
    /// Joints that it moves.
    pub moved: BTreeSet<Joint>,
    /// Joints that the work works hard and the warm-up does not move.
    pub missed: BTreeSet<Joint>,
}

/// A session with its arithmetic done.
pub fn session_plan(gym: &Gym, session: &Session) -> SessionPlan {
    let blocks: Vec<BlockPlan> = session.blocks.iter().map(|b| block_plan(gym, b)).collect();
    let changes = u32::try_from(blocks.len().saturating_sub(1)).unwrap_or(u32::MAX);
    let between = RE_RIG_S.times(Count { from: changes, to: changes });
    let total = Band::sum(blocks.iter().map(|block| block.total)).plus(between);
    let length = session.length.map(whole_seconds);
    let warm = warm_up_block(session);
    let work: Vec<&Movement> = work_of(gym, session);
    let prime = work.iter().flat_map(|movement| &movement.muscles.prime);
    let joints: BTreeSet<Joint> = work.iter().flat_map(|m| joints::worked(m)).collect();
    SessionPlan {
        sets: sets(gym, &blocks, warm),
        between,
        total,
        length,
        fits: length.is_none_or(|length| total.most <= length),
        kit: kit_at_once(&blocks),
        muscles: prime.map(|muscle| muscle.value.clone()).collect(),
        warm_up: warm.map(|at| warm_up(gym, at, &session.blocks[at], &joints)),
        joints,
        blocks,
    }
}

/// From when to when each block goes, in seconds of the session: one after the other, each at its
/// longest, with the rigging between.
pub fn in_turn(lasts_s: impl Iterator<Item = u32>) -> Vec<(u32, u32)> {
    let mut from_s = 0;
    let one = |lasts_s: u32| {
        let time = (from_s, from_s + lasts_s);
        from_s = time.1 + RE_RIG_S.most;
        time
    };
    lasts_s.map(one).collect()
}

/// The block that warms up: the first, when its name says that it does.
pub fn warm_up_block(session: &Session) -> Option<usize> {
    let first = session.blocks.first()?;
    first.name.value.to_lowercase().contains("warm").then_some(0)
}

/// Movements of a block, by whatever rung or option.
pub(super) fn movements<'g>(gym: &'g Gym, block: &'g Block) -> Vec<&'g Movement> {
    block.items.iter().flat_map(|item| ways(gym, item)).map(|way| way.movement).collect()
}

/// Movements of every block but the warm-up that are trained for more than range.
fn work_of<'g>(gym: &'g Gym, session: &'g Session) -> Vec<&'g Movement> {
    let warm = warm_up_block(session);
    let blocks = session.blocks.iter().enumerate().filter(|(at, _)| Some(*at) != warm);
    let found = blocks.flat_map(|(_, block)| movements(gym, block));
    found.filter(|movement| !is_mobility(movement)).collect()
}

/// Whether a movement is for range and tires nobody.
pub(super) fn is_mobility(movement: &Movement) -> bool {
    movement.purpose == Some(crate::library::Purpose::Mobility)
}

fn warm_up(gym: &Gym, at: usize, block: &Block, work: &BTreeSet<Joint>) -> WarmUp {
    let found = movements(gym, block);
    let moved: BTreeSet<Joint> =
        found.iter().flat_map(|movement| joints::moved(movement)).collect();
    let missed = work.difference(&moved).copied().collect();
    WarmUp { block: at, moved, missed }
}

fn kit_at_once(blocks: &[BlockPlan]) -> BTreeMap<KitId, u32> {
    let mut kit = BTreeMap::new();
    for (id, lines) in blocks.iter().flat_map(|block| &block.kit) {
        let most = kit.entry(id.clone()).or_insert(0);
        *most = u32::max(*most, *lines);
    }
    kit
}

fn sets(gym: &Gym, blocks: &[BlockPlan], warm: Option<usize>) -> BTreeMap<PatternId, Count> {
    let mut sets: BTreeMap<PatternId, Count> = BTreeMap::new();
    let work = blocks.iter().enumerate().filter(|(at, _)| Some(*at) != warm);
    let tires = |item: &&ItemPlan| {
        let mut done = item.ways.iter().filter_map(|way| gym.library.movements.get(&way.movement));
        done.any(|movement| !is_mobility(movement))
    };
    for item in work.flat_map(|(_, block)| &block.items).filter(tires) {
        if let Some(pattern) = &item.pattern {
            let so_far = sets.entry(pattern.clone()).or_insert(Count { from: 0, to: 0 });
            *so_far = add(*so_far, item.sets);
        }
    }
    sets
}

//! Trials: which blocks of a session are a ladder's test.
//! Never scores one; placing does.

use super::ways::ways;
use crate::gym::Gym;
use crate::library::{Block, ItemWork, LadderId, Library, Session, WeekKind};
use std::collections::BTreeMap;

/// Whether a session stands in a week of test or retest of any cycle.
pub(super) fn may_test(library: &Library, session: &Session) -> bool {
    let weeks = library.cycles.values().flat_map(|cycle| &cycle.weeks);
    let mut tests = weeks.filter(|w| matches!(w.kind, Some(WeekKind::Test | WeekKind::Retest)));
    tests.any(|week| week.sessions.iter().any(|id| id.value == session.id))
}

/// The block that tests each ladder, from 0: the last one that asks for one single set of it.
/// Nothing where no test week has the session.
pub fn trials<'g>(gym: &'g Gym, session: &'g Session) -> BTreeMap<&'g LadderId, usize> {
    if !may_test(&gym.library, session) {
        return BTreeMap::new();
    }
    let blocks = session.blocks.iter().enumerate();
    blocks.flat_map(|(at, block)| tested(gym, block).map(move |ladder| (ladder, at))).collect()
}

fn tested<'g>(gym: &'g Gym, block: &'g Block) -> impl Iterator<Item = &'g LadderId> {
    block.items.iter().filter_map(|item| {
        let ItemWork::Ladder(id) = &item.work else { return None };
        let has_test = gym.library.ladders.get(&id.value)?.test.is_some();
        let one_set = item.dose.as_ref().and_then(|dose| dose.sets).is_some_and(|n| n.to == 1);
        (has_test && one_set && !ways(gym, item).is_empty()).then_some(&id.value)
    })
}

//! Balance: sets of a week by pattern, pulling beside pushing.
//! Never counts a warm-up as a set.

use super::band::add;
use super::pace::LIGHTER_SHARE;
use super::session::session_plan;
use crate::gym::Gym;
use crate::library::{Count, Cycle, CycleWeek, PatternId, WeekKind};
use std::collections::BTreeMap;

/// Sets of one person in one week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeekBalance {
    /// The week, from 1.
    pub week: u32,
    /// What it is for.
    pub kind: Option<WeekKind>,
    /// Sets by pattern; a lighter week keeps its share of them.
    pub sets: BTreeMap<PatternId, Count>,
    /// Sets of every pattern.
    pub all: Count,
    /// Sets of the patterns whose id begins with `push`.
    pub pushing: Count,
    /// Sets of the patterns whose id begins with `pull`.
    pub pulling: Count,
}

impl WeekBalance {
    /// Whether pulling falls behind pushing, half-way between the fewest and the most sets.
    pub fn pulls_less(&self) -> bool {
        self.pulling.middle() < self.pushing.middle()
    }
}

/// Sets of a week of a cycle; nothing when the cycle has no such week.
pub fn week_balance(gym: &Gym, cycle: &Cycle, week: u32) -> Option<WeekBalance> {
    let week = cycle.weeks.iter().find(|written| written.week == week)?;
    let mut sets: BTreeMap<PatternId, Count> = BTreeMap::new();
    let sessions = week.sessions.iter().filter_map(|id| gym.library.sessions.get(&id.value));
    for (pattern, count) in sessions.flat_map(|session| session_plan(gym, session).sets) {
        let so_far = sets.entry(pattern).or_insert(Count { from: 0, to: 0 });
        *so_far = add(*so_far, count);
    }
    sets.values_mut().for_each(|count| *count = share(week, *count));
    let of = |start: &str| {
        let named = sets.iter().filter(|(pattern, _)| pattern.as_str().starts_with(start));
        named.map(|(_, count)| *count).fold(Count { from: 0, to: 0 }, add)
    };
    let (all, pushing, pulling) = (of(""), of("push"), of("pull"));
    Some(WeekBalance { week: week.week, kind: week.kind, sets, all, pushing, pulling })
}

/// What a week keeps of the sets; half a set is done.
pub(super) fn share(week: &CycleWeek, count: Count) -> Count {
    let lighter = week.kind == Some(WeekKind::Lighter);
    let keep = |n: u32| if lighter { (n.saturating_mul(LIGHTER_SHARE)).div_ceil(100) } else { n };
    Count { from: keep(count.from), to: keep(count.to) }
}

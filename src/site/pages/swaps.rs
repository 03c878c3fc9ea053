//! The swaps of a movement's page: like work at a rung that asks no more.
//! Never for a person; the page's script answers for them, by the rule of the command.

use super::frame::{Link, Maker};
use super::needs::Needs;
use crate::library::Movement;
use crate::swap::{self, Candidate, Person};
use serde::Serialize;

/// A swap at the rung that anybody may start from.
#[derive(Debug, Serialize)]
pub struct SwapRow {
    link: Link,
    /// Its rung, in words.
    setting: String,
    /// True when nobody knows the reader's rung on its ladder: this is its lowest.
    start_here: bool,
    reason: String,
    brings_in: Option<String>,
    needs: Needs,
}

/// Every movement that does like work and asks no more, best first, for nobody in particular; the
/// page's script answers for a person.
pub fn swaps(maker: &Maker<'_>, from: &Movement, candidates: &[Candidate]) -> Vec<SwapRow> {
    let gym = maker.gym;
    let asked = swap::asked_rung(gym, &from.id);
    let row = |candidate: &Candidate| {
        let to = gym.library.movements.get(&candidate.to)?;
        let reach = swap::within_reach(gym, &asked, to, &Person::default());
        let (rung, start_here) = reach.into_iter().next()?;
        Some(SwapRow {
            link: maker.movement(&candidate.to),
            setting: rung.said(),
            start_here,
            reason: candidate.reason.clone(),
            brings_in: swap::brings_in(gym, &asked, &swap::brought(gym, &asked, (&rung, &[]))),
            needs: Needs::at(gym, to, &rung.settings()),
        })
    };
    candidates.iter().filter_map(row).collect()
}

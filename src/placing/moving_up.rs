//! Whether to move up, by the ladder's own rule on counted repetitions.
//! Never on an estimate, and never on how hard it felt.

use super::Sheet;
use super::sheet::UpRule;
use super::words::{self, Words, fill};
use serde::Serialize;
use std::fmt::Display;

/// What the rule says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// The ladder has no rule.
    NoRule,
    /// The rule is more than a count.
    AskCoach,
    /// There is no rung above.
    TopRung,
    /// The count was made at a height or lean of one's own, not on the rung as written.
    Elsewhere,
    /// The count is short of the rule.
    NotYet,
    /// Far enough today; the rule asks for more sessions.
    Counts,
    /// The rule is met.
    Ready,
    /// Placing starts on another rung than the tested one; the rule counts from there.
    Placed,
}

/// A verdict with its sentence, which carries the rule's own words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MoveUp {
    /// The verdict.
    pub verdict: Verdict,
    /// The sentence.
    pub say: String,
}

/// What the rule says to a count at a height or lean of one's own on `rung` (from 1): wait.
pub(super) fn elsewhere(sheet: &Sheet, rung: u32) -> MoveUp {
    let Some(UpRule { words: rule, .. }) = &sheet.up else { return move_up(sheet, rung, &[]) };
    let say = fill(words::UP_ELSEWHERE, &[("rung", &rung), ("rule", rule)]);
    MoveUp { verdict: Verdict::Elsewhere, say }
}

/// What is said where today's rung is not the tested one: the rule would speak of a rung that nobody
/// is on. It keeps its word where the count itself meets it.
pub(super) fn from_today(sheet: &Sheet, by_rule: MoveUp, (tested, today): (u32, u32)) -> MoveUp {
    let speaks = matches!(by_rule.verdict, Verdict::Ready) && today > tested;
    match &sheet.up {
        Some(UpRule { words: rule, .. }) if today != tested && !speaks => {
            let say = fill(words::UP_PLACED, &[("rung", &today), ("rule", rule)]);
            MoveUp { verdict: Verdict::Placed, say }
        }
        _ => by_rule,
    }
}

/// One count a session: of several results of one day, in the order in which they were made, the last.
pub fn sessions<D: PartialEq>(results: impl IntoIterator<Item = (D, u32)>) -> Vec<u32> {
    let mut sessions: Vec<(D, u32)> = Vec::new();
    for (day, count) in results {
        match sessions.last_mut().filter(|(last, _)| *last == day) {
            Some(session) => session.1 = count,
            None => sessions.push((day, count)),
        }
    }
    sessions.into_iter().map(|(_, count)| count).collect()
}

/// Whether the last sets of sessions at `rung` (from 1; the latest session last) meet the rule.
pub fn move_up(sheet: &Sheet, rung: u32, last_sets: &[u32]) -> MoveUp {
    let told = |verdict, sentence: Words, holes: &[(&str, &dyn Display)]| MoveUp {
        verdict,
        say: fill(sentence, holes),
    };
    let at = (rung as usize).saturating_sub(1);
    let Some(UpRule { words: rule, count }) = &sheet.up else {
        return told(Verdict::NoRule, words::UP_NO_RULE, &[]);
    };
    if rung as usize >= sheet.rungs.len() {
        return told(Verdict::TopRung, words::UP_TOP, &[("rung", &rung)]);
    }
    let (Some(count), Some(dose)) = (count, sheet.rungs[at]) else {
        return told(Verdict::AskCoach, words::UP_COACH, &[("rule", rule)]);
    };
    let target = dose.to.saturating_add(count.over);
    let running = last_sets.iter().rev().take_while(|set| **set >= target).count();
    let last = last_sets.last().copied().unwrap_or(0);
    match running {
        0 => told(
            Verdict::NotYet,
            words::UP_NOT_YET,
            &[("target", &target), ("count", &last), ("rule", rule)],
        ),
        few if few < count.sessions as usize => told(
            Verdict::Counts,
            words::UP_COUNTS,
            &[("so_far", &few), ("sessions", &count.sessions), ("rule", rule)],
        ),
        _ => told(Verdict::Ready, words::UP_READY, &[("next", &(rung + 1)), ("rule", rule)]),
    }
}

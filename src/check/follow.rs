//! What only follows from a mistake that is said already: it is left out until that is mended.
//! Never hides a mistake of its own place: only what is missing, or reckoned, because of another.

use super::causes;
use crate::finding::{Finding, Severity, Sources, Span};
use crate::gym::Gym;
use std::collections::BTreeSet;

/// Rules that say what an entry lacks: where a part of the entry could not be read, it may be there.
const LACKS: [&str; 31] = [
    "block-without-format",
    "caution-unsourced",
    "caution-without-clinician",
    "caution-without-traits",
    "change-without-how",
    "empty-block",
    "fault-without-cause",
    "fault-without-cue",
    "fault-without-then",
    "format-incomplete",
    "kit-without-check",
    "ladder-without-goal",
    "ladder-without-moves-down",
    "ladder-without-moves-up",
    "ladder-without-test",
    "no-caution-line",
    "no-cue",
    "no-fault",
    "no-pace",
    "no-prime-mover",
    "no-sources",
    "no-standard",
    "picture-missing",
    "pose-shows-other-kit",
    "room-unsaid",
    "rung-without-dose",
    "setting-missing",
    "setting-without-harder",
    "source-incomplete",
    "test-incomplete",
    "traits-unsaid",
];

/// Rules that an entry is measured by as a whole, by what stands in it.
const MEASURES: [&str; 8] = [
    "one-rung-ladder",
    "setting-unknown",
    "step-unnamed",
    "step-too-big",
    "taken-setting-unknown",
    "test-rung-missing",
    "week-without-session",
    "week-out-of-order",
];

/// Rules that reckon with other entries: where one of those could not be read, they reckon wrongly.
const RECKONS: [&str; 15] = [
    "below-the-ladder",
    "cycle-without-retest",
    "focus-untested",
    "hall-lacks-kit",
    "joint-left-cold",
    "kit-free-dead-end",
    "line-leaves-many-out",
    "nothing-left",
    "option-does-not-fit",
    "orphan-movement",
    "pulling-below-pushing",
    "session-too-long",
    "test-day-tires",
    "test-too-soon",
    "weekly-sets-jump",
];

/// Keeps what is a mistake of its own.
pub fn causes_only(findings: &mut Vec<Finding>, gym: &Gym) {
    causes::keep(findings, &gym.library);
    follows(findings, gym);
}

fn follows(findings: &mut Vec<Finding>, gym: &Gym) {
    let read_wrongly: Vec<Span> = gym
        .library
        .findings
        .iter()
        .filter(|finding| finding.severity == Severity::Error)
        .map(|finding| finding.place.span)
        .collect();
    let is_named_wrongly = |finding: &Finding| {
        finding.code.0.starts_with("unknown-") || finding.code.0 == "beside-itself"
    };
    let named_wrongly = findings.iter().any(is_named_wrongly);
    if read_wrongly.is_empty() && !named_wrongly {
        return;
    }
    let sources = &gym.library.sources;
    let entries: BTreeSet<(u32, usize)> =
        read_wrongly.iter().map(|span| entry(*span, sources)).collect();
    findings.retain(|finding| {
        let code = finding.code.0;
        let of_the_entry = LACKS.contains(&code) || MEASURES.contains(&code);
        let here = || entries.contains(&entry(finding.place.span, sources));
        // A movement that no ladder could be found to have has no rung below.
        let words = sources.words(finding.place.span);
        let reckons =
            RECKONS.contains(&code) || code == "then-names-nothing" && words == "rung below";
        !(reckons || of_the_entry && here())
    });
}

/// The entry that a place lies in: a file, or in a file of words the id above the place.
pub(super) fn entry(span: Span, sources: &Sources) -> (u32, usize) {
    let file = span.file.0;
    if !sources.name(span.file).split('/').any(|part| part == "words") {
        return (file, 0);
    }
    let before = sources.text(span.file).get(..span.start as usize).unwrap_or("");
    let line = before.rfind('\n').map_or(0, |end| end + 1);
    let text = sources.text(span.file);
    let starts_id = |at: usize| text[at..].starts_with(|c: char| c.is_alphanumeric());
    let mut starts = std::iter::successors(Some(line), |at| {
        let above = text[..at.checked_sub(1)?].rfind('\n');
        Some(above.map_or(0, |end| end + 1)).filter(|above| above < at)
    });
    (file, starts.find(|at| starts_id(*at)).unwrap_or(0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_rule_that_waits_is_a_rule() {
        let known: BTreeSet<&str> = crate::check::rules().iter().map(|rule| rule.code.0).collect();
        for code in LACKS.iter().chain(&MEASURES).chain(&RECKONS) {
            assert!(known.contains(code), "{code}");
        }
    }
}

//! Problems of poses as findings, at the word that was written.
//! Never judges a pose: `mechanics` did, for every movement and every rung.

use super::Rule;
use crate::figure::doubts::Doubt;
use crate::finding::{Finding, Span};
use crate::gym::{Gym, Posed};
use crate::library::Movement;
use crate::mechanics::node::{PoseCode, PoseProblem};
use crate::mechanics::solve::SolvedFigure;
use std::collections::BTreeSet;

/// Every problem of one kind: of the movements at their usual settings, then of the rungs, each
/// place once.
pub fn problems(rule: &Rule, code: PoseCode, gym: &Gym) -> Vec<Finding> {
    let usual = gym.posed.iter().map(|(id, posed)| (id, String::new(), posed));
    let rungs = gym.rungs.iter().map(|(key, posed)| {
        let settings: Vec<String> =
            key.settings.iter().map(|(name, value)| format!("{name} {value}")).collect();
        (&key.movement, settings.join(", "), posed)
    });
    let mut said = BTreeSet::new();
    let mut findings = Vec::new();
    for (id, at, posed) in usual.chain(rungs) {
        let Some(movement) = gym.library.movements.get(id) else { continue };
        for problem in of_kind(posed, code) {
            if said.insert((id, problem.at)) {
                findings.push(finding(rule, movement, &at, problem, gym));
            }
        }
    }
    findings
}

fn of_kind(posed: &Posed, code: PoseCode) -> impl Iterator<Item = &PoseProblem> {
    posed.problems.iter().filter(move |problem| problem.code == code)
}

fn finding(
    rule: &Rule,
    movement: &Movement,
    at: &str,
    problem: &PoseProblem,
    gym: &Gym,
) -> Finding {
    let sentence = problem.sentence.trim_end_matches('.');
    let headline =
        if at.is_empty() { sentence.to_string() } else { format!("{sentence}, at {at}") };
    rule.finding(headline, written_at(gym, movement, problem.at)).help(problem.next.clone())
}

/// What the eye would not read in the figures of the movements, each headline once a movement.
pub fn doubts(rule: &Rule, judge: fn(&SolvedFigure) -> Vec<Doubt>, gym: &Gym) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (id, posed) in &gym.posed {
        let Some(movement) = gym.library.movements.get(id) else { continue };
        let Some(figure) = &posed.figure else { continue };
        let mut said = BTreeSet::new();
        for doubt in judge(figure) {
            let place = written_at(gym, movement, doubt.at);
            if said.insert(doubt.at) {
                findings.push(rule.finding(doubt.sentence, place).help(doubt.next));
            }
        }
    }
    findings
}

/// The word or phrase of a movement's file that starts at a byte.
pub(super) fn written_at(gym: &Gym, movement: &Movement, at: usize) -> Span {
    let file = movement.name.span.file;
    Span::new(file, at, at + word_at(gym.library.sources.text(file), at))
}

/// How many bytes the word or phrase at `at` takes: up to the comma, bracket or end of line that
/// ends it, or the whole of a quoted one. A block is pointed at by its first character.
fn word_at(text: &str, at: usize) -> usize {
    let Some(rest) = text.get(at..) else { return 0 };
    let first = rest.chars().next();
    let length = match first {
        Some(quote @ ('"' | '\'')) => rest[1..].find(quote).map_or(1, |end| end + 2),
        Some('{' | '[') | None => 1,
        Some(_) => rest
            .find([',', '}', ']', '\n', '#'])
            .map_or(rest.len(), |end| rest[..end].trim_end().len()),
    };
    length.min(rest.len())
}

//! Contacts carried over: what of an earlier key pose still holds in one that cannot be met, and
//! which of it is in the way. Only words better what the search missed; it moves no body.

use super::joints::Side;
use super::node::PoseProblem;
use super::words::contact::{Contact, Family};
use super::words::keypose::KeyPose;

/// What a pose still touches though it does not say so: `back: floor`.
#[derive(Debug, Clone)]
pub struct Carried {
    /// As it was written.
    pub written: String,
    /// The word that takes it away: `back`, `far foot`.
    pub lift: String,
    side: Option<Side>,
    family: Family,
}

/// Problems of the key pose number `index`, each at a word of that pose and with what of the poses
/// before is in its way. `solves` says whether a pose could be met, so that what is in the way is
/// tried and not guessed.
pub fn told(
    problems: Vec<PoseProblem>,
    poses: &[KeyPose],
    index: usize,
    holds: &[Contact],
    solves: impl Fn(&KeyPose) -> bool,
) -> Vec<PoseProblem> {
    let Some(pose) = poses.get(index).filter(|_| index > 0 && !problems.is_empty()) else {
        return problems;
    };
    let mut carried = carried(pose, holds);
    // What else touches nothing cannot be what was meant: nobody floats.
    if carried.len() == 1 && pose.contacts.is_empty() {
        carried.clear();
    }
    let culprit = carried.iter().find(|one| {
        let mut without = pose.clone();
        without.lifted.push((one.side, one.family));
        solves(&without)
    });
    let here = |problem: PoseProblem| moved_here(problem, pose, name(index, poses.len()));
    let told = problems.into_iter().map(here);
    match culprit {
        Some(one) => told.map(|problem| in_the_way(problem, one)).collect(),
        None => told.collect(),
    }
}

fn name(index: usize, poses: usize) -> &'static str {
    if index + 1 == poses { "end" } else { "between" }
}

/// Contacts that hold and stand in no word of the pose; both sides of one word once.
pub fn carried(pose: &KeyPose, holds: &[Contact]) -> Vec<Carried> {
    let earlier = |contact: &&Contact| !pose.contacts.iter().any(|own| own.at == contact.at);
    let earlier: Vec<&Contact> = holds.iter().filter(earlier).collect();
    let mut found: Vec<Carried> = Vec::new();
    for contact in &earlier {
        let both = contact.side.is_some()
            && earlier.iter().any(|o| o.at == contact.at && o.side != contact.side);
        let word = contact.part.word(both || contact.side.is_none());
        let side = contact.side.filter(|_| !both);
        let lift = side.map_or(word.to_string(), |side| format!("{} {word}", side.word()));
        if found.iter().all(|one| one.lift != lift) {
            let written = format!("{word}: {}", contact.written);
            found.push(Carried { written, lift, side, family: contact.part.family() });
        }
    }
    // A back or a seat is what people forget to lift; hands and feet stay on purpose.
    found.sort_by_key(|one| matches!(one.family, Family::Arm | Family::Leg));
    found
}

/// A contact that an earlier pose wrote is missed here: the fault stands here.
fn moved_here(mut problem: PoseProblem, pose: &KeyPose, name: &str) -> PoseProblem {
    let own = pose.contacts.iter().map(|contact| contact.at).chain(pose.said.iter().map(|s| s.at));
    if own.into_iter().any(|at| at == problem.at) {
        return problem;
    }
    problem.at = pose.at;
    let sentence = problem.sentence.trim_end_matches('.');
    problem.sentence = format!("In `{name}`: {sentence}.");
    problem
}

fn in_the_way(mut problem: PoseProblem, one: &Carried) -> PoseProblem {
    let sentence = problem.sentence.trim_end_matches('.');
    problem.sentence =
        format!("{sentence}, and `{}` still holds from the key pose before.", one.written);
    problem.next = format!("write `lift: {}`, or give it another place here", one.lift);
    problem
}

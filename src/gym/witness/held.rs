//! What is held and where its weight goes.
//! Never counts a weight that lies on the hips, or one that a lying or hanging body holds.

use super::Sight;
use super::facts::PoseFacts;
use super::thresholds as from;

/// Weight that the spine has to hold up.
pub fn axial(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    let weight = facts.held_by_trunk();
    if weight < from::SPINE_CARRIES {
        return None;
    }
    let bowed = facts.tilt() >= from::BOWED && facts.only_on_feet();
    let much = weight >= from::SPINE_CARRIES_MUCH || (bowed && weight >= from::BOWED_CARRIES);
    let how = match (facts.tilt() >= from::BOWED, bowed) {
        (true, true) => "by a bowed trunk that nothing supports",
        (true, false) => "by a bowed trunk with a hand to support it",
        _ => "by an upright trunk",
    };
    let words = format!("{weight:.0} kg are held {how}");
    Some(Sight::new(if much { 2 } else { 1 }, weight, words).at(facts.figure.recipe.at))
}

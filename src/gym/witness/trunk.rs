//! What the trunk of a pose shows: lying, head down, rounded, arched, turned.
//! Never guesses at a back that the figure draws straight: what is not drawn is not shown.

use super::Sight;
use super::facts::PoseFacts;
use super::thresholds as from;
use crate::mechanics::words::contact::{Contact, Family, Part, Surface};

/// Flat on the back, or leaning and hanging face up.
pub fn face_up(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    if facts.faces_up() < from::FACES {
        return None;
    }
    let lies = |facts: &PoseFacts| {
        let down = facts
            .contacts()
            .any(|c| matches!(c.part, Part::Back | Part::Seat) && c.surface != Surface::Wall);
        down && facts.faces_up() >= from::FACES && facts.tilt() >= from::LEVEL_TRUNK
    };
    let tilt = facts.tilt();
    let (level, how) = match story.iter().all(lies) {
        true => (2, "the body lies on its back"),
        false => (1, "the body faces up"),
    };
    let words = format!("{how}, the trunk {tilt:.0} degrees from upright");
    Some(Sight::new(level, tilt, words))
}

/// Face down, on the chest or held above the floor.
pub fn face_down(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    if facts.faces_up() > -from::FACES {
        return None;
    }
    let tilt = facts.tilt();
    if facts.lies_on_front() {
        return Some(Sight::new(2, tilt, "the body lies on its front"));
    }
    let low = |c: &&Contact| {
        let arm = c.part.family() == Family::Arm || c.part == Part::Knee;
        arm && c.height.is_some_and(|height| height <= from::FACE_DOWN_HANDS)
    };
    let held = facts.contacts().find(low)?;
    let words = format!("the body is held face down, the trunk {tilt:.0} degrees from upright");
    Some(Sight::new(1, tilt, words).at(held.at))
}

/// The head lower than the heart, or the trunk sloping down to it.
pub fn head_low(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    let (drop, tilt) = (facts.head_drop(), facts.tilt());
    let slopes = tilt >= from::SLOPES_DOWN;
    if drop < from::HEAD_LOWER && !slopes {
        return None;
    }
    let level = if slopes && drop >= from::HEAD_MUCH_LOWER { 2 } else { 1 };
    let words = match drop >= from::HEAD_LOWER {
        true => format!("the head is {:.0} cm lower than the heart", 100.0 * drop),
        false => format!("the trunk slopes down to the head by {:.0} degrees", tilt - 90.0),
    };
    Some(Sight::new(level, drop, words))
}

/// A rounded back, or one that a weight bends.
pub fn rounded(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    let (bend, tilt) = (facts.rounding(), facts.tilt());
    let bowed = tilt >= from::BOWED && facts.only_on_feet();
    if bend >= from::ROUNDED {
        // Hanging over on the feet, the whole trunk's weight bends it.
        let level = if bowed && tilt >= from::LEVEL_TRUNK { 2 } else { 1 };
        return Some(Sight::new(level, bend, format!("the back is rounded by {bend:.0} degrees")));
    }
    let weight = facts.held_by_trunk();
    let pulled = bowed && weight >= from::BOWED_CARRIES;
    let words = format!(
        "{weight:.0} kg pull on a trunk bowed by {tilt:.0} degrees, which nothing holds up"
    );
    pulled.then(|| Sight::new(1, tilt, words))
}

/// A hollowed back.
pub fn arched(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    let bend = -facts.rounding();
    if bend < from::ARCHED {
        return None;
    }
    // Who lies and lifts the chest does nothing but arch; on hands and knees nothing presses the
    // back further.
    let lifts = facts.lies_on_front();
    let eased = facts.on(Part::Knee) && facts.on_arms() > 0.0;
    let far = bend >= from::ARCHED_TO_THE_END && !eased;
    let level = if lifts || far { 2 } else { 1 };
    Some(Sight::new(level, bend, format!("the back is hollowed by {bend:.0} degrees")))
}

/// The chest turned against the pelvis.
pub fn turned(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let twist = story[place].twist();
    if twist < from::TWISTED {
        return None;
    }
    let level = if twist >= from::TWISTED_TO_THE_END { 2 } else { 1 };
    let words = format!("the chest is turned {twist:.0} degrees against the pelvis");
    Some(Sight::new(level, twist, words))
}

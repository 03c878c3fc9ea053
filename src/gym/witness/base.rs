//! What stands under a pose: flight, the floor, and a base that is narrow, moving or one leg.
//! Never says how well somebody balances; a base is what the figure stands on.

use super::Sight;
use super::facts::PoseFacts;
use super::thresholds as from;
use crate::mechanics::joints::Side;
use crate::mechanics::marks::Mark;
use crate::mechanics::words::contact::{Contact, Family, Part, Surface};
use crate::mechanics::words::recipe::Arrow;

/// Both feet off everything: a landing follows.
pub fn flight(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    let air =
        |contact: &Contact| contact.part.family() == Family::Leg && contact.surface == Surface::Air;
    if facts.contacts().next().is_some() {
        return hop(story, place);
    }
    let (foot, _) = facts.pose.touches.iter().find(|(contact, _)| air(contact))?;
    let high = 100.0 * foot.height.unwrap_or(0.0);
    let words = format!("both feet are off the floor, drawn at {high:.0} cm");
    Some(Sight::new(2, high, words).at(foot.at))
}

/// Both feet come to another place at once, with nothing else to hold the body: down from something,
/// or across the floor, where they may also step one after the other, which jolts less.
fn hop(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    let before = place.checked_sub(1).map(|before| &story[before])?;
    if !(facts.only_on_feet() && before.only_on_feet()) {
        return None;
    }
    let drop = lowest_foot(before)? - highest_foot(facts)?;
    if drop >= from::RAISED {
        let words = format!("the feet come down {:.0} cm at once", 100.0 * drop);
        let level = if drop >= from::DROPS_FAR { 2 } else { 1 };
        return Some(Sight::new(level, 100.0 * drop, words));
    }
    let both = Side::BOTH.into_iter().all(|side| steps(story, place, side));
    both.then(|| Sight::new(1, 0.0, "both feet come to another place at once"))
}

fn lowest_foot(facts: &PoseFacts) -> Option<f64> {
    facts.contacts().filter_map(|c| c.height).reduce(f64::min)
}

fn highest_foot(facts: &PoseFacts) -> Option<f64> {
    facts.contacts().filter_map(|c| c.height).reduce(f64::max)
}

/// Anything but the feet on the floor, or a back so low that one gets there from the floor.
pub fn floor(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    let low = |c: &&Contact| {
        let feet = matches!(c.part, Part::Foot | Part::Toes | Part::Heel);
        let level = c.height.is_some_and(|height| height <= from::RAISED);
        !feet && level && !c.surface.is_gripped() && c.surface != Surface::Wall
    };
    if let Some(contact) = facts.contacts().find(low) {
        let words = format!("{} on the floor", contact.part.word(true));
        return Some(Sight::new(1, 0.0, words).at(contact.at));
    }
    let hangs = facts.faces_up() >= from::FACES;
    let height = facts.height(Mark::Back).min(facts.height(Mark::Seat));
    let words = format!("the body faces up {:.0} cm over the floor", 100.0 * height);
    (hangs && height < from::LOWER_THAN_A_CHAIR).then(|| Sight::new(1, 100.0 * height, words))
}

/// A base that is narrow, moving or on one leg.
pub fn balance(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    let arms = facts.contacts().any(|c| c.part.family() == Family::Arm);
    let legs = Side::BOTH.map(|side| facts.stands_on(side));
    if facts.rests() {
        return None;
    }
    match (arms, legs) {
        (false, [false, false]) => in_the_air(story),
        (true, [false, false]) => Some(on_hands(facts)),
        (false, _) => on_feet(story, place, legs),
        (true, _) => with_hands(story, place, legs),
    }
}

fn in_the_air(story: &[PoseFacts]) -> Option<Sight> {
    let end = story.last()?;
    let raised = end.contacts().any(|c| c.height.is_some_and(|height| height > from::RAISED));
    Some(match raised {
        true => Sight::new(2, 0.0, "the landing is on something raised"),
        false => Sight::new(1, 0.0, "the feet leave the floor and have to find it again"),
    })
}

fn on_hands(facts: &PoseFacts) -> Sight {
    match facts.contacts().any(|c| c.part == Part::Hand && c.surface.is_gripped()) {
        true => Sight::new(1, 0.0, "the whole body hangs from or stands on gripping hands"),
        false => Sight::new(2, 0.0, "the body stands on its hands"),
    }
}

fn on_feet(story: &[PoseFacts], place: usize, legs: [bool; 2]) -> Option<Sight> {
    let facts = &story[place];
    let stepped = Side::BOTH.into_iter().any(|side| steps(story, place, side));
    if legs.contains(&false) {
        return Some(Sight::new(2, 1.0, "one foot carries alone"));
    }
    if facts.on(Part::Knee) {
        return Some(Sight::new(1, 0.0, "the base is one knee and one foot in a line"));
    }
    let toes = |side| facts.contact(Part::Toes, Some(side));
    match (Side::BOTH.map(toes), stepped) {
        ([Some(_), Some(_)], _) => Some(Sight::new(1, 0.0, "both feet are on their toes")),
        ([None, None], false) => bowed(facts),
        ([None, None], true) => Some(Sight::new(1, 0.0, "a foot steps to another place")),
        ([Some(behind), _] | [_, Some(behind)], stepped) => Some(stride(behind, stepped)),
    }
}

fn bowed(facts: &PoseFacts) -> Option<Sight> {
    let tilt = facts.tilt();
    let words = format!("the trunk is bowed by {tilt:.0} degrees over the feet");
    (tilt >= from::BOWED_TO_LEVEL).then(|| Sight::new(1, tilt, words))
}

/// One whole foot, and the toes of the other.
fn stride(behind: &Contact, stepped: bool) -> Sight {
    let raised = behind.height.is_some_and(|height| height > from::RAISED);
    let sight = match (raised, stepped) {
        (true, _) => Sight::new(2, 0.0, "the other foot is up on something behind"),
        (_, true) => Sight::new(2, 0.0, "a foot steps far out and lands on its toes"),
        _ => Sight::new(1, 0.0, "one foot is flat, the other on its toes in a stride"),
    };
    sight.at(behind.at)
}

/// Whether a foot stands elsewhere than in the key pose before.
fn steps(story: &[PoseFacts], place: usize, side: Side) -> bool {
    let Some(before) = place.checked_sub(1) else { return false };
    let foot = |facts: &PoseFacts| facts.foot_at(side);
    let (Some(old), Some(new)) = (foot(&story[before]), foot(&story[place])) else { return false };
    (new - old).length() > from::STEPPED
}

fn with_hands(story: &[PoseFacts], place: usize, legs: [bool; 2]) -> Option<Sight> {
    let facts = &story[place];
    let hand = |c: &&Contact| c.part.family() == Family::Arm;
    let arm = facts.contacts().find(hand)?;
    if arm.surface.is_rope() {
        return Some(Sight::new(1, 0.0, "the hands hang in straps that swing").at(arm.at));
    }
    let low = arm.height.is_some_and(|height| height <= from::FACE_DOWN_HANDS)
        && !arm.surface.is_gripped();
    let raised =
        |c: &&Contact| c.part.family() == Family::Leg && c.height.is_some_and(|h| h > from::RAISED);
    let up = facts.contacts().find(raised);
    match (low, up) {
        (_, Some(up)) => {
            Some(Sight::new(1, 0.0, "the feet are up while the hands carry").at(up.at))
        }
        (true, None) => on_fours(facts, legs),
        (false, None) => steadied(facts, legs),
    }
}

/// Hands near the floor: a limb in the air, or walking on.
fn on_fours(facts: &PoseFacts, legs: [bool; 2]) -> Option<Sight> {
    let arms = Side::BOTH.map(|side| {
        facts.contacts().any(|c| c.part.family() == Family::Arm && c.side == Some(side))
    });
    if facts.figure.recipe.arrow == Arrow::Onward {
        return Some(Sight::new(1, 0.0, "hands and feet walk on, one after the other"));
    }
    let lying_knee = facts.on_its_side() && facts.on(Part::Knee);
    let lifted = arms.contains(&false) || legs.contains(&false);
    (lifted && !lying_knee).then(|| Sight::new(1, 0.0, "a hand or a foot is off the floor"))
}

/// A hand on something high: it saves most of the balance, not all.
fn steadied(facts: &PoseFacts, legs: [bool; 2]) -> Option<Sight> {
    let light = facts.on_arms() < from::STEADIES;
    let toes = facts.on(Part::Toes);
    if legs.contains(&false) {
        return Some(Sight::new(1, 1.0, "one foot carries alone, with a hand to steady it"));
    }
    (light && toes).then(|| Sight::new(1, 0.0, "a foot is on its toes, with a hand to steady it"))
}

//! What the legs of a pose show: knees bent under the body, knees on the floor, deep hips.
//! Never counts a knee that hangs, lies or props: only one that carries.

use super::Sight;
use super::facts::PoseFacts;
use super::thresholds as from;
use crate::mechanics::joints::Side;
use crate::mechanics::words::contact::{Part, Surface};

/// A knee at a right angle or past it that carries.
pub fn knee(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    // On the back the feet push and the knees bear little; sitting, the seat bears.
    if facts.lies_on_back() || story.iter().all(|f| f.sits()) {
        return None;
    }
    let sights = Side::BOTH.into_iter().filter_map(|side| one_knee(story, place, side));
    sights.fold(None, |best: Option<Sight>, sight| match best {
        Some(best) if best.level >= sight.level => Some(best),
        _ => Some(sight),
    })
}

fn one_knee(story: &[PoseFacts], place: usize, side: Side) -> Option<Sight> {
    let facts = &story[place];
    let foot = facts.foot(side)?;
    let bend = facts.knee(side);
    let share = if facts.sits() { standing_share(story, side) } else { facts.on_leg(side) };
    if bend < from::KNEE_RIGHT_ANGLE || share < from::LEG_CARRIES {
        return None;
    }
    // On the ball of the foot behind, a leg steadies more than it carries.
    let whole = foot.part == Part::Foot;
    let deep = bend >= from::KNEE_DEEP && share >= from::LEG_CARRIES_ITS_HALF;
    let alone = bend >= from::KNEE_DEEP_ALONE && share >= from::LEG_CARRIES_MOST;
    let level = if whole && (deep || alone) { 2 } else { 1 };
    let words = format!("a knee bent {bend:.0} degrees carries {share:.0} % of body mass");
    Some(Sight::new(level, bend, words).at(foot.at))
}

/// Who sits down from standing is carried by the legs until the seat is there.
fn standing_share(story: &[PoseFacts], side: Side) -> f64 {
    let standing = story.iter().find(|facts| !facts.sits());
    standing.map_or(0.0, |facts| facts.on_leg(side))
}

/// A knee on the floor, a mat or a pad.
pub fn kneeling(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    // Lying face down the thighs lie too; the kneecap carries nothing.
    if facts.lies_on_front() || facts.on(Part::Flank) {
        return None;
    }
    let pressed = |side: Side| {
        let knee = facts.contact(Part::Knee, Some(side))?;
        Some((facts.on_leg(side), knee.at))
    };
    let sides = Side::BOTH.into_iter().filter_map(pressed);
    let (share, at) = sides.fold(None, |best: Option<(f64, usize)>, (share, at)| match best {
        Some(best) if best.0 >= share => Some(best),
        _ => Some((share, at)),
    })?;
    // On the side the outside of the knee lies down, not the kneecap.
    let level = if share >= from::KNEE_PRESSED && !facts.on_its_side() { 2 } else { 1 };
    let words = format!("one knee on the floor carries {share:.0} % of body mass");
    Some(Sight::new(level, share, words).at(at))
}

/// Trunk and thigh closer than a right angle.
pub fn hip(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    let bend = Side::BOTH.map(|side| facts.hip(side)).into_iter().fold(0.0, f64::max);
    if bend < from::HIP_PAST_RIGHT_ANGLE {
        return None;
    }
    let level = if bend >= from::HIP_DEEP { 2 } else { 1 };
    Some(Sight::new(level, bend, format!("a hip is bent {bend:.0} degrees")))
}

impl PoseFacts<'_> {
    /// A foot, its toes or its heel on something, without the knee of that side.
    fn foot(&self, side: Side) -> Option<&crate::mechanics::words::contact::Contact> {
        if self.contact(Part::Knee, Some(side)).is_some() {
            return None;
        }
        [Part::Foot, Part::Toes, Part::Heel]
            .into_iter()
            .find_map(|part| self.contact(part, Some(side)))
    }

    fn sits(&self) -> bool {
        self.contacts().any(|c| c.part == Part::Seat && c.surface != Surface::Wall)
    }
}

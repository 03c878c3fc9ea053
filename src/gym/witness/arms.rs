//! What the arms of a pose show: bent wrists, grips, arms overhead, aside and behind.
//! Never asks how hard a person grips or presses, only what the hands carry and where they are.

use super::Sight;
use super::facts::PoseFacts;
use super::thresholds as from;
use crate::mechanics::joints::Side;
use crate::mechanics::words::contact::{Contact, Part, Surface};
use crate::mechanics::words::props::{Held, HeldAt, Line, LineEnd};

/// The side that shows more; near first.
fn worse(sight: impl Fn(Side) -> Option<Sight>) -> Option<Sight> {
    let [near, far] = Side::BOTH.map(sight);
    match (near, far) {
        (Some(near), Some(far)) if far.level > near.level => Some(far),
        (near, far) => near.or(far),
    }
}

/// Per cent of body mass on one flat hand. On the level of the feet balance alone decides it; on
/// something raised it depends on which way the hand presses, which is checked at the start only.
fn on_hand(story: &[PoseFacts], place: usize, hand: &Contact) -> f64 {
    let this = |c: &Contact| c.part == Part::Hand && c.side == hand.side;
    let raised = hand.height.is_none_or(|height| height > from::RAISED);
    let there = story[0].contacts().any(|c| this(c) && c.surface == hand.surface);
    let counts = if raised && there { &story[0] } else { &story[place] };
    counts.share(this)
}

/// Weight on a flat hand that is bent back.
pub fn wrist(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    worse(|side| {
        let hand = facts.flat_hand(side)?;
        let (share, bend) = (on_hand(story, place, hand), facts.wrist_bend(side));
        let steadies = share < from::HAND_CARRIES || facts.on_arms() < from::HANDS_CARRY;
        if steadies || bend < from::WRIST_BENT {
            return None;
        }
        let much = share >= from::HAND_CARRIES_MUCH && bend >= from::WRIST_NEAR_END;
        let words = format!(
            "one flat hand carries {share:.0} % of body mass, the wrist bent back {bend:.0} degrees"
        );
        Some(Sight::new(if much { 2 } else { 1 }, bend, words).at(hand.at))
    })
}

/// A bar, a strap, a band, a towel or a weight in the hand.
pub fn grip(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    let held = [worse(|side| on_bar(facts, side)), worse(|side| weight(facts, side)), band(facts)];
    held.into_iter().flatten().max_by_key(|sight| sight.level)
}

fn on_bar(facts: &PoseFacts, side: Side) -> Option<Sight> {
    let hand = facts.contact(Part::Hand, Some(side)).filter(|c| c.surface.is_gripped())?;
    let share = facts.share(|c| c.part == Part::Hand && c.side == Some(side));
    if share < from::GRIP_SOME {
        return None;
    }
    // Bars beside the body are pressed from above: the hand need not hold on.
    let pressed = hand.surface == Surface::ParallelBars;
    let level = if share >= from::GRIP_MUCH && !pressed { 2 } else { 1 };
    let words = format!("one hand grips with {share:.0} % of body mass on it");
    Some(Sight::new(level, share, words).at(hand.at))
}

fn weight(facts: &PoseFacts, side: Side) -> Option<Sight> {
    let kilograms = facts.in_hand(side);
    if kilograms < from::HELD {
        return None;
    }
    let hanging = facts.hand_hangs(side);
    let level = if hanging && kilograms >= from::HANGS_HEAVY { 2 } else { 1 };
    let how = if hanging { "hang from" } else { "are held in" };
    Some(Sight::new(level, kilograms, format!("{kilograms:.0} kg {how} one hand")))
}

fn band(facts: &PoseFacts) -> Option<Sight> {
    let by_hand = |line: &&Line| {
        matches!(line.from, LineEnd::Hands(_)) || matches!(line.to, LineEnd::Hands(_))
    };
    let line = facts.figure.recipe.lines.iter().find(by_hand)?;
    Some(match line.towel {
        true => Sight::new(2, 1.0, "the hands pull on a towel, which is thick and slips"),
        false => Sight::new(1, 1.0, "the hands hold a band"),
    })
}

/// Arms overhead: reaching, or with weight on them.
pub fn overhead(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    worse(|side| {
        let raised = facts.raised(side);
        let lying = facts.tilt() >= from::LEVEL_TRUNK;
        // A body that leans back under straps has its elbows high and its arms at a right angle.
        let above = match lying {
            true => !facts.hangs(side),
            false => facts.elbow_above_shoulder(side) >= from::ELBOW_ABOVE,
        };
        if !above || raised < from::ARM_PAST_SHOULDER {
            return None;
        }
        let bears = bears(facts, side) && raised >= from::ARM_HIGH;
        let what = if bears { " with weight on it" } else { "" };
        let words = format!("an arm is raised {raised:.0} degrees from the trunk{what}");
        Some(Sight::new(if bears { 2 } else { 1 }, raised, words))
    })
}

/// Whether the arm carries the body or a weight.
fn bears(facts: &PoseFacts, side: Side) -> bool {
    facts.on_arm(side) >= from::ARM_BEARS || facts.in_hand(side) > 0.0
}

/// Whether the arms work at something: carry, hold a weight or a stick, or pull on a band.
fn works(facts: &PoseFacts, side: Side) -> bool {
    let along = |held: &Held| held.at == HeldAt::AlongBack;
    let stick = facts.figure.recipe.held.as_ref().is_some_and(along);
    let bears = bears(facts, side) || facts.on_arm(side) >= from::ARM_BEHIND_BEARS;
    bears || stick || band(facts).is_some()
}

/// The upper arm away from the side: straight out, raised to the end under weight, or with the
/// hand behind the neck.
pub fn aside(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    worse(|side| {
        let (out, raised, elbow) = (facts.aside(side), facts.raised(side), facts.elbow(side));
        // A hand that carries is under the shoulder, however the elbow is folded.
        let free = facts.on_arm(side) <= 0.0;
        if free && raised >= from::ARM_PAST_SHOULDER && elbow >= from::ELBOW_FOLDED {
            let words =
                format!("an elbow is raised {raised:.0} degrees with the hand behind the neck");
            return Some(Sight::new(2, raised, words));
        }
        if out >= from::ARM_ASIDE && !turned_in(facts, side) {
            let words = format!("an upper arm is {out:.0} degrees out to the side");
            return Some(Sight::new(1, out, words));
        }
        let ends = raised >= from::ARM_TO_THE_END && works(facts, side);
        let words =
            format!("an arm that works is raised {raised:.0} degrees, so out and turned back");
        ends.then(|| Sight::new(1, raised, words))
    })
}

/// Whether the forearm points where the chest looks, as under a push-up: then the upper arm is not
/// turned back. Leaning on the forearm counts all the same, and a straight arm tells nothing.
fn turned_in(facts: &PoseFacts, side: Side) -> bool {
    let leans = facts.contact(Part::Forearm, Some(side)).is_some();
    facts.forearm_ahead(side) >= from::FOREARM_AHEAD && !leans
}

/// The elbow behind the trunk while the arm works.
pub fn behind(story: &[PoseFacts], place: usize) -> Option<Sight> {
    let facts = &story[place];
    worse(|side| {
        let back = facts.behind(side);
        if back < from::ARM_BEHIND || !works(facts, side) {
            return None;
        }
        let bears = facts.on_arm(side) >= from::ARM_BEHIND_BEARS;
        let level = if bears && back >= from::ARM_FAR_BEHIND { 2 } else { 1 };
        Some(Sight::new(level, back, format!("an elbow is {back:.0} degrees behind the trunk")))
    })
}

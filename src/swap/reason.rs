//! Reason: why a movement stands for another, in one plain sentence.
//! Never says whom it suits: what a swap brings in is said beside it, and filters are elsewhere.

use super::fits::{kit_name, lowered};
use super::links::{FirstChoice, OnLadder};
use super::score::level;
use crate::gym::Gym;
use crate::library::{Counts, Movement, MuscleId, Plane, Purpose, Sides};

/// Why `to` does the same work as `from`: `Same pull, same prime movers; one side at a time, so
/// plan twice the time.`
pub fn reason(first: &FirstChoice<'_>, to: &Movement) -> String {
    let (gym, from) = (first.gym, first.movement);
    let alike: Vec<String> =
        [Some(pattern(gym, from, to)), movers(gym, from, to)].into_iter().flatten().collect();
    let alike = match first.on_ladder(&to.id).and_then(|place| on_ladder(gym, place)) {
        Some(place) => format!("{place}: {}", alike.join(", ")),
        None => alike.join(", "),
    };
    let mut clauses = vec![alike];
    clauses.extend(differences(from, to));
    if let Some(because) = first.said(&to.id).and_then(|link| link.because.as_ref()) {
        clauses.push(format!("coach's note: {}", because.trim_end_matches('.')));
    }
    format!("{}.", raised(&clauses.join("; ")))
}

/// Kit in a coach's words: `backpack and bench`.
pub fn with_kit(gym: &Gym, kit: &[crate::library::KitId]) -> String {
    listed(&kit.iter().map(|id| kit_name(gym, id)).collect::<Vec<_>>())
}

/// `Lower on the push-up ladder`: where it stands, whichever of its rungs is given.
fn on_ladder(gym: &Gym, place: &OnLadder) -> Option<String> {
    let ladder = gym.library.ladders.get(&place.ladder)?;
    let side = match (place.below, place.above) {
        (Some((down, _)), Some((up, _))) if down == up => "lower and higher",
        (Some(below), above) if above.is_none_or(|above| below.0 < above.0) => "lower",
        (_, Some(_)) => "higher",
        _ => return None,
    };
    Some(format!("{side} on the {} ladder", lowered(&ladder.name.value)))
}

/// `same pull`, `a horizontal pull rather than a vertical one`, `bridge rather than hinge`.
fn pattern(gym: &Gym, from: &Movement, to: &Movement) -> String {
    let name = |movement: &Movement| {
        let id = &movement.pattern.value;
        let pattern = gym.library.words.patterns.get(id);
        pattern.map_or_else(|| id.as_str().replace('-', " "), |p| p.name.to_lowercase())
    };
    let (from_name, to_name) = (name(from), name(to));
    let split = |name: &str| {
        let (head, kind) = name.split_once(", ").unwrap_or((name, ""));
        (head.to_string(), kind.to_string())
    };
    let ((from_head, from_kind), (head, kind)) = (split(&from_name), split(&to_name));
    if from.pattern.value == to.pattern.value {
        let mobility = Some(Purpose::Mobility);
        return match head.contains(' ') {
            _ if from.purpose == mobility && to.purpose == mobility => "mobility too".to_string(),
            true => "same pattern".to_string(),
            false => format!("same {head}"),
        };
    }
    if head == from_head && !kind.is_empty() && !from_kind.is_empty() {
        return format!("{} {kind} {head} rather than {} {from_kind} one", a(&kind), a(&from_kind));
    }
    format!("{head} rather than {from_head}")
}

/// What the two share and where they part, by the prime movers alone.
fn movers(gym: &Gym, from: &Movement, to: &Movement) -> Option<String> {
    let (first, second) = (primes(from), primes(to));
    if first.is_empty() || second.is_empty() {
        return None;
    }
    let (shared, missing): (Vec<_>, Vec<_>) = first.iter().partition(|id| second.contains(id));
    let extra: Vec<_> = second.iter().copied().filter(|id| !first.contains(id)).collect();
    let the = |ids: &[&MuscleId]| the_muscles(gym, ids);
    Some(match (shared.len(), missing.is_empty(), extra.is_empty()) {
        (0, ..) => format!("other muscles: {}", the(&second)),
        (_, true, true) if first[0] == second[0] => "same prime movers".to_string(),
        (_, true, true) => format!("same prime movers, {} leading", the(&second[..1])),
        (_, true, false) => format!("same prime movers and more from {}", the(&extra)),
        (n, false, _) if 2 * n > first.len() => {
            format!("most of the same prime movers, less from {}", the(&missing))
        }
        (n, false, _) if 2 * n == first.len() => {
            format!("half the same prime movers, less from {}", the(&missing))
        }
        _ => format!("shares the work of {}, less from {}", the(&shared), the(&missing)),
    })
}

fn primes(movement: &Movement) -> Vec<&MuscleId> {
    movement.muscles.prime.iter().map(|id| &id.value).collect()
}

/// What else differs, the most costly first; more than three cannot be said in one breath, and
/// the parts of the score show the rest.
fn differences(from: &Movement, to: &Movement) -> impl Iterator<Item = String> {
    let words = [
        sides(from, to).map(ToString::to_string),
        counted(from, to).map(ToString::to_string),
        plane(from, to),
        purpose(from, to),
        less(from, to, "balance").then(|| "steadier".to_string()),
        less(from, to, "strong-grip").then(|| "kinder to the grip".to_string()),
    ];
    words.into_iter().flatten().take(3)
}

fn sides(from: &Movement, to: &Movement) -> Option<&'static str> {
    use Sides::{Alternating, Each, Together};
    Some(match (from.sides, to.sides) {
        (Together, Each) if arms(from) && arms(to) => {
            "one side at a time, so plan twice the time and other work for the trunk"
        }
        (Each, Together) if arms(from) && arms(to) => {
            "both sides at once, so half the time and other work for the trunk"
        }
        (Together, Each) => "one side at a time, so plan twice the time",
        (Each, Together) => "both sides at once, so half the time",
        (Together, Alternating) => "the sides take turns",
        (Alternating, Together) => "both sides at once in place of turns",
        (Each, Alternating) => "the sides take turns in place of one, then the other",
        (Alternating, Each) => "one whole side, then the other, in place of turns",
        _ => return None,
    })
}

/// Whether the arms push or pull. Rowing with one arm and with two differ in what they ask of the
/// trunk (Saeterbakken 2015); that pressing does too is common practice, no source.
fn arms(movement: &Movement) -> bool {
    let pattern = movement.pattern.value.as_str();
    pattern.starts_with("pull-") || pattern.starts_with("push-")
}

fn counted(from: &Movement, to: &Movement) -> Option<&'static str> {
    let held = |movement: &Movement| {
        movement.counts == Counts::Seconds && level(movement, "maximal-hold") > 0
    };
    if from.counts == to.counts {
        return None;
    }
    Some(match to.counts {
        _ if held(to) => "held still rather than repeated, so a partial match",
        Counts::Reps if held(from) => "repeated rather than held still, so a partial match",
        Counts::Seconds => "timed rather than counted",
        Counts::Metres => "over a distance",
        Counts::Contacts => "counted in landings",
        Counts::Reps => "counted in repetitions",
    })
}

fn plane(from: &Movement, to: &Movement) -> Option<String> {
    let words = |plane| match plane {
        Plane::Sagittal => "forward and back",
        Plane::Frontal => "side to side",
        Plane::Transverse => "turning",
    };
    let (a, b) = from.plane.zip(to.plane)?;
    (a != b).then(|| format!("another plane, {} rather than {}", words(b), words(a)))
}

fn purpose(from: &Movement, to: &Movement) -> Option<String> {
    let words = |purpose| match purpose {
        Purpose::Strength => "strength",
        Purpose::Endurance => "endurance",
        Purpose::Power => "speed",
        Purpose::Mobility => "range",
        Purpose::Skill => "control",
    };
    let (a, b) = from.purpose.zip(to.purpose)?;
    (a != b).then(|| format!("trains {} more than {}", words(b), words(a)))
}

/// More of a trait is not said here: `Brings in` says it of every trait.
fn less(from: &Movement, to: &Movement, name: &str) -> bool {
    level(to, name) < level(from, name)
}

/// `the lats and the biceps`; of more than three only the first two, so that it can be said.
fn the_muscles(gym: &Gym, ids: &[&MuscleId]) -> String {
    let known = &gym.library.words.muscles;
    let name = |id: &MuscleId| {
        let muscle = known.get(id);
        muscle.map_or_else(|| id.as_str().replace('-', " "), |muscle| lowered(&muscle.name))
    };
    let said = if ids.len() > 3 { 2 } else { ids.len() };
    let mut names: Vec<String> = ids[..said].iter().map(|id| format!("the {}", name(id))).collect();
    if ids.len() > 3 {
        names.push("others".to_string());
    }
    listed(&names)
}

/// `a, b and c`.
pub fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

fn a(word: &str) -> &'static str {
    if word.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" }
}

/// The text with its first letter large, if it is one of a to z.
pub fn raised(text: &str) -> String {
    let mut text = text.to_string();
    if let Some(first) = text.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    text
}

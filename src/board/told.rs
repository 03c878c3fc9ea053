//! Told: what a touch changed: for whom, in which line, and why as far as it is for everybody's ears.
//! Never what anybody leaves out: of that it says that the coach was told. The coach's reasons are apart.

use super::offers::Offer;
use super::standing::{Place, Standing, Touch, same};
use super::view::of_offer;
use super::why::{gone, of_two};
use crate::finding::small;
use crate::gym::Gym;
use crate::swap::kit_name;
use serde::Serialize;
use std::collections::BTreeSet;

/// What a touch changed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Told {
    /// In words, for everybody.
    pub said: String,
    /// Every choice that is another now.
    pub moved: Vec<Place>,
}

/// What a touch changed from one board to the next.
pub fn told(gym: &Gym, (before, after): (&Standing, &Standing), touch: Touch) -> Told {
    let moved: Vec<Place> = after
        .places()
        .into_iter()
        .filter(|place| after.here[place.2] && is_new(before, after, *place))
        .collect();
    let mut said = vec![sentence(gym, after, touch)];
    let own = whose(touch);
    let names = |places: &mut dyn Iterator<Item = &Place>| -> Vec<String> {
        let people: BTreeSet<usize> = places.map(|(.., who)| *who).collect();
        people.into_iter().map(|who| after.class.people[who].name.clone()).collect()
    };
    let theirs = names(&mut moved.iter().filter(|(.., who)| Some(*who) == own));
    let asks = matches!(touch, Touch::Hurts(_));
    said.extend(theirs.first().filter(|_| !asks).map(|name| format!("New for {name}.")));
    let others = moved.iter().filter(|(.., who)| Some(*who) != own);
    said.extend(others.map(|place| other(gym, (before, after), *place)));
    said.push(
        if moved.is_empty() { "Nobody changes." } else { "Nobody else changes." }.to_string(),
    );
    Told { said: said.join(" "), moved }
}

fn is_new(before: &Standing, after: &Standing, place: Place) -> bool {
    match (before.offer(place), after.offer(place)) {
        (Some(one), Some(other)) => !same(one, other),
        (None, None) => !before.here[place.2],
        _ => true,
    }
}

fn whose(touch: Touch) -> Option<usize> {
    match touch {
        Touch::Here(who) | Touch::Hurts(who) | Touch::Sore(who, _) => Some(who),
        Touch::Gone(_) | Touch::Broke(_) => None,
    }
}

fn sentence(gym: &Gym, after: &Standing, touch: Touch) -> String {
    let name = |who: usize| after.class.people[who].name.as_str();
    match touch {
        Touch::Here(who) if after.class.people[who].is_guest => {
            format!("{} is here: ask first what hurts.", name(who))
        }
        Touch::Here(who) => format!("{} is here.", name(who)),
        Touch::Gone(who) => format!("{} has gone.", name(who)),
        Touch::Hurts(who) => format!("{} asks the coach before going on.", name(who)),
        // Somebody may look over the coach's shoulder.
        Touch::Sore(who, _) => format!("{} told the coach what hurts.", name(who)),
        Touch::Broke(thing) => {
            let id = gym.library.club.hall_kit.get(thing).map(|(id, _)| &id.value);
            let left = id.and_then(|id| after.class.hall.count(id)).unwrap_or(0);
            let name = id.map_or(String::new(), |id| kit_name(gym, id));
            format!("One less of {name}, {left} left.")
        }
    }
}

/// `New for robin in Six to two, Row: Chair band row; others have the straps.`: only of kit, as nothing else
/// moves anybody who did not say anything.
fn other(gym: &Gym, (before, after): (&Standing, &Standing), place: Place) -> String {
    let (block, line, who) = place;
    let name = &after.class.people[who].name;
    let block_name = &after.class.blocks[block].name;
    let line = &after.class.blocks[block].plan.items[line].name;
    let what = |offer: &Offer| of_offer(gym, offer).said();
    let why = match (before.offer(place), after.offer(place)) {
        (Some(one), Some(new)) if said(gym, one) == said(gym, new) => {
            let kit: Vec<String> = new.kit.iter().map(|id| kit_name(gym, id)).collect();
            format!("the same with {}", kit.join(" and "))
        }
        (Some(one), Some(new)) => format!("{}; {}", what(new), small(&gone(gym, one, new))),
        (None, Some(new)) => format!("{}; there is kit for it now", what(new)),
        (_, None) => "nothing is left for it, ask your coach".to_string(),
    };
    format!("New for {name} in {block_name}, {line}: {why}.")
}

fn said(gym: &Gym, offer: &Offer) -> (String, String, String) {
    let doing = of_offer(gym, offer);
    (doing.said(), doing.cue, offer.own.dose.clone())
}

/// Why everybody does what they do, for the coach alone: name, then line and reason; what is not here is as
/// the session asks.
pub(super) fn reasons(gym: &Gym, standing: &Standing) -> Vec<(String, Vec<(String, String)>)> {
    let mut all: Vec<(String, Vec<(String, String)>)> =
        standing.class.people.iter().map(|one| (one.name.clone(), Vec::new())).collect();
    for (block, line, who) in standing.places() {
        if !standing.here[who] {
            continue;
        }
        let asked = &standing.class.blocks[block];
        let offers = &asked.offers[line][who];
        let taken = standing.taken[block][line][who].and_then(|at| offers.get(at));
        let why = match (offers.first(), taken) {
            (Some(first), Some(taken)) => of_two(gym, first, taken),
            _ if standing.asks[who] => Some("Something hurts: you decide.".to_string()),
            _ => Some("Nothing fits, or nothing is left for it: you decide.".to_string()),
        };
        all[who].1.extend(why.map(|why| (asked.plan.items[line].name.clone(), why)));
    }
    for (person, (_, lines)) in standing.class.people.iter().zip(&mut all) {
        lines.extend(person.notes.iter().map(|note| ("After class".to_string(), note.clone())));
    }
    all
}

//! Offers: what a person could do for a line, each with the kit that it takes and its misfit in rungs.
//! Never anything that limits leave out: every offer is a version, and every version passed the one filter.

use super::hall::Hall;
use super::people::Person;
use super::weights::{CHANGE, CHANGED_SWAP, FETCH, NOTHING, OVER_S, RUNG, UNLIKE};
use crate::gym::Gym;
use crate::library::{Amount, Count, Counts, KitId};
use crate::own::{self, Kind, Line, Member, Own, Version};
use crate::placing::Target;
use crate::plan::{Way, pace};
use crate::swap::RungOf;
use std::collections::BTreeSet;

/// What a person could do for a line.
#[derive(Debug, Clone)]
pub struct Offer {
    /// How it is done.
    pub own: Own,
    /// The movement at its settings; nothing where the coach decides.
    pub rung: Option<RungOf>,
    /// What of the shared kit it takes, a thing a need.
    pub kit: Vec<KitId>,
    /// What of it is not the first that its entry names: rings for a strap row.
    pub instead: Vec<KitId>,
    /// Its misfit.
    pub misfit: Misfit,
}

/// Misfit, part by part, in hundredths of a rung.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Misfit {
    /// Rungs below their own.
    pub below: u32,
    /// Another movement: what is not alike.
    pub unlike: u32,
    /// Changes.
    pub changes: u32,
    /// Kit beyond what their own version needs.
    pub fetch: u32,
    /// Time over.
    pub over: u32,
}

impl Misfit {
    /// All of it.
    pub fn total(&self) -> u32 {
        self.below + self.unlike + self.changes + self.fetch + self.over
    }
}

/// A line against its time.
#[derive(Debug, Clone)]
pub struct Timed<'g> {
    /// The line.
    pub line: Line<'g>,
    /// Seconds that a set of it may take; nothing where the clock cuts it short.
    pub set_s: Option<u32>,
}

/// What somebody at home does: the first version for which they have everything, in each hand too.
pub fn at_home(gym: &Gym, timed: &Timed<'_>, person: &Person, hall: &Hall) -> Offer {
    let mut versions = own::versions(gym, &timed.line, &person.member);
    let found = versions.find_map(|version| Some((home_kit(&version, person, hall)?, version)));
    match found {
        Some((kit, version)) => offer(gym, timed, version, (kit, 0)),
        None => nothing(gym, timed, person),
    }
}

/// What of their own kit a version takes; nothing where it wants two and they have one.
fn home_kit(version: &Version, person: &Person, hall: &Hall) -> Option<Vec<KitId>> {
    let has = |id: &&KitId| person.member.person.kit.as_ref().is_some_and(|kit| kit.contains(*id));
    let two = |id: &&KitId| person.two_of.contains(*id);
    let mut kit = Vec::new();
    for (at, need) in version.needs.iter().enumerate() {
        if at == 0 && version.each_hand && !hall.is_nowhere_lacking(need) {
            let id = need.iter().find(two)?;
            kit.extend([id.clone(), id.clone()]);
        } else {
            kit.extend(need.iter().find(has).cloned());
        }
    }
    Some(kit)
}

/// What somebody in the hall could do, their own version first; at least one.
pub fn in_hall(gym: &Gym, timed: &Timed<'_>, person: &Person, hall: &Hall) -> Vec<Offer> {
    let mut offers: Vec<Offer> = Vec::new();
    let mut own_kit = None;
    for version in own::versions(gym, &timed.line, &with_kit(person, hall.kit())) {
        add(gym, (timed, version), (hall, &mut own_kit), &mut offers);
        if offers.iter().any(|offer| is_free(offer, hall)) {
            return offers;
        }
    }
    // A change, or a lower rung of a swap, may need nothing scarce where the first one does.
    for version in own::versions(gym, &timed.line, &with_kit(person, hall.plenty())) {
        add(gym, (timed, version), (hall, &mut own_kit), &mut offers);
        if offers.iter().any(|offer| is_free(offer, hall)) {
            break;
        }
    }
    if offers.is_empty() {
        offers.push(nothing(gym, timed, person));
    }
    offers
}

fn add(
    gym: &Gym,
    (timed, version): (&Timed<'_>, Version),
    (hall, own_kit): (&Hall, &mut Option<usize>),
    offers: &mut Vec<Offer>,
) {
    for kit in hall.ways(&version.needs, version.each_hand) {
        let own = *own_kit.get_or_insert(kit.len());
        let instead = instead(&version, &kit);
        let made = offer(gym, timed, version.clone(), (kit, own));
        offers.push(Offer { instead, ..made });
    }
}

/// What of a version's kit stands in for the first that a need names.
fn instead(version: &Version, kit: &[KitId]) -> Vec<KitId> {
    let is_usual = |id: &KitId| version.needs.iter().any(|need| need.first() == Some(id));
    let others: BTreeSet<&KitId> = kit.iter().filter(|id| !is_usual(id)).collect();
    others.into_iter().cloned().collect()
}

/// Whether an offer takes nothing that may run out, and costs nothing but rungs and changes: what
/// comes after it in the order of versions is never better.
fn is_free(offer: &Offer, hall: &Hall) -> bool {
    offer.kit.iter().all(|id| hall.is_plenty(id)) && offer.misfit.over + offer.misfit.fetch == 0
}

fn with_kit(person: &Person, kit: Option<BTreeSet<KitId>>) -> Member {
    let mut member = person.member.clone();
    member.person.kit = kit;
    member
}

fn nothing(gym: &Gym, timed: &Timed<'_>, person: &Person) -> Offer {
    let own = own::of_line(gym, &timed.line, &person.member);
    // Where no version fits, whatever else is said orders nothing.
    let own = match own.kind {
        Kind::Ask => own,
        _ => Own { kind: Kind::Ask, dose: String::new(), cue: String::new(), ..own },
    };
    let misfit = Misfit { unlike: NOTHING, ..Misfit::default() };
    Offer { own, rung: None, kit: Vec::new(), instead: Vec::new(), misfit }
}

fn offer(
    gym: &Gym,
    timed: &Timed<'_>,
    version: Version,
    (kit, own_kit): (Vec<KitId>, usize),
) -> Offer {
    let lost = version.alike.map_or(0, |alike| (1000 - alike.min(1000)) * UNLIKE / 1000);
    let changed = if version.alike.is_some() && version.changes > 0 { CHANGED_SWAP } else { 0 };
    let more = u32::try_from(kit.len().saturating_sub(own_kit)).unwrap_or(0);
    let over_s = over_s(gym, timed, &version);
    let misfit = Misfit {
        below: version.below * RUNG,
        unlike: lost + changed,
        changes: version.changes * CHANGE,
        fetch: more * FETCH,
        over: over_s * RUNG / OVER_S,
    };
    Offer { own: version.own, rung: Some(version.rung), kit, instead: Vec::new(), misfit }
}

/// Seconds that a set takes beyond what the line has for it.
fn over_s(gym: &Gym, timed: &Timed<'_>, version: &Version) -> u32 {
    let movement = gym.library.movements.get(&version.rung.key.movement);
    // What was asked of the rung that it stands for: its own place is on another ladder.
    let (Some(movement), Some(most), Some(target)) = (movement, timed.set_s, version.asked) else {
        return 0;
    };
    if version.alike.is_none() {
        return 0;
    }
    let way = Way {
        movement,
        rung: None,
        settings: Vec::new(),
        amount: None,
        sets: None,
        rest_s: 0,
        rest_asked: false,
        per_side: target.each_side,
    };
    // As much time at work as was asked: a swap that takes both sides in turn takes it twice.
    let asked = match target.counts == movement.counts {
        true => pace::set_seconds(&way, amount(&target)).most,
        false => most,
    };
    asked.saturating_sub(most)
}

fn amount(target: &Target) -> Amount {
    let count = Count { from: target.from, to: target.to };
    match target.counts {
        Counts::Reps => Amount::Reps(count),
        Counts::Seconds => Amount::Seconds(count),
        Counts::Metres => Amount::Metres(count),
        Counts::Contacts => Amount::Contacts(count),
    }
}

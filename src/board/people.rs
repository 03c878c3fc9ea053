//! People: who is in class, where they train, with whom, and what they leave out today.
//! Never asks what day it is, and never gives anybody at home what the hall has.

use crate::gym::Gym;
use crate::library::{self, KitId, Roster};
use crate::own::{self, Member};
use crate::plan::Day;
use crate::swap::Limits;
use std::collections::BTreeSet;

/// Somebody in class.
#[derive(Debug, Clone)]
pub struct Person {
    /// What they are called here.
    pub name: String,
    /// Whether they train at home.
    pub at_home: bool,
    /// Kit, limits of always and of today, own rungs.
    pub member: Member,
    /// What they have two of at home: the roster names it twice.
    pub two_of: BTreeSet<KitId>,
    /// With whom they work, where both say so.
    pub with: Option<String>,
    /// Whether they stand on no roster: nobody knows yet what they leave out.
    pub is_guest: bool,
    /// What the coach is to know after their last classes; never on the copy that others see.
    pub notes: Vec<String>,
}

/// Everybody on the roster, by nickname, so that the order written changes nothing.
pub fn class(gym: &Gym, roster: &Roster, today: Option<Day>) -> Vec<Person> {
    let mut entries: Vec<&library::Member> = roster.members.iter().collect();
    entries.sort_by_key(|entry| plain(entry.name.as_str()));
    let place = |name: &str| entries.iter().position(|one| plain(one.name.as_str()) == plain(name));
    let both = |at: usize| {
        let other = place(entries[at].coming.with.as_ref()?.as_str())?;
        let back = place(entries[other].coming.with.as_ref()?.as_str())?;
        (back == at && other != at).then(|| entries[other].name.value.to_string())
    };
    let person = |(at, entry): (usize, &&library::Member)| {
        let member = own::from_roster(gym, &with_kit(entry), today);
        Person {
            name: entry.name.value.to_string(),
            at_home: entry.coming.at_home(),
            notes: own::notes(gym, &member, &entry.done),
            member,
            two_of: two_of(entry),
            is_guest: false,
            with: both(at),
        }
    };
    entries.iter().enumerate().map(person).collect()
}

/// People who are on no roster and may still come: nothing is known of them, so each stands at the bottom
/// of every ladder, as it is today, and whatever hurts is for the coach to ask.
pub fn guests(gym: &Gym, people: &[Person], many: usize) -> Vec<Person> {
    let taken = |name: &String| people.iter().any(|one| plain(&one.name) == *name);
    let names = (1..).map(|n| if n == 1 { "guest".to_string() } else { format!("guest {n}") });
    let bottom = |ladder: &library::Ladder| {
        let rung = ladder.rungs.first()?;
        let settings = rung.settings.iter();
        let settings = settings.map(|(name, at)| (name.value.to_string(), at.value.number()));
        let then = (rung.movement.value.clone(), settings.collect());
        Some((ladder.id.clone(), (1, Some(then))))
    };
    let rungs = gym.library.ladders.values().filter_map(bottom).collect();
    let member = Member { rungs, ..Member::default() };
    let guest = |name: String| Person {
        name,
        at_home: false,
        member: member.clone(),
        two_of: BTreeSet::new(),
        is_guest: true,
        with: None,
        notes: Vec::new(),
    };
    names.filter(|name| !taken(name)).take(many).map(guest).collect()
}

/// A person who has something more to leave out.
pub(super) fn with(person: &Person, limits: &Limits) -> Person {
    let mut person = person.clone();
    let own = &mut person.member.person;
    for (id, from) in &limits.levels {
        let level = own.limits.entry(id.clone()).or_insert(*from);
        *level = (*level).min(*from);
    }
    own.situations.extend(limits.situations.iter().cloned());
    person
}

/// One word on the roster is one thing at home: who has two for both hands says so twice.
fn two_of(entry: &library::Member) -> BTreeSet<KitId> {
    let kit: Vec<&KitId> = entry.kit.iter().flatten().map(|id| &id.value).collect();
    let twice = |id: &&KitId| kit.iter().filter(|other| *other == id).count() > 1;
    kit.iter().copied().filter(twice).cloned().collect()
}

fn plain(name: &str) -> String {
    name.to_lowercase()
}

/// In the hall somebody has what the hall has, at home their own: where nothing is written there,
/// nothing.
fn with_kit(entry: &library::Member) -> library::Member {
    let kit = entry.coming.at_home().then(|| entry.kit.clone().unwrap_or_default());
    library::Member { kit, ..entry.clone() }
}

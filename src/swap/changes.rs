//! Changes: how a trait is taken out of a movement or lessened, and what remains.
//! Never loosens a limit: a change answers only if what remains is below the person's level.

use crate::finding::Placed;
use crate::gym::Gym;
use crate::library::{
    ChangeId, ChangeOf, KitNeed, Movement, SettingName, SourceId, TraitChange, TraitId,
};
use std::collections::BTreeMap;

/// At most this many changes at once: nobody keeps more in mind while moving. Common practice, no
/// source.
pub const MOST_AT_ONCE: usize = 3;

/// A change that a movement allows, with what its entry says over the general words.
#[derive(Debug, Clone, Copy)]
pub struct Change<'g> {
    general: &'g TraitChange,
    own: &'g ChangeOf,
    movement: &'g Movement,
}

impl PartialEq for Change<'_> {
    fn eq(&self, other: &Self) -> bool {
        self.id() == other.id() && self.movement.id == other.movement.id
    }
}
impl Eq for Change<'_> {}

impl<'g> Change<'g> {
    /// Its id.
    pub fn id(&self) -> &'g ChangeId {
        &self.general.id.value
    }

    /// What the entry says to do here, in place of the general words.
    pub fn own_how(&self) -> Option<&'g str> {
        self.own.how.as_deref().filter(|how| !how.trim().is_empty())
    }

    /// Whether the entry says what it lessens here, in place of what it generally does.
    pub fn lessens_otherwise(&self) -> bool {
        self.own.leaves.is_some() || self.own.eases.is_some()
    }

    /// Whether the entry says what it brings in here.
    pub fn brings_otherwise(&self) -> bool {
        self.own.brings.is_some()
    }

    /// Whether the entry says what it needs here.
    pub fn needs_otherwise(&self) -> bool {
        self.own.kit.is_some()
    }

    /// A few words: `on fists or handles`.
    pub fn name(&self) -> &'g str {
        &self.general.name
    }

    /// What to do, to the person who does it.
    pub fn how(&self) -> &'g str {
        let said = |how: &'g Option<String>| how.as_deref().filter(|how| !how.trim().is_empty());
        said(&self.own.how).or(said(&self.general.how)).unwrap_or(&self.general.name)
    }

    /// The part of the body, or of the doing, that it changes; a change that says none is a part
    /// of its own.
    pub fn part(&self) -> &'g str {
        self.general.part.as_ref().map_or(self.id().as_str(), |part| &part.value)
    }

    /// What remains of each trait that it lessens.
    pub fn leaves(&self) -> &'g [(Placed<TraitId>, u8)] {
        self.own.leaves.as_deref().unwrap_or(&self.general.leaves)
    }

    /// Traits that it takes one level off. An entry that says what remains says all of it.
    pub fn eases(&self) -> &'g [Placed<TraitId>] {
        match (&self.own.eases, &self.own.leaves) {
            (Some(eases), _) => eases,
            (None, Some(_)) => &[],
            (None, None) => &self.general.eases,
        }
    }

    /// What it brings in.
    pub fn brings(&self) -> &'g [(Placed<TraitId>, u8)] {
        self.own.brings.as_deref().unwrap_or(&self.general.brings)
    }

    /// Whether the entry says which settings it takes away here.
    pub fn takes_otherwise(&self) -> bool {
        self.own.takes.is_some()
    }

    /// Settings that it takes away or replaces.
    pub fn takes(&self) -> &'g [Placed<SettingName>] {
        self.own.takes.as_deref().unwrap_or(&self.general.takes)
    }

    /// What it needs besides the movement's own kit.
    pub fn kit(&self) -> &'g [KitNeed] {
        self.own.kit.as_deref().unwrap_or(&self.general.kit)
    }

    /// Changes of the same part that may be made with it.
    pub fn with(&self) -> impl Iterator<Item = &'g ChangeId> {
        self.general.with.iter().map(|id| &id.value)
    }

    /// Where it comes from.
    pub fn sources(&self) -> impl Iterator<Item = &'g SourceId> {
        self.general.sources.iter().map(|id| &id.value)
    }

    /// Two changes of one part of the body go together only where that is written.
    fn goes_with(&self, other: &Change<'_>) -> bool {
        self.part() != other.part()
            || self.with().any(|id| id == other.id())
            || other.with().any(|id| id == self.id())
    }
}

/// The changes that a movement allows, what is tried first in front; ids that nothing has are
/// left to a check.
pub fn changes_of<'g>(gym: &'g Gym, movement: &'g Movement) -> Vec<Change<'g>> {
    let general = &gym.library.words.changes;
    let change =
        |own: &'g ChangeOf| Some(Change { general: general.get(&own.id.value)?, own, movement });
    movement.changes.iter().filter_map(change).collect()
}

/// Whether one of the changes takes a setting away or replaces it, so that it is not said.
pub fn taken(made: &[Change<'_>], setting: &str) -> bool {
    made.iter().flat_map(|change| change.takes()).any(|id| id.as_str() == setting)
}

/// Traits and their levels.
pub type Levels<'g> = BTreeMap<&'g TraitId, u8>;

/// What remains of `traits` when all of `made` are made. What a change brings in is counted whole,
/// even where another would lessen it.
pub fn remaining<'g>(traits: &Levels<'g>, made: &[Change<'g>]) -> Levels<'g> {
    let mut left = traits.clone();
    for (id, level) in made.iter().flat_map(|change| change.leaves()) {
        if let Some(now) = left.get_mut(&id.value) {
            *now = (*now).min(*level);
        }
    }
    // After what remains at the most: breathing out eases a lighter weight further, and a heavy one
    // only to some.
    for id in made.iter().flat_map(|change| change.eases()) {
        if let Some(now) = left.get_mut(&id.value) {
            *now = now.saturating_sub(1);
        }
    }
    for (id, level) in made.iter().flat_map(|change| change.brings()) {
        let now = left.entry(&id.value).or_insert(0);
        *now = (*now).max(*level);
    }
    left.retain(|_, level| *level > 0);
    left
}

/// The fewest changes after which nothing is at or above the `limits`; of as many, those that are
/// written first. Nothing where no three of them do.
pub fn enough<'g>(
    traits: &Levels<'g>,
    possible: &[Change<'g>],
    limits: &BTreeMap<TraitId, u8>,
) -> Option<Vec<Change<'g>>> {
    let most = MOST_AT_ONCE.min(possible.len());
    (1..=most).find_map(|size| {
        chosen(possible, size)
            .into_iter()
            .find(|made| go_together(made) && !over(&remaining(traits, made), limits))
    })
}

/// Whether any trait is at or above its limit.
pub fn over(traits: &Levels<'_>, limits: &BTreeMap<TraitId, u8>) -> bool {
    traits.iter().any(|(id, level)| limits.get(*id).is_some_and(|from| level >= from))
}

fn go_together(made: &[Change<'_>]) -> bool {
    made.iter().enumerate().all(|(at, one)| made[..at].iter().all(|other| one.goes_with(other)))
}

/// Every choice of `size` of the changes, in the order written.
fn chosen<'g>(possible: &[Change<'g>], size: usize) -> Vec<Vec<Change<'g>>> {
    if size == 0 {
        return vec![Vec::new()];
    }
    let mut found = Vec::new();
    for (at, first) in possible.iter().enumerate() {
        for mut rest in chosen(&possible[at + 1..], size - 1) {
            rest.insert(0, *first);
            found.push(rest);
        }
    }
    found
}

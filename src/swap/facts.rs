//! Facts: what checks ask about swaps: movements with no swap at home, and traits that a written
//! link brings in without a word. Never words a finding; the checks do.

use super::fits::{OFF_UNTIL_SAID, fit};
use super::links::FirstChoice;
use super::rungs::RungOf;
use super::{Person, alike};
use crate::finding::Span;
use crate::gym::Gym;
use crate::library::{KitId, KitKind, Ladder, LadderId, Movement, MovementId, Trait, TraitId};
use std::collections::{BTreeMap, BTreeSet};

/// Movements that cannot be done at home and for which no swap can: a member there is left with
/// nothing. At home means with no kit, with what nobody lacks (`kind: anywhere`), or with any
/// household kit (`kind: home`) but a door-frame bar. No limits are assumed. In the order of ids.
pub fn kit_free_dead_ends(gym: &Gym) -> Vec<MovementId> {
    let at_home = Person { kit: Some(household(gym)), ..Person::default() };
    let movements = gym.library.movements.values();
    // Asked once of each: how alike two movements are is asked of those alone that can be done at home.
    let fits: BTreeSet<&MovementId> =
        movements.clone().filter(|m| at_home_fits(gym, &at_home, m)).map(|m| &m.id).collect();
    let stuck = |movement: &&Movement| {
        !fits.contains(&movement.id) && {
            let first = FirstChoice::of(gym, movement);
            alike(&first, &|id| fits.contains(id)).next().is_none()
        }
    };
    movements.filter(stuck).map(|movement| movement.id.clone()).collect()
}

fn at_home_fits(gym: &Gym, person: &Person, movement: &Movement) -> bool {
    fit(gym, person, &RungOf::usual(&movement.id)).is_in()
}

fn household(gym: &Gym) -> BTreeSet<KitId> {
    let kit = gym.library.words.kit.iter();
    kit.filter(|(id, item)| item.kind == KitKind::Home && !OFF_UNTIL_SAID.contains(&id.as_str()))
        .map(|(id, _)| id.clone())
        .collect()
}

/// The written link by which one movement leads to another.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Through {
    /// A `beside` link.
    Beside,
    /// The `then` of a fault.
    Then,
    /// A step up this ladder; the upper rung's place on it, from 0.
    Step(LadderId, usize),
}

/// A link that brings in traits which neither it nor the caution of its target mentions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnsaidTraits {
    /// Where the link starts.
    pub from: MovementId,
    /// Where it leads.
    pub to: MovementId,
    /// By which kind of link.
    pub through: Through,
    /// The traits, and how much of each.
    pub traits: Vec<(TraitId, u8)>,
    /// Where the link names its target.
    pub span: Span,
}

/// Every link that brings in a trait without a word. So that few alarms are false, a trait counts
/// only when the first movement has none of it and the target has a lot (level 2), and it counts
/// as said when any telling word of the trait (from its id, name, plain wording, or what people
/// say) stands in the link's own words or in the target's name or caution line. In the order of
/// movements, then of ladders.
pub fn unsaid_traits(gym: &Gym) -> Vec<UnsaidTraits> {
    let traits = gym.library.words.traits.iter();
    let telling: TellingWords = traits.map(|(id, known)| (id, of_trait(known))).collect();
    let beside = gym.library.movements.values().flat_map(links_of);
    let steps = gym.library.ladders.values().flat_map(steps_of);
    beside.chain(steps).filter_map(|link| link.unsaid(gym, &telling)).collect()
}

/// The words that point at each trait.
type TellingWords<'g> = BTreeMap<&'g TraitId, BTreeSet<String>>;

/// A link as it is written.
struct Link<'g> {
    from: &'g MovementId,
    to: MovementId,
    through: Through,
    words: Option<&'g str>,
    span: Span,
}

impl Link<'_> {
    fn unsaid(&self, gym: &Gym, of_traits: &TellingWords<'_>) -> Option<UnsaidTraits> {
        let movements = &gym.library.movements;
        let (from, to) = (movements.get(self.from)?, movements.get(&self.to)?);
        let new = |(id, level): &(TraitId, u8)| *level == 2 && from.trait_level(id) == 0;
        let there = to.traits_at(&[]).into_iter().map(|(id, level)| (id.value.clone(), level));
        let mut traits: Vec<_> = there.filter(new).collect();
        if traits.is_empty() {
            return None;
        }
        let caution = to.caution.as_ref().map(|caution| caution.value.as_str());
        let said = telling([Some(to.name.value.as_str()), self.words, caution]);
        // An unknown trait has no words of its own, and another check names it.
        traits.retain(|(id, _)| of_traits.get(id).is_some_and(|words| words.is_disjoint(&said)));
        (!traits.is_empty()).then(|| UnsaidTraits {
            from: from.id.clone(),
            to: to.id.clone(),
            through: self.through.clone(),
            traits,
            span: self.span,
        })
    }
}

fn links_of(movement: &Movement) -> impl Iterator<Item = Link<'_>> {
    let beside = movement.beside.iter().map(|link| Link {
        from: &movement.id,
        to: link.to.value.clone(),
        through: Through::Beside,
        words: link.because.as_deref(),
        span: link.to.span,
    });
    // `rung below`, `stop` and settings name no movement, and are passed over as unknown ids.
    let thens = movement.faults.iter().filter_map(|fault| fault.then.as_ref()).map(|then| Link {
        from: &movement.id,
        to: MovementId(then.value.names.clone()),
        through: Through::Then,
        words: then.value.plain.as_deref(),
        span: then.span,
    });
    beside.chain(thens)
}

fn steps_of(ladder: &Ladder) -> impl Iterator<Item = Link<'_>> {
    ladder.rungs.windows(2).enumerate().map(|(at, pair)| Link {
        from: &pair[0].movement.value,
        to: pair[1].movement.value.clone(),
        through: Through::Step(ladder.id.clone(), at + 1),
        words: pair[1].because.as_deref(),
        span: pair[1].movement.span,
    })
}

fn of_trait(known: &Trait) -> BTreeSet<String> {
    let texts = [known.id.value.as_str(), known.name.as_str()];
    let also = known.also_said.iter().map(String::as_str);
    let plain = known.plain.as_deref().into_iter().chain(known.avoid.as_deref());
    telling(texts.into_iter().chain(plain).chain(also).map(Some))
}

/// Words that point at a trait, not at sentences in general: four letters or more, cut to their
/// first five so that `kneeling` and `kneel` meet.
fn telling<'t>(texts: impl IntoIterator<Item = Option<&'t str>>) -> BTreeSet<String> {
    const OF_ANY_SENTENCE: [&str; 14] = [
        "with", "from", "that", "when", "your", "into", "back", "down", "under", "past", "hurt",
        "hurts", "weight", "close",
    ];
    let texts = texts.into_iter().flatten().map(str::to_lowercase);
    let words = texts.flat_map(|text| {
        text.split(|letter: char| !letter.is_alphanumeric()).map(String::from).collect::<Vec<_>>()
    });
    words
        .filter(|word| word.chars().count() >= 4 && !OF_ANY_SENTENCE.contains(&word.as_str()))
        .map(|word| word.chars().take(5).collect())
        .collect()
}

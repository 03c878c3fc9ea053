//! Asked: the words a person types for a movement, kit or a limit, as what the library calls them.
//! Never guesses: an unknown word is answered with the near spelling, and nothing else happens.

use crate::finding::did_you_mean;
use crate::gym::Gym;
use crate::library::{Caution, CautionId, KitId, KitKind, Movement, MovementId, Trait, TraitId};
use std::collections::{BTreeMap, BTreeSet};

/// The movement called `word`, by id, name or alias; capitals and hyphens do not matter.
///
/// # Errors
/// A sentence with the near spelling.
pub fn movement_called<'g>(gym: &'g Gym, word: &str) -> Result<&'g MovementId, String> {
    let movements = &gym.library.movements;
    if let Some((id, _)) = movements.get_key_value(&MovementId(word.trim().to_string())) {
        return Ok(id);
    }
    let asked = plain(word);
    let called = |movement: &&Movement| names(movement).any(|name| plain(name) == asked);
    if let Some(movement) = movements.values().find(called) {
        return Ok(&movement.id);
    }
    let known = movements.values().flat_map(names);
    let help = did_you_mean(word, known, "`rungbook find` looks through names, cues and faults");
    Err(format!("there is no movement `{word}`; {help}"))
}

fn names(movement: &Movement) -> impl Iterator<Item = &str> {
    let aliases = movement.aliases.iter().map(|alias| alias.value.as_str());
    [movement.id.as_str(), movement.name.value.as_str()].into_iter().chain(aliases)
}

/// The kit that `words` name, by id, name or alias. `none` names no kit at all, and `hall` what
/// the hall has.
///
/// # Errors
/// Every unknown word with its near spelling, one a line.
pub fn kit_from(gym: &Gym, words: &[String]) -> Result<BTreeSet<KitId>, String> {
    let mut kit = BTreeSet::new();
    let mut unknown = Vec::new();
    if words.len() > 1 && words.iter().any(|word| plain(word) == "none") {
        let other: Vec<&str> =
            words.iter().map(|word| word.trim()).filter(|word| plain(word) != "none").collect();
        let help = match other.as_slice() {
            [] => "write `none` once".to_string(),
            other => format!("write `none` alone, or only `{}`", other.join(",")),
        };
        return Err(format!(
            "`none` says that there is no kit, and other kit stands beside it; {help}"
        ));
    }
    for word in words.iter().filter(|word| plain(word) != "none") {
        match kit_called(gym, word) {
            Ok(found) => kit.extend(found),
            Err(sentence) => unknown.push(sentence),
        }
    }
    if unknown.is_empty() { Ok(kit) } else { Err(unknown.join("\n")) }
}

fn kit_called(gym: &Gym, word: &str) -> Result<Vec<KitId>, String> {
    let kit = &gym.library.words.kit;
    let asked = plain(word);
    if asked == "hall" {
        return Ok(hall(gym));
    }
    let mut known = Vec::new();
    for (id, item) in kit {
        let names = [id.as_str(), item.name.as_str()];
        let names = names.into_iter().chain(item.aliases.iter().map(String::as_str));
        for name in names {
            // `no bar` is an alias for searching; as kit at hand it would say the contrary.
            if name.starts_with("no ") {
                continue;
            }
            if plain(name) == asked {
                return Ok(vec![id.clone()]);
            }
            known.push(name);
        }
    }
    let help = did_you_mean(word, known, "write an id from words/kit.yaml, `hall` or `none`");
    Err(format!("there is no kit `{word}`; {help}"))
}

/// The kit of the hall: what the club lists, or all kit of kind `hall` where it lists none.
pub(super) fn hall(gym: &Gym) -> Vec<KitId> {
    let listed = &gym.library.club.hall_kit;
    if !listed.is_empty() {
        return listed.iter().map(|(id, _)| id.value.clone()).collect();
    }
    let of_the_hall = |(id, item): (&KitId, &crate::library::KitItem)| {
        (item.kind == KitKind::Hall).then(|| id.clone())
    };
    gym.library.words.kit.iter().filter_map(of_the_hall).collect()
}

/// What a person leaves out, and the situations that it comes from.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Limits {
    /// Traits, each from this level on.
    pub levels: BTreeMap<TraitId, u8>,
    /// Situations, so that what their cautions say can be said.
    pub situations: BTreeSet<CautionId>,
}

impl Limits {
    /// Of two levels of a trait the lower one holds.
    pub fn lower(&mut self, id: TraitId, from: u8) {
        let level = self.levels.entry(id).or_insert(from);
        *level = from.min(*level);
    }

    /// Adds what a caution leaves out or changes.
    pub fn add(&mut self, caution: &Caution) {
        self.situations.insert(caution.id.value.clone());
        caution.precautions().for_each(|p| self.lower(p.about.value.clone(), p.from));
    }
}

/// The limits of one situation.
pub fn limits_of_situation(caution: &Caution) -> Limits {
    let mut limits = Limits::default();
    limits.add(caution);
    limits
}

/// The limits that `words` ask for: a trait (`kneeling`, or `impact=2` to avoid only a lot of
/// it), a caution (`sore-wrist`: every trait that it leaves out or changes, from its level), or
/// what people say (`bad knees`). A phrase that belongs to several counts for all of them, and of
/// two levels the lower one holds.
///
/// # Errors
/// Every unknown word with its near spelling, one a line.
pub fn limits_from(gym: &Gym, words: &[String]) -> Result<Limits, String> {
    let mut limits = Limits::default();
    let mut unknown = Vec::new();
    let mut left = words;
    while let Some((word, rest)) = left.split_first() {
        // A name may have a comma of its own: `Older, or afraid of falling`.
        let whole = rest.first().map(|next| format!("{word},{next}"));
        if whole.is_some_and(|whole| add_limits(gym, &whole, &mut limits).is_ok()) {
            left = &rest[1..];
            continue;
        }
        if let Err(sentence) = add_limits(gym, word, &mut limits) {
            unknown.push(sentence);
        }
        left = rest;
    }
    if unknown.is_empty() { Ok(limits) } else { Err(unknown.join("\n")) }
}

fn add_limits(gym: &Gym, word: &str, limits: &mut Limits) -> Result<(), String> {
    let library = &gym.library.words;
    let (phrase, level) = level_of(word)?;
    let asked = plain(phrase);
    let mut found = false;
    for known in library.traits.values().filter(|t| trait_words(t).any(|w| plain(w) == asked)) {
        limits.lower(known.id.value.clone(), level.unwrap_or(1));
        found = true;
    }
    let called = |c: &&Caution| caution_words(c).any(|w| plain(w) == asked);
    let cautions: Vec<&Caution> = library.cautions.values().filter(called).collect();
    match (level, cautions.first()) {
        (None, _) => cautions.iter().for_each(|caution| limits.add(caution)),
        (Some(level), Some(caution)) if !is_trait(gym, &asked) => {
            return Err(format!(
                "`{phrase}` is a caution and has levels of its own, so `={level}` says nothing; write \
                 `{}` alone, or a trait and its level such as `kneeling={level}`",
                caution.id.value
            ));
        }
        (Some(_), _) => {}
    }
    found |= level.is_none() && !cautions.is_empty();
    if found {
        return Ok(());
    }
    let known = library.traits.values().flat_map(trait_words);
    let known = known.chain(library.cautions.values().flat_map(caution_words));
    let otherwise = "write a trait from words/traits.yaml or a caution from words/cautions.yaml";
    let help = did_you_mean(phrase, known, otherwise);
    Err(format!("nothing to avoid is called `{phrase}`; {help}"))
}

/// Whether a phrase is a trait by its id or name, and not only by what people say.
fn is_trait(gym: &Gym, phrase: &str) -> bool {
    let names = |known: &Trait| plain(known.id.as_str()) == phrase || plain(&known.name) == phrase;
    gym.library.words.traits.values().any(names)
}

/// `impact=2` as the trait and its level.
fn level_of(word: &str) -> Result<(&str, Option<u8>), String> {
    match word.split_once('=') {
        None => Ok((word, None)),
        Some((name, "1")) => Ok((name, Some(1))),
        Some((name, "2")) => Ok((name, Some(2))),
        Some((name, level)) => Err(format!(
            "`{level}` is not a level of `{name}`; write `{name}=1` for any of it or `{name}=2` for a lot"
        )),
    }
}

fn trait_words(known: &Trait) -> impl Iterator<Item = &str> {
    let also = known.also_said.iter().map(String::as_str);
    let plain = known.plain.as_deref().into_iter().chain(known.avoid.as_deref());
    [known.id.value.as_str(), known.name.as_str()].into_iter().chain(plain).chain(also)
}

fn caution_words(known: &Caution) -> impl Iterator<Item = &str> {
    let also = known.also_said.iter().map(String::as_str);
    [known.id.value.as_str(), known.name.as_str()].into_iter().chain(also)
}

/// Capitals, hyphens, curly apostrophes and doubled spaces do not matter.
fn plain(text: &str) -> String {
    let text = text.to_lowercase().replace('’', "'").replace('-', " ");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

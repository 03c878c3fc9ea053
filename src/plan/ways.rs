//! Ways: everything that a member may find themselves doing on one line of a block.
//! Never chooses one for anybody.

use crate::gym::Gym;
use crate::library::{
    Amount, Count, Counts, Dose, Item, ItemWork, KitKind, KitNeed, Ladder, Movement, PatternId,
    Quantity, Rung, SettingName,
};

/// One movement that a line may mean for somebody, and how much of it.
#[derive(Debug, Clone)]
pub struct Way<'g> {
    /// The movement.
    pub movement: &'g Movement,
    /// Its rung, from 0, where the line names a ladder.
    pub rung: Option<usize>,
    /// The settings, in the order of their names.
    pub settings: Vec<(&'g SettingName, Quantity)>,
    /// What a set counts.
    pub amount: Option<Amount>,
    /// Sets.
    pub sets: Option<Count>,
    /// Rest after a set, in seconds: the line's, else that of the ladder's usual dose.
    pub rest_s: u32,
    /// Whether the line itself asks for that rest. The usual one belongs to sets in a window: a
    /// round or a warm-up does not stop for it.
    pub rest_asked: bool,
    /// Whether the amount was said to be for each side.
    pub per_side: bool,
}

impl Way<'_> {
    /// `Strap row, lean 45 deg`.
    pub fn said(&self) -> String {
        let settings = self.settings.iter().filter(|(_, value)| !value.is_nothing());
        let settings = settings.map(|(name, value)| format!(", {name} {value}"));
        format!("{}{}", self.movement.name.value, settings.collect::<String>())
    }
}

/// Every way to do an item whose entries exist: one a rung, one an option, or the movement.
pub fn ways<'g>(gym: &'g Gym, item: &'g Item) -> Vec<Way<'g>> {
    ways_with(gym, item, item.dose.as_ref())
}

fn ways_with<'g>(gym: &'g Gym, item: &'g Item, dose: Option<&'g Dose>) -> Vec<Way<'g>> {
    match &item.work {
        ItemWork::Ladder(id) => {
            let Some(ladder) = gym.library.ladders.get(&id.value) else { return Vec::new() };
            let rungs = ladder.rungs.iter().enumerate().take(within_reach(ladder, item));
            rungs.filter_map(|(at, rung)| on_rung(gym, ladder, (at, rung), dose)).collect()
        }
        ItemWork::Movement(id, settings) => {
            let Some(movement) = gym.library.movements.get(&id.value) else { return Vec::new() };
            let settings = settings.iter().map(|(name, value)| (&name.value, value.value));
            vec![way(movement, None, settings.collect(), &[dose])]
        }
        ItemWork::Options(options) => {
            let own = |option: &'g Item| ways_with(gym, option, option.dose.as_ref().or(dose));
            options.iter().flat_map(own).collect()
        }
    }
}

/// How many rungs of a ladder a line can mean for somebody: `below: 2` leaves out the top two, and
/// whoever stands on the lowest stays there.
fn within_reach(ladder: &Ladder, item: &Item) -> usize {
    let below = item.below.as_ref().map_or(0, |below| below.value as usize);
    ladder.rungs.len().saturating_sub(below).max(1)
}

/// A rung as a line asks for it. A rung whose own dose asks less at both ends does its own: nobody
/// lowers slowly as often as others push. So does a rung that counts something else.
fn on_rung<'g>(
    gym: &'g Gym,
    ladder: &'g Ladder,
    (at, rung): (usize, &'g Rung),
    asked: Option<&'g Dose>,
) -> Option<Way<'g>> {
    let movement = gym.library.movements.get(&rung.movement.value)?;
    let settings = rung.settings.iter().map(|(name, value)| (&name.value, value.value)).collect();
    let usual = rung.dose.as_ref().or(ladder.dose.as_ref());
    let mut way = way(movement, Some(at), settings, &[asked, usual]);
    let own = usual.and_then(|dose| dose.amount.as_ref()).map(|amount| amount.value);
    if let (Some(planned), Some(own)) = (way.amount, own) {
        let counts_other = planned.counts() != own.counts() && counts(movement, own);
        if counts_other || (rung.dose.is_some() && asks_less(own, planned)) {
            way.amount = Some(own);
        }
    }
    Some(way)
}

/// The first dose that says a thing says it.
fn way<'g>(
    movement: &'g Movement,
    rung: Option<usize>,
    settings: Vec<(&'g SettingName, Quantity)>,
    doses: &[Option<&'g Dose>],
) -> Way<'g> {
    let mut said = doses.iter().flatten();
    let rest = said.clone().find_map(|dose| dose.rest);
    Way {
        movement,
        rung,
        settings,
        amount: said.clone().find_map(|dose| dose.amount.as_ref()).map(|amount| amount.value),
        sets: said.clone().find_map(|dose| dose.sets),
        rest_s: rest.map_or(0, whole_seconds),
        rest_asked: doses.first().copied().flatten().is_some_and(|dose| dose.rest.is_some()),
        per_side: said.find_map(|dose| dose.per_side.as_ref()).is_some_and(|side| side.value),
    }
}

fn counts(movement: &Movement, amount: Amount) -> bool {
    Counts::from_word(amount.counts()) == Some(movement.counts)
}

fn asks_less(own: Amount, planned: Amount) -> bool {
    let (own, planned, alike) = (count(own), count(planned), own.counts() == planned.counts());
    alike && own.from < planned.from && own.to < planned.to
}

/// The numbers of an amount.
pub(super) fn count(amount: Amount) -> Count {
    match amount {
        Amount::Reps(n) | Amount::Seconds(n) | Amount::Metres(n) | Amount::Contacts(n) => n,
    }
}

/// A quantity of time in whole seconds, part of one counted as one.
pub fn whole_seconds(time: Quantity) -> u32 {
    u32::try_from(time.micro.max(0).saturating_add(999_999) / 1_000_000).unwrap_or(u32::MAX)
}

/// What is needed that a place may lack: everything but what nobody lacks, such as a wall.
pub fn kit_needs<'g>(gym: &'g Gym, movement: &'g Movement) -> Vec<&'g KitNeed> {
    let words = &gym.library.words.kit;
    let anywhere = |id| {
        words.get(id).is_some_and(|kit: &crate::library::KitItem| kit.kind == KitKind::Anywhere)
    };
    movement.kit.iter().filter(|need| !need.0.iter().any(|id| anywhere(&id.value))).collect()
}

/// The pattern of a line: its ladder's, its movement's, or that of its middle option, which is
/// what most people do.
pub fn pattern<'g>(gym: &'g Gym, item: &'g Item) -> Option<&'g PatternId> {
    let of = |movement: &'g Movement| &movement.pattern.value;
    match &item.work {
        ItemWork::Ladder(id) => {
            let ladder = gym.library.ladders.get(&id.value)?;
            let said = ladder.pattern.as_ref().map(|pattern| &pattern.value);
            said.or_else(|| {
                Some(of(gym.library.movements.get(&ladder.rungs.first()?.movement.value)?))
            })
        }
        ItemWork::Movement(id, _) => gym.library.movements.get(&id.value).map(of),
        ItemWork::Options(options) => pattern(gym, options.get(options.len() / 2)?),
    }
}

/// What a line is called.
pub fn name(gym: &Gym, item: &Item) -> String {
    let library = &gym.library;
    match &item.work {
        ItemWork::Ladder(id) => {
            library.ladders.get(&id.value).map_or(id.value.to_string(), |l| l.name.value.clone())
        }
        ItemWork::Movement(id, _) => {
            library.movements.get(&id.value).map_or(id.value.to_string(), |m| m.name.value.clone())
        }
        ItemWork::Options(options) => {
            options.iter().map(|option| name(gym, option)).collect::<Vec<_>>().join(" or ")
        }
    }
}

/// A rung with the dose of its ladder, where no session asks for it.
pub(super) fn as_the_ladder_asks<'g>(
    gym: &'g Gym,
    ladder: &'g Ladder,
    at: usize,
) -> Option<Way<'g>> {
    on_rung(gym, ladder, (at, ladder.rungs.get(at)?), None)
}

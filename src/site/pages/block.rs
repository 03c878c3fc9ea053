//! A block of a session as pages show it: its lines, three rungs a line, and its arithmetic.
//! Never does the arithmetic; the room `plan` does.

use super::card::Work;
use super::frame::{Link, Maker};
use super::needs::Needs;
pub use super::share::USUAL_PEOPLE;
use super::share::{ShareRow, share_row};
use super::standing::RungRow;
use crate::finding::Placed;
use crate::gym::Gym;
use crate::library::{
    Block, Cycle, Dose, Format, Item, ItemWork, KitItem, KitKind, LadderId, Movement, Quantity,
    Session, SettingName, Sides,
};
use crate::own::{self, asked_of, dose_words, is_descending};
use crate::placing::Target;
use crate::plan::{self, BlockPlan, ClockRow, ItemPlan, Way, clock_row, ways};
use crate::swap::RungOf;
use serde::Serialize;

/// A block with what its page, the floor and the clock need.
#[derive(Debug, Serialize)]
pub struct BlockRow {
    pub(super) name: String,
    purpose: Option<String>,
    pub(super) format: Option<String>,
    time: String,
    work: Option<String>,
    rest: Option<String>,
    rounds: Option<String>,
    kit: Option<String>,
    clock: ClockRow,
    /// How many people share little kit; nothing where kit is no limit.
    share: Option<ShareRow>,
    pub(super) items: Vec<ItemRow>,
}

/// A line of a block.
#[derive(Debug, Default, Serialize)]
pub struct ItemRow {
    pub(super) ladder: Option<Link>,
    pub(super) ladder_id: Option<String>,
    pub(super) below: u32,
    /// `your own rung`, or `two rungs below your own`.
    pub(super) whose: Option<String>,
    /// What the line asks of each rung, the lowest first; nothing where a round counts.
    asked: Vec<Option<Target>>,
    /// A test is done to the standard and to its end: nothing is kept in reserve.
    tests: bool,
    pub(super) rungs: Vec<RungRow>,
    /// The counts are the block's own, one fewer each round.
    pub(super) counts_down: bool,
    pub(super) movement: Option<Link>,
    pub(super) movement_id: Option<String>,
    /// How the movement is counted, and by which of its rungs its swaps are compared, from 0.
    work: Option<Work>,
    at: usize,
    pub(super) setting: String,
    /// Where the movement stands on a ladder: whoever starts at the lowest rung starts there.
    stands: Option<Stands>,
    needs: Needs,
    pub(super) options: Vec<ItemRow>,
    pub(super) dose: Option<String>,
    /// Of an option: its dose, or that of its line.
    pub(super) words: Option<String>,
    time: Option<String>,
    misfits: Vec<String>,
    note: Option<String>,
    pub(super) cue: Option<String>,
}

/// A place on a ladder.
#[derive(Debug, Serialize)]
struct Stands {
    ladder: String,
    /// From 1.
    number: usize,
}

/// What is the same for every line of a block.
struct Asking<'a> {
    maker: &'a Maker<'a>,
    block: &'a Block,
    /// Ladders that this block tests.
    tested: Vec<&'a LadderId>,
}

/// Block `at` of `session`, from 0.
pub fn block_row(maker: &Maker<'_>, session: &Session, at: usize, plan: &BlockPlan) -> BlockRow {
    let block = &session.blocks[at];
    let tests = plan::trials(maker.gym, session);
    let tested = tests.into_iter().filter(|(_, tested)| *tested == at).map(|(id, _)| id).collect();
    let asking = Asking { maker, block, tested };
    let spans = |time: plan::Band| (time.most > 0).then(|| time.to_string());
    let whole_window = plan.format == Some(Format::MostRounds);
    let items = block.items.iter().zip(&plan.items);
    BlockRow {
        name: block.name.value.clone(),
        purpose: block.purpose.clone(),
        format: plan::format_words(block),
        time: plan.total.to_string(),
        work: spans(plan.work).filter(|_| !whole_window),
        rest: spans(plan.rest).filter(|_| !whole_window),
        rounds: whole_window.then(|| plan.rounds.map(|rounds| rounds.to_string())).flatten(),
        kit: kit_words(maker, plan),
        clock: clock_row(plan),
        share: share_row(maker.gym, block, plan),
        items: items.map(|(item, plan)| item_row(&asking, item, Some(plan))).collect(),
    }
}

impl BlockRow {
    /// The lines of a focus ladder at each own rung, as a week of a cycle asks for them.
    pub fn aimed(&mut self, gym: &Gym, cycle: &Cycle, week: u32) {
        self.items.iter_mut().for_each(|item| item.aimed(gym, cycle, week));
    }
}

impl ItemRow {
    fn aimed(&mut self, gym: &Gym, cycle: &Cycle, week: u32) {
        let ladder = self.ladder_id.as_deref().map(LadderId::from);
        let Some(ladder) = ladder.filter(|id| plan::is_focus(cycle, id)) else { return };
        if self.below > 0 || self.tests || self.counts_down {
            return;
        }
        let top = gym.library.ladders.get(&ladder).map_or(0, |ladder| ladder.rungs.len());
        let said = self.asked.clone();
        plan::aim_rungs((cycle, week), (&ladder, top), &mut self.asked);
        // To everybody the line says what its middle rung does; the rest after it stays.
        let middle = self.asked.len() / 2;
        if let Some(Some(target)) = self.asked.get(middle)
            && self.asked.get(middle) != said.get(middle)
        {
            let rest = self.dose.as_deref().and_then(|dose| dose.split_once(", rest "));
            let rest = rest.map_or(String::new(), |(_, rest)| format!(", rest {rest}"));
            self.dose = Some(format!("{target}{rest}"));
        }
    }
}

/// `straps for 2 lines, low bar`.
fn kit_words(maker: &Maker<'_>, plan: &BlockPlan) -> Option<String> {
    let kit = &maker.gym.library.words.kit;
    let may_lack = |id| kit.get(id).is_none_or(|item: &KitItem| item.kind != KitKind::Anywhere);
    let words = plan.kit.iter().filter(|(id, _)| may_lack(*id)).map(|(id, lines)| {
        let name = maker.kit(id).text.to_lowercase();
        if *lines > 1 { format!("{name} on {lines} lines") } else { name }
    });
    let words: Vec<String> = words.collect();
    (!words.is_empty()).then(|| words.join(", "))
}

fn item_row(asking: &Asking<'_>, item: &Item, plan: Option<&ItemPlan>) -> ItemRow {
    let mut row = ItemRow {
        dose: dose_of(asking, item, None),
        note: item.note.clone(),
        below: item.below.as_ref().map_or(0, |below| below.value),
        time: plan.and_then(time_words),
        misfits: plan.map(misfits).unwrap_or_default(),
        counts_down: is_descending(asking.block),
        ..ItemRow::default()
    };
    match &item.work {
        ItemWork::Ladder(id) => on_ladder(asking, item, id, &mut row),
        ItemWork::Movement(id, settings) => {
            row.movement = Some(asking.maker.movement(&id.value));
            row.movement_id = Some(id.value.to_string());
            row.asked = asked_of(asking.maker.gym, asking.block, item);
            let words =
                settings.iter().map(|(name, value)| format!("{} {}", name.value, value.value));
            row.setting = words.collect::<Vec<_>>().join(", ");
            if let Some(movement) = asking.maker.gym.library.movements.get(&id.value) {
                let at: Vec<(&str, Quantity)> =
                    settings.iter().map(|(name, value)| (name.as_str(), value.value)).collect();
                row.needs = Needs::at(asking.maker.gym, movement, &at);
                row.work = Some(Work::of(movement));
                let asked = settled(movement, settings);
                row.at = own::compared_as(asking.maker.gym, movement, &asked).0;
                stand(asking.maker, own::stands(asking.maker.gym, movement, &asked), &mut row);
                row.cue = movement.cues.first().map(|cue| cue.say.value.clone());
                row.dose = dose_of(asking, item, Some(movement));
            }
        }
        ItemWork::Options(options) => {
            row.options = options.iter().map(|option| option_row(asking, option, item)).collect();
        }
    }
    row
}

/// The link of a line's movement leads to the rung that it is on its ladder.
fn stand(maker: &Maker<'_>, stands: Option<(LadderId, usize)>, row: &mut ItemRow) {
    let Some((id, at)) = stands else { return };
    if let Some(ladder) = maker.gym.library.ladders.get(&id) {
        row.movement = maker.at_rung(ladder, at).or(row.movement.take());
        row.stands = Some(Stands { ladder: id.to_string(), number: at + 1 });
    }
}

/// A movement at the settings of a line.
fn settled(movement: &Movement, settings: &[(Placed<SettingName>, Placed<Quantity>)]) -> RungOf {
    let mut rung = RungOf::usual(&movement.id);
    rung.key.settings =
        settings.iter().map(|(name, value)| (name.value.clone(), value.value)).collect();
    rung.key.settings.sort();
    rung
}

/// An option; what it does not say, its line says.
fn option_row(asking: &Asking<'_>, option: &Item, line: &Item) -> ItemRow {
    let dosed = Item { dose: option.dose.clone().or_else(|| line.dose.clone()), ..option.clone() };
    let row = item_row(asking, &dosed, None);
    let own = option.dose.is_some() || is_descending(asking.block);
    ItemRow { dose: row.dose.clone().filter(|_| own), words: row.dose.clone(), ..row }
}

fn on_ladder(
    asking: &Asking<'_>,
    item: &Item,
    id: &crate::finding::Placed<LadderId>,
    row: &mut ItemRow,
) {
    let maker = asking.maker;
    row.ladder = Some(maker.ladder(&id.value));
    row.ladder_id = Some(id.value.to_string());
    row.whose = Some(whose(row.below));
    row.rungs = three_rungs(maker, &id.value, row.below);
    row.tests = asking.tested.contains(&&id.value);
    if is_descending(asking.block) {
        row.rungs.iter_mut().for_each(|rung| rung.dose = None);
    } else {
        let every = Item { below: None, ..item.clone() };
        let ways = ways(maker.gym, &every);
        row.asked = asked_of(asking.maker.gym, asking.block, &every);
        for rung in &mut row.rungs {
            rung.dose = ways.get(rung.number - 1).and_then(|way| own_dose(way, item.dose.as_ref()));
        }
    }
    let rung = row.rungs.get(row.rungs.len() / 2);
    let movement = rung.and_then(|rung| maker.movement_of(&id.value, rung.number));
    row.cue = movement.and_then(|movement| Some(movement.cues.first()?.say.value.clone()));
}

/// What a rung does, where that is not what the line says.
fn own_dose(way: &Way<'_>, said: Option<&Dose>) -> Option<String> {
    let amount = way.amount?;
    if said.and_then(|dose| dose.amount.as_ref()).is_some_and(|said| said.value == amount) {
        return None;
    }
    let amount = Some(crate::finding::Placed::new(amount, crate::finding::Span::default()));
    let dose = Dose { sets: way.sets, amount, ..Dose::default() };
    Some(dose_words(&dose, way.per_side || way.movement.sides == Sides::Each))
}

/// `your own rung`, `one rung below your own`.
fn whose(below: u32) -> String {
    match below {
        0 => "your own rung".to_string(),
        1 => "one rung below your own".to_string(),
        2 => "two rungs below your own".to_string(),
        3 => "three rungs below your own".to_string(),
        n => format!("{n} rungs below your own"),
    }
}

fn dose_of(asking: &Asking<'_>, item: &Item, movement: Option<&Movement>) -> Option<String> {
    own::dose_of(asking.block, item, movement)
}

/// How long a set takes, whichever way it is done.
fn time_words(plan: &ItemPlan) -> Option<String> {
    let set = plan::Band::around(plan.ways.iter().map(|way| way.set))?;
    let fit = plan.ways.iter().filter_map(|way| way.sets_that_fit).min();
    let fit = match fit {
        Some(1) => ", 1 fits the window".to_string(),
        Some(fit) => format!(", {fit} fit the window"),
        None => String::new(),
    };
    (set.most > 0).then(|| format!("a set takes {set}{fit}"))
}

/// Ways that do not fit their time, and why.
fn misfits(plan: &ItemPlan) -> Vec<String> {
    let late = plan.ways.iter().filter(|way| !way.fits);
    late.map(|way| format!("{} does not fit: {}.", way.said, way.why)).collect()
}

/// Three rungs of a ladder for a mixed class: the lowest, the middle, and the top that the line can
/// ask of anybody; each with its own cue and with whose it is.
fn three_rungs(maker: &Maker<'_>, id: &LadderId, below: u32) -> Vec<RungRow> {
    let Some(ladder) = maker.gym.library.ladders.get(id) else { return Vec::new() };
    let shown = own::shown_rungs(ladder, below);
    let whose = own::whose(ladder, below, &shown);
    let row = |(at, (from, to)): (usize, (usize, usize))| {
        let cue = maker.movement_of(id, at + 1).and_then(|movement| movement.cues.first());
        let who = if from == to { from.to_string() } else { format!("{from}-{to}") };
        let row = RungRow { movement: maker.at_rung(ladder, at)?, ..maker.rung_row(ladder, at)? };
        let cue = cue.map(|cue| cue.say.value.clone());
        Some(RungRow { cue, who: (shown.len() > 1).then(|| format!("own rung {who}")), ..row })
    };
    shown.iter().copied().zip(whose).filter_map(row).collect()
}

//! Line: what a line of a block asks of a class, before anybody is known.
//! Never looks at a person.

use crate::gym::Gym;
use crate::ladder::RungKey;
use crate::library::{
    Block, Dose, Format, InWeek, Item, ItemWork, Ladder, LadderId, Movement, Session, Sides,
};
use crate::placing::Target;
use crate::plan::{Way, aim_rungs, trials, warm_up_block, ways};
use crate::swap::{Compared, RungOf, compared, rungs_of};

/// A line.
#[derive(Debug, Clone)]
pub struct Line<'g> {
    /// What it names.
    pub work: Work<'g>,
    /// How far below each person's own rung.
    pub below: u32,
    /// What it asks of each rung, the lowest first, or of its movement; nothing where a round counts.
    pub asked: Vec<Option<Target>>,
    /// Whether it is a ladder's test.
    pub tests: bool,
    /// Whether the counts are the block's own, one fewer each round.
    pub counts_down: bool,
    /// The dose as the line says it; empty where it says none.
    pub dose: String,
}

/// What a line names.
#[derive(Debug, Clone)]
pub enum Work<'g> {
    /// Each at their own rung; with the rung of whoever has none, from 1.
    Ladder(&'g Ladder, u32),
    /// Everyone the same: the movement at its settings.
    Movement(&'g Movement, RungOf),
    /// One of these, the lowest demand first.
    Options(Vec<Line<'g>>),
    /// Something that the library does not have.
    Nothing,
}

/// A line of block `at` (from 0) of a session.
pub fn line_of<'g>(gym: &'g Gym, session: &'g Session, at: usize, item: &'g Item) -> Line<'g> {
    let tested = trials(gym, session).into_iter().filter(|(_, block)| *block == at);
    let tested: Vec<&LadderId> = tested.map(|(id, _)| id).collect();
    let block = &session.blocks[at];
    let line = line(gym, (block, &tested), item, item.dose.as_ref());
    match &session.in_week {
        Some(week) if Some(at) != warm_up_block(session) => in_week(line, week),
        _ => line,
    }
}

/// The line as a week of a cycle asks for it: a focus ladder's sets at the own rung, as planned.
fn in_week<'g>(mut line: Line<'g>, InWeek { cycle, week }: &InWeek) -> Line<'g> {
    if let Work::Ladder(ladder, _) = &line.work
        && line.below == 0
        && !line.tests
    {
        aim_rungs((cycle, *week), (&ladder.id, ladder.rungs.len()), &mut line.asked);
    }
    line
}

fn line<'g>(
    gym: &'g Gym,
    (block, tested): (&Block, &[&LadderId]),
    item: &'g Item,
    dose: Option<&Dose>,
) -> Line<'g> {
    let dosed = Item { dose: dose.cloned(), ..item.clone() };
    let work = work(gym, (block, tested), item, dose);
    let (tests, movement) = match &work {
        Work::Ladder(ladder, _) => (tested.contains(&&ladder.id), None),
        Work::Movement(movement, _) => (false, Some(*movement)),
        Work::Options(_) | Work::Nothing => (false, None),
    };
    let counts_down = is_descending(block);
    let every = Item { below: None, ..dosed.clone() };
    let asked = match work {
        Work::Ladder(..) if counts_down => Vec::new(),
        Work::Options(_) => Vec::new(),
        _ => asked_of(gym, block, &every),
    };
    let below = item.below.as_ref().map_or(0, |below| below.value);
    let dose = dose_of(block, &dosed, movement).unwrap_or_default();
    Line { work, below, asked, tests, counts_down, dose }
}

fn work<'g>(
    gym: &'g Gym,
    around: (&Block, &[&LadderId]),
    item: &'g Item,
    dose: Option<&Dose>,
) -> Work<'g> {
    match &item.work {
        ItemWork::Ladder(id) => {
            gym.library.ladders.get(&id.value).map_or(Work::Nothing, |ladder| {
                Work::Ladder(ladder, u32::try_from(ladder.middle() + 1).unwrap_or(u32::MAX))
            })
        }
        ItemWork::Movement(id, settings) => {
            let Some(movement) = gym.library.movements.get(&id.value) else { return Work::Nothing };
            let settings = settings.iter().map(|(name, value)| (name.value.clone(), value.value));
            let mut settings: Vec<_> = settings.collect();
            settings.sort();
            let key = RungKey { movement: movement.id.clone(), settings };
            Work::Movement(movement, RungOf { key, place: None, measured: false })
        }
        ItemWork::Options(options) => {
            let of = |option: &'g Item| line(gym, around, option, option.dose.as_ref().or(dose));
            Work::Options(options.iter().map(of).collect())
        }
    }
}

/// The three rungs that a line shows to a mixed class, from 0: the lowest, the middle, and the top
/// that it can ask of anybody.
pub fn shown_rungs(ladder: &Ladder, below: u32) -> Vec<usize> {
    if ladder.rungs.is_empty() {
        return Vec::new();
    }
    let top = (ladder.rungs.len() - 1).saturating_sub(below as usize);
    let mut at = vec![0, top / 2, top];
    at.dedup();
    at
}

/// For each of the rungs that a line shows, whose own rungs it is for, from and to, from 1: nobody is
/// sent to a rung above the one that the line asks of them.
pub fn whose(ladder: &Ladder, below: u32, shown: &[usize]) -> Vec<(usize, usize)> {
    let asked = |own: usize| own.saturating_sub(below as usize);
    let highest = |own: usize| shown.iter().rposition(|at| *at <= asked(own));
    let of = |at: usize| {
        let mut own = (0..ladder.rungs.len()).filter(|own| highest(*own) == Some(at));
        let first = own.next().unwrap_or_default();
        (first + 1, own.next_back().unwrap_or(first) + 1)
    };
    (0..shown.len()).map(of).collect()
}

/// What a line asks of each of its ways, in the numbers that placing takes. Only sets in a window
/// are counted; elsewhere the rounds are.
pub fn asked_of(gym: &Gym, block: &Block, item: &Item) -> Vec<Option<Target>> {
    let windowed = block.format.as_ref().is_some_and(|format| format.value == Format::TimedSets);
    let asked = |way: &Way<'_>| {
        let target = Target::of(way.amount?, way.sets.filter(|_| windowed));
        let each_side = way.per_side || way.movement.sides == Sides::Each;
        Some(Target { each_side, ..target })
    };
    ways(gym, item).iter().map(asked).collect()
}

/// Whether a block's counts go down by one a round.
pub fn is_descending(block: &Block) -> bool {
    block.format.as_ref().is_some_and(|format| format.value == Format::Descending)
}

/// The line's dose; in a block that counts down, the counts.
pub fn dose_of(block: &Block, item: &Item, movement: Option<&Movement>) -> Option<String> {
    let each = movement.is_some_and(|movement| movement.sides == Sides::Each);
    if let (true, Some(from), Some(to)) = (is_descending(block), block.from, block.to) {
        let sides = if each { ", each side" } else { "" };
        return Some(format!("{from} to {to}, one fewer each round{sides}"));
    }
    item.dose.as_ref().map(|dose| dose_words(dose, each))
}

/// A dose in a coach's words.
pub fn dose_words(dose: &Dose, each_side: bool) -> String {
    let mut dose = dose.clone();
    if each_side && dose.per_side.is_none() {
        let span = crate::finding::Span::default();
        dose.per_side = Some(crate::finding::Placed::new(true, span));
    }
    dose.to_string()
}

impl Line<'_> {
    /// What it asks of the way at `at`, from 0.
    pub fn asks(&self, at: usize) -> Option<Target> {
        self.asked.get(at).copied().flatten()
    }
}

/// The rung of a movement by which its swaps are compared, where a line gives it settings of its
/// own: that very rung, else the highest that asks no more, else the lowest. By its place in
/// `rungs_of`.
pub fn compared_as(gym: &Gym, movement: &Movement, asked: &RungOf) -> (usize, RungOf) {
    let mut rungs = rungs_of(gym, movement);
    let same = rungs.iter().position(|rung| rung.key == asked.key);
    let no_more = |rung: &RungOf| compared(gym, asked, rung) == Compared::NoMore;
    let at = same.or_else(|| rungs.iter().rposition(no_more)).unwrap_or(0);
    let rung = if at < rungs.len() { rungs.swap_remove(at) } else { asked.clone() };
    (at, rung)
}

/// The place of a line's movement on a ladder, from 0: that of the rung by which it is compared; of
/// several ladders that where it stands lowest. Nothing where it is on none.
pub fn stands(gym: &Gym, movement: &Movement, asked: &RungOf) -> Option<(LadderId, usize)> {
    let compared = compared_as(gym, movement, asked).1;
    let rungs = rungs_of(gym, movement).into_iter().filter(|rung| rung.key == compared.key);
    rungs.filter_map(|rung| rung.place).min_by_key(|(_, at)| *at)
}

//! Blocks of sessions as entries: found by how long they take, how loud, with what kit and what for.
//! Never does the arithmetic; the room `plan` does.

use super::HitKind;
use super::entry::{Entry, NO_KIT, lines};
use crate::gym::Gym;
use crate::library::{Block, Item, Noise, Session};
use crate::plan::{Way, block_plan, ways};
use std::collections::BTreeSet;

/// Whoever has so many minutes takes a block that fills at least half of them; common practice, no
/// source.
const FILLS: u32 = 2;
/// And one that is a minute longer: it is cut short. Common practice, no source.
const CUT_SHORT: u32 = 1;

/// The last hard work of a class, as its purpose says.
const FINISHER: &str = "finisher";

/// What people ask a block for; the same words on every one.
const ABOUT: &str = "block\npart of a session";

/// The blocks of a session.
pub fn blocks<'g>(gym: &'g Gym, session: &'g Session) -> impl Iterator<Item = Entry> + 'g {
    (1..).zip(&session.blocks).map(|(number, block)| entry(gym, session, number, block))
}

fn entry(gym: &Gym, session: &Session, number: usize, block: &Block) -> Entry {
    let minutes = block_plan(gym, block).total.most.div_ceil(60).max(1);
    let name = format!("{}, {minutes} min of {}", block.name.value, session.name.value);
    let mut entry = Entry::new(HitKind::Block, &format!("{}/{number}", session.id), &name);
    let asked = minutes.saturating_sub(CUT_SHORT).max(1)..=minutes * FILLS;
    let lengths: Vec<String> = asked.map(|n| format!("{n} min\n{n} minutes")).collect();
    let kit = kit_words(gym, block);
    let about = lengths.iter().map(String::as_str).chain([ABOUT]);
    let about =
        about.chain(block.purpose.as_deref()).chain(is_quiet(gym, block).then_some("quiet"));
    entry.about = lines(about.chain(kit));
    let ends = block.purpose.as_deref().is_some_and(|what| what.contains(FINISHER));
    entry.also = ends.then(|| FINISHER.to_string()).into_iter().collect();
    let notes = block.items.iter().filter_map(|item| item.note.as_deref());
    let names = block.items.iter().flat_map(|item| ways(gym, item));
    let names = names.map(|way| way.movement.name.value.as_str()).collect::<BTreeSet<_>>();
    entry.text = lines(notes.chain(names));
    entry
}

/// Whether every line can be done without a sound.
fn is_quiet(gym: &Gym, block: &Block) -> bool {
    let quiet = |way: &Way<'_>| way.movement.room.noise.unwrap_or(Noise::Quiet) == Noise::Quiet;
    block.items.iter().all(|item| ways(gym, item).iter().any(quiet))
}

/// What its lines are done with, and whether all of them can be done with nothing.
fn kit_words<'g>(gym: &'g Gym, block: &'g Block) -> BTreeSet<&'g str> {
    let kit = &gym.library.words.kit;
    let of = |item: &'g Item| ways(gym, item).into_iter();
    let needs = block.items.iter().flat_map(of).flat_map(|way| &way.movement.kit);
    let ids = needs.flat_map(|need| &need.0).filter_map(|id| kit.get(&id.value));
    let mut words: BTreeSet<&str> = ids.map(|item| item.name.as_str()).collect();
    let bare = |item: &Item| ways(gym, item).iter().any(|way| way.movement.kit.is_empty());
    words.extend(block.items.iter().all(bare).then_some(NO_KIT[0]));
    words
}

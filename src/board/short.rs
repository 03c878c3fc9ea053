//! Short: what is missing where a class cannot be dealt out: pieces, or people fewer, or another way to
//! go through a block.
//! Never loosens a limit to make it fit.

use super::class::Class;
use super::model::{fewer, more};
use super::puzzle::Outcome;
use super::rota::Rota;
use super::share::{Shared, possible, spread};
use crate::gym::Gym;
use crate::library::{KitId, Spread};
use crate::swap::kit_name;
use std::collections::BTreeMap;

/// A sentence for each block that cannot be dealt out.
pub fn short(gym: &Gym, class: &Class) -> Vec<String> {
    let blocks = 0..class.blocks.len();
    blocks.filter_map(|block| lacking(gym, class, block)).collect()
}

fn lacking(gym: &Gym, class: &Class, block: usize) -> Option<String> {
    let rota = spread(class, block);
    let shared = Shared::of(class, &[(block, &rota)]);
    if !matches!(shared.puzzle.lowest_sum(), Outcome::None) {
        return None;
    }
    let ways: Vec<String> = [pieces(gym, &shared), people(&shared), other(class, block, &rota)]
        .into_iter()
        .flatten()
        .collect();
    let ways = match ways.is_empty() {
        true => "more kit than anybody should buy".to_string(),
        false => ways.join("; or "),
    };
    let name = &class.blocks[block].name;
    Some(format!("Block {}, {name}, {}: it takes {ways}.", block + 1, said(rota.spread)))
}

/// `two more bands`, as a coach would buy them.
fn pieces(gym: &Gym, shared: &Shared) -> Option<String> {
    let mut kinds: BTreeMap<&KitId, usize> = BTreeMap::new();
    let mut kind = |(_, id)| {
        let next = kinds.len();
        *kinds.entry(id).or_insert(next)
    };
    let of: Vec<usize> = shared.things.iter().map(|(block, id)| kind((block, id))).collect();
    let found = more(&shared.puzzle, &of)?;
    let names: BTreeMap<usize, &KitId> = kinds.into_iter().map(|(id, at)| (at, id)).collect();
    let said = found.iter().filter_map(|(at, n)| {
        Some(format!("{}: {} more", kit_name(gym, names.get(at)?), counted(*n)))
    });
    let said: Vec<String> = said.collect();
    (!said.is_empty()).then(|| said.join(", "))
}

fn people(shared: &Shared) -> Option<String> {
    let gone = fewer(&shared.puzzle).filter(|gone| *gone > 0)?;
    let people = if gone == 1 { "person" } else { "people" };
    Some(format!("{} {people} fewer in the hall", counted(gone)))
}

/// Another way through the block with which there is enough.
fn other(class: &Class, block: usize, rota: &Rota) -> Option<String> {
    let ways = possible(&class.blocks[block], class).into_iter().map(|(spread, _)| spread);
    let mut others = ways.filter(|spread| *spread != rota.spread);
    let enough = |spread: &Spread| {
        let rota = Rota::of(&class.blocks[block].plan, *spread, &class.people);
        let shared = Shared::of(class, &[(block, &rota)]);
        matches!(shared.puzzle.lowest_sum(), Outcome::Solved(_))
    };
    others.find(enough).map(|spread| format!("this block {}", said(spread)))
}

fn said(spread: Spread) -> &'static str {
    match spread {
        Spread::Together => "all together",
        Spread::Halves => "in two halves",
        Spread::Stations => "at stations",
    }
}

fn counted(n: u32) -> String {
    let words = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
    words.get(n as usize).map_or_else(|| n.to_string(), |word| (*word).to_string())
}

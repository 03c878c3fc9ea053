//! Long lists of a large library, dealt over pages that a phone can hold: the drill and the floor by
//! pattern, everything from A to Z by so many lines.
//! Never leaves anything out: what the one page of a small library has stands on exactly one of these.

use super::doors::{FloorPage, LearningPage, floor_page, learning_page};
use super::drill::drill;
use super::frame::{Frame, Maker};
use super::ladder::ladder_row;
use super::large::{Dealt, is_large};
use super::lists::{AToZPage, a_to_z_count, a_to_z_rows, by_letter};
use crate::gym::Gym;
use crate::library::{Ladder, PatternId};
use crate::site::routes::To;
use std::collections::BTreeMap;

/// Cards of the drill, rungs on the floor and lines from A to Z that a page has at most: about 100 kB.
const CARDS: usize = 120;
const RUNGS: usize = 150;
const LINES: usize = 700;

/// The files that a list may take besides its first page.
pub fn dealt_files(gym: &Gym, list: &To<'_>) -> Vec<String> {
    if !is_large(gym) {
        return Vec::new();
    }
    match list {
        To::Learning => {
            let mut cards: BTreeMap<&PatternId, usize> = BTreeMap::new();
            for movement in gym.library.movements.values() {
                *cards.entry(&movement.pattern.value).or_default() += movement.faults.len();
            }
            let pages = |(id, cards): (&PatternId, usize)| {
                (1..=cards.div_ceil(CARDS))
                    .map(|at| To::LearningOf(id, at).file())
                    .collect::<Vec<_>>()
            };
            cards.into_iter().flat_map(pages).collect()
        }
        To::Floor => {
            let hands = dealt_ladders(gym);
            hands.iter().map(|(id, at, _)| To::FloorOf(id.as_ref(), *at).file()).collect()
        }
        _ => {
            let lines = a_to_z_count(gym);
            (1..=lines.div_ceil(LINES)).map(|at| To::AToZOf(at).file()).collect()
        }
    }
}

/// The pages of the new coach, each under its file.
pub fn learning_pages(gym: &Gym) -> Vec<(String, LearningPage)> {
    let maker = Maker::new(gym, &To::Learning);
    let mut first = learning_page(&maker, is_large(gym));
    let mut pages = Vec::new();
    if is_large(gym) {
        for group in drill(&maker) {
            let (id, of, count) =
                (group.id.clone(), group.pattern.text.clone(), group.faults.len());
            let mut links = Vec::new();
            for (at, cards) in group.in_parts(CARDS).into_iter().enumerate() {
                let to = To::LearningOf(&id, at + 1);
                links.push(maker.link((at + 1).to_string(), &to));
                let page = named(gym, &to, &format!("Learning to coach: {of}"));
                pages.push((to.file(), first.of_one(page.telling_to_move(), cards)));
            }
            first.dealt.push(Dealt { of, count: format!("{count} to name"), pages: links });
        }
    }
    pages.push((To::Learning.file(), first));
    pages
}

/// The pages of the floor, each under its file.
pub fn floor_pages(gym: &Gym) -> Vec<(String, FloorPage)> {
    let maker = Maker::new(gym, &To::Floor);
    let mut first = floor_page(&maker, is_large(gym));
    let mut pages = Vec::new();
    if is_large(gym) {
        for (id, at, ladders) in dealt_ladders(gym) {
            let to = To::FloorOf(id.as_ref(), at);
            let of = id.as_ref().map_or("Other".to_string(), |id| maker.pattern(id).text);
            let rows = ladders.into_iter().map(|ladder| ladder_row(&maker, ladder)).collect();
            let page = named(gym, &to, &format!("On the floor: {of}"));
            pages.push((to.file(), first.of_one(page.telling_to_move(), rows)));
            let link = maker.link(at.to_string(), &to);
            match first.dealt.last_mut().filter(|_| at > 1) {
                Some(dealt) => dealt.pages.push(link),
                None => first.dealt.push(Dealt { of, count: String::new(), pages: vec![link] }),
            }
        }
    }
    pages.push((To::Floor.file(), first));
    pages
}

/// Ladders by pattern, in as many pages as they take: the pattern, the page's number, its ladders.
fn dealt_ladders(gym: &Gym) -> Vec<(Option<PatternId>, usize, Vec<&Ladder>)> {
    let mut by_pattern: BTreeMap<Option<&PatternId>, Vec<&Ladder>> = BTreeMap::new();
    for ladder in gym.library.ladders.values() {
        by_pattern.entry(ladder.pattern.as_ref().map(|id| &id.value)).or_default().push(ladder);
    }
    let mut dealt = Vec::new();
    for (pattern, ladders) in by_pattern {
        let (mut at, mut rungs) = (1, 0);
        dealt.push((pattern.cloned(), at, Vec::new()));
        for ladder in ladders {
            if rungs > 0 && rungs + ladder.rungs.len() > RUNGS {
                (at, rungs) = (at + 1, 0);
                dealt.push((pattern.cloned(), at, Vec::new()));
            }
            rungs += ladder.rungs.len();
            if let Some((_, _, page)) = dealt.last_mut() {
                page.push(ladder);
            }
        }
    }
    dealt
}

/// Everything from A to Z, each page under its file.
pub fn a_to_z_pages(gym: &Gym) -> Vec<(String, AToZPage)> {
    let maker = Maker::new(gym, &To::AToZ);
    let rows = a_to_z_rows(&maker);
    let page = maker.frame("A to Z", "Every entry from A to Z.");
    if !is_large(gym) {
        return vec![(To::AToZ.file(), AToZPage::of(page, by_letter(rows), Vec::new()))];
    }
    let (mut pages, mut dealt) = (Vec::new(), Vec::new());
    let mut rows = rows.into_iter();
    for at in 1.. {
        let some: Vec<_> = rows.by_ref().take(LINES).collect();
        let (Some((first, _)), Some((last, _))) = (some.first(), some.last()) else { break };
        let words = format!("{} to {}", first.text, last.text);
        let to = To::AToZOf(at);
        let page = named(gym, &to, &format!("A to Z: {words}"));
        dealt.push(Dealt {
            of: String::new(),
            count: String::new(),
            pages: vec![maker.link(words, &to)],
        });
        pages.push((to.file(), AToZPage::of(page, by_letter(some), Vec::new())));
    }
    pages.push((To::AToZ.file(), AToZPage::of(page, Vec::new(), dealt)));
    pages
}

fn named(gym: &Gym, to: &To<'_>, title: &str) -> Frame {
    Maker::new(gym, to).frame(title, format!("{title}."))
}

//! Share: many people and little kit in one block: groups, stations, whose turn it is, how long they stay.
//! Plain arithmetic, every step of it shown; never chooses what stands in for the kit: the room `own` does.
//!
//! The page's script reckons the same (`share.js`); `tests/share_parity.rs` holds the two to each other.

use super::band::clock;
use super::block::BlockPlan;
use super::line::Line;
use super::pace::{CHANGE_STATION_S, MINUTE_S};
use super::ways::kit_needs;
use crate::finding::capital;
use crate::gym::Gym;
use crate::library::{Block, Format, KitId};
use std::collections::{BTreeMap, BTreeSet};

/// Seconds from one person to the next on the same piece of kit, and from station to station.
const CHANGE_S: u32 = CHANGE_STATION_S.most;

/// What a line asks of each person who comes to it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Station {
    /// What it is called.
    pub name: String,
    /// Kit of each of its ways: needs, each a choice. Empty where some way needs nothing: nobody waits.
    pub ways: Vec<Vec<Vec<KitId>>>,
    /// Seconds of a set, at the most.
    pub set_s: u32,
    /// Seconds of rest after it.
    pub rest_s: u32,
    /// Sets that the block asks of one person.
    pub sets: u32,
}

/// A block shared out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Share {
    /// People of each group, the largest first.
    pub groups: Vec<u32>,
    /// Seconds that a group stays at a station, the change included.
    pub stay_s: u32,
    /// Nothing where the kit is enough for all at once. Else a stop of each group, in order: which
    /// line, whether it is done without its kit, and how it goes there.
    pub stops: Vec<Stop>,
}

/// A stop of the round.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stop {
    /// The line, from 0.
    pub line: usize,
    /// Whether it stands in for the line, without the kit that is short.
    pub instead: bool,
    /// How many can work at once; nothing where the kit is no limit.
    pub at_once: Option<u32>,
    /// Turns until everybody of the largest group has had one.
    pub turns: u32,
    /// Seconds from the start of a set to the start of the same person's next.
    pub every_s: u32,
    /// Sets that fit the stay.
    pub fit: u32,
    /// Sets that were asked.
    pub asked: u32,
}

/// The stations of `block`, one a line.
pub fn stations(gym: &Gym, block: &Block, plan: &BlockPlan) -> Vec<Station> {
    let format = block.format.as_ref().map_or(Format::Rounds, |format| format.value);
    let lines = block.items.iter().map(|item| Line::of(gym, item, format)).zip(&plan.items);
    let station = |(line, item): (Line<'_>, &super::block::ItemPlan)| {
        let set_s = match block.work {
            Some(work) if format == Format::Intervals => super::ways::whole_seconds(work),
            _ => item.ways.iter().map(|way| way.set.most).max().unwrap_or(0),
        };
        let rest_s = match (format, block.rest) {
            (Format::EveryMinute, _) => MINUTE_S.saturating_sub(set_s),
            (Format::Intervals, Some(rest)) => super::ways::whole_seconds(rest),
            _ => line.rest_s,
        };
        let mut ways: Vec<Vec<Vec<KitId>>> = Vec::new();
        for way in &line.ways {
            let needs = kit_needs(gym, way.movement).into_iter();
            let needs = needs.map(|need| need.0.iter().map(|id| id.value.clone()).collect());
            let needs: Vec<Vec<KitId>> = needs.collect();
            if !ways.contains(&needs) {
                ways.push(needs);
            }
        }
        if ways.iter().any(Vec::is_empty) {
            ways.clear();
        }
        Station { name: line.name, ways, set_s, rest_s, sets: item.sets.to.max(1) }
    };
    lines.map(station).collect()
}

/// How many can work at once at a station with so many of each thing; nothing where kit is no limit.
/// Each way counts what it has least of, and a thing that two ways need counts once.
pub fn at_once(station: &Station, counts: &BTreeMap<KitId, u32>) -> Option<u32> {
    let count = |id: &KitId| counts.get(id).copied().unwrap_or(0);
    let of = |need: &Vec<KitId>| need.iter().map(count).fold(0, u32::saturating_add);
    let least = station.ways.iter().filter_map(|way| way.iter().min_by_key(|need| of(need)));
    let things: BTreeSet<&KitId> = least.flatten().collect();
    (!station.ways.is_empty()).then(|| things.into_iter().map(count).fold(0, u32::saturating_add))
}

/// `people` in a block of `window_s` seconds: one group a station, everybody moves one on. Where the
/// sets do not fit because kit is short, a further station does the same work without it, if more
/// sets of it fit then.
pub fn share(
    people: u32,
    window_s: u32,
    stations: &[Station],
    counts: &BTreeMap<KitId, u32>,
) -> Share {
    let waits = |station| at_once(station, counts).is_some_and(|places| places < people);
    if !stations.iter().any(waits) {
        return Share { groups: vec![people], stay_s: window_s, stops: Vec::new() };
    }
    // Where none of its kit is here nobody is sent to it: what stands in for it is the station.
    let none = |station| at_once(station, counts) == Some(0);
    let lines: Vec<(usize, bool)> = stations.iter().map(none).enumerate().collect();
    let round = |lines: &[(usize, bool)]| shared(people, window_s, (stations, lines), counts);
    let plain = round(&lines);
    let short = plain.stops.iter().filter(|stop| stop.at_once.is_some() && stop.turns > 1);
    let worst = short.filter(|stop| stop.fit < stop.asked).min_by_key(|stop| stop.fit);
    let Some(line) = worst.map(|stop| stop.line) else { return plain };
    let at = lines.iter().position(|(known, _)| *known == line).map_or(0, |at| at + 1);
    let mut more = lines.clone();
    more.insert(at, (line, true));
    let with = round(&more);
    if with.done(line) > plain.done(line) { with } else { plain }
}

fn shared(
    people: u32,
    window_s: u32,
    (stations, lines): (&[Station], &[(usize, bool)]),
    counts: &BTreeMap<KitId, u32>,
) -> Share {
    let stops = u32::try_from(lines.len()).unwrap_or(u32::MAX).max(1);
    let groups: Vec<u32> = (0..stops)
        .map(|at| people / stops + u32::from(at < people % stops))
        .filter(|group| *group > 0)
        .collect();
    // Whole steps of five seconds: nobody calls a change at 5:57.
    let stay_s = window_s / stops / 5 * 5;
    let change_s = if stops > 1 { CHANGE_S } else { 0 };
    let largest = groups.first().copied().unwrap_or(0);
    let stop = |(line, instead): &(usize, bool)| {
        let station = &stations[*line];
        let at_once = if *instead { None } else { at_once(station, counts) };
        let turns = at_once.map_or(1, |places| largest.div_ceil(places.max(1)).max(1));
        let turn_s = station.set_s.saturating_add(if turns > 1 { CHANGE_S } else { 0 });
        let every_s =
            (turns.saturating_mul(turn_s)).max(station.set_s.saturating_add(station.rest_s)).max(1);
        let here_s = stay_s.saturating_sub(change_s);
        let nobody = here_s < turns.saturating_mul(turn_s);
        let fit = if nobody { 0 } else { (here_s - turns * turn_s) / every_s + 1 };
        let (line, instead, asked) = (*line, *instead, station.sets);
        Stop { line, instead, at_once, turns, every_s, fit: fit.min(asked), asked }
    };
    Share { groups, stay_s, stops: lines.iter().map(stop).collect() }
}

impl Share {
    /// Sets of a line that one person does, with its kit and without.
    fn done(&self, line: usize) -> u32 {
        self.stops.iter().filter(|stop| stop.line == line).map(|stop| stop.fit).sum()
    }

    /// `3 groups of 3`, `groups of 5, 4`.
    pub fn groups_said(&self) -> String {
        match self.groups.as_slice() {
            [] => "nobody".to_string(),
            [one] => format!("one group of {one}"),
            [one, .., last] if one == last => format!("{} groups of {one}", self.groups.len()),
            more => {
                let more: Vec<String> = more.iter().map(u32::to_string).collect();
                format!("groups of {}", more.join(", "))
            }
        }
    }

    /// What a coach reads out, a sentence a line; the line of a stop is said by `stations`.
    pub fn said(&self, stations: &[Station]) -> Vec<String> {
        if self.stops.is_empty() {
            let people: u32 = self.groups.iter().sum();
            return vec![format!(
                "Enough for {people} at once: nobody waits, run it as it is written."
            )];
        }
        let (groups, stay) = (capital(&self.groups_said()), clock(self.stay_s));
        let mut said = vec![match self.stops.len() {
            1 => format!("{groups} at one station for {stay}."),
            n => format!(
                "{groups}, {n} stations: everybody moves one on every {stay}, {CHANGE_S} s of it to change."
            ),
        }];
        let with_kit =
            |stop: &Stop| self.stops.iter().any(|one| one.line == stop.line && !one.instead);
        said.extend(self.stops.iter().enumerate().map(|(at, stop)| {
            let without = match (stop.instead, with_kit(stop)) {
                (false, _) => "",
                (true, true) => ", without the kit that is short",
                (true, false) => ", without its kit, of which none is here",
            };
            stop.said(
                &format!("{}. {}{without}", station_sign(at), stations[stop.line].name),
                &stations[stop.line],
            )
        }));
        if self.stops.len() > 1 && self.groups.len() > 1 {
            let start = |at: usize| format!("group {} at {}", at + 1, station_sign(at));
            let starts: Vec<String> = (0..self.groups.len()).map(start).collect();
            said.push(format!("Start: {}.", starts.join(", ")));
        }
        said
    }
}

/// What stands at a station, from 0: a letter, and numbers where letters end.
fn station_sign(at: usize) -> String {
    let letter = u8::try_from(at).ok().filter(|at| *at < 26).map(|at| char::from(b'A' + at));
    letter.map_or_else(|| (at + 1).to_string(), String::from)
}

impl Stop {
    fn said(&self, named: &str, station: &Station) -> String {
        let places = match self.at_once {
            Some(places) if self.turns > 1 => format!(
                ": {places} at once, {} turns of {}; your next set every {}",
                self.turns,
                clock(station.set_s + CHANGE_S),
                clock(self.every_s)
            ),
            _ => format!(": all at once, a set every {}", clock(self.every_s)),
        };
        let sets = match (self.fit, self.asked) {
            (1, 1) => "1 set".to_string(),
            (0, 1) => "its one set does not fit".to_string(),
            (fit, asked) if fit == asked => format!("{fit} sets"),
            (fit, asked) => format!("{fit} of the {asked} sets fit"),
        };
        format!("{named}{places}; {sets}.")
    }
}

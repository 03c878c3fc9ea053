//! Too few bars: cases reckoned by hand, sets that truly fit when they are walked through second by
//! second, and the page's script and the room in the same words.

use rungbook::library::KitId;
use rungbook::plan::{Share, Station, share};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::io::Write;
use std::process::{Command, Stdio};

/// Seconds to change, written here a second time.
const CHANGE: u32 = 15;

fn station(name: &str, ways: &[&[&[&str]]], (set_s, rest_s, sets): (u32, u32, u32)) -> Station {
    let need = |need: &&[&str]| need.iter().map(|id| KitId::from(*id)).collect();
    let way = |way: &&[&[&str]]| way.iter().map(need).collect();
    Station { name: name.to_string(), ways: ways.iter().map(way).collect(), set_s, rest_s, sets }
}

fn counts(list: &[(&str, u32)]) -> BTreeMap<KitId, u32> {
    list.iter().map(|(id, count)| (KitId::from(*id), *count)).collect()
}

#[test]
fn two_bars_nine_people() {
    let pull = [station("Pull-up", &[&[&["pull-up-bar"]]], (30, 90, 4))];
    // One station: 5 turns of 45 s on 2 bars, 3:45 round; in 12 minutes the third set ends at 11:15.
    let found = share(9, 720, &pull, &counts(&[("pull-up-bar", 2)]));
    // With a second station each group has 6 minutes less 15 s: 3 turns of 45 s, every 2:15, two sets
    // there and three at the other every 2:00: five of the work in place of three.
    assert_eq!(
        found.said(&pull),
        [
            "Groups of 5, 4, 2 stations: everybody moves one on every 6:00, 15 s of it to change.",
            "A. Pull-up: 2 at once, 3 turns of 0:45; your next set every 2:15; 2 of the 4 sets fit.",
            "B. Pull-up, without the kit that is short: all at once, a set every 2:00; 3 of the 4 sets fit.",
            "Start: group 1 at A, group 2 at B.",
        ]
    );
    // Nine bars: nobody waits, and nothing stands in.
    let found = share(9, 720, &pull, &counts(&[("pull-up-bar", 9)]));
    assert_eq!(found.said(&pull), ["Enough for 9 at once: nobody waits, run it as it is written."]);
    // No bar at all: nobody is sent to where it would stand; what stands in is the station.
    let found = share(9, 720, &pull, &counts(&[]));
    assert_eq!(
        found.said(&pull),
        [
            "One group of 9 at one station for 12:00.",
            "A. Pull-up, without its kit, of which none is here: all at once, a set every 2:00; 4 sets.",
        ]
    );
}

#[test]
fn things_that_two_ways_need_count_once_and_the_scarcest_need_of_a_way_counts() {
    let row = station(
        "Row",
        &[&[&["straps", "rings"]], &[&["low-bar"]], &[&["low-bar"], &["box"]]],
        (30, 90, 4),
    );
    let hall = counts(&[("straps", 4), ("rings", 1), ("low-bar", 2), ("box", 1)]);
    assert_eq!(rungbook::plan::at_once(&row, &hall), Some(8));
    let push = station("Push-up", &[], (30, 90, 4));
    assert_eq!(rungbook::plan::at_once(&push, &hall), None);
}

/// A chance of our own: the same every time.
struct Chance(u64);

impl Chance {
    fn to(&mut self, most: u32) -> u32 {
        self.0 = self.0.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        ((self.0 >> 33) % u64::from(most + 1)) as u32
    }
}

const KIT: [&str; 4] = ["bar", "straps", "box", "band"];

fn case(chance: &mut Chance) -> (u32, u32, Vec<Station>, BTreeMap<KitId, u32>) {
    let stations = (0..=chance.to(2)).map(|at| {
        let ways: Vec<Vec<Vec<KitId>>> = (0..chance.to(2))
            .map(|_| {
                let need = |chance: &mut Chance| {
                    (0..=chance.to(1)).map(|_| KitId::from(KIT[chance.to(3) as usize])).collect()
                };
                (0..=chance.to(1)).map(|_| need(chance)).collect()
            })
            .collect();
        let (set_s, rest_s, sets) = (5 + chance.to(60), chance.to(120), 1 + chance.to(5));
        Station { name: format!("Line {at}"), ways, set_s, rest_s, sets }
    });
    let stations = stations.collect();
    let counts = KIT.iter().map(|id| (KitId::from(*id), chance.to(4))).collect();
    (chance.to(24), 60 + chance.to(1_500), stations, counts)
}

/// Walks through a stay: when each person of a group starts each set, one after the other on the kit.
fn ends_at(stop: &rungbook::plan::Stop, station: &Station, group: u32) -> u32 {
    let places = stop.at_once.unwrap_or(group).max(1) as usize;
    let waits = group as usize > places;
    let mut free = vec![0u32; places];
    let mut ready = vec![0u32; group as usize];
    let mut last = 0;
    for _ in 0..stop.fit {
        for person in &mut ready {
            let place = (0..places).min_by_key(|place| free[*place]).unwrap_or(0);
            let start = free[place].max(*person);
            let end = start + station.set_s;
            free[place] = if waits { end + CHANGE } else { end };
            *person = end + station.rest_s;
            last = last.max(end);
        }
    }
    last
}

#[test]
fn sets_that_are_said_to_fit_end_before_the_change() {
    let mut chance = Chance(7);
    let mut waited = 0;
    for _ in 0..2_000 {
        let (people, window, stations, counts) = case(&mut chance);
        let found = share(people, window, &stations, &counts);
        let stops = found.stops.len() as u32;
        assert!(found.groups.iter().sum::<u32>() == people);
        assert!(found.stay_s * stops.max(1) <= window, "the round fits the window");
        for stop in &found.stops {
            let station = &stations[stop.line];
            let here = found.stay_s.saturating_sub(if stops > 1 { CHANGE } else { 0 });
            let group = found.groups.first().copied().unwrap_or(0);
            if stop.fit > 0 {
                assert!(ends_at(stop, station, group) <= here, "{stop:?} of {station:?}, {group}");
            }
            assert!(
                stop.at_once != Some(0) || stop.fit == 0,
                "nobody works on kit that is not here"
            );
            waited += u32::from(stop.turns > 1);
        }
    }
    assert!(waited > 200);
}

fn asked(
    (people, window, stations, counts): &(u32, u32, Vec<Station>, BTreeMap<KitId, u32>),
) -> Value {
    let ways = |station: &Station| -> Value {
        let need = |need: &Vec<KitId>| need.iter().map(KitId::to_string).collect::<Vec<_>>();
        station.ways.iter().map(|way| way.iter().map(need).collect::<Vec<_>>()).collect()
    };
    let row = |s: &Station| json!({"name": s.name, "ways": ways(s), "set_s": s.set_s, "rest_s": s.rest_s, "sets": s.sets});
    let counts: BTreeMap<String, u32> = counts.iter().map(|(id, n)| (id.to_string(), *n)).collect();
    json!({"people": people, "window": window, "stations": stations.iter().map(row).collect::<Vec<_>>(), "counts": counts})
}

fn answered(found: &Share, stations: &[Station]) -> Value {
    let stop = |s: &rungbook::plan::Stop| {
        json!({"line": s.line, "instead": s.instead, "at_once": s.at_once, "turns": s.turns,
            "every_s": s.every_s, "fit": s.fit, "asked": s.asked})
    };
    json!({"groups": found.groups, "stay_s": found.stay_s, "said": found.said(stations),
        "stops": found.stops.iter().map(stop).collect::<Vec<_>>()})
}

#[test]
fn the_pages_script_and_the_room_say_the_same() {
    let mut chance = Chance(13);
    let cases: Vec<_> = (0..1_000).map(|_| case(&mut chance)).collect();
    let questions: Vec<Value> = cases.iter().map(asked).collect();
    let mut node = Command::new("node")
        .arg("tests/share.js")
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("node is installed");
    let mut input = node.stdin.take().expect("a pipe to node");
    input.write_all(json!(questions).to_string().as_bytes()).expect("node reads");
    drop(input);
    let output = node.wait_with_output().expect("node ends");
    assert!(output.status.success());
    let answers: Vec<Value> = serde_json::from_slice(&output.stdout).expect("JSON");
    let mut instead = 0;
    for (case, theirs) in cases.iter().zip(&answers) {
        let (people, window, stations, counts) = case;
        let found = share(*people, *window, stations, counts);
        assert_eq!(&answered(&found, stations), theirs, "{case:?}");
        instead += usize::from(found.stops.iter().any(|stop| stop.instead));
    }
    assert!(instead > 50, "{instead} cases with a further station");
}

//! Too few bars, as a session's block shows it: what its script reckons with, and the hall's own answer.
//! Never reckons itself; the room `plan` does.

use crate::gym::Gym;
use crate::library::{Block, KitId};
use crate::plan::{self, BlockPlan, Station};
use serde::Serialize;
use std::collections::BTreeMap;

/// People in a class where nobody says; common practice, no source.
pub const USUAL_PEOPLE: u32 = 9;

/// A class is seldom larger: kit for so many is never short; common practice, no source.
const ENOUGH: u32 = 12;

/// A block whose kit may be short.
#[derive(Debug, Serialize)]
pub struct ShareRow {
    window_s: u32,
    stations: Vec<StationRow>,
    /// For so many people with what the hall has.
    people: u32,
    said: Vec<String>,
}

#[derive(Debug, Serialize)]
struct StationRow {
    name: String,
    /// Kit of each way: needs, each a choice.
    ways: Vec<Vec<Vec<String>>>,
    set_s: u32,
    rest_s: u32,
    sets: u32,
}

/// The stations of `block`; nothing where none waits for kit.
pub fn share_row(gym: &Gym, block: &Block, plan: &BlockPlan) -> Option<ShareRow> {
    let stations = plan::stations(gym, block, plan);
    let hall = gym.library.club.hall_kit.iter();
    let hall: BTreeMap<KitId, u32> = hall.map(|(id, count)| (id.value.clone(), *count)).collect();
    let may_wait =
        |station| plan::at_once(station, &hall).is_some_and(|places: u32| places < ENOUGH);
    if !stations.iter().any(may_wait) {
        return None;
    }
    let window_s = plan.limit.unwrap_or(plan.total.most);
    let shared = plan::share(USUAL_PEOPLE, window_s, &stations, &hall);
    Some(ShareRow {
        window_s,
        people: USUAL_PEOPLE,
        said: shared.said(&stations),
        stations: stations.into_iter().map(row).collect(),
    })
}

fn row(station: Station) -> StationRow {
    let need = |need: Vec<KitId>| need.into_iter().map(|id| id.0).collect();
    let way = |way: Vec<Vec<KitId>>| way.into_iter().map(need).collect();
    StationRow {
        name: station.name,
        ways: station.ways.into_iter().map(way).collect(),
        set_s: station.set_s,
        rest_s: station.rest_s,
        sets: station.sets,
    }
}

//! Ask: why nothing is left, in plain words, filter by filter.
//! Never suggests giving up a limit.

use super::fits::{OFF_UNTIL_SAID, kit_name, trait_name};
use super::reason::{listed, raised};
use super::{Person, Why, why_words};
use crate::gym::Gym;
use crate::library::{KitId, Noise, TraitId};
use std::collections::{BTreeMap, BTreeSet};

/// The filters in the order in which they are spoken of; a candidate is taken out by the first
/// that it meets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Filter {
    Limits,
    Kit,
    Room,
    Noise,
}

impl Filter {
    const ALL: [Filter; 4] = [Filter::Limits, Filter::Kit, Filter::Room, Filter::Noise];

    fn of(why: &Why) -> Filter {
        match why {
            Why::Limit(..) | Why::Unsaid => Filter::Limits,
            Why::Kit(_) => Filter::Kit,
            Why::Floor(..) | Why::Height(_) => Filter::Room,
            Why::Noise(_) => Filter::Noise,
        }
    }
}

/// Why every candidate went, from the reasons of each: `Of the 4 movements that do the same work,
/// 3 have something you leave out (kneeling) and the last one needs kit you do not have (band).`
/// Those that ask more are named last, and not as a suggestion.
pub fn why(gym: &Gym, out: &[Vec<Why>], harder: &[String]) -> String {
    let more = match harder {
        [] => return taken_out(gym, out),
        [one] => format!("{one} asks more than this, so it is not suggested."),
        several => {
            let names: Vec<String> = several.iter().take(3).cloned().collect();
            format!("What is left asks more than this, so it is not suggested: {}.", listed(&names))
        }
    };
    if out.is_empty() { more } else { format!("{} {more}", taken_out(gym, out)) }
}

fn taken_out(gym: &Gym, out: &[Vec<Why>]) -> String {
    if out.is_empty() {
        return "No other movement in this library does the same work.".to_string();
    }
    let taken = |filter: Filter| {
        let first = |why: &&Vec<Why>| why.iter().map(Filter::of).min() == Some(filter);
        out.iter().filter(first).collect::<Vec<_>>()
    };
    let gone: Vec<(Filter, Vec<&Vec<Why>>)> = Filter::ALL
        .into_iter()
        .map(|filter| (filter, taken(filter)))
        .filter(|(_, gone)| !gone.is_empty())
        .collect();
    let clauses: Vec<String> = gone
        .iter()
        .enumerate()
        .map(|(at, (filter, whys))| {
            let number = counted(whys.len(), at + 1 == gone.len(), gone.len() == 1);
            clause(gym, *filter, &number, whys)
        })
        .collect();
    match out.len() {
        1 => {
            let why = why_words(gym, &Person::default(), &out[0]);
            format!("One other movement does the same work. {}.", raised(&why))
        }
        all => format!("Of the {all} other movements that do the same work, {}.", listed(&clauses)),
    }
}

/// `3`, `the last one`, `the last 2`, `all`; with whether a single one is meant.
fn counted(number: usize, last: bool, only: bool) -> (String, bool) {
    let words = match number {
        _ if only => "all".to_string(),
        1 if last => "the last one".to_string(),
        1 => "one".to_string(),
        n if last => format!("the last {n}"),
        n => n.to_string(),
    };
    (words, number == 1)
}

fn clause(gym: &Gym, filter: Filter, (number, one): &(String, bool), out: &[&Vec<Why>]) -> String {
    let verb = |single: &'static str, several: &'static str| if *one { single } else { several };
    let whys = || out.iter().copied().flatten().filter(|why| Filter::of(why) == filter);
    match filter {
        Filter::Limits => {
            let ids: BTreeSet<&TraitId> = whys().filter_map(limit).collect();
            let names: Vec<String> = ids.into_iter().map(|id| trait_name(gym, id)).collect();
            let (has, what) = (verb("has", "have"), listed(&names));
            format!("{number} {has} something you leave out ({what})")
        }
        Filter::Kit => {
            let (needs, what) = (verb("needs", "need"), kit_lacking(gym, whys().filter_map(kit)));
            format!("{number} {needs} kit you do not have ({what})")
        }
        Filter::Room => format!("{number} {} more room than you have", verb("needs", "need")),
        Filter::Noise => {
            let loud = whys().any(|why| *why == Why::Noise(Noise::Loud));
            let what = if loud { "too loud" } else { "not quiet enough" };
            format!("{number} {} {what}", verb("is", "are"))
        }
    }
}

fn limit(why: &Why) -> Option<&TraitId> {
    if let Why::Limit(id, _) = why { Some(id) } else { None }
}

fn kit(why: &Why) -> Option<&Vec<KitId>> {
    if let Why::Kit(any) = why { Some(any) } else { None }
}

/// The kit that is lacking, what would help the most movements first; of many only a few.
fn kit_lacking<'w>(gym: &Gym, needs: impl Iterator<Item = &'w Vec<KitId>>) -> String {
    const SAID: usize = 5;
    let mut helps: BTreeMap<&KitId, usize> = BTreeMap::new();
    let suggested = |id: &&KitId| !OFF_UNTIL_SAID.contains(&id.as_str());
    needs.flatten().filter(suggested).for_each(|id| *helps.entry(id).or_default() += 1);
    let mut helps: Vec<(&KitId, usize)> = helps.into_iter().collect();
    // A stable sort keeps ids in order among equals.
    helps.sort_by_key(|(_, movements)| std::cmp::Reverse(*movements));
    let such_as = if helps.len() > SAID { "such as " } else { "" };
    let names: Vec<String> = helps.iter().take(SAID).map(|(id, _)| kit_name(gym, id)).collect();
    format!("{such_as}{}", listed(&names))
}

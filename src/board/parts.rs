//! Parts: a puzzle that falls apart is solved part by part, without what no answer within a limit takes.
//! Never another answer than the whole has: no thing, line or limited person stands in two parts.

use super::model::{Found, Limit, best_of_part, binding, nodes};
use super::puzzle::{Puzzle, Set};

/// The lowest sum within a limit.
pub(super) fn best(puzzle: &Puzzle, limit: Limit) -> Found {
    let Some((within, places)) = within(puzzle, limit) else { return Found::None };
    let (mut picked, mut bound, mut is_best) = (vec![0; puzzle.sets.len()], 0_u32, true);
    let mut unknown = false;
    for part in parts(&within, limit) {
        let sets = part.iter().map(|at| within.sets[*at].clone()).collect();
        let one = Puzzle { people: puzzle.people, sets, resources: puzzle.resources.clone() };
        let (of_part, sum) = match best_of_part(&one, limit, nodes(puzzle)) {
            Found::Best(of_part, sum) => (of_part, sum),
            Found::Good(of_part, sum) => {
                is_best = false;
                (of_part, sum)
            }
            Found::None => return Found::None,
            // Another part may still show that there is none.
            Found::Unknown => {
                unknown = true;
                continue;
            }
        };
        bound += sum;
        for (at, taken) in part.into_iter().zip(of_part) {
            picked[at] = places[at][taken];
        }
    }
    let over = |total: u32| matches!(limit, Limit::Each(most) if total > most);
    let wrong = !puzzle.is_kept(&picked) || puzzle.totals(&picked).into_iter().any(over);
    match (unknown || wrong, is_best) {
        (true, _) => Found::Unknown,
        (false, true) => Found::Best(picked, bound),
        (false, false) => Found::Good(picked, bound),
    }
}

/// Each person's least over all of their sets.
pub(super) fn least(puzzle: &Puzzle) -> Vec<u32> {
    let mut least = vec![0; puzzle.people];
    for set in &puzzle.sets {
        least[set.who] += least_of(set);
    }
    least
}

fn least_of(set: &Set) -> u32 {
    set.offers.iter().map(|offer| offer.cost).min().unwrap_or(0)
}

/// The puzzle without offers that take somebody beyond the limit whatever else they take, and where each of
/// those left stood; nothing where a set is left without any.
fn within(puzzle: &Puzzle, limit: Limit) -> Option<(Puzzle, Vec<Vec<usize>>)> {
    let least = least(puzzle);
    let mut places = Vec::new();
    let mut sets = Vec::new();
    for set in &puzzle.sets {
        let others = least[set.who] - least_of(set);
        let fits = |cost: u32| match limit {
            Limit::None => true,
            Limit::Each(most) => others + cost <= most,
        };
        let left: Vec<usize> =
            (0..set.offers.len()).filter(|at| fits(set.offers[*at].cost)).collect();
        let offers: Vec<_> = left.iter().map(|at| set.offers[*at].clone()).collect();
        if offers.is_empty() {
            return None;
        }
        sets.push(Set { offers, ..set.clone() });
        places.push(left);
    }
    Some((Puzzle { people: puzzle.people, sets, resources: puzzle.resources.clone() }, places))
}

/// Sets that hang together: they share a line, a thing that may run out, or a person whose limit may be met.
fn parts(puzzle: &Puzzle, limit: Limit) -> Vec<Vec<usize>> {
    let (binding, limited) = (binding(puzzle), limited(puzzle, limit));
    // A tag a line, a resource and a person; the first set that had it.
    let lines = puzzle.sets.iter().map(|set| set.line + 1).max().unwrap_or(0);
    let resources = puzzle.resources.len();
    let mut first: Vec<Option<usize>> = vec![None; lines + resources + puzzle.people];
    let mut root: Vec<usize> = (0..puzzle.sets.len()).collect();
    for (at, set) in puzzle.sets.iter().enumerate() {
        let things = set.offers.iter().flat_map(|offer| &offer.uses);
        let things = things.filter(|(thing, _)| binding[*thing]).map(|(thing, _)| lines + thing);
        let person = limited[set.who].then_some(lines + resources + set.who);
        for tag in things.chain(person).chain([set.line]) {
            let other = *first[tag].get_or_insert(at);
            let (a, b) = (root_of(&root, at), root_of(&root, other));
            root[a.max(b)] = a.min(b);
        }
    }
    let mut parts: Vec<Vec<usize>> = vec![Vec::new(); puzzle.sets.len()];
    (0..puzzle.sets.len()).for_each(|at| parts[root_of(&root, at)].push(at));
    parts.retain(|part| !part.is_empty());
    parts
}

fn root_of(root: &[usize], mut at: usize) -> usize {
    while root[at] != at {
        at = root[at];
    }
    at
}

/// Whose limit could be passed if they took the most of everything.
pub(super) fn limited(puzzle: &Puzzle, limit: Limit) -> Vec<bool> {
    let mut most = vec![0; puzzle.people];
    for set in &puzzle.sets {
        most[set.who] += set.offers.iter().map(|offer| offer.cost).max().unwrap_or(0);
    }
    most.into_iter().map(|sum: u32| matches!(limit, Limit::Each(limit) if sum > limit)).collect()
}

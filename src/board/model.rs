//! Model: a puzzle as a linear program, solved by branching with a number of nodes allowed.
//! Never a time limit, and never an answer that was not counted through again in whole numbers.
//!
//! microlp is used directly: good_lp over it offers a limit by the clock only, and a clock would make
//! two answers of one class. Why microlp: pure Rust, so that nothing but cargo is needed to build;
//! the class is solved at the root of the tree nearly always, as what is shared makes a problem of
//! transport.

use super::parts::{least, limited};
use super::puzzle::{Offered, Puzzle, Set};
use super::weights::ALONE;
use microlp::{ComparisonOp, OptimizationDirection, Problem, SolveOptions, Variable};
use std::collections::BTreeMap;

/// Nodes of the tree that one question may cost, shared by the choices of the class and between these
/// two: thirty people are dealt out in about a second, and a larger class is searched less.
const NODES: u64 = 60_000;
const FEWEST_AND_MOST: (u64, u64) = (20, 200);

pub(super) fn nodes(puzzle: &Puzzle) -> u64 {
    let sets = u64::try_from(puzzle.sets.len()).unwrap_or(u64::MAX).max(1);
    (NODES / sets).clamp(FEWEST_AND_MOST.0, FEWEST_AND_MOST.1)
}

/// Nobody is told to buy more of one thing than this.
const MOST_MORE: i32 = 99;

/// What each person's misfit may add up to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Limit {
    /// Anything.
    None,
    /// This at the most.
    Each(u32),
}

/// What came of a question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Found {
    /// The lowest sum: what each set takes, and the sum.
    Best(Vec<usize>, u32),
    /// An answer that may not be the lowest; with what no answer is below.
    Good(Vec<usize>, u32),
    /// There is none.
    None,
    /// Nothing was found and nothing ruled out.
    Unknown,
}

impl Found {
    /// What each set takes; nothing where there is no answer.
    pub fn picked(&self) -> &[usize] {
        match self {
            Found::Best(picked, _) | Found::Good(picked, _) => picked,
            Found::None | Found::Unknown => &[],
        }
    }
}

/// What is asked of a puzzle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ask<'a> {
    /// The lowest sum of costs.
    Sum,
    /// The lowest worst, offers taken in part.
    Worst,
    /// The fewest further pieces with which there is an answer; of which kind each resource is.
    More(&'a [usize]),
    /// The fewest people fewer.
    Fewer,
}

/// A puzzle being written as a program.
struct Model<'p> {
    puzzle: &'p Puzzle,
    problem: Problem,
    /// For each set its offers that are worth asking about, and their variables.
    offers: Vec<Vec<(usize, Variable)>>,
    /// Further pieces of each kind, or people who are not there.
    relaxed: BTreeMap<usize, Variable>,
}

/// Which offers of a set are worth asking about: none that costs as much and uses as much as another. Of
/// two movements the dearer stays while company could make up for it: its own, and somebody else's.
fn worth_asking(set: &Set, binding: &[bool]) -> Vec<usize> {
    let uses = |offer: &Offered| -> BTreeMap<usize, u32> {
        offer.uses.iter().filter(|(at, _)| binding[*at]).copied().collect()
    };
    let uses: Vec<_> = set.offers.iter().map(uses).collect();
    let no_more = |a: &BTreeMap<usize, u32>, b: &BTreeMap<usize, u32>| {
        a.iter().all(|(at, n)| b.get(at).is_some_and(|other| n <= other))
    };
    let beaten = |at: usize| {
        (0..set.offers.len()).any(|other| {
            let (cost, theirs) = (set.offers[at].cost, set.offers[other].cost);
            let same = set.offers[at].movement == set.offers[other].movement;
            let company = if same { 0 } else { 2 * ALONE };
            let as_good = theirs + company <= cost && no_more(&uses[other], &uses[at]);
            let alike = theirs == cost && uses[other] == uses[at];
            other != at && as_good && (!alike || other < at)
        })
    };
    (0..set.offers.len()).filter(|at| !beaten(*at)).collect()
}

/// Resources that could run out if everybody took most of them.
pub(super) fn binding(puzzle: &Puzzle) -> Vec<bool> {
    let mut most: BTreeMap<(usize, usize, usize), u32> = BTreeMap::new();
    for (place, set) in puzzle.sets.iter().enumerate() {
        for (resource, n) in set.offers.iter().flat_map(|offer| &offer.uses) {
            let place = if puzzle.resources[*resource].held { usize::MAX } else { place };
            let known = most.entry((*resource, set.who, place)).or_insert(0);
            *known = (*known).max(*n);
        }
    }
    let mut sums = vec![0_u32; puzzle.resources.len()];
    most.into_iter().for_each(|((resource, ..), n)| sums[resource] += n);
    sums.iter().zip(&puzzle.resources).map(|(sum, resource)| *sum > resource.count).collect()
}

impl<'p> Model<'p> {
    fn new(puzzle: &'p Puzzle, ask: Ask<'_>) -> Model<'p> {
        let problem = Problem::new(OptimizationDirection::Minimize);
        let mut model = Model { puzzle, problem, offers: Vec::new(), relaxed: BTreeMap::new() };
        let binding = binding(puzzle);
        for set in &puzzle.sets {
            let vars = model.offers_of(set, &binding, ask);
            let mut one: Vec<_> = vars.iter().map(|(_, var)| (*var, 1.0)).collect();
            if ask == Ask::Fewer {
                one.push((model.relax(set.who), 1.0));
            }
            model.problem.add_constraint(one.as_slice(), ComparisonOp::Eq, 1.0);
            model.offers.push(vars);
        }
        model.keep_counts(&binding, ask);
        if ask == Ask::Sum {
            model.count_alone();
        }
        model
    }

    fn offers_of(&mut self, set: &Set, binding: &[bool], ask: Ask<'_>) -> Vec<(usize, Variable)> {
        let var = |at: usize| {
            let price = if ask == Ask::Sum { f64::from(set.offers[at].cost) } else { 0.0 };
            let var = match ask {
                Ask::Worst => self.problem.add_var(price, (0.0, 1.0)),
                _ => self.problem.add_binary_var(price),
            };
            (at, var)
        };
        worth_asking(set, binding).into_iter().map(var).collect()
    }

    /// What makes room where there is none: a piece more, or a person fewer.
    fn relax(&mut self, what: usize) -> Variable {
        let problem = &mut self.problem;
        *self.relaxed.entry(what).or_insert_with(|| problem.add_integer_var(1.0, (0, MOST_MORE)))
    }

    fn keep_counts(&mut self, binding: &[bool], ask: Ask<'_>) {
        let mut rows = self.in_use(binding);
        for (resource, row) in &mut rows {
            if let Ask::More(kinds) = ask {
                row.push((self.relax(kinds[*resource]), -1.0));
            }
            let count = f64::from(self.puzzle.resources[*resource].count);
            self.problem.add_constraint(row.as_slice(), ComparisonOp::Le, count);
        }
    }

    /// What of each resource is in use.
    fn in_use(&mut self, binding: &[bool]) -> BTreeMap<usize, Vec<(Variable, f64)>> {
        let mut rows: BTreeMap<usize, Vec<(Variable, f64)>> = BTreeMap::new();
        let mut held: BTreeMap<(usize, usize), Variable> = BTreeMap::new();
        for (set, vars) in self.puzzle.sets.iter().zip(&self.offers) {
            let mut of_set: BTreeMap<usize, Vec<(Variable, f64)>> = BTreeMap::new();
            for (at, var) in vars {
                for (resource, n) in set.offers[*at].uses.iter().filter(|(r, _)| binding[*r]) {
                    of_set.entry(*resource).or_default().push((*var, f64::from(*n)));
                }
            }
            for (resource, mut terms) in of_set {
                if !self.puzzle.resources[resource].held {
                    rows.entry(resource).or_default().extend(terms);
                    continue;
                }
                // What a person holds is at least what any one of their sets uses.
                let problem = &mut self.problem;
                let all = (0.0, f64::INFINITY);
                let kept =
                    held.entry((set.who, resource)).or_insert_with(|| problem.add_var(0.0, all));
                terms.push((*kept, -1.0));
                self.problem.add_constraint(terms.as_slice(), ComparisonOp::Le, 0.0);
            }
        }
        held.into_iter()
            .for_each(|((_, resource), var)| rows.entry(resource).or_default().push((var, 1.0)));
        rows
    }

    /// Whoever takes another movement than their own is alone unless somebody else of the line takes it.
    fn count_alone(&mut self) {
        let mut takers: BTreeMap<(usize, usize), Vec<(usize, Variable)>> = BTreeMap::new();
        for (place, (set, vars)) in self.puzzle.sets.iter().zip(&self.offers).enumerate() {
            for (at, var) in vars {
                if let Some(movement) = set.offers[*at].movement {
                    takers.entry((set.line, movement)).or_default().push((place, *var));
                }
            }
        }
        for ((_, movement), vars) in takers {
            let mut places: Vec<usize> = vars.iter().map(|(place, _)| *place).collect();
            places.dedup();
            let others = places.into_iter().filter(|p| self.puzzle.sets[*p].own != Some(movement));
            for place in others.collect::<Vec<_>>() {
                let alone = self.problem.add_var(f64::from(ALONE), (0.0, 1.0));
                let sign = |of: usize| if of == place { 1.0 } else { -1.0 };
                let mut terms: Vec<_> = vars.iter().map(|(of, var)| (*var, sign(*of))).collect();
                terms.push((alone, -1.0));
                self.problem.add_constraint(terms.as_slice(), ComparisonOp::Le, 0.0);
            }
        }
    }

    /// What each person's misfit is made of.
    fn totals(&self) -> Vec<Vec<(Variable, f64)>> {
        let mut totals = vec![Vec::new(); self.puzzle.people];
        for (set, vars) in self.puzzle.sets.iter().zip(&self.offers) {
            let terms = vars.iter().map(|(at, var)| (*var, f64::from(set.offers[*at].cost)));
            totals[set.who].extend(terms.filter(|(_, cost)| *cost > 0.0));
        }
        totals
    }

    fn limit(&mut self, limit: Limit) {
        let Limit::Each(most) = limit else { return };
        let limited = limited(self.puzzle, limit);
        let totals = self.totals().into_iter().zip(limited);
        for (terms, _) in totals.filter(|(terms, limited)| *limited && !terms.is_empty()) {
            self.problem.add_constraint(terms.as_slice(), ComparisonOp::Le, f64::from(most));
        }
    }

    fn read(&self, value: impl Fn(Variable) -> f64) -> Vec<usize> {
        let taken = |vars: &Vec<(usize, Variable)>| {
            vars.iter().find(|(_, var)| value(*var) > 0.5).map_or(0, |(at, _)| *at)
        };
        self.offers.iter().map(taken).collect()
    }
}

/// The lowest sum of a part of a puzzle within a limit, with so many nodes.
pub(super) fn best_of_part(puzzle: &Puzzle, limit: Limit, nodes: u64) -> Found {
    let mut model = Model::new(puzzle, Ask::Sum);
    model.limit(limit);
    let mut options = SolveOptions::default();
    options.node_limit = Some(nodes);
    let outcome = match model.problem.solve_with(options) {
        Ok(outcome) => outcome,
        Err(microlp::Error::Infeasible) => return Found::None,
        Err(_) => return Found::Unknown,
    };
    let Some(solution) = outcome.solution() else { return Found::Unknown };
    let picked = model.read(|var| solution.var_value(var));
    let totals = puzzle.totals(&picked);
    let within = match limit {
        Limit::None => true,
        Limit::Each(most) => totals.iter().all(|total| *total <= most),
    };
    if !within || !puzzle.is_kept(&picked) {
        return Found::Unknown;
    }
    let sum = puzzle.sum(&picked);
    match outcome.is_optimal() {
        true => Found::Best(picked, sum),
        false => {
            let bound = outcome.stats().best_bound.map_or(0, whole_up);
            Found::Good(picked, bound.min(sum))
        }
    }
}

/// What no answer's worst is below: the least that it comes to where offers may be taken in part, and
/// each person's own least.
pub(super) fn at_least(puzzle: &Puzzle) -> u32 {
    let own = least(puzzle).into_iter().max().unwrap_or(0);
    let mut model = Model::new(puzzle, Ask::Worst);
    let worst = model.problem.add_var(1.0, (0.0, f64::INFINITY));
    for mut terms in model.totals().into_iter().filter(|terms| !terms.is_empty()) {
        terms.push((worst, -1.0));
        model.problem.add_constraint(terms.as_slice(), ComparisonOp::Le, 0.0);
    }
    let solved = model.problem.solve().ok();
    let parted = solved.as_ref().and_then(|outcome| outcome.solution());
    own.max(parted.map_or(0, |solution| whole_up(solution.objective())))
}

/// The fewest further pieces with which there is an answer, by kind; `kinds` says of which each
/// resource is. Nothing where pieces alone do not do it.
pub(super) fn more(puzzle: &Puzzle, kinds: &[usize]) -> Option<BTreeMap<usize, u32>> {
    relaxed(puzzle, Ask::More(kinds))
}

/// The fewest people without whom there is an answer.
pub(super) fn fewer(puzzle: &Puzzle) -> Option<u32> {
    relaxed(puzzle, Ask::Fewer).map(|gone| gone.values().sum())
}

fn relaxed(puzzle: &Puzzle, ask: Ask<'_>) -> Option<BTreeMap<usize, u32>> {
    let model = Model::new(puzzle, ask);
    let mut options = SolveOptions::default();
    options.node_limit = Some(nodes(puzzle));
    let outcome = model.problem.solve_with(options).ok()?;
    let solution = outcome.solution()?;
    let amounts = model.relaxed.iter().map(|(what, var)| (*what, solution.var_value(*var).round()));
    // A whole number between nothing and the most.
    Some(amounts.filter(|(_, n)| *n > 0.0).map(|(what, n)| (what, n as u32)).collect())
}

/// The next whole number, rounding apart.
fn whole_up(value: f64) -> u32 {
    // Costs are whole: what is above one by less than this is that one.
    (value - 1e-4).ceil().max(0.0) as u32
}

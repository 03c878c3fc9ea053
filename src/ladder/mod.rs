//! Ladders: which rung is the step up or down from which, across every ladder.
//! Pure: reads no files. Loops, gaps and dead ends are returned as facts; checks word them.

mod loops;
mod ways;

use crate::library::{Change, LadderId, Library, MovementId, Quantity, Rung, SettingName};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

/// A rung's identity: a movement at its settings. The same rung may stand on several ladders.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RungKey {
    /// The movement.
    pub movement: MovementId,
    /// Its settings, in the order of their names.
    pub settings: Vec<(SettingName, Quantity)>,
}

impl RungKey {
    /// The identity of a written rung.
    pub fn of(rung: &Rung) -> RungKey {
        let settings = rung.settings.iter().map(|(name, value)| (name.value.clone(), value.value));
        RungKey { movement: rung.movement.value.clone(), settings: settings.collect() }
    }
}

impl fmt::Display for RungKey {
    /// `strap-row, lean 45 deg`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.movement)?;
        self.settings.iter().try_for_each(|(name, value)| write!(f, ", {name} {value}"))
    }
}

/// A rung in the graph, by its place in the sorted list of rungs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RungIndex(pub usize);

/// Where a rung stands on a ladder; the first rung is at 0.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct RungPlace {
    /// The ladder.
    pub ladder: LadderId,
    /// The rung's place on it, from 0.
    pub at: usize,
}

/// The move from one rung to the next on one ladder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// The lower rung.
    pub from: RungIndex,
    /// The upper rung.
    pub to: RungIndex,
    /// Where the upper rung is written.
    pub place: RungPlace,
    /// The one variable it changes, where the coach has named it.
    pub changes: Option<Change>,
}

/// Every rung and every step of a library.
#[derive(Debug, Clone, Default)]
pub struct LadderGraph {
    rungs: Vec<RungKey>,
    places: Vec<Vec<RungPlace>>,
    steps: Vec<Step>,
    up: Vec<Vec<usize>>,
    down: Vec<Vec<usize>>,
}

impl LadderGraph {
    /// The graph of every ladder in `library`.
    pub fn of(library: &Library) -> LadderGraph {
        let mut places: BTreeMap<RungKey, Vec<RungPlace>> = BTreeMap::new();
        for ladder in library.ladders.values() {
            for (at, rung) in ladder.rungs.iter().enumerate() {
                let place = RungPlace { ladder: ladder.id.clone(), at };
                places.entry(RungKey::of(rung)).or_default().push(place);
            }
        }
        let (rungs, places): (Vec<_>, Vec<_>) = places.into_iter().unzip();
        let mut graph = LadderGraph {
            up: vec![Vec::new(); rungs.len()],
            down: vec![Vec::new(); rungs.len()],
            rungs,
            places,
            steps: Vec::new(),
        };
        for ladder in library.ladders.values() {
            for at in 1..ladder.rungs.len() {
                graph.add_step(ladder, at);
            }
        }
        graph
    }

    fn add_step(&mut self, ladder: &crate::library::Ladder, at: usize) {
        let find = |rung| self.find(&RungKey::of(rung));
        let (Some(from), Some(to)) = (find(&ladder.rungs[at - 1]), find(&ladder.rungs[at])) else {
            return;
        };
        let changes = ladder.rungs[at].changes.as_ref().map(|change| change.value);
        let place = RungPlace { ladder: ladder.id.clone(), at };
        self.up[from.0].push(self.steps.len());
        self.down[to.0].push(self.steps.len());
        self.steps.push(Step { from, to, place, changes });
    }

    /// Every rung, sorted.
    pub fn rungs(&self) -> impl ExactSizeIterator<Item = (RungIndex, &RungKey)> {
        self.rungs.iter().enumerate().map(|(at, key)| (RungIndex(at), key))
    }

    /// Every step, ladder by ladder.
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// A rung by its identity.
    pub fn find(&self, key: &RungKey) -> Option<RungIndex> {
        self.rungs.binary_search(key).ok().map(RungIndex)
    }

    /// A rung's identity.
    pub fn key(&self, rung: RungIndex) -> &RungKey {
        &self.rungs[rung.0]
    }

    /// The ladders that a rung stands on.
    pub fn places(&self, rung: RungIndex) -> &[RungPlace] {
        &self.places[rung.0]
    }

    /// Every rung of a movement, whatever its settings.
    pub fn rungs_of<'g>(
        &'g self,
        movement: &'g MovementId,
    ) -> impl Iterator<Item = RungIndex> + 'g {
        // Sorted by movement first.
        let from = self.rungs.partition_point(|key| key.movement < *movement);
        let ours = self.rungs[from..].iter().take_while(move |key| key.movement == *movement);
        ours.enumerate().map(move |(at, _)| RungIndex(from + at))
    }

    /// The steps up from a rung, one a ladder.
    pub fn above(&self, rung: RungIndex) -> impl Iterator<Item = &Step> {
        self.up[rung.0].iter().map(|at| &self.steps[*at])
    }

    /// The steps that lead up to a rung: follow them back for the rung below.
    pub fn below(&self, rung: RungIndex) -> impl Iterator<Item = &Step> {
        self.down[rung.0].iter().map(|at| &self.steps[*at])
    }

    /// Steps for which the coach has named no variable.
    pub fn gaps(&self) -> impl Iterator<Item = &Step> {
        self.steps.iter().filter(|step| step.changes.is_none())
    }

    /// Movements of `library` that no ladder holds and no link reaches or leaves.
    pub fn dead_ends<'l>(&self, library: &'l Library) -> Vec<&'l MovementId> {
        let movements = library.movements.values();
        let ends = movements.flat_map(|m| m.beside.iter().flat_map(|link| [&m.id, &link.to.value]));
        let rungs = self.rungs.iter().map(|key| &key.movement);
        let somewhere: BTreeSet<&MovementId> = rungs.chain(ends).collect();
        library.movements.keys().filter(|id| !somewhere.contains(id)).collect()
    }
}

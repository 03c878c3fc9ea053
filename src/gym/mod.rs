//! The gym: the library with what follows from it. The first argument of everything below it.
//! Never changes after it is opened.

mod left_out;
mod posed;
pub mod heights;
pub mod measured;
pub mod pulled;
pub mod scale;
mod unknown;
pub mod witness;

pub use posed::{AtEnd, Posed, at_ends, pose_person, pose_tree, posed};

use crate::kept::Kept;
use crate::ladder::{LadderGraph, RungKey};
use crate::library::{
    Counts, Ladder, LadderId, Library, Movement, MovementId, PatternId, Quantity, Rung,
};
use crate::mechanics::published::When;
use crate::mechanics::solve::Person;
use heights::HeightTable;
use measured::{Provenance, Residual};
use scale::{Axis, Reading, Unknown};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, OnceLock};

/// A library, its ladder graph, and every pose solved and weighed.
#[derive(Debug, Clone, Default)]
pub struct Gym {
    /// What the coach wrote.
    pub library: Library,
    /// Which rung is above which.
    pub ladders: LadderGraph,
    /// Each movement's pose at its usual settings.
    pub posed: BTreeMap<MovementId, Posed>,
    /// Each rung's pose at the rung's own settings.
    pub rungs: BTreeMap<RungKey, Posed>,
    /// What every rung, and every movement at its usual settings, asks on its pattern's axis, in
    /// thousandths; only where a number is known and no unwritten weight or help decides.
    pub asks: BTreeMap<RungKey, (Axis, u32)>,
    /// The same of every movement at its usual settings, by its id.
    pub asks_usually: BTreeMap<MovementId, (Axis, u32)>,
    /// The movements of each pattern, in the order of ids.
    pub of_pattern: BTreeMap<PatternId, Vec<MovementId>>,
    /// A table of heights for each movement, solved when [`Gym::heights`] first asks for it.
    pub tables: BTreeMap<MovementId, OnceLock<Option<HeightTable>>>,
    /// Each movement's poses at the ends of its settings, solved when [`Gym::at_ends`] first asks.
    pub ends: BTreeMap<MovementId, OnceLock<Vec<AtEnd>>>,
    /// What the library's poses say to published rows, solved when [`Gym::residuals`] first asks.
    pub held_to: OnceLock<Vec<Residual>>,
    /// What was solved and drawn before, here or in an earlier run.
    pub kept: Arc<Kept>,
}

impl Gym {
    /// Opens the gym on a library that has been read.
    pub fn open(library: Library) -> Gym {
        Gym::open_with(library, Arc::default())
    }

    /// The same, with what is kept of earlier work.
    pub fn open_with(library: Library, kept: Arc<Kept>) -> Gym {
        let ladders = LadderGraph::of(&library);
        let posed = posed::movements(&library, &kept);
        let rungs = posed::rungs(&library, &ladders, &kept);
        let tables = library.movements.keys().map(|id| (id.clone(), OnceLock::new())).collect();
        let ends = library.movements.keys().map(|id| (id.clone(), OnceLock::new())).collect();
        let mut of_pattern: BTreeMap<PatternId, Vec<MovementId>> = BTreeMap::new();
        for movement in library.movements.values() {
            let own = of_pattern.entry(movement.pattern.value.clone()).or_default();
            own.push(movement.id.clone());
        }
        let known = Gym { library, ladders, posed, rungs, tables, ends, kept, ..Gym::default() };
        let asks = known.asked();
        let usual = asks.iter().filter(|(key, _)| key.settings.is_empty());
        let asks_usually = usual.map(|(key, asks)| (key.movement.clone(), *asks)).collect();
        Gym { asks, asks_usually, of_pattern, ..known }
    }

    /// What a rung asks on its pattern's axis, in thousandths.
    pub fn asks(&self, rung: &RungKey) -> Option<(Axis, u32)> {
        self.asks.get(rung).copied()
    }

    fn asked(&self) -> BTreeMap<RungKey, (Axis, u32)> {
        let usual = self
            .posed
            .iter()
            .map(|(id, posed)| (RungKey { movement: id.clone(), settings: Vec::new() }, posed));
        let rungs = self.rungs.iter().map(|(key, posed)| (key.clone(), posed));
        let known = rungs.chain(usual).filter_map(|(key, posed)| {
            let movement = self.library.movements.get(&key.movement)?;
            let axis = Axis::of(movement.pattern.value.as_str())?;
            let given: Vec<_> = key.settings.iter().map(|(name, _)| name).collect();
            let read = scale::reading(axis, movement, Some(posed), &given).ok()?;
            (!read.usual_weight).then_some((key, (read.axis, (read.value * 1000.0).round() as u32)))
        });
        known.collect()
    }

    /// A movement's poses at both ends of every height, lean and weight, the others as usual.
    pub fn at_ends(&self, movement: &Movement) -> &[AtEnd] {
        let Some(ends) = self.ends.get(&movement.id) else { return &[] };
        ends.get_or_init(|| posed::at_ends(movement, &self.kept))
    }

    /// The pose of a movement for `person`, with some settings given and the others as usual.
    pub fn posed_at(
        &self,
        movement: &Movement,
        at: &[(&str, Quantity)],
        person: &Person,
    ) -> Option<Posed> {
        posed::found(&self.kept, movement, at, person)
    }

    /// What a movement asks at each value of its one height or lean, where the model can say.
    pub fn heights(&self, movement: &Movement) -> Option<&HeightTable> {
        let table = self.tables.get(&movement.id)?;
        table.get_or_init(|| heights::kept_table(self, movement)).as_ref()
    }

    /// What the library's own poses say to the published rows.
    pub fn residuals(&self) -> &[Residual] {
        self.held_to.get_or_init(|| measured::residuals(&self.library))
    }

    /// How a reading was come by, with the arms straight.
    pub fn provenance(&self, read: &Reading) -> Provenance {
        self.provenance_at(read, When::Straight)
    }

    /// How the same was come by at an instant: rows of another instant say nothing of it.
    pub fn provenance_at(&self, read: &Reading, when: When) -> Provenance {
        let agreement = |kind| measured::agreement(self.residuals(), kind, when);
        let rows = read.rows.filter(|_| when != When::Bottom || read.as_it_starts);
        let agreement = rows.and_then(agreement);
        match agreement {
            Some(agreement) => Provenance::Checked(agreement),
            None if read.axis == Axis::Carried => Provenance::Written,
            None if read.axis == Axis::Pulled && pulled::is_stretched(read) => {
                Provenance::Stretched
            }
            None if read.axis == Axis::Pulled => Provenance::Hung,
            None if read.ruled => Provenance::Ruled,
            None => Provenance::Computed,
        }
    }

    /// The ladders on which a movement stands, in the order of ids.
    pub fn ladders_of(&self, movement: &MovementId) -> Vec<&Ladder> {
        let rungs = self.ladders.rungs_of(movement);
        let places = rungs.flat_map(|rung| self.ladders.places(rung));
        let ids: BTreeSet<&LadderId> = places.map(|place| &place.ladder).collect();
        ids.into_iter().filter_map(|id| self.library.ladders.get(id)).collect()
    }

    /// The axis on which a ladder's rungs are drawn and compared.
    pub fn axis(&self, ladder: &Ladder) -> Option<Axis> {
        let axis = Axis::of(ladder.pattern.as_ref()?.value.as_str())?;
        let pulls = axis == Axis::Arms && pulled::is_all_pull(self, ladder);
        Some(if pulls { Axis::Pulled } else { axis })
    }

    /// The number of every rung of a ladder on the ladder's axis, the lowest rung first.
    pub fn readings(&self, ladder: &Ladder) -> Vec<Result<Reading, Unknown>> {
        let counts = ladder
            .rungs
            .iter()
            .filter_map(|rung| Some(self.library.movements.get(&rung.movement.value)?.counts));
        let held = counts.clone().filter(|counts| *counts == Counts::Seconds).count();
        let most = if 2 * held > counts.count() { Counts::Seconds } else { Counts::Reps };
        ladder.rungs.iter().map(|rung| self.reading(ladder, rung, most)).collect()
    }

    fn reading(&self, ladder: &Ladder, rung: &Rung, most: Counts) -> Result<Reading, Unknown> {
        let axis = self.axis(ladder).ok_or(Unknown::NoAxis)?;
        let movement = self.library.movements.get(&rung.movement.value).ok_or(Unknown::NoPose)?;
        if scale::held_among(movement, most) {
            return Err(Unknown::Held);
        }
        let given: Vec<_> = rung.settings.iter().map(|(name, _)| &name.value).collect();
        let read = scale::reading(axis, movement, self.rungs.get(&RungKey::of(rung)), &given)?;
        if axis == Axis::Arms && !read.as_it_starts {
            return Err(Unknown::OtherParts);
        }
        (read.axis == axis).then_some(read).ok_or(Unknown::OtherAxis)
    }
}

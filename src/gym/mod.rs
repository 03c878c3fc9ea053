//! The gym: the library with what follows from it. The first argument of everything below it.
//! Never changes after it is opened.

mod posed;

pub use posed::{Posed, pose_person};

use crate::ladder::{LadderGraph, RungKey};
use crate::library::{Library, MovementId};
use std::collections::BTreeMap;

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
}

impl Gym {
    /// Opens the gym on a library that has been read.
    pub fn open(library: Library) -> Gym {
        let ladders = LadderGraph::of(&library);
        let posed = posed::movements(&library);
        let rungs = posed::rungs(&library, &ladders);
        Gym { library, ladders, posed, rungs }
    }
}

//! The gym: the library with what follows from it. The first argument of everything below it.
//! Never changes after it is opened.

use crate::ladder::LadderGraph;
use crate::library::Library;

/// A library and its ladder graph.
#[derive(Debug, Clone, Default)]
pub struct Gym {
    /// What the coach wrote.
    pub library: Library,
    /// Which rung is above which.
    pub ladders: LadderGraph,
}

impl Gym {
    /// Opens the gym on a library that has been read.
    pub fn open(library: Library) -> Gym {
        let ladders = LadderGraph::of(&library);
        Gym { library, ladders }
    }
}

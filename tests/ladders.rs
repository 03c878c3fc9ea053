//! The ladder graph against petgraph's algorithms on random ladders.
//! Reference: the petgraph crate (`tarjan_scc`, `kosaraju_scc`, `is_cyclic_directed`, `dijkstra`).

use petgraph::algo::{dijkstra, is_cyclic_directed, kosaraju_scc, tarjan_scc};
use petgraph::graph::{DiGraph, NodeIndex};
use proptest::prelude::*;
use rungbook::finding::{FileId, Placed, Span};
use rungbook::ladder::{LadderGraph, RungIndex};
use rungbook::library::{Ladder, LadderId, Library, MovementId, Quantity, Rung, SettingName, Unit};
use std::collections::BTreeSet;

/// Ladders written as lists of (movement, lean in degrees).
type Written = Vec<Vec<(u8, u8)>>;

fn library(written: &Written) -> Library {
    let mut library = Library::default();
    for (number, rungs) in written.iter().enumerate() {
        let id = LadderId(format!("ladder-{number:03}"));
        let rungs = rungs.iter().map(|(movement, lean)| rung(*movement, *lean)).collect();
        library.ladders.insert(id.clone(), ladder(id, rungs));
    }
    library
}

fn span() -> Span {
    Span::whole(FileId(0))
}

fn rung(movement: u8, lean: u8) -> Rung {
    let lean = Quantity::new(f64::from(lean), Unit::Degree);
    Rung {
        movement: Placed::new(MovementId(format!("movement-{movement}")), span()),
        settings: vec![(Placed::new(SettingName::from("lean"), span()), Placed::new(lean, span()))],
        changes: None,
        because: None,
        dose: None,
        span: span(),
    }
}

fn ladder(id: LadderId, rungs: Vec<Rung>) -> Ladder {
    Ladder {
        name: Placed::new(id.to_string(), span()),
        id,
        file: span(),
        goal: None,
        pattern: None,
        about: None,
        moves_up: None,
        moves_down: None,
        test: None,
        dose: None,
        rungs,
        sources: Vec::new(),
    }
}

/// The same ladders as a petgraph graph, built from the written rungs and not from our steps.
fn reference(graph: &LadderGraph, library: &Library) -> DiGraph<(), ()> {
    let mut reference = DiGraph::new();
    let nodes: Vec<NodeIndex> = graph.rungs().map(|_| reference.add_node(())).collect();
    let index = |rung: &Rung| {
        let key = rungbook::ladder::RungKey::of(rung);
        nodes[graph
            .rungs()
            .position(|(_, known)| *known == key)
            .expect("every rung is in the graph")]
    };
    for ladder in library.ladders.values() {
        for pair in ladder.rungs.windows(2) {
            reference.add_edge(index(&pair[0]), index(&pair[1]), ());
        }
    }
    reference
}

fn written() -> impl Strategy<Value = Written> {
    prop::collection::vec(prop::collection::vec((0u8..9, 0u8..3), 0..7), 0..6)
}

fn as_sets(groups: impl IntoIterator<Item = Vec<usize>>) -> BTreeSet<BTreeSet<usize>> {
    groups.into_iter().map(|group| group.into_iter().collect()).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn knots_are_the_strongly_connected_components(written in written()) {
        let library = library(&written);
        let graph = LadderGraph::of(&library);
        let reference = reference(&graph, &library);
        let ours = as_sets(graph.knots().into_iter().map(|k| k.into_iter().map(|r| r.0).collect()));
        let indices = |groups: Vec<Vec<NodeIndex>>| {
            as_sets(groups.into_iter().map(|g| g.into_iter().map(NodeIndex::index).collect()))
        };
        prop_assert_eq!(&ours, &indices(tarjan_scc(&reference)));
        prop_assert_eq!(&ours, &indices(kosaraju_scc(&reference)));
    }

    #[test]
    fn a_loop_is_found_exactly_when_there_is_a_cycle(written in written()) {
        let library = library(&written);
        let graph = LadderGraph::of(&library);
        let loops = graph.loops();
        prop_assert_eq!(!loops.is_empty(), is_cyclic_directed(&reference(&graph, &library)));
        for steps in loops {
            prop_assert!(steps.windows(2).all(|pair| pair[0].to == pair[1].from));
            prop_assert_eq!(steps[0].from, steps[steps.len() - 1].to);
        }
    }

    #[test]
    fn ways_are_as_short_as_dijkstra_finds(written in written(), from in any::<prop::sample::Index>()) {
        let library = library(&written);
        let graph = LadderGraph::of(&library);
        let count = graph.rungs().len();
        prop_assume!(count > 0);
        let from = from.index(count);
        let reference = reference(&graph, &library);
        let distances = dijkstra(&reference, NodeIndex::new(from), None, |_| 1usize);
        for (to, _) in graph.rungs() {
            let ours = graph.way(RungIndex(from), to).map(|way| way.len());
            prop_assert_eq!(ours, distances.get(&NodeIndex::new(to.0)).copied());
        }
    }
}

#[test]
fn a_rung_on_two_ladders_joins_them() {
    let library = library(&vec![vec![(1, 0), (2, 0), (3, 0)], vec![(2, 0), (4, 0)]]);
    let graph = LadderGraph::of(&library);
    let goal = library.ladders.values().next_back().expect("two ladders");
    let way = graph.way_to_goal(&MovementId("movement-1".into()), goal).expect("a way across");
    let names: Vec<String> =
        way.iter().map(|step| graph.key(step.to).movement.to_string()).collect();
    assert_eq!(names, ["movement-2", "movement-4"]);
}

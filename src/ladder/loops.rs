//! Loops: rungs that are both above and below each other.
//! Never says which ladder is wrong.

use super::{LadderGraph, RungIndex, Step};

impl LadderGraph {
    /// Every knot of rungs that lead up to each other, each as one shortest loop of steps, in the
    /// order of its first rung. Tarjan's strongly connected components (SIAM J Comput 1972;1:146).
    pub fn loops(&self) -> Vec<Vec<&Step>> {
        let mut knots: Vec<Vec<RungIndex>> = Knots::of(self)
            .into_iter()
            .filter(|knot| knot.len() > 1 || self.above(knot[0]).any(|step| step.to == knot[0]))
            .collect();
        knots.iter_mut().for_each(|knot| knot.sort_unstable());
        knots.sort();
        knots.iter().filter_map(|knot| self.shortest_loop(knot[0])).collect()
    }

    /// The shortest way up from a rung back to itself.
    fn shortest_loop(&self, rung: RungIndex) -> Option<Vec<&Step>> {
        self.above(rung)
            .filter_map(|first| {
                let rest = if first.to == rung { Vec::new() } else { self.way(first.to, rung)? };
                Some(std::iter::once(first).chain(rest).collect::<Vec<_>>())
            })
            .min_by_key(Vec::len)
    }

    /// The strongly connected components of the graph: groups of rungs that lead to each other.
    pub fn knots(&self) -> Vec<Vec<RungIndex>> {
        Knots::of(self)
    }
}

const UNSEEN: usize = usize::MAX;

/// Tarjan's algorithm with its own stack, so that a ladder of any length is safe.
struct Knots<'g> {
    graph: &'g LadderGraph,
    order: Vec<usize>,
    lowest: Vec<usize>,
    waiting: Vec<usize>,
    is_waiting: Vec<bool>,
    seen: usize,
    found: Vec<Vec<RungIndex>>,
}

impl<'g> Knots<'g> {
    fn of(graph: &'g LadderGraph) -> Vec<Vec<RungIndex>> {
        let count = graph.rungs.len();
        let mut knots = Knots {
            graph,
            order: vec![UNSEEN; count],
            lowest: vec![UNSEEN; count],
            waiting: Vec::new(),
            is_waiting: vec![false; count],
            seen: 0,
            found: Vec::new(),
        };
        for rung in 0..count {
            if knots.order[rung] == UNSEEN {
                knots.walk(rung);
            }
        }
        knots.found
    }

    fn walk(&mut self, root: usize) {
        self.enter(root);
        let mut path = vec![(root, 0)];
        while let Some((rung, next)) = path.last_mut() {
            let rung = *rung;
            let Some(step) = self.graph.up[rung].get(*next) else {
                path.pop();
                self.leave(rung);
                if let Some((parent, _)) = path.last() {
                    self.lowest[*parent] = self.lowest[*parent].min(self.lowest[rung]);
                }
                continue;
            };
            *next += 1;
            let to = self.graph.steps[*step].to.0;
            if self.order[to] == UNSEEN {
                self.enter(to);
                path.push((to, 0));
            } else if self.is_waiting[to] {
                self.lowest[rung] = self.lowest[rung].min(self.order[to]);
            }
        }
    }

    fn enter(&mut self, rung: usize) {
        self.order[rung] = self.seen;
        self.lowest[rung] = self.seen;
        self.seen += 1;
        self.waiting.push(rung);
        self.is_waiting[rung] = true;
    }

    fn leave(&mut self, rung: usize) {
        if self.lowest[rung] != self.order[rung] {
            return;
        }
        let mut knot = Vec::new();
        while let Some(member) = self.waiting.pop() {
            self.is_waiting[member] = false;
            knot.push(RungIndex(member));
            if member == rung {
                break;
            }
        }
        self.found.push(knot);
    }
}

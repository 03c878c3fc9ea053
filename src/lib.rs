//! Rungbook: a movement library and scaling-ladder knowledge base, checked and published as a site.
//! This is the map: the rooms in reading order. A room imports only from rooms above it.

pub mod finding;
pub mod library;
pub mod ladder;
pub mod gym;
pub mod placing;
pub mod site;
pub mod check {
    pub fn run(g: &crate::gym::Gym) -> Vec<crate::finding::Finding> {
        let mut f = g.library.findings.clone();
        crate::finding::sort(&mut f, &g.library.sources);
        f
    }
}
pub mod cli;

//! any block, and the calendar and the feed that a reader elsewhere is given.
//! Never a number of our own as its own proof: each stands beside where it comes from.

mod laid;
mod plan {
    pub mod calendar;
    pub mod cycle;
    pub mod properties;
    pub mod weeks;
    pub mod worked;
}
#[path = "swaps/starter.rs"]
mod starter;

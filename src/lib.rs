//! Rungbook: a movement library and scaling-ladder knowledge base, checked and published as a site.
//! This is the map: the rooms in reading order. A room imports only from rooms above it.
#![forbid(unsafe_code)]

pub mod finding;
pub mod turn;
pub mod kept;
pub mod library;
pub mod ladder;
pub mod mechanics;
pub mod gym;
pub mod figure;
pub mod swap;
pub mod placing;
pub mod plan;
pub mod search;
pub mod own;
pub mod board;
pub mod check;
pub mod site;
pub mod door;
pub mod preview;
pub mod live;
pub mod cli;

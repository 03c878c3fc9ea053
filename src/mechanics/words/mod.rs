//! Words: a coach's vocabulary for poses, read into plain meanings with their places.
//! Never solves, never draws, never stops at the first mistake.

pub mod contact;
pub mod glossary;
pub mod keypose;
pub mod number;
pub mod props;
pub mod recipe;
pub mod said;
pub mod spelling;
pub mod surface;
mod tension;
pub mod told;

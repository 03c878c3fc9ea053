//! Figures: a solved pose as a picture, and as words for those who do not see it.
//! Pure: gives SVG text; colours come from the page (`style`), nothing is read or written.
//!
//! Reading order: `camera`, `pen`, `outline`, `paper`, `style`; `limbs`, `trunk` (the body); `solid`,
//! `furniture`, `kit`, `held` (things); `arrow`; `frame` (a key pose), `sheet` (a figure); `scale` (a ladder),
//! `weeks` (a cycle);
//! `telling` (the words).

pub mod arrow;
pub mod camera;
pub mod frame;
pub mod furniture;
pub mod held;
pub mod kit;
pub mod limbs;
pub mod outline;
pub mod paper;
pub mod pen;
pub mod scale;
pub mod sheet;
pub mod solid;
pub mod style;
pub mod telling;
pub mod trunk;
pub mod weeks;

pub use sheet::{Drawn, draw};

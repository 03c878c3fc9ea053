//! Figures: a solved pose as a picture, and as words for those who do not see it.
//! Pure: gives SVG text; colours come from the page (`style`), nothing is read or written.
//!
//! Reading order: `camera`, `pen`, `outline`, `paper`, `style`; `tones`, `sitter`, `limbs`, `hands`, `ends`, `trunk` (the body);
//! `solid`, `furniture`, `kit`, `held`, `strung` (things); `shadow`, `arrow`, `clear`, `ghost`; `frame` (a key pose),
//! `sheet` (a figure), `poses` (the same, key pose by key pose), `moving` (the way between), `wrong` (a
//! fault beside the good pose), with `spoil` and `beside`; `marked`, `dragged` (a pose in the making); `wordbook` (the words, drawn); `scale`
//! (a ladder), `weeks` (a cycle); `told`, `telling` (the words); `doubts`, `hidden`
//! (what the eye would not read).

pub mod arrow;
pub mod beside;
pub mod camera;
pub mod clear;
pub mod doubts;
pub mod dragged;
pub mod ends;
pub mod frame;
pub mod furniture;
pub mod ghost;
pub mod hands;
pub mod held;
pub mod hidden;
pub mod kit;
pub mod limbs;
pub mod marked;
pub mod moving;
pub mod outline;
pub mod paper;
pub mod pen;
pub mod poses;
pub mod scale;
pub mod shadow;
pub mod sheet;
pub mod sitter;
pub mod solid;
pub mod strung;
pub mod spoil;
pub mod style;
pub mod telling;
pub mod told;
pub mod tones;
pub mod trunk;
pub mod weeks;
pub mod wordbook;
pub mod wrong;

pub use poses::poses;
pub use sheet::{Drawn, draw};
pub use telling::Caption;

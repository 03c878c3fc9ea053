//! Mechanics: a pose in a coach's words, solved on a body of a given stature, weighed and checked.
//! Pure: no files, no drawing, no clock; values and problems come back, nothing is printed.
//!
//! Reading order: `space`, `segments`, `skeleton`, `joints`, `marks`, `kinematics` (a body and
//! how it moves); `node`, `words` (what the author wrote); `terms`, `conditions`, `solver`,
//! `solve` (from words to bodies), `reached` (from bodies to words), `between` (from key pose to key pose); `mass`, `statics`,
//! `pulls`, `moments`, `doubt`, `demand` (what it asks, and how sure that is); `published` (what was
//! measured); `guard` (what is wrong with it).

pub mod between;
pub mod carried;
pub mod conditions;
pub mod demand;
pub mod doubt;
pub mod guard;
pub mod joints;
pub mod kinematics;
pub mod marks;
pub mod mass;
pub mod moments;
pub mod node;
pub mod published;
pub mod pulls;
pub mod reached;
pub mod refused;
pub mod scenery;
pub mod row_kind;
pub mod segments;
pub mod skeleton;
pub mod solve;
pub mod solver;
pub mod space;
pub mod statics;
pub mod terms;
pub mod words;

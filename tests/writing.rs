//! Writing a library: a new entry, another id, tidy files, certain corrections, a table out and in.
//! One program of tests, so that it is linked once.

#[path = "writing/add.rs"]
mod add;
#[path = "writing/club/mod.rs"]
mod club;
mod dice;
#[path = "writing/mend.rs"]
mod mend;
#[path = "writing/rename.rs"]
mod rename;
#[path = "writing/said.rs"]
mod said;
#[path = "writing/table.rs"]
mod table;
#[path = "writing/tidy.rs"]
mod tidy;

//! The codes of findings that reading itself makes. `check` explains them.
//! Never a code of a rule: those stand with their rules.

use crate::finding::Code;

/// A file that the disk would not give.
pub const UNREADABLE_FILE: Code = Code("unreadable-file");
/// A file over a megabyte.
pub const FILE_TOO_BIG: Code = Code("file-too-big");
/// More of something than is read.
pub const TOO_MUCH: Code = Code("too-much");
/// A file that speaks of members.
pub const ROSTER_IN_LIBRARY: Code = Code("roster-in-library");
/// A sign that nobody sees.
pub const UNSEEN_SIGN: Code = Code("unseen-sign");
/// Bytes that are not UTF-8.
pub const NOT_UTF8: Code = Code("not-utf8");
/// A file that nothing reads.
pub const STRAY_FILE: Code = Code("stray-file");
/// A movement without its front matter.
pub const NO_FRONT_MATTER: Code = Code("no-front-matter");
/// Text that is not YAML.
pub const YAML_SYNTAX: Code = Code("yaml-syntax");
/// A text that a remark cuts off.
pub const TEXT_CUT_OFF: Code = Code("text-cut-off");
/// A text that its author has not written yet.
pub const STILL_TO_WRITE: Code = Code("still-to-write");
/// A key that means nothing here.
pub const UNKNOWN_KEY: Code = Code("unknown-key");
/// A key written twice.
pub const DUPLICATE_KEY: Code = Code("duplicate-key");
/// A key that must be there.
pub const MISSING_KEY: Code = Code("missing-key");
/// A list where one value belongs, and the like.
pub const WRONG_SHAPE: Code = Code("wrong-shape");
/// A word outside a fixed list.
pub const UNKNOWN_WORD: Code = Code("unknown-word");
/// A quantity that cannot be read.
pub const BAD_QUANTITY: Code = Code("bad-quantity");
/// An id that is not lower-case words and hyphens.
pub const BAD_ID: Code = Code("bad-id");
/// Two entries with one id.
pub const DUPLICATE_ID: Code = Code("duplicate-id");
/// A file where nothing is written.
pub const EMPTY_FILE: Code = Code("empty-file");
/// A logo that is not there or not only a drawing.
pub const LOGO_REFUSED: Code = Code("logo-refused");
/// A library without `club.yaml`.
pub const NO_CLUB: Code = Code("no-club");

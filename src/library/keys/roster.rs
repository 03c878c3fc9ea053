//! The keys of `roster.yaml`, a coach's own file beside the library.
//! Only words; `reader::roster` reads them. No part of a library: a build never reads such a file.

use super::{FileKind, Key, Shape, Table};

const RUNG: Shape = Shape::Whole(1, 300);
const LIMITS: Shape = Shape::Each("traits", &Shape::Whole(1, 2));
const CAUTIONS: Shape = Shape::List(&Shape::Id("caution"));
const SETTINGS: &str = "settings by their names, such as `hands: 60 cm`";

/// The roster: a nickname each, under which nothing may stand yet.
pub static ROSTER: FileKind = FileKind {
    name: "roster",
    home: "roster.yaml, a file of your own beside the library",
    shape: Shape::Each("nicknames", &Shape::Any(&[Shape::Map(&MEMBER), Shape::Nothing])),
};

/// A member.
pub static MEMBER: Table = Table::of(
    "roster member",
    "a member's entry",
    "{trains: home, kit: [chair, towel], rungs: {row: 3}}",
    &[
        Key::may("trains", Shape::Word(crate::library::Trains::WORDS), "home", "Where they train."),
        Key::may(
            "kit",
            Shape::List(&Shape::Id("kit")),
            "[chair, towel]",
            "What they have; a thing twice where they have two. Nothing written: what the hall has.",
        ),
        Key::may(
            "limits",
            LIMITS,
            "{loaded-wrist-extension: 1}",
            "Traits that they leave out, each from this level on.",
        ),
        Key::may("cautions", CAUTIONS, "[sore-wrist]", "Situations, by their cautions."),
        Key::may(
            "today",
            Shape::Map(&OF_TODAY),
            "{day: 2026-11-30, cautions: [painful-shoulder]}",
            "What they leave out on one day alone.",
        ),
        Key::may("with", Shape::Text, "robin", "Whom they work with; the other says so too."),
        Key::may(
            "rungs",
            Shape::Each("ladders", &Shape::Any(&[RUNG, Shape::Map(&OWN_RUNG)])),
            "{row: {rung: 3, was: {movement: strap-row, lean: 37 deg}}}",
            "Their own rungs; `rungbook roster keep` writes down what each is.",
        ),
        Key::may(
            "results",
            Shape::List(&Shape::Map(&RESULT)),
            "[{ladder: row, rung: 3, reps: 12, day: 2026-11-25}]",
            "What they counted in tests; `rungbook roster add` writes it.",
        ),
        Key::may(
            "done",
            Shape::List(&Shape::Map(&DONE)),
            "[{day: 2026-11-30, session: push-and-pull, left-out: [Row]}]",
            "What they did in classes; `rungbook roster done` writes it.",
        ),
    ],
);

/// What is of one day.
pub static OF_TODAY: Table = Table::of(
    "roster today",
    "`today`",
    "{day: 2026-11-30, cautions: [painful-shoulder]}",
    &[
        Key::must("day", Shape::Day, "2026-11-30", "The day; on any other it counts for nothing."),
        Key::may("limits", LIMITS, "{impact: 1}", "Traits that they leave out on that day."),
        Key::may("cautions", CAUTIONS, "[painful-shoulder]", "Situations of that day."),
    ],
);

/// An own rung with what it was.
pub static OWN_RUNG: Table = Table::of(
    "roster rung",
    "an own rung",
    "{rung: 3, was: {movement: strap-row, lean: 37 deg}}",
    &[
        Key::must("rung", RUNG, "3", "Its number, the lowest rung is 1."),
        Key::may("was", WAS_MAP, "{movement: strap-row, lean: 37 deg}", WAS_WHAT),
    ],
);

const WAS_MAP: Shape = Shape::Map(&WAS);
const WAS_WHAT: &str = "What the rung was when it was written down; a ladder may be rewritten.";

/// What a rung was.
pub static WAS: Table = Table::of(
    "roster was",
    "`was`",
    "{movement: strap-row, lean: 37 deg}",
    &[Key::must("movement", Shape::Id("movement"), "strap-row", "The movement of the rung.")],
)
.and(SETTINGS, Shape::AnyQuantity);

/// A result.
pub static RESULT: Table = Table::of(
    "roster result",
    "a result",
    "{ladder: row, rung: 3, reps: 12, day: 2026-11-25}",
    &[
        Key::must("ladder", Shape::Id("ladder"), "row", "The ladder that was tested."),
        Key::must("rung", RUNG, "3", "The rung that was tested, the lowest is 1."),
        Key::may("reps", Shape::Whole(0, 100_000), "12", "Repetitions in one set to the standard."),
        Key::may("seconds", Shape::Whole(0, 100_000), "45", "Seconds, of a rung that is held."),
        Key::must("day", Shape::Day, "2026-11-25", "The day of the test."),
        Key::may("was", WAS_MAP, "{movement: strap-row, lean: 37 deg}", WAS_WHAT),
        Key::may(
            "added",
            Shape::Quantity(crate::library::Unit::Kilogram),
            "5 kg",
            "Weight beyond what the rung says.",
        ),
        Key::may("note", Shape::Text, "slow at the end", "What else there is to say."),
    ],
)
.and(SETTINGS, Shape::AnyQuantity)
.needing(&["reps", "seconds"], true);

/// A class.
pub static DONE: Table = Table::of(
    "roster done",
    "a class that was done",
    "{day: 2026-11-30, session: push-and-pull, did: {Row: \"Strap row, lean 37 deg\"}}",
    &[
        Key::must("day", Shape::Day, "2026-11-30", "The day of the class."),
        Key::must("session", Shape::Id("session"), "push-and-pull", "The session that was taken."),
        Key::may(
            "did",
            Shape::Each("lines", &Shape::Text),
            "{Row: \"Strap row, lean 37 deg\"}",
            "What they did where the session asks for own rungs.",
        ),
        Key::may(
            "left-out",
            Shape::List(&Shape::Text),
            "[Row]",
            "Lines for which nothing fitted them.",
        ),
    ],
);

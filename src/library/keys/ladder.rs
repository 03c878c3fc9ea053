//! The keys of a ladder, and of the doses that ladders and sessions share.
//! Only words; `reader::ladder` and `reader::entry` read them.

use super::movement::SOURCES;
use super::{Key, Shape, Table};
use crate::library::{Change, Unit};

/// A dose, in words or by keys.
pub(super) const DOSED: Shape = Shape::Any(&[Shape::DoseInWords, Shape::Map(&DOSE)]);

/// A ladder.
pub static LADDER: Table = Table::of(
    "ladder",
    "a ladder",
    "{name: Row, goal: Five strict rows, rungs: [{movement: strap-row}]}",
    &[
        Key::must("name", Shape::Text, "Row", "What the ladder is called.").also(&["title"]),
        super::FORMERLY,
        Key::may("goal", Shape::Text, "Five strict rows, feet raised", "What it leads to."),
        Key::may(
            "pattern",
            Shape::Id("pattern"),
            "pull-horizontal",
            "The pattern of its work; it says what the rungs are measured by.",
        ),
        Key::may("about", Shape::Text, "From leaning back to hanging", "A sentence or two on it.")
            .also(&["description"]),
        Key::may(
            "moves-up",
            Shape::Text,
            "Two extra repetitions in the last set, two sessions running",
            "When somebody goes one rung up.",
        ),
        Key::may(
            "moves-down",
            Shape::Text,
            "Two faulty repetitions running",
            "When somebody goes one rung down.",
        ),
        Key::may(
            "test",
            Shape::Map(&TEST),
            "{rung: 2, count: Repetitions in one set, stop: Two faulty ones running}",
            "How to find somebody's rung.",
        ),
        Key::may(
            "dose",
            DOSED,
            "{sets: 3, reps: 6-10, rest: 90 s}",
            "The dose of every rung that has none of its own.",
        )
        .also(&["volume"]),
        Key::may(
            "rungs",
            Shape::List(&Shape::Map(&RUNG)),
            "[{movement: strap-row, lean: 15 deg}]",
            "The rungs, the lowest demand first, one change a step.",
        )
        .also(&["steps", "levels", "progressions"]),
        Key::may("sources", SOURCES, "[common-practice]", "Where it is from, by ids of sources.")
            .also(&["source"]),
    ],
);

/// The test of a ladder.
pub static TEST: Table = Table::of(
    "ladder test",
    "`test`",
    "{rung: 2, count: Repetitions in one set, stop: Two faulty ones running}",
    &[
        Key::must(
            "rung",
            Shape::Whole(0, 1000),
            "2",
            "On which rung everybody is tested, counted from 1.",
        )
        .also(&["step", "level"]),
        Key::may(
            "count",
            Shape::Text,
            "Repetitions in one set to the standard",
            "What is counted.",
        )
        .also(&["counts"]),
        Key::may("stop", Shape::Text, "Two faulty repetitions running", "When the test is over."),
    ],
);

/// A rung of a ladder.
pub static RUNG: Table = Table::of(
    "ladder rung",
    "a rung",
    "{movement: strap-row, lean: 45 deg, changes: share}",
    &[
        Key::must("movement", Shape::Id("movement"), "strap-row", "The movement.")
            .also(&["id", "move", "exercise"]),
        Key::may(
            "changes",
            Shape::Word(Change::WORDS),
            "share",
            "The one thing that differs from the rung below.",
        )
        .also(&["change"]),
        Key::may(
            "because",
            Shape::Text,
            "More of you hangs from the straps",
            "Why that asks more.",
        )
        .also(&["why"]),
        Key::may("dose", DOSED, "3 x 6-10", "A dose of its own."),
    ],
)
.and("the movement's settings, each with a value", Shape::AnyQuantity);

/// A dose.
pub static DOSE: Table =
    Table::of(
        "dose",
        "a dose",
        "{sets: 3, reps: 6-10, rest: 90 s}",
        &[
            Key::may("sets", Shape::Count(""), "3", "How many sets.").also(&["set", "rounds"]),
            Key::may("reps", Shape::Count(""), "6-10", "Repetitions in a set.")
                .also(&["repetitions", "rep"]),
            Key::may("seconds", Shape::Count("s"), "20", "Seconds in a set, for what is held.")
                .also(&["time", "hold", "secs"]),
            Key::may("metres", Shape::Count("m"), "15", "Metres in a set, for what is carried.")
                .also(&["meters", "distance"]),
            Key::may("contacts", Shape::Count(""), "20", "Landings in a set, for jumps."),
            Key::may("rest", Shape::Quantity(Unit::Second), "90 s", "Rest between two sets.")
                .also(&["pause"]),
            Key::may("per-side", Shape::Truth, "true", "Whether the count is for each side.")
                .also(&["each-side", "per-leg", "per-arm"]),
        ],
    );

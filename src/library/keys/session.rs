//! The keys of sessions and cycles.
//! Only words; `reader::session` reads them.

use super::ladder::DOSED;
use super::movement::SOURCES;
use super::{Key, Shape, Table};
use crate::library::{Format, Spread, Unit, WeekKind};

const TIME: Shape = Shape::Quantity(Unit::Second);
const ITEMS: Shape = Shape::List(&Shape::Map(&ITEM));
const WEEKDAYS: &[&str] =
    &["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

/// A session.
pub static SESSION: Table = Table::of(
    "session",
    "a session",
    "{name: Push and pull, length: 60 min, blocks: [...]}",
    &[
        Key::must("name", Shape::Text, "Push and pull", "What the session is called.")
            .also(&["title"]),
        super::FORMERLY,
        Key::may(
            "focus",
            Shape::Id("pattern"),
            "push-horizontal",
            "The pattern that it works most.",
        ),
        Key::may("length", TIME, "60 min", "How long the whole hour may take.")
            .also(&["duration", "time"]),
        Key::may(
            "about",
            Shape::Text,
            "Rows first, while hands are fresh",
            "A sentence or two on it.",
        )
        .also(&["description"]),
        Key::may("written", Shape::Day, "2026-11-02", "The day on which it was written.")
            .also(&["date"]),
        Key::may(
            "blocks",
            Shape::List(&Shape::Map(&BLOCK)),
            "[{name: Rows, format: timed-sets, window: 12 min, items: [{ladder: row}]}]",
            "Its parts, in order; a first one with `warm` in its name is the warm-up.",
        )
        .also(&["block", "parts"]),
        Key::may("sources", SOURCES, "[common-practice]", "Where it is from, by ids of sources.")
            .also(&["source"]),
    ],
);

/// A block of a session.
pub static BLOCK: Table = Table::of(
    "session block",
    "a block",
    "{name: Rows, format: timed-sets, window: 12 min, items: [{ladder: row}]}",
    &[
        Key::must("name", Shape::Text, "Rows", "What the block is called.").also(&["title"]),
        Key::may("for", Shape::Text, "Pulling strength", "What it is for.").also(&["purpose"]),
        Key::may("format", Shape::Word(Format::WORDS), "timed-sets", "How its clock runs.")
            .also(&["type", "kind"]),
        Key::may(
            "spread",
            Shape::Word(Spread::WORDS),
            "stations",
            "How a class goes through its lines; the board chooses if left out.",
        ),
        Key::may("rounds", Shape::Count(""), "3", "How many rounds.").also(&["sets"]),
        Key::may("window", TIME, "12 min", "The time in which all of it is done.")
            .also(&["time", "minutes", "duration"]),
        Key::may("work", TIME, "40 s", "Work of one interval."),
        Key::may("rest", TIME, "20 s", "Rest after each interval, set or round."),
        Key::may("from", Shape::Whole(0, 1000), "10", "Where a count that goes down starts."),
        Key::may("to", Shape::Whole(0, 1000), "1", "Where it ends."),
        Key::may("cap", TIME, "10 min", "When it ends, whoever is finished."),
        Key::may(
            "items",
            ITEMS,
            "[{ladder: row}, {movement: plank, dose: 2 x 20 s}]",
            "What is done, in order.",
        )
        .also(&["movements", "exercises"]),
    ],
);

/// A line of a block.
pub static ITEM: Table = Table::of(
    "session item",
    "an item",
    "{ladder: row, dose: 4 x 6-8}",
    &[
        Key::may("ladder", Shape::Id("ladder"), "row", "A ladder: everybody does their own rung."),
        Key::may(
            "movement",
            Shape::Id("movement"),
            "plank",
            "A movement: everybody does the same.",
        )
        .also(&["exercise"]),
        Key::may("below", Shape::Whole(0, 1000), "1", "So many rungs below the own one."),
        Key::may(
            "options",
            Shape::List(&Shape::Same("session item")),
            "[{movement: plank}, {movement: dead-bug}]",
            "Any one of these.",
        ),
        Key::may(
            "for",
            Shape::Text,
            "who has no anchor at home",
            "For whom, or for what, this line is.",
        )
        .also(&["note"]),
        Key::may("dose", DOSED, "4 x 6-8", "How much.").also(&["sets", "reps"]),
        Key::may("rest", TIME, "60 s", "Rest after each set."),
    ],
)
.needing(&["ladder", "movement", "options"], true)
.and("the movement's settings, each with a value", Shape::AnyQuantity);

/// A cycle.
pub static CYCLE: Table = Table::of(
    "cycle",
    "a cycle",
    "{name: Six weeks, focus: [row], days: [tuesday], weeks: [...]}",
    &[
        Key::must("name", Shape::Text, "Six weeks, push and pull", "What the cycle is called.")
            .also(&["title"]),
        super::FORMERLY,
        Key::may(
            "about",
            Shape::Text,
            "Test, build, go lighter, test again",
            "A sentence or two on it.",
        )
        .also(&["description"]),
        Key::may(
            "focus",
            Shape::List(&Shape::Id("ladder")),
            "[push-up, row]",
            "The ladders that rise; the plan is made for each.",
        )
        .also(&["ladders"]),
        Key::may(
            "days",
            Shape::List(&Shape::Word(WEEKDAYS)),
            "[tuesday, thursday]",
            "The training days; the first session of a week is on the first of them.",
        )
        .also(&["day"]),
        Key::may(
            "starts",
            Shape::Day,
            "2027-01-05",
            "The first day; without it there is no calendar.",
        )
        .also(&["start", "date"]),
        Key::may(
            "weeks",
            Shape::List(&Shape::Map(&WEEK)),
            "[{week: 1, kind: test, sessions: [test-day]}]",
            "Its weeks, in order.",
        )
        .also(&["week"]),
        Key::may("sources", SOURCES, "[common-practice]", "Where it is from, by ids of sources.")
            .also(&["source"]),
    ],
);

/// A week of a cycle.
pub static WEEK: Table = Table::of(
    "cycle week",
    "a week",
    "{week: 1, kind: test, sessions: [test-day, legs-and-trunk]}",
    &[
        Key::must("week", Shape::Whole(0, 1000), "1", "Its number, counted from 1.")
            .also(&["number"]),
        Key::may("kind", Shape::Word(WeekKind::WORDS), "build", "What the week is for.")
            .also(&["type"]),
        Key::may(
            "sessions",
            Shape::List(&Shape::Id("session")),
            "[push-and-pull, legs-and-trunk]",
            "Its sessions, in the order of the days.",
        )
        .also(&["session"]),
        Key::may("note", Shape::Text, "Stay on the rung", "A word to everybody.").also(&["notes"]),
    ],
);

//! The keys of a movement's front matter.
//! Only words; `reader::movement` reads them.

use super::{Key, Shape, Table};
use crate::library::{Counts, Harder, Noise, Plane, Purpose, Sides, Unit};

const TEXTS: Shape = Shape::List(&Shape::Text);
const TRAITS: Shape = Shape::Each("traits", &Shape::Any(&[LEVEL, AT, Shape::List(&AT)]));
const LEVEL: Shape = Shape::Whole(0, 2);
const AT: Shape = Shape::Map(&TRAIT_LEVEL);

/// Kit that is needed: all of the list, any of a list inside it.
pub(super) const KIT_NEEDED: Shape =
    Shape::List(&Shape::Any(&[Shape::Id("kit"), Shape::List(&Shape::Id("kit"))]));
/// Ids of `words/sources.yaml`.
pub(super) const SOURCES: Shape = Shape::List(&Shape::Id("source"));
/// Traits, each with a bare level.
pub(super) const LEVELS: Shape = Shape::Each("traits", &LEVEL);

/// A movement.
pub static MOVEMENT: Table = Table::of(
    "movement",
    "the front matter",
    "{name: Strap row, pattern: pull-horizontal, traits: {strong-grip: 1}}",
    &[
        Key::must("name", Shape::Text, "Strap row", "What the movement is called on every page.")
            .also(&["title"]),
        Key::may(
            "aliases",
            TEXTS,
            "[suspended row, body row]",
            "Other names that people search by.",
        )
        .also(&["also-said", "also", "synonyms"]),
        super::FORMERLY,
        Key::must(
            "pattern",
            Shape::Id("pattern"),
            "pull-horizontal",
            "What kind of work it is; the folder that holds the file has the same name.",
        )
        .also(&["category", "group"]),
        Key::may(
            "purpose",
            Shape::Word(Purpose::WORDS),
            "strength",
            "What it trains; a swap stays with the same purpose where it can.",
        )
        .also(&["goal", "quality"]),
        Key::may(
            "counts",
            Shape::Word(Counts::WORDS),
            "reps",
            "What is counted; reps if left out.",
        )
        .also(&["count", "measure"]),
        Key::may(
            "sides",
            Shape::Word(Sides::WORDS),
            "together",
            "Both sides at once, each side for itself, or turn by turn; together if left out.",
        )
        .also(&["side"]),
        Key::may(
            "plane",
            Shape::Word(Plane::WORDS),
            "sagittal",
            "Forward and back (sagittal), sideways (frontal) or turning (transverse).",
        ),
        Key::may(
            "muscles",
            Shape::Map(&MUSCLES),
            "{prime: [lats, biceps], assist: [grip]}",
            "Which muscles work.",
        )
        .also(&["muscle"]),
        Key::may(
            "kit",
            KIT_NEEDED,
            "[[straps, rings], mat]",
            "All that is needed; a list inside the list is any one of these. `[]` for nothing.",
        )
        .also(&["equipment", "gear", "tools"]),
        Key::may(
            "settings",
            Shape::Each("settings", &Shape::Map(&SETTING)),
            "{lean: {unit: deg, from: 15, to: 75, usual: 45}}",
            "What can be adjusted, by names that you choose: a height, a lean, a weight.",
        )
        .also(&["setting"]),
        Key::may(
            "traits",
            TRAITS,
            "{strong-grip: 1, balance: 2}",
            "What in it can hurt someone: 1 is some, 2 a lot. It must be written, `{}` for none: \
             limits leave out by it.",
        )
        .also(&["risks", "trait"]),
        Key::may(
            "changes",
            Shape::List(&Shape::Any(&[Shape::Id("change"), Shape::Map(&CHANGE_HERE)])),
            "[fists, breathe-out]",
            "Ways in which a trait is taken out or lessened here, what is tried first in front.",
        )
        .also(&["change", "modifications"]),
        Key::may(
            "room",
            Shape::Map(&ROOM),
            "{length: 2 m, width: 1 m, noise: quiet}",
            "The floor it takes, and how loud it is.",
        )
        .also(&["space"]),
        Key::may(
            "pace",
            Shape::Quantity(Unit::Second),
            "3 s",
            "The time that one repetition takes.",
        )
        .also(&["tempo"]),
        Key::may(
            "standard",
            Shape::Text,
            "Arms straight, then hands to ribs; shoulders to heels one line.",
            "What counts as one repetition.",
        ),
        Key::may(
            "cues",
            Shape::List(&Shape::Any(&[Shape::Text, Shape::Map(&CUE)])),
            "[{say: Elbows to back pockets, when: pulling}]",
            "What the coach says, in few words, the best first.",
        )
        .also(&["cue"]),
        Key::may(
            "faults",
            Shape::List(&Shape::Map(&FAULT)),
            "[{fault: hips-sag, then: rung below}]",
            "What goes wrong, and what to do then.",
        )
        .also(&["fault", "mistakes", "errors"]),
        Key::may(
            "caution",
            Shape::Text,
            "Hang your whole weight on the anchor before the first repetition.",
            "One line to read before moving.",
        )
        .also(&["warning", "safety"]),
        Key::may(
            "beside",
            Shape::List(&Shape::Map(&BESIDE)),
            "[{to: towel-row, because: no straps}]",
            "Movements that do the same work another way and that no ladder joins.",
        )
        .also(&["alternatives", "swaps", "related"]),
        Key::may(
            "figure",
            Shape::Pose,
            "{start: {feet: floor}, end: {feet: floor, knee: 100}}",
            "The pose, in words; from it come the picture and the demand. `rungbook explain pose`.",
        )
        .also(&["pose", "picture"]),
        Key::may(
            "no-figure",
            Shape::Text,
            "A walk, which no pose tells",
            "Why there is no picture, where there is none.",
        ),
        Key::may("sources", SOURCES, "[common-practice]", "Where it is from, by ids of sources.")
            .also(&["source", "references"]),
        Key::may(
            "id",
            Shape::Text,
            "strap-row",
            "Only to be compared with the file's name, which is the id.",
        ),
    ],
);

/// Muscles of a movement.
pub static MUSCLES: Table = Table::of(
    "movement muscles",
    "`muscles`",
    "{prime: [lats, biceps], assist: [grip]}",
    &[
        Key::may(
            "prime",
            Shape::List(&Shape::Id("muscle")),
            "[lats, biceps]",
            "What does the work, the hardest working first.",
        )
        .also(&["primary", "main"]),
        Key::may("assist", Shape::List(&Shape::Id("muscle")), "[grip]", "What helps.")
            .also(&["secondary", "assisting"]),
    ],
);

/// A setting of a movement.
pub static SETTING: Table = Table::of(
    "movement setting",
    "a setting",
    "{unit: cm, from: 30, to: 105, usual: 60, harder: less}",
    &[
        Key::may("unit", Shape::Word(Unit::WORDS), "cm", "The unit of its numbers."),
        Key::must("from", Shape::OfSetting, "30", "The lowest value, in the unit.").also(&["min"]),
        Key::must("to", Shape::OfSetting, "105", "The highest value, in the unit.").also(&["max"]),
        Key::may("usual", Shape::OfSetting, "60", "Where most people start; the picture shows it.")
            .also(&["default"]),
        Key::may("harder", Shape::Word(Harder::WORDS), "less", "Which way asks more of the body."),
        Key::may(
            "means",
            Shape::Text,
            "Height of the edge the hands are on",
            "What is measured, in words.",
        )
        .also(&["meaning", "about"]),
        Key::may(
            "each-hand",
            Shape::Truth,
            "true",
            "One in each hand: the first thing under `kit` is taken twice, both of the same kind.",
        )
        .also(&["both-hands", "in-each-hand"]),
    ],
);

/// A level of a trait that depends on a setting, or that has a reason.
pub static TRAIT_LEVEL: Table = Table::of(
    "movement trait level",
    "a trait's level",
    "{level: 2, box: up to 45 cm}",
    &[
        Key::must("level", LEVEL, "2", "0 none, 1 some, 2 a lot."),
        Key::may(
            "because",
            Shape::Text,
            "the hand only rests there",
            "Why it is less than the drawn pose shows.",
        ),
    ],
)
.and("the settings of the movement, for where this level holds", Shape::Reach);

/// A change with what is particular in one movement.
pub static CHANGE_HERE: Table = Table::of(
    "movement change",
    "a change",
    "{use: fists, how: Fists on a folded towel}",
    &[
        Key::must("use", Shape::Id("change"), "fists", "Which change of words/changes.yaml."),
        Key::may("how", Shape::Text, "Fists on a folded towel", "How it is done here."),
        Key::may(
            "leaves",
            LEVELS,
            "{loaded-wrist-extension: 0}",
            "What remains of each trait here.",
        ),
        Key::may(
            "eases",
            Shape::List(&Shape::Id("trait")),
            "[balance]",
            "Traits from which it takes one level off here.",
        ),
        Key::may("brings", LEVELS, "{strong-grip: 1}", "Traits that it brings in here."),
        Key::may(
            "takes",
            Shape::List(&Shape::Text),
            "[weight]",
            "Settings that it takes away here, and that are then not said.",
        ),
        Key::may(
            "kit",
            KIT_NEEDED,
            "[[dumbbell, stick]]",
            "Kit that it needs besides the movement's.",
        ),
    ],
);

/// The room that a movement takes.
pub static ROOM: Table = Table::of(
    "movement room",
    "`room`",
    "{length: 2 m, width: 1 m, noise: quiet}",
    &[
        Key::may("length", Shape::Quantity(Unit::Metre), "2 m", "How long the free floor must be."),
        Key::may("width", Shape::Quantity(Unit::Metre), "1 m", "How wide it must be."),
        Key::may("height", Shape::Quantity(Unit::Metre), "2.4 m", "How high the ceiling must be."),
        Key::may("noise", Shape::Word(Noise::WORDS), "quiet", "How loud it is for those below."),
    ],
);

/// A cue.
pub static CUE: Table = Table::of(
    "movement cue",
    "a cue",
    "{say: Elbows to back pockets, when: pulling}",
    &[
        Key::must("say", Shape::Text, "Elbows to back pockets", "The words; ten at most.")
            .also(&["cue", "text"]),
        Key::may("when", Shape::Text, "pulling", "The moment at which they help."),
    ],
);

/// A fault in a movement.
pub static FAULT: Table = Table::of(
    "movement fault",
    "a fault",
    "{see: Shoulders shrug, cause: Too much lean, say: Long neck, then: lean less}",
    &[
        Key::may(
            "fault",
            Shape::Id("fault"),
            "hips-sag",
            "Which fault of words/faults.yaml; what is not written here is taken from there.",
        )
        .also(&["use", "id"]),
        Key::may("see", Shape::Text, "Shoulders shrug", "What the coach sees."),
        Key::may("cause", Shape::Text, "Too much lean for today", "The likely cause here.")
            .also(&["causes", "why"]),
        Key::may("say", Shape::Text, "Long neck", "The cue that mends it.").also(&["cue"]),
        Key::may(
            "then",
            Shape::Text,
            "\"lean less, stand taller\"",
            "What to do if it stays: `rung below`, `stop`, a movement, or a setting with `less`, \
             `more` or a value; words of your own after a comma.",
        )
        .also(&["do", "fix"]),
    ],
)
.needing(&["fault", "see"], false);

/// A link to a movement beside this one.
pub static BESIDE: Table = Table::of(
    "movement beside",
    "a link to a movement beside this one",
    "{to: towel-row, because: no straps}",
    &[
        Key::must("to", Shape::Id("movement"), "towel-row", "The other movement.")
            .also(&["movement"]),
        Key::may("because", Shape::Text, "no straps", "When somebody takes it instead.")
            .also(&["why", "when"]),
    ],
);

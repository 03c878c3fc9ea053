//! The keys of `words/`: kit, traits, changes, cautions, faults, patterns, muscles, sources, synonyms.
//! Only words; `reader::words`, `reader::traits` and `reader::fault` read them.

use super::movement::{KIT_NEEDED, LEVELS, SOURCES};
use super::{Key, Shape, Table};
use crate::library::{KitKind, ReadMark};

const TEXTS: Shape = Shape::List(&Shape::Text);
const FROM: Shape = Shape::Whole(1, 2);

const fn name(example: &'static str) -> Key {
    Key::may("name", Shape::Text, example, "The name shown; the id if left out.").also(&["title"])
}

const fn also_said(example: &'static str) -> Key {
    Key::may("also-said", TEXTS, example, "What people type when they mean it.")
        .also(&["aliases", "also", "synonyms"])
}

const fn about(example: &'static str) -> Key {
    Key::may("about", Shape::Text, example, "What it is, in a sentence or two.")
        .also(&["description"])
}

const fn sources() -> Key {
    Key::may("sources", SOURCES, "[common-practice]", "Where it is from, by ids of sources.")
        .also(&["source", "references"])
}

const fn source_of_row() -> Key {
    Key::may("source", Shape::Id("source"), "common-practice", "What this rests on.")
        .also(&["sources"])
}

/// A piece of kit.
pub static KIT: Table = Table::of(
    "kit",
    "a piece of kit",
    "{name: Straps, kind: hall, check: Hang your whole weight from both}",
    &[
        name("Straps"),
        super::FORMERLY,
        Key::may(
            "kind",
            Shape::Word(KitKind::WORDS),
            "hall",
            "Who has it: the hall, a household, or everybody anywhere.",
        ),
        about("A pair of straps with handles, hung from one anchor overhead"),
        Key::may(
            "check",
            Shape::Text,
            "Hang your whole weight from both handles, knees bent",
            "What to check before it carries anybody.",
        ),
        Key::may("quick", Shape::Text, "No straps", "The button on the floor for who lacks it."),
        Key::may("hazards", TEXTS, "[An anchor that shifts]", "What can go wrong with it."),
        Key::may(
            "never",
            Shape::List(&Shape::Map(&NEVER)),
            "[{what: A door top, because: the edge cuts the grip}]",
            "What looks as if it would serve and must not be used.",
        ),
        Key::may("aliases", TEXTS, "[suspension straps]", "Other names that people search by.")
            .also(&["also-said", "also"]),
        sources(),
    ],
);

/// What must never be used.
pub static NEVER: Table = Table::of(
    "kit never",
    "what must never be used",
    "{what: A door top, because: the edge cuts the grip}",
    &[
        Key::may("what", Shape::Text, "A door top", "The thing."),
        Key::may("because", Shape::Text, "the edge cuts the grip", "Why not.").also(&["why"]),
    ],
);

/// A trait.
pub static TRAIT: Table = Table::of(
    "trait",
    "a trait",
    "{name: Arms overhead, avoid: No arms overhead}",
    &[
        name("Arms overhead"),
        Key::may("plain", Shape::Text, "Arms above the head", "The same in everyday words."),
        Key::may("avoid", Shape::Text, "No arms overhead", "The limit, as a member ticks it."),
        about("The hands work above shoulder height, pushing, hanging or reaching"),
        Key::may(
            "effort",
            FROM,
            "1",
            "From how many levels more on it is harder work: where no number compares, no swap has them.",
        ),
        also_said("[can't reach up, no hanging]"),
        sources(),
    ],
);

/// A change.
pub static CHANGE: Table = Table::of(
    "change",
    "a change",
    "{name: on fists, how: Stand on your fists, part: hands, leaves: {loaded-wrist-extension: 0}}",
    &[
        name("on fists"),
        Key::may(
            "how",
            Shape::Text,
            "Stand on your fists, wrists straight",
            "How it is done, said to whoever does it.",
        ),
        Key::may(
            "part",
            Shape::Text,
            "hands",
            "What of the body or of the doing it changes; two changes of one part are never made \
             together.",
        ),
        Key::may(
            "leaves",
            LEVELS,
            "{loaded-wrist-extension: 0}",
            "What remains of each trait, at the most.",
        ),
        Key::may(
            "eases",
            Shape::List(&Shape::Id("trait")),
            "[balance]",
            "Traits from which it takes one level off.",
        ),
        Key::may("brings", LEVELS, "{strong-grip: 1}", "Traits that it brings in."),
        Key::may(
            "takes",
            Shape::List(&Shape::Text),
            "[weight]",
            "Settings that it takes away, and that are then not said.",
        ),
        Key::may(
            "kit",
            KIT_NEEDED,
            "[[handles, dumbbell]]",
            "Kit that it needs besides the movement's.",
        ),
        Key::may(
            "with",
            Shape::List(&Shape::Id("change")),
            "[wider-stance]",
            "Changes of the same part that may be made together with it.",
        ),
        sources(),
    ],
);

/// A caution.
pub static CAUTION: Table = Table::of(
    "caution",
    "a caution",
    "{name: Sore wrist, change: [{trait: loaded-wrist-extension, from: 1, how: Fists or handles}]}",
    &[
        name("Sore wrist"),
        super::FORMERLY,
        also_said("[wrist hurts, bad wrist]"),
        Key::may(
            "keeps",
            Shape::Text,
            "All leg work, and pulling with a straight wrist",
            "What stays, so that nobody gives up more than they must.",
        ),
        Key::may(
            "start",
            Shape::Any(&[LOWEST, Shape::Map(&START)]),
            "lowest",
            "Starts whoever has no result yet on the lowest rung.",
        ),
        Key::may(
            "leave-out",
            Shape::List(&Shape::Map(&PRECAUTION)),
            "[{trait: impact, from: 2, because: Big landings wait}]",
            "Traits that are left out from a level on.",
        )
        .also(&["avoid", "leave"]),
        Key::may(
            "change",
            Shape::List(&Shape::Map(&PRECAUTION)),
            "[{trait: balance, from: 1, how: A hand on the wall}]",
            "Traits that are changed from a level on, with how.",
        )
        .also(&["changes"]),
        Key::may(
            "says",
            Shape::Text,
            "Take the bend out of the wrist first",
            "What the coach says.",
        ),
        Key::may(
            "clinician",
            Shape::Text,
            "Ask after a fall on the hand",
            "When to ask somebody with a licence.",
        )
        .also(&["doctor"]),
        Key::may(
            "emergency",
            Shape::List(&Shape::Map(&EMERGENCY)),
            "[{sign: Chest pain, do: Ring the emergency number now}]",
            "Signs at which help is fetched at once, with what to do.",
        ),
        Key::may("stop", TEXTS, "[Sharp pain in the wrist]", "Signs at which to stop for the day."),
        sources(),
    ],
);

const LOWEST: Shape = Shape::Word(&["lowest"]);

/// Where somebody starts of whom nothing is known.
pub static START: Table = Table::of(
    "caution start",
    "`start`",
    "{rung: lowest, source: common-practice, because: Who was not training begins light}",
    &[
        Key::must("rung", LOWEST, "lowest", "Always `lowest`."),
        Key::may("because", Shape::Text, "Who was not training begins light", "The reason.")
            .also(&["why"]),
        source_of_row(),
    ],
);

/// A row of `leave-out` or `change`.
pub static PRECAUTION: Table = Table::of(
    "caution row",
    "a precaution",
    "{trait: impact, from: 1, how: Step instead of jumping}",
    &[
        Key::must("trait", Shape::Id("trait"), "impact", "Which trait."),
        Key::may("from", FROM, "1", "From which level on: 1 takes all of it, 2 only a lot.")
            .also(&["level"]),
        Key::may(
            "how",
            Shape::Text,
            "Step instead of jumping",
            "What to do where no entry says better.",
        ),
        Key::may("because", Shape::Text, "Every landing is carried there", "The reason.")
            .also(&["why"]),
        source_of_row(),
    ],
);

/// A sign at which help is fetched.
pub static EMERGENCY: Table = Table::of(
    "caution emergency",
    "an emergency sign",
    "{sign: Chest pain, do: Ring the emergency number now}",
    &[
        Key::must("sign", Shape::Text, "Chest pain", "What is seen or felt."),
        Key::must("do", Shape::Text, "Ring the emergency number now", "What to do at once.")
            .also(&["then", "act"]),
        source_of_row(),
    ],
);

const SEE: Key = Key::may("see", Shape::Text, "Hips sag below the line", "What the coach sees.");
const CAUSES: Key = Key::may(
    "causes",
    TEXTS,
    "[The brace is lost, Held too long]",
    "Likely causes, the likeliest first.",
)
.also(&["cause"]);
const SAY: Key = Key::may("say", Shape::Text, "Move like a plank", "The cue that mends it.")
    .also(&["cue", "says"]);
const THEN: Key = Key::may(
    "then",
    Shape::Text,
    "rung below",
    "What to do if it stays, as in a movement's `faults`.",
);

/// A fault that several movements share.
pub static KNOWN_FAULT: Table = Table::of(
    "fault",
    "a fault of the catalogue",
    "{name: Hips sag, see: Hips sag below the line, say: Move like a plank}",
    &[
        name("Hips sag"),
        super::FORMERLY,
        SEE,
        also_said("[belly drops, back sags]"),
        CAUSES,
        SAY,
        THEN,
        Key::may(
            "patterns",
            Shape::Each("patterns", &Shape::Map(&FAULT_IN)),
            "{squat: {say: Spread the floor}}",
            "What differs in one pattern.",
        ),
        sources(),
    ],
);

/// What differs of a fault in one pattern.
pub static FAULT_IN: Table = Table::of(
    "fault in a pattern",
    "a fault in one pattern",
    "{say: Spread the floor}",
    &[SEE, CAUSES, SAY, THEN],
);

/// A pattern.
pub static PATTERN: Table = Table::of(
    "pattern",
    "a pattern",
    "{name: Squat, prime: [quadriceps, glutes], near: {single-leg: 0.7}}",
    &[
        name("Squat"),
        about("Sitting down and standing up on two feet"),
        Key::may(
            "prime",
            Shape::List(&Shape::Id("muscle")),
            "[quadriceps, glutes]",
            "What does the work.",
        )
        .also(&["muscles"]),
        Key::may(
            "near",
            Shape::Each("patterns", &Shape::Number(0.0, 1.0)),
            "{single-leg: 0.7}",
            "Patterns that do some of the same work, each with its share from 0 to 1.",
        ),
    ],
);

/// A muscle.
pub static MUSCLE: Table = Table::of(
    "muscle",
    "a muscle",
    "{name: Lats, plain: broad back, where: From the low back up to the armpit}",
    &[
        name("Lats"),
        Key::may("plain", Shape::Text, "broad back", "The same in everyday words."),
        Key::may("where", Shape::Text, "From the low back up to the armpit", "Where it is found."),
        also_said("[latissimus, wings]"),
    ],
);

/// A source.
pub static SOURCE: Table = Table::of(
    "source",
    "a source",
    "{title: Measured push-ups, year: 2011, read: abstract}",
    &[
        Key::may("authors", Shape::Text, "Wren A, Finch B", "Who wrote it.").also(&["author"]),
        Key::may("title", Shape::Text, "Measured push-ups", "Its title.").also(&["name"]),
        Key::may("body", Shape::Text, "A journal of training", "The journal, publisher or office.")
            .also(&["journal", "publisher"]),
        Key::may("year", Shape::Text, "2011", "The year.").also(&["date"]),
        Key::may(
            "at",
            Shape::Text,
            "\"25(10):2891-2894\"",
            "Volume and pages, or the page on the web.",
        )
        .also(&["url", "pages", "link"]),
        Key::may("doi", Shape::Text, "\"10.1000/182\"", "Its DOI."),
        Key::may("number", Shape::Text, "\"804\"", "The number of a guideline or report."),
        Key::may("read", Shape::Word(ReadMark::WORDS), "abstract", "How much of it was read."),
        Key::may(
            "supports",
            Shape::Text,
            "Hands at 61 cm carry 41 % of body mass",
            "What it says that the library uses.",
        ),
        Key::may("doubts", Shape::Text, "Young men only", "What speaks against leaning on it."),
    ],
);

/// Words that mean the same.
pub static SYNONYMS: Table = Table::of(
    "synonyms",
    "this file",
    "{same: [[push-up, press-up], [abs, core]]}",
    &[Key::may(
        "same",
        Shape::List(&TEXTS),
        "[[push-up, press-up], [abs, core]]",
        "Groups of words that a search takes as one.",
    )],
);

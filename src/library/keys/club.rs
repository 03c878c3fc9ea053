//! The keys of `club.yaml`.
//! Only words; `reader::club` reads them.

use super::{Key, Shape, Table};

const TEXTS: Shape = Shape::List(&Shape::Text);
const ANY_NUMBER: Shape = Shape::Whole(0, 100_000);

/// The club.
pub static CLUB: Table = Table::of(
    "club",
    "the club",
    "{name: Our club, language: en-GB, caution-line: Ask your clinician first}",
    &[
        Key::must("name", Shape::Text, "Our club", "The name shown on every page.")
            .also(&["title", "club"]),
        Key::may(
            "format",
            Shape::Whole(1, 100),
            "1",
            "The form of the library's files; 1 if left out. `rungbook --version` says which is read.",
        ),
        Key::may("about", Shape::Text, "A village-hall strength club", "What the club is.")
            .also(&["description"]),
        Key::may(
            "language",
            Shape::Language,
            "en-GB",
            "The language of the library as a BCP 47 tag, such as `en`, `en-GB` or `de`.",
        )
        .also(&["lang"]),
        Key::may(
            "address",
            Shape::Address,
            "https://club.example/book/",
            "Where the site will stand; only the map for search engines needs it.",
        )
        .also(&["url", "site", "website"]),
        Key::may(
            "logo",
            Shape::Text,
            "logo.svg",
            "A drawing (SVG) beside club.yaml, for the head of every page and for the home screen.",
        )
        .also(&["icon", "picture"]),
        Key::may(
            "colours",
            Shape::Map(&COLOURS),
            "{light: \"#1f4e79\", dark: \"#8ab4e8\"}",
            "The club's own accent: links, numbers and what is chosen.",
        )
        .also(&["colors", "colour", "color", "theme"]),
        Key::may(
            "caution-line",
            Shape::Text,
            "General education, not medical advice",
            "The line on every page that tells somebody to move.",
        )
        .also(&["caution"]),
        Key::may(
            "stop-signs",
            TEXTS,
            "[Chest pain, Confusion]",
            "When to stop at once and get help.",
        )
        .also(&["stop"]),
        Key::may(
            "stop-signs-also-said",
            TEXTS,
            "[chest tight, breathless]",
            "What people type of a stop sign; whoever searches for it is shown the signs first.",
        ),
        Key::may(
            "hall",
            Shape::Map(&HALL),
            "{kit: {straps: 4, box: 2}, room: 12 m x 8 m}",
            "What stands in the hall, and how big it is.",
        ),
        Key::may(
            "usual-kits",
            Shape::Each("kits", &Shape::List(&Shape::Id("kit"))),
            "{nothing: [], chair and stairs: [chair, stairs]}",
            "Kits that people usually have, by the words for them.",
        )
        .also(&["kits"]),
        Key::may(
            "quick-limits",
            TEXTS,
            "[No bar, Sore wrist]",
            "Which limits the floor shows first.",
        ),
        Key::may(
            "findings",
            Shape::Map(&FINDINGS),
            "{off: [{code: cue-too-long, because: Our cues rhyme}]}",
            "Advice that the club has switched off.",
        ),
        Key::may(
            "repetitions-across-rungs",
            Shape::Map(&ACROSS_RUNGS),
            "{factor: 0.74, give-or-take: 0.21}",
            "How repetitions carry over between rungs here; `rungbook roster relate` prints it.",
        ),
    ],
);

/// The club's colours.
pub static COLOURS: Table = Table::of(
    "club colours",
    "`colours`",
    "{light: \"#1f4e79\", dark: \"#8ab4e8\"}",
    &[
        Key::must("light", Shape::Colour, "\"#1f4e79\"", "On the light page: a dark one."),
        Key::must("dark", Shape::Colour, "\"#8ab4e8\"", "On the dark page: a light one."),
    ],
);

/// The hall.
pub static HALL: Table = Table::of(
    "club hall",
    "`hall`",
    "{kit: {straps: 4, box: 2}, room: 12 m x 8 m}",
    &[
        Key::may("room", Shape::Text, "12 m x 8 m", "The floor, in words.").also(&["size"]),
        Key::may(
            "kit",
            Shape::Each("kit", &ANY_NUMBER),
            "{straps: 4, box: 2}",
            "Kit and how many of each.",
        )
        .also(&["equipment"]),
    ],
);

/// Findings.
pub static FINDINGS: Table = Table::of(
    "club findings",
    "`findings`",
    "{off: [{code: cue-too-long, because: Our cues rhyme}]}",
    &[Key::may(
        "off",
        Shape::List(&Shape::Map(&OFF)),
        "[{code: cue-too-long, because: Our cues rhyme}]",
        "Advice that is not wanted; errors and warnings stay.",
    )],
);

/// Advice that is off.
pub static OFF: Table = Table::of(
    "club findings off",
    "advice switched off",
    "{code: cue-too-long, because: Our cues rhyme}",
    &[
        Key::must("code", Shape::Text, "cue-too-long", "The word in square brackets."),
        Key::may("because", Shape::Text, "Our cues rhyme", "Why; without it the advice stays on.")
            .also(&["why"]),
    ],
);

/// How repetitions carry over from rung to rung.
pub static ACROSS_RUNGS: Table = Table::of(
    "club repetitions-across-rungs",
    "`repetitions-across-rungs`",
    "{factor: 0.74, give-or-take: 0.21}",
    &[
        Key::must("factor", Shape::Number(0.1, 2.0), "0.74", "1 is what published relations say."),
        Key::must("give-or-take", Shape::Number(0.05, 1.0), "0.21", "How far it may be off."),
    ],
);

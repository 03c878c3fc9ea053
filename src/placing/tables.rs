//! The numbers and sentences of placing as JSON, so that the browser's script has none of its own.
//! Never the arithmetic: `estimate.js` and `placing.js` mirror that, and a test holds them equal.

use super::{noise, norms, possible, predict, relations, today, words};
use serde_json::{Map, Value, json};

/// Every constant and sentence that `estimate.js` and `placing.js` need. Repetitions and seconds are whole: low ends
/// are rounded down, points to the nearest, high ends up, each after a rounding to 1e-9.
pub fn tables() -> Value {
    let words: Map<String, Value> =
        words::ALL.iter().map(|(key, text)| (key.to_string(), json!(text))).collect();
    json!({
        "relations": relations::RELATIONS,
        "most_reps": predict::MOST_REPS,
        "most_seconds": predict::MOST_SECONDS,
        "close_reps": predict::CLOSE_REPS,
        "close_scatter": predict::CLOSE_SCATTER,
        "far_scatter": predict::FAR_SCATTER,
        "nine_in_ten": predict::NINE_IN_TEN,
        "endless": predict::ENDLESS,
        "reserve": today::RESERVE,
        "verdict_repeated": noise::VERDICT_REPEATED,
        "hold_noise": noise::HOLD_NOISE,
        "least_noise": noise::LEAST_NOISE,
        "possible": {
            "reps": possible::REPS,
            "seconds": possible::SECONDS,
            "stature": possible::STATURE,
            "body_mass": possible::BODY_MASS,
            "added": possible::ADDED,
            "height": possible::HEIGHT,
        },
        "chart": relations::CHART,
        "norms": {
            "rows": norms::ROWS,
            "protocols": norms::PROTOCOLS,
            "lowest": norms::LOWEST,
            "halves": norms::HALVES,
        },
        "words": words,
    })
}

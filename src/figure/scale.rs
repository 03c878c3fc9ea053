//! A ladder drawn to scale: its rungs as bars at the height of what they ask, bands as light bars.
//! Writes SVG text with a title and a description; never computes a demand, never a colour.

use super::pen::{escaped, num};

/// One rung on the drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct ScaleRung {
    /// Its name.
    pub name: String,
    /// What it asks and the band, in the axis's unit; nothing where it is not known.
    pub value: Option<(f64, f64)>,
    /// The setting and the number in words, or why there is none.
    pub words: String,
    /// The address of its picture, where it has one.
    pub figure: Option<String>,
}

/// A ladder to be drawn; the lowest rung first.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    /// The drawing's name.
    pub title: String,
    /// What the axis shows.
    pub axis: String,
    /// Words for a value at a tick.
    pub ticks: Vec<(f64, String)>,
    /// The rungs.
    pub rungs: Vec<ScaleRung>,
}

const WIDE: f64 = 388.0;
/// Where the rails stand, where the pictures and where the words begin.
const LEFT: f64 = 54.0;
const RIGHT: f64 = 86.0;
const FIGURE: f64 = 100.0;
const WORDS: f64 = 146.0;
/// Room for a picture.
const PICTURE: (f64, f64) = (42.0, 29.0);
const TOP: f64 = 34.0;
/// Room for one rung's two lines of words.
const APART: f64 = 33.0;

/// Draw it. `mark` makes ids unique on a page.
pub fn draw(scale: &Scale, mark: &str) -> String {
    let tall = (scale.rungs.len() as f64 * APART).max(240.0);
    let bottom = TOP + tall;
    let top_value = scale.ticks.iter().map(|(value, _)| *value).fold(1e-6, f64::max);
    let y = |value: f64| bottom - 12.0 - (tall - 24.0) * value / top_value;
    let mut out = frame(scale, bottom, y);
    let words = spread(scale, y, bottom);
    scale.rungs.iter().for_each(|rung| out.push_str(&band(rung, &y)));
    for (at, (rung, words_y)) in scale.rungs.iter().zip(words).enumerate() {
        out.push_str(&drawn_rung(at + 1, rung, words_y, &y));
    }
    format!(
        "<svg class=\"scale\" viewBox=\"0 0 {WIDE} {}\" role=\"img\" aria-labelledby=\"{mark}-t {mark}-d\">\
         <title id=\"{mark}-t\">{}</title><desc id=\"{mark}-d\">{}</desc>{out}</svg>",
        num(bottom + 8.0),
        escaped(&scale.title),
        escaped(&telling(scale))
    )
}

/// Rails, ticks and the axis's words.
fn frame(scale: &Scale, bottom: f64, y: impl Fn(f64) -> f64) -> String {
    let mut out = format!("<text class=\"sa\" x=\"4\" y=\"16\">{}</text>", escaped(&scale.axis));
    for x in [LEFT, RIGHT] {
        out.push_str(&format!(
            "<path class=\"sr\" d=\"M{} {}V{}\"/>",
            num(x),
            num(TOP - 4.0),
            num(bottom)
        ));
    }
    for (value, words) in &scale.ticks {
        out.push_str(&format!(
            "<path class=\"st\" d=\"M{} {}h6\"/><text class=\"sn\" x=\"{}\" y=\"{}\">{}</text>",
            num(LEFT - 10.0),
            num(y(*value)),
            num(LEFT - 13.0),
            num(y(*value) + 4.0),
            escaped(words)
        ));
    }
    out
}

/// Heights for the words, from the bottom up: near their rung, never on top of each other.
fn spread(scale: &Scale, y: impl Fn(f64) -> f64, bottom: f64) -> Vec<f64> {
    let mut heights: Vec<f64> = Vec::new();
    let mut last = bottom + APART / 2.0;
    for rung in &scale.rungs {
        let wanted = rung.value.map_or(last - APART, |(value, _)| y(value));
        last = wanted.min(last - APART);
        heights.push(last);
    }
    let mut highest = TOP;
    for height in heights.iter_mut().rev() {
        *height = height.max(highest);
        highest = *height + APART;
    }
    heights
}

/// How far the number may be out, as a light bar; under every rung's own bar.
fn band(rung: &ScaleRung, y: &impl Fn(f64) -> f64) -> String {
    let Some((value, band)) = rung.value else { return String::new() };
    let (left, right) = (num(LEFT + 6.0), num(RIGHT - 6.0));
    let (top, low) = (num(y(value + band)), num(y((value - band).max(0.0))));
    format!("<path class=\"sb\" d=\"M{left} {top}H{right}V{low}H{left}z\"/>")
}

fn drawn_rung(number: usize, rung: &ScaleRung, words_y: f64, y: &impl Fn(f64) -> f64) -> String {
    let mut out = String::new();
    if let Some((value, _)) = rung.value {
        out.push_str(&format!(
            "<path class=\"sg\" d=\"M{} {}H{}\"/><path class=\"sl\" d=\"M{} {}L{} {}\"/>",
            num(LEFT),
            num(y(value)),
            num(RIGHT),
            num(RIGHT + 4.0),
            num(y(value)),
            num(FIGURE - 3.0),
            num(words_y)
        ));
    } else {
        let (x, y) = (num(RIGHT + 3.0), num(words_y));
        out.push_str(&format!("<path class=\"su\" d=\"M{x} {y}h9\"/>"));
    }
    if let Some(figure) = &rung.figure {
        let (x, y) = (num(FIGURE), num(words_y - PICTURE.1 / 2.0));
        let (wide, tall) = (num(PICTURE.0), num(PICTURE.1));
        out.push_str(&format!(
            "<image href=\"{figure}\" x=\"{x}\" y=\"{y}\" width=\"{wide}\" height=\"{tall}\"/>"
        ));
    }
    out.push_str(&format!(
        "<text class=\"sw\" x=\"{0}\" y=\"{1}\">{number} {2}</text><text class=\"sq\" x=\"{0}\" y=\"{3}\">{4}</text>",
        num(WORDS),
        num(words_y + 2.0),
        escaped(&rung.name),
        num(words_y + 15.0),
        escaped(&rung.words)
    ));
    out
}

/// The drawing in words, for those who do not see it.
fn telling(scale: &Scale) -> String {
    let rungs: Vec<String> = (1..)
        .zip(&scale.rungs)
        .map(|(number, rung)| {
            let band =
                rung.value.map_or(String::new(), |(_, band)| format!(", give or take {band}"));
            format!("{number} {}: {}{band}.", rung.name, rung.words)
        })
        .collect();
    format!("{}, from the lowest rung up. {}", scale.axis, rungs.join(" "))
}

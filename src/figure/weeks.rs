//! Weeks drawn: sets as bars, week under week, and what a planned rung asks as a stair.
//! Writes SVG text with a title and a description; never counts a set, never a colour.

use super::pen::{escaped, num};

/// A week on a drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Week<T> {
    /// Its number.
    pub number: u32,
    /// What it is for: `test`, `build`, `lighter`.
    pub word: String,
    /// Whether it is drawn on a ground of its own.
    pub lighter: bool,
    /// What is drawn.
    pub drawn: T,
}

/// Sets of weeks: each week two numbers, fewest and most.
#[derive(Debug, Clone, PartialEq)]
pub struct Bars {
    /// The drawing's name.
    pub title: String,
    /// What the two bars of a week are.
    pub names: [String; 2],
    /// The weeks; for each name fewest and most.
    pub weeks: Vec<Week<[(u32, u32); 2]>>,
}

/// What the rung of each week asks.
#[derive(Debug, Clone, PartialEq)]
pub struct Stair {
    /// The drawing's name.
    pub title: String,
    /// What the axis shows.
    pub axis: String,
    /// Words for a value at a tick.
    pub ticks: Vec<(f64, String)>,
    /// The weeks.
    pub weeks: Vec<Week<Step>>,
}

/// The rung of a week.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The rung in words.
    pub rung: String,
    /// What it asks, in the axis's unit; nothing where it is not known.
    pub asks: Option<Asks>,
}

/// What a rung asks.
#[derive(Debug, Clone, PartialEq)]
pub struct Asks {
    /// The number.
    pub value: f64,
    /// Give or take.
    pub band: f64,
    /// The number as it is shown.
    pub words: String,
}

const BARS_WIDE: f64 = 300.0;
/// Where bars begin, and where the longest ends: its words stand behind it.
const BARS_LEFT: f64 = 62.0;
const BARS_RIGHT: f64 = 205.0;
const BAR: f64 = 14.0;
/// One week: two bars and what parts it from the next.
const ROW: f64 = 42.0;

/// Draws sets week under week, so that any number of weeks is readable on a phone. `mark` makes ids
/// unique on a page.
pub fn bars(bars: &Bars, mark: &str) -> String {
    let most = bars.weeks.iter().flat_map(|week| week.drawn).map(|(_, most)| most).max();
    let most = f64::from(most.unwrap_or(1).max(1));
    let x = |sets: u32| BARS_LEFT + (BARS_RIGHT - BARS_LEFT) * f64::from(sets) / most;
    let mut out = String::new();
    for (at, week) in bars.weeks.iter().enumerate() {
        let y = at as f64 * ROW;
        if week.lighter {
            out.push_str(&ground(0.0, y, BARS_WIDE, ROW));
        }
        out.push_str(&text("wn", 4.0, y + 18.0, &week.number.to_string()));
        out.push_str(&text("wq", 4.0, y + 32.0, &week.word));
        for (which, (name, sets)) in bars.names.iter().zip(week.drawn).enumerate() {
            out.push_str(&bar(which, name, sets, (y + 6.0 + which as f64 * 17.0, &x)));
        }
    }
    let tall = bars.weeks.len() as f64 * ROW;
    out.push_str(&format!(
        "<path class=\"wr\" d=\"M{} 0V{}\"/>",
        num(BARS_LEFT),
        num(tall.max(ROW))
    ));
    let told = bars.weeks.iter().map(|week| {
        let [one, other] = week.drawn.map(said);
        let [first, second] = &bars.names;
        format!("Week {}, {}: {first} {one}, {second} {other}.", week.number, week.word)
    });
    let size = (BARS_WIDE, tall.max(ROW));
    svg("bars", size, (&bars.title, &told.collect::<Vec<_>>().join(" ")), mark, &out)
}

/// One bar up to the fewest, a light one from there to the most, and its words.
fn bar(which: usize, name: &str, sets: (u32, u32), (y, x): (f64, &impl Fn(u32) -> f64)) -> String {
    let (from, to) = (x(sets.0), x(sets.1));
    let rect = |class: &str, left: f64, right: f64| {
        format!(
            "<path class=\"{class}\" d=\"M{} {}H{}v{BAR}H{}z\"/>",
            num(left),
            num(y),
            num(right),
            num(left)
        )
    };
    let mut out = rect(["w0", "w1"][which.min(1)], BARS_LEFT, from);
    if sets.1 > sets.0 {
        out.push_str(&rect("wb", from, to));
    }
    out + &text("ww", to + 5.0, y + 11.5, &format!("{name} {}", said(sets)))
}

/// `21`, or `33-37`.
fn said((from, to): (u32, u32)) -> String {
    if from == to { from.to_string() } else { format!("{from}-{to}") }
}

const STAIR_LEFT: f64 = 40.0;
const COLUMN: f64 = 43.0;
const STAIR_TOP: f64 = 30.0;
const STAIR_TALL: f64 = 130.0;
/// More weeks than a phone shows side by side: the drawing keeps its size and scrolls.
const SIDE_BY_SIDE: usize = 7;

/// Draws the weeks as a stair. `mark` makes ids unique on a page.
pub fn stair(stair: &Stair, mark: &str) -> String {
    let bottom = STAIR_TOP + STAIR_TALL;
    let top_value = stair.ticks.iter().map(|(value, _)| *value).fold(1e-6, f64::max);
    let y = |value: f64| bottom - STAIR_TALL * (value / top_value).clamp(0.0, 1.1);
    let wide = STAIR_LEFT + COLUMN * stair.weeks.len().max(1) as f64 + 4.0;
    let mut out = text("wq", 4.0, 14.0, &stair.axis);
    for (at, week) in stair.weeks.iter().enumerate() {
        let x = STAIR_LEFT + COLUMN * at as f64;
        if week.lighter {
            out.push_str(&ground(x, STAIR_TOP - 6.0, COLUMN, STAIR_TALL + 40.0));
        }
        out.push_str(&text("wn", x + 4.0, bottom + 15.0, &week.number.to_string()));
        out.push_str(&text("wq", x + 4.0, bottom + 29.0, &week.word));
    }
    for (value, words) in &stair.ticks {
        let at = num(y(*value));
        out.push_str(&format!(
            "<path class=\"wt\" d=\"M{} {at}H{}\"/>",
            num(STAIR_LEFT),
            num(wide)
        ));
        out.push_str(&text("wk", STAIR_LEFT - 4.0, y(*value) + 4.0, words));
    }
    out.push_str(&steps(stair, &y));
    let class = if stair.weeks.len() > SIDE_BY_SIDE { "stair long" } else { "stair" };
    svg(class, (wide, bottom + 36.0), (&stair.title, &telling(stair)), mark, &out)
}

/// Bands first, then the risers, then the steps with their numbers.
fn steps(stair: &Stair, y: &impl Fn(f64) -> f64) -> String {
    let (mut bands, mut risers, mut treads) = (String::new(), String::new(), String::new());
    let mut before: Option<f64> = None;
    for (at, week) in stair.weeks.iter().enumerate() {
        let (left, right) =
            (STAIR_LEFT + COLUMN * at as f64, STAIR_LEFT + COLUMN * (at + 1) as f64);
        let Some(Asks { value, band, words }) = &week.drawn.asks else {
            let (x, low) = (num(left + 14.0), num(y(0.0) - 8.0));
            treads.push_str(&format!("<path class=\"wu\" d=\"M{x} {low}h16\"/>"));
            before = None;
            continue;
        };
        let (top, low) = (y(value + band), y((value - band).max(0.0)));
        bands.push_str(&format!(
            "<path class=\"wb\" d=\"M{} {}H{}V{}H{}z\"/>",
            num(left + 2.0),
            num(top),
            num(right - 2.0),
            num(low),
            num(left + 2.0)
        ));
        if let Some(before) = before.filter(|before| (before - y(*value)).abs() > 0.5) {
            let (x, from, to) = (num(left), num(before), num(y(*value)));
            risers.push_str(&format!("<path class=\"wl\" d=\"M{x} {from}V{to}\"/>"));
        }
        let class = if week.lighter { "wg half" } else { "wg" };
        let (x, height) = (num(left), num(y(*value)));
        treads.push_str(&format!("<path class=\"{class}\" d=\"M{x} {height}H{}\"/>", num(right)));
        treads.push_str(&text("ww", left + 5.0, y(*value) - 5.0, words));
        before = Some(y(*value));
    }
    bands + &risers + &treads
}

fn telling(stair: &Stair) -> String {
    let weeks = stair.weeks.iter().map(|week| {
        let Step { rung, asks } = &week.drawn;
        let asks = match asks {
            Some(Asks { band, words, .. }) => format!("{words}, give or take {band}"),
            None => "no number".to_string(),
        };
        format!("Week {}, {}: {rung}, {asks}.", week.number, week.word)
    });
    format!("{}. {}", stair.axis, weeks.collect::<Vec<_>>().join(" "))
}

/// The ground of a week that is lighter than the others.
fn ground(x: f64, y: f64, wide: f64, tall: f64) -> String {
    let (x, y, right) = (num(x), num(y), num(x + wide));
    format!("<path class=\"we\" d=\"M{x} {y}H{right}v{}H{x}z\"/>", num(tall))
}

fn text(class: &str, x: f64, y: f64, words: &str) -> String {
    let words = escaped(words);
    format!("<text class=\"{class}\" x=\"{}\" y=\"{}\">{words}</text>", num(x), num(y))
}

fn svg(
    class: &str,
    (wide, tall): (f64, f64),
    (title, told): (&str, &str),
    mark: &str,
    out: &str,
) -> String {
    format!(
        "<svg class=\"chart {class}\" viewBox=\"0 0 {0} {1}\" width=\"{0}\" role=\"img\" \
         aria-labelledby=\"{mark}-t {mark}-d\"><title id=\"{mark}-t\">{2}</title>\
         <desc id=\"{mark}-d\">{3}</desc>{out}</svg>",
        num(wide),
        num(tall),
        escaped(title),
        escaped(told)
    )
}

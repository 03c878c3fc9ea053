//! A whole figure: its key poses side by side, and each alone for narrow screens.
//! Writes SVG text with a title and a description; no colours of its own.

use super::camera::Spot;
use super::frame::frame;
use super::outline::line;
use super::paper::{Bounds, Ink, Paper};
use super::pen::{escaped, num, nums};
use super::style;
use super::telling::{Caption, in_plain_words};
use crate::mechanics::scenery::pieces;
use crate::mechanics::solve::SolvedFigure;

/// A drawn figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// All key poses in one picture, with title and description.
    pub strip: String,
    /// One picture a key pose, for stacking on narrow screens; decoration only, the words are in
    /// `words`.
    pub frames: Vec<String>,
    /// The alternative text: what the figure shows, from the pose.
    pub words: String,
    /// Width and height of the strip, centimetres of the hall.
    pub size: (f64, f64),
}

/// Room between key poses and round the edge, centimetres.
const GAP: f64 = 14.0;
pub(super) const EDGE: f64 = 4.0;

/// Draw a solved figure under a name such as "Push-up". `mark` makes ids unique on a page.
pub fn draw<'a>(figure: &SolvedFigure, caption: impl Into<Caption<'a>>, mark: &str) -> Drawn {
    let Caption { name, standard } = caption.into();
    let kit = pieces(figure);
    let papers: Vec<Paper> = (0..figure.poses.len()).map(|i| frame(figure, i, &kit)).collect();
    let words = in_plain_words(figure, standard);
    let tall = rise(&papers);
    let frames = papers.iter().map(|p| alone(p, tall)).collect();
    let (inside, view) = laid_out(&papers, true);
    let size = (view[2], view[3]);
    let view = nums(&view);
    let strip = format!(
        "<svg class=\"fig\" viewBox=\"{view}\" role=\"img\" aria-labelledby=\"{mark}-t {mark}-d\">\
         <title id=\"{mark}-t\">{}</title><desc id=\"{mark}-d\">{}</desc>{inside}</svg>",
        escaped(name),
        escaped(&words)
    );
    Drawn { strip, frames, words, size }
}

/// Two pictures beside each other, or one under the other where they lie: neither comes first. A
/// file of its own, for a page that says in words what it shows; and its size, centimetres.
pub(super) fn pair(papers: [Paper; 2]) -> (String, (f64, f64)) {
    let (inside, view) = laid_out(&papers, false);
    let (size, view, style) = ((view[2], view[3]), nums(&view), own_colours(&inside));
    (format!("{NAMED}class=\"fig\" viewBox=\"{view}\">{style}{inside}</svg>"), size)
}

/// From the highest point of all papers to the lowest.
pub(super) fn rise(papers: &[Paper]) -> (f64, f64) {
    papers.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| {
        (a.min(p.bounds.min.y), b.max(p.bounds.max.y))
    })
}

/// Figures wider than this many times their height lie: side by side they would shrink to a strip.
const LYING: f64 = 1.15;

/// Whether the key poses stand one under the other.
pub(super) fn lying(papers: &[Paper]) -> bool {
    let widest = papers.iter().map(|p| width(p.bounds)).fold(0.0, f64::max);
    let (top, bottom) = rise(papers);
    widest > LYING * (bottom - top)
}

/// Key poses one under the other, each as tall as it is, with a pointer between if they follow each
/// other; and their view box.
fn stacked(papers: &[Paper], follow: bool) -> (String, [f64; 4]) {
    let (mut out, mut y) = (String::new(), EDGE);
    let left = papers.iter().map(|p| p.bounds.min.x).fold(f64::INFINITY, f64::min);
    let right = papers.iter().map(|p| p.bounds.max.x).fold(f64::NEG_INFINITY, f64::max);
    for (i, paper) in papers.iter().enumerate() {
        if i > 0 && follow {
            out.push_str(&chevron_down((left + right) / 2.0, y - GAP / 2.0));
        }
        let shift = num(y - paper.bounds.min.y);
        out.push_str(&format!("<g transform=\"translate(0 {shift})\">{}</g>", paper.svg()));
        y += paper.bounds.max.y - paper.bounds.min.y + GAP;
    }
    (out, [left - EDGE, 0.0, right - left + 2.0 * EDGE, y - GAP + EDGE])
}

fn chevron_down(x: f64, y: f64) -> String {
    let mut paper = Paper::default();
    let at = |dx: f64, dy: f64| Spot { x: x + dx, y: y + dy };
    paper.draw(Ink::Step, line(&[at(-7.0, -3.0), at(0.0, 3.5), at(7.0, -3.0)]));
    paper.svg()
}

/// A picture that is this wide and this tall, centimetres: what a strip is laid out to fill.
const SPACE: (f64, f64) = (300.0, 200.0);

/// Key poses beside each other, one under the other or in two rows: whichever lets them be drawn
/// largest in the space that pages have; and their view box.
fn laid_out(papers: &[Paper], follow: bool) -> (String, [f64; 4]) {
    let (half, rest) = papers.split_at(papers.len().div_ceil(2));
    let mut ways = vec![in_a_row(papers, follow)];
    if papers.len() > 1 {
        ways.push(stacked(papers, follow));
    }
    if papers.len() > 2 {
        ways.push(two_rows(half, rest, follow));
    }
    let scale = |(_, [_, _, wide, high]): &(String, [f64; 4])| (SPACE.0 / wide).min(SPACE.1 / high);
    let best = ways.into_iter().reduce(|a, b| if scale(&b) > 1.05 * scale(&a) { b } else { a });
    best.unwrap_or_default()
}

/// Many key poses in two rows, each as tall as it is.
fn two_rows(first: &[Paper], second: &[Paper], follow: bool) -> (String, [f64; 4]) {
    let (upper, [x, y, wide, high]) = in_a_row(first, follow);
    let (lower, [_, low_y, other, low]) = in_a_row(second, follow);
    let down = y + high - low_y;
    // The second row goes on where the first ended.
    let on = if follow { chevron(EDGE + GAP / 2.0, low_y + low / 2.0) } else { String::new() };
    let (down, aside) = (num(down), num(GAP));
    let out = format!(
        "{upper}<g transform=\"translate(0 {down})\">{on}<g transform=\"translate({aside})\">{lower}</g></g>"
    );
    (out, [x, y, wide.max(other + GAP), high + low])
}

fn in_a_row(papers: &[Paper], follow: bool) -> (String, [f64; 4]) {
    let tall = rise(papers);
    let mut out = String::new();
    let mut x = EDGE;
    for (i, paper) in papers.iter().enumerate() {
        if i > 0 && follow {
            out.push_str(&chevron(x - GAP / 2.0, (tall.0 + tall.1) / 2.0));
        }
        let shift = x - paper.bounds.min.x;
        out.push_str(&format!("<g transform=\"translate({})\">{}</g>", num(shift), paper.svg()));
        x += width(paper.bounds) + GAP;
    }
    (out, [0.0, tall.0 - EDGE, x - GAP + EDGE, tall.1 - tall.0 + 2.0 * EDGE])
}

pub(super) fn chevron(x: f64, y: f64) -> String {
    let mut paper = Paper::default();
    let at = |dx: f64, dy: f64| Spot { x: x + dx, y: y + dy };
    paper.draw(Ink::Step, line(&[at(-3.0, -7.0), at(3.5, 0.0), at(-3.0, 7.0)]));
    paper.svg()
}

pub(super) fn width(bounds: Bounds) -> f64 {
    bounds.max.x - bounds.min.x
}

fn alone(paper: &Paper, tall: (f64, f64)) -> String {
    let b = paper.bounds;
    let view =
        nums(&[b.min.x - EDGE, tall.0 - EDGE, width(b) + 2.0 * EDGE, tall.1 - tall.0 + 2.0 * EDGE]);
    format!("<svg class=\"fig\" viewBox=\"{view}\" aria-hidden=\"true\">{}</svg>", paper.svg())
}

/// How the picture of a file of its own begins.
const NAMED: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" ";

fn own_colours(drawing: &str) -> String {
    format!("<style>{}{}</style>", style::ALONE, style::used_by(drawing))
}

impl Drawn {
    /// The strip as a file of its own, with its own colours for light and dark.
    pub fn standalone(&self) -> String {
        let style = own_colours(&self.strip);
        self.strip.replacen("<svg ", NAMED, 1).replacen("</desc>", &format!("</desc>{style}"), 1)
    }

    /// The last key pose as a file of its own; decoration beside words that name it.
    pub fn last_standalone(&self) -> Option<String> {
        let last = self.frames.last()?;
        let open = format!("aria-hidden=\"true\">{}", own_colours(last));
        Some(last.replacen("<svg ", NAMED, 1).replacen("aria-hidden=\"true\">", &open, 1))
    }
}

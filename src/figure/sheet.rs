//! A whole figure: its key poses side by side, and each alone for narrow screens.
//! Writes SVG text with a title and a description; no colours of its own.

use super::camera::Spot;
use super::frame::frame;
use super::outline::line;
use super::paper::{Bounds, Ink, Paper};
use super::pen::{num, nums};
use super::style;
use super::telling::telling;
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
const GAP: f64 = 22.0;
pub(super) const EDGE: f64 = 4.0;

/// Draw a solved figure under a name such as "Push-up". `mark` makes ids unique on a page.
pub fn draw(figure: &SolvedFigure, name: &str, mark: &str) -> Drawn {
    let kit = pieces(figure);
    let papers: Vec<Paper> = (0..figure.poses.len()).map(|i| frame(figure, i, &kit)).collect();
    let words = telling(figure);
    let tall = rise(&papers);
    let frames = papers.iter().map(|p| alone(p, tall)).collect();
    let (inside, size) = side_by_side(&papers, tall);
    let view = format!("0 {} {} {}", num(tall.0 - EDGE), num(size.0), num(size.1));
    let strip = format!(
        "<svg class=\"fig\" viewBox=\"{view}\" role=\"img\" aria-labelledby=\"{mark}-t {mark}-d\">\
         <title id=\"{mark}-t\">{}</title><desc id=\"{mark}-d\">{}</desc>{inside}</svg>",
        escaped(name),
        escaped(&words)
    );
    Drawn { strip, frames, words, size }
}

/// From the highest point of all papers to the lowest.
pub(super) fn rise(papers: &[Paper]) -> (f64, f64) {
    papers.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| {
        (a.min(p.bounds.min.y), b.max(p.bounds.max.y))
    })
}

fn side_by_side(papers: &[Paper], tall: (f64, f64)) -> (String, (f64, f64)) {
    let mut out = String::new();
    let mut x = EDGE;
    for (i, paper) in papers.iter().enumerate() {
        if i > 0 {
            out.push_str(&chevron(x - GAP / 2.0, (tall.0 + tall.1) / 2.0));
        }
        let shift = x - paper.bounds.min.x;
        out.push_str(&format!("<g transform=\"translate({})\">{}</g>", num(shift), paper.svg()));
        x += width(paper.bounds) + GAP;
    }
    (out, (x - GAP + EDGE, tall.1 - tall.0 + 2.0 * EDGE))
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

fn own_colours() -> String {
    format!("<style>{}{}</style>", style::ALONE, style::SHEET)
}

impl Drawn {
    /// The strip as a file of its own, with its own colours for light and dark.
    pub fn standalone(&self) -> String {
        let style = own_colours();
        self.strip.replacen("<svg ", NAMED, 1).replacen("</desc>", &format!("</desc>{style}"), 1)
    }

    /// The last key pose as a file of its own; decoration beside words that name it.
    pub fn last_standalone(&self) -> Option<String> {
        let open = format!("aria-hidden=\"true\">{}", own_colours());
        let last = self.frames.last()?;
        Some(last.replacen("<svg ", NAMED, 1).replacen("aria-hidden=\"true\">", &open, 1))
    }
}

pub(super) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

//! The key poses of a figure as pictures of their own at one scale: a page puts them side by side,
//! or one under the other where it is narrow. Never decides which: that is the style sheet's.

use super::frame::frame;
use super::pen::{escaped, num, nums};
use super::sheet::{EDGE, chevron, lying, rise, width};
use super::telling::{Caption, telling};
use crate::mechanics::scenery::pieces;
use crate::mechanics::solve::SolvedFigure;

/// Height of a picture on a wide page, CSS pixels; its width follows, and both shrink together.
const TALL: f64 = 320.0;
/// Smallest and largest scale, CSS pixels a centimetre: so a body, its head and its arrow are about
/// as large on one page as on the next.
const SCALE: (f64, f64) = (1.3, 2.2);

/// Two key poses that take no more than this stand side by side on a phone as well, centimetres: on
/// 360 pixels that leaves each centimetre 1.4 of them.
const BESIDE: f64 = 250.0;

/// The key poses of `figure` with a pointer between; the first carries name and words of all.
/// `mark` makes ids unique on a page.
pub fn poses<'a>(figure: &SolvedFigure, caption: impl Into<Caption<'a>>, mark: &str) -> String {
    let Caption { name, standard } = caption.into();
    let kit = pieces(figure);
    let papers: Vec<_> = (0..figure.poses.len()).map(|i| frame(figure, i, &kit)).collect();
    let (top, bottom) = rise(&papers);
    let tall = bottom - top + 2.0 * EDGE;
    let widest = papers.iter().map(|p| width(p.bounds)).fold(0.0, f64::max);
    // Lying ones get pictures of one width: on a narrow screen the width decides how large they are
    // drawn, and start and end shall be drawn alike.
    let lying = lying(&papers);
    let scale = (TALL / tall).clamp(SCALE.0, SCALE.1);
    let all: f64 = papers.iter().map(|p| width(p.bounds)).sum();
    let look = match papers.len() {
        _ if lying => "fig lies",
        2 if all <= BESIDE => "fig beside",
        _ => "fig",
    };
    let mut out = String::new();
    for (i, paper) in papers.iter().enumerate() {
        let own = width(paper.bounds);
        let beside = if lying { (widest - own) / 2.0 } else { 0.0 };
        let wide = own + 2.0 * (beside + EDGE);
        let view = nums(&[paper.bounds.min.x - beside - EDGE, top - EDGE, wide, tall]);
        let (words, role) = if i == 0 {
            (titled(name, &telling(figure, standard), mark), named(mark))
        } else {
            out.push_str(&pointer());
            (String::new(), "aria-hidden=\"true\"".to_string())
        };
        out.push_str(&format!(
            "<svg class=\"{look}\" width=\"{}\" height=\"{}\" viewBox=\"{view}\" {role}>{words}{}</svg>",
            num((scale * wide).round()),
            num((scale * tall).round()),
            paper.svg()
        ));
    }
    out
}

fn named(mark: &str) -> String {
    format!("role=\"img\" aria-labelledby=\"{mark}-t {mark}-d\"")
}

fn titled(name: &str, words: &str, mark: &str) -> String {
    let (name, words) = (escaped(name), escaped(words));
    format!("<title id=\"{mark}-t\">{name}</title><desc id=\"{mark}-d\">{words}</desc>")
}

/// From one key pose to the next.
fn pointer() -> String {
    let inside = chevron(0.0, 0.0);
    format!(
        "<svg class=\"fig then\" width=\"12\" height=\"18\" viewBox=\"-6 -9 12 18\" aria-hidden=\"true\">{inside}</svg>"
    )
}

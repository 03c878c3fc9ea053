//! A key pose while it is being written: what it misses is marked on it, and what can be drawn along has
//! a handle. Never part of a page that members read.

use super::camera::{Camera, Spot};
use super::frame::frame;
use super::outline::round;
use super::paper::Paper;
use super::pen::{escaped, num, nums};
use super::sheet::{EDGE, width};
use crate::mechanics::joints::Side;
use crate::mechanics::marks::{LimbMark, Mark};
use crate::mechanics::node::Missed;
use crate::mechanics::scenery::pieces;
use crate::mechanics::solve::SolvedFigure;

/// What of a body can be drawn along.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Handle {
    /// The side; nothing for what there is once.
    pub side: Option<Side>,
    /// The plain word.
    pub part: &'static str,
    /// The point of the body.
    pub mark: Mark,
}

/// Parts of a limb that have a handle.
const OF_LIMBS: [(&str, LimbMark); 5] = [
    ("elbow", LimbMark::Elbow),
    ("hand", LimbMark::Grip),
    ("knee", LimbMark::Knee),
    ("ankle", LimbMark::Ankle),
    ("toes", LimbMark::Ball),
];

/// Every handle; the far side's first, so that the near one's lie on top.
pub fn handles() -> Vec<Handle> {
    let limb = |side: Side| {
        OF_LIMBS.map(move |(part, mark)| Handle { side: Some(side), part, mark: mark.of(side) })
    };
    let once = [("hips", Mark::Hips), ("shoulders", Mark::Shoulders), ("head", Mark::Head)];
    let once = once.map(|(part, mark)| Handle { side: None, part, mark });
    limb(Side::Far).into_iter().chain(limb(Side::Near)).chain(once).collect()
}

impl Handle {
    /// As people say it: `near elbow`, `head`.
    pub fn name(&self) -> String {
        self.side.map_or(self.part.to_string(), |side| format!("{} {}", side.word(), self.part))
    }
}

/// Radius of the ring about what is missed, and of a handle, centimetres of the hall.
const RING: f64 = 8.0;
const HANDLE: f64 = 4.0;

/// The picture of key pose `index`, called `name` for who does not see it.
pub fn marked(figure: &SolvedFigure, index: usize, missed: &[Missed], name: &str) -> String {
    let mut paper = frame(figure, index, &pieces(figure));
    let camera = Camera::on(figure);
    let body = &figure.poses[index].body;
    let at = |mark: Mark| camera.see(body.mark(mark));
    let own: Vec<&Missed> = missed.iter().filter(|one| one.pose == index).collect();
    // Room for every handle and ring, and for the words beside a ring.
    let all = handles().into_iter().map(|handle| handle.mark);
    let rounds: Vec<_> = all.map(|mark| round(at(mark), HANDLE)).collect();
    paper.reach(&rounds);
    let rings: Vec<_> = own.iter().map(|one| round(at(one.mark), 3.0 * RING)).collect();
    paper.reach(&rings);
    let rings: String = own.iter().map(|one| ring(at(one.mark), one)).collect();
    let grips: String = handles().iter().map(|handle| grip(at(handle.mark), handle)).collect();
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"fig\" viewBox=\"{}\" role=\"img\" \
         aria-label=\"{}\">{}{rings}{grips}</svg>",
        view(&paper),
        escaped(name),
        paper.svg()
    )
}

fn view(paper: &Paper) -> String {
    let b = paper.bounds;
    let tall = b.max.y - b.min.y + 2.0 * EDGE;
    nums(&[b.min.x - EDGE, b.min.y - EDGE, width(b) + 2.0 * EDGE, tall])
}

/// A ring about what is missed, and by how much.
fn ring(at: Spot, missed: &Missed) -> String {
    let by = missed.by.round().max(1.0);
    let words = if missed.is_angle { format!("{by}°") } else { format!("{by} cm") };
    format!(
        "<circle class=\"miss\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>\
         <text class=\"miss-words\" x=\"{}\" y=\"{}\">{words}</text>",
        num(at.x),
        num(at.y),
        num(RING),
        num(at.x + RING + 2.0),
        num(at.y - RING)
    )
}

fn grip(at: Spot, handle: &Handle) -> String {
    format!(
        "<circle class=\"handle\" data-handle=\"{}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
        handle.name(),
        num(at.x),
        num(at.y),
        num(HANDLE)
    )
}

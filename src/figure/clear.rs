//! Clear: where there is room for an arrow, beside what moves and off the body.
//! Shifts a way that is given; it knows no joints and draws nothing.

use super::camera::{Spot, spot};
use super::outline::Round;

/// A way across the picture: start, bend, end.
pub type Way = [Spot; 3];

/// What is about an arrow: the body and the kit it keeps clear of, and what of the body moves, where
/// it starts and all along its way.
pub struct Room<'a> {
    /// The body where the arrow starts.
    pub body: &'a [Round],
    /// Its trunk and legs.
    pub thick: &'a [Round],
    /// The kit.
    pub blocks: &'a [Round],
    /// What moves, where it starts.
    pub first: &'a [Round],
    /// What moves, all along its way.
    pub moves: &'a [Round],
    /// Whether the body lies and is seen from above.
    pub lying: bool,
}

/// An arrow farther than this from what moves seems to speak of something else: about a hand.
const HAND: f64 = 16.0;

/// Shift the way sideways and along itself to the nearest clear place beside what moves; outside
/// rather than inside, and over the floor unless the figure lies and is seen from above. A shorter
/// arrow beside what moves rather than a long one elsewhere; across kit rather than across the body:
/// it has a halo.
pub fn place(way: Way, room: &Room) -> Way {
    let middle = centre(room.body);
    let clear = |way: &Way, blocks: &[Round], by: f64, moves: &[Round]| {
        let mut shifts = shifts(way, middle);
        shifts.sort_by(|a, b| a.0.total_cmp(&b.0));
        shifts.into_iter().map(|(_, moved)| moved).find(|moved| {
            (room.lying || moved.iter().all(|p| p.y < -3.0))
                && (moves.is_empty() || !clear_of(moved, moves, HAND))
                && clear_of(moved, room.body, by)
                && clear_of(moved, blocks, 3.0)
                && (moves.is_empty() || !parted(moved, room))
        })
    };
    let short = way.map(|p| way[0].towards(p, SHORTER));
    clear(&way, room.blocks, 4.5, room.first)
        .or_else(|| clear(&way, &[], 4.5, room.first))
        .or_else(|| clear(&short, &[], 3.5, room.first))
        .or_else(|| clear(&way, &[], 4.5, room.moves))
        .or_else(|| beside_it(&way, room))
        .or_else(|| clear(&way, room.blocks, 4.5, &[]))
        .unwrap_or(way)
}

/// Whether trunk or legs stand between an arrow and what moves.
fn parted(way: &Way, room: &Room) -> bool {
    let gap = |r: &&Round| way[1].to(r.at).length() - r.r;
    let nearest = room.first.iter().min_by(|a, b| gap(a).total_cmp(&gap(b)));
    let Some(nearest) = nearest else { return false };
    let across = |i: i32| way[1].towards(nearest.at, f64::from(i) / 8.0);
    let inside = |r: &Round| (1..8).any(|i| across(i).to(r.at).length() < 0.7 * r.r);
    let apart = |r: &&Round| r.at.to(nearest.at).length() > r.r + nearest.r;
    room.thick.iter().filter(apart).any(inside)
}

/// The nearest place beside what moves, over trunk or legs if need be: its halo parts them. Never over
/// an arm, which it would cut in two.
fn beside_it(way: &Way, room: &Room) -> Option<Way> {
    let mut shifts = shifts(way, centre(room.body));
    shifts.sort_by(|a, b| a.0.total_cmp(&b.0));
    let arms: Vec<Round> = room.body.iter().filter(|r| !room.thick.contains(r)).copied().collect();
    let near = |moved: &Way| clear_of(moved, room.first, 4.5) && !clear_of(moved, room.first, HAND);
    let fits = |moved: &Way| near(moved) && clear_of(moved, &arms, 3.0);
    shifts.into_iter().map(|(_, moved)| moved).find(fits)
}

/// What is left of an arrow where the whole has no room.
const SHORTER: f64 = 0.6;

/// Every way it could be shifted, with what that costs.
fn shifts(way: &Way, middle: Spot) -> Vec<(f64, Way)> {
    let heading = way[0].to(way[2]).unit();
    let normal = spot(-heading.y, heading.x);
    let mut all = Vec::new();
    for forward in (0..=30).step_by(6) {
        for aside in (0..=66).step_by(3) {
            for sign in [1.0, -1.0] {
                let (aside, forward) = (aside as f64, forward as f64);
                let moved = way.map(|p| p.along(normal, sign * aside).along(heading, forward));
                let outward = moved[1].to(middle).length() >= way[1].to(middle).length();
                let cost = aside + 1.2 * forward + if outward { 0.0 } else { 6.0 };
                all.push((cost, moved));
            }
        }
    }
    all
}

fn centre(body: &[Round]) -> Spot {
    let n = body.len().max(1) as f64;
    let sum = body.iter().fold(spot(0.0, 0.0), |s, r| s.plus(r.at.x, r.at.y));
    spot(sum.x / n, sum.y / n)
}

fn clear_of(way: &Way, others: &[Round], room: f64) -> bool {
    samples(way).all(|at| others.iter().all(|o| at.to(o.at).length() - o.r >= room))
}

/// Spots along an arrow.
pub fn samples(way: &Way) -> impl Iterator<Item = Spot> {
    let way = *way;
    (0..=10).map(move |i| {
        let t = f64::from(i) / 10.0;
        way[0].towards(way[1], t).towards(way[1].towards(way[2], t), t)
    })
}

//! Outlines: round-ended tubes and chains through circles, as SVG path data.
//! Geometry on paper only; `pen` writes it.

use super::camera::{Spot, spot};
use super::pen::Pen;

/// A circle that an outline passes round: centre and radius, centimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Round {
    /// Centre.
    pub at: Spot,
    /// Radius.
    pub r: f64,
}

/// Shorthand for a circle.
pub fn round(at: Spot, r: f64) -> Round {
    Round { at, r }
}

/// A straight line through points.
pub fn line(points: &[Spot]) -> String {
    let Some((first, rest)) = points.split_first() else { return String::new() };
    let mut pen = Pen::at(*first);
    rest.iter().for_each(|p| pen.line(*p));
    pen.path()
}

/// A whole circle.
pub fn circle(c: Round) -> String {
    let mut pen = Pen::at(c.at.plus(-c.r, 0.0));
    pen.arc(c.r, true, false, c.at.plus(c.r, 0.0));
    pen.arc(c.r, true, false, c.at.plus(-c.r, 0.0));
    pen.close();
    pen.path()
}

/// A closed polygon.
pub fn polygon(corners: &[Spot]) -> String {
    line(corners) + "z"
}

/// The hull of two circles, always wound the same way.
pub fn capsule(a: Round, b: Round) -> String {
    let way = a.at.to(b.at);
    let d = way.length();
    if d <= (a.r - b.r).abs() + 1e-6 {
        return circle(if a.r >= b.r { a } else { b });
    }
    let heading = way.y.atan2(way.x);
    let half = ((a.r - b.r) / d).acos();
    let on = |c: Round, angle: f64| spot(c.at.x + c.r * angle.cos(), c.at.y + c.r * angle.sin());
    let (p, q) = (on(a, heading + half), on(b, heading + half));
    let (r, s) = (on(b, heading - half), on(a, heading - half));
    let quarter = std::f64::consts::FRAC_PI_2;
    let mut pen = Pen::at(p);
    pen.line(q);
    pen.arc(b.r, half > quarter, false, r);
    pen.line(s);
    pen.arc(a.r, half < quarter, false, p);
    pen.close();
    pen.path()
}

/// What a thread round circles encloses, with as many corners as asked, wound as a capsule is.
pub fn wrap(rounds: &[Round], corners: usize) -> String {
    let corner = |i: usize| {
        let (s, c) = (-std::f64::consts::TAU * i as f64 / corners as f64).sin_cos();
        let far = |r: &Round| r.at.x * c + r.at.y * s + r.r;
        let outmost = rounds.iter().max_by(|a, b| far(a).total_cmp(&far(b)));
        outmost.map_or(spot(0.0, 0.0), |r| r.at.plus(r.r * c, r.r * s))
    };
    polygon(&(0..corners).map(corner).collect::<Vec<Spot>>())
}

/// Capsules one after another: right for any direction of view, a little angular.
pub fn chain(rounds: &[Round]) -> String {
    rounds.windows(2).map(|w| capsule(w[0], w[1])).collect()
}

/// A smooth tube with a straight hem at its last end: a sleeve, a leg of shorts.
pub fn cut(rounds: &[Round]) -> String {
    hemmed(rounds, false)
}

/// A smooth tube through circles; where they overlap too much to have a side, a chain.
pub fn tube(rounds: &[Round]) -> String {
    hemmed(rounds, true)
}

fn hemmed(rounds: &[Round], round_end: bool) -> String {
    let spread = rounds.windows(2).all(|w| {
        let d = w[0].at.to(w[1].at).length();
        d > 0.9 * (w[0].r - w[1].r).abs() + 0.35 * w[0].r.min(w[1].r)
    });
    if !spread || rounds.len() < 3 {
        return chain(rounds);
    }
    let n = rounds.len();
    let mut left = Vec::with_capacity(n);
    let mut right = Vec::with_capacity(n);
    for i in 0..n {
        let t = rounds[i.saturating_sub(1)].at.to(rounds[(i + 1).min(n - 1)].at).unit();
        let normal = spot(-t.y, t.x);
        left.push(rounds[i].at.along(normal, rounds[i].r));
        right.push(rounds[i].at.along(normal, -rounds[i].r));
    }
    right.reverse();
    let last = if round_end { rounds[n - 1].r } else { 0.0 };
    sides(&left, &right, Ends { first: rounds[0].r, last })
}

/// How far an outline bulges past its first and last points; not at all is straight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ends {
    /// Past the first.
    pub first: f64,
    /// Past the last.
    pub last: f64,
}

/// Close two smooth sides with round ends.
pub fn sides(left: &[Spot], right: &[Spot], ends: Ends) -> String {
    let (Some(start), Some(turn)) = (left.first(), right.first()) else { return String::new() };
    let (Some(top), Some(back)) = (left.last(), right.last()) else { return String::new() };
    let mut pen = Pen::at(*start);
    pen.smooth(left);
    bulge(&mut pen, *top, *turn, ends.last);
    pen.smooth(right);
    bulge(&mut pen, *back, *start, ends.first);
    pen.close();
    pen.path()
}

/// From one side of an end to the other: round where it is as deep as wide, flatter where it is
/// wider.
fn bulge(pen: &mut Pen, from: Spot, to: Spot, deep: f64) {
    let half = from.to(to).length() / 2.0;
    if deep <= 0.0 {
        return pen.line(to);
    }
    if deep > 0.90 * half {
        return pen.arc(half.max(deep), false, false, to);
    }
    let way = from.to(to).unit();
    let out = spot(-way.y, way.x);
    let handle = |p: Spot, inward: f64| p.along(way, inward).along(out, 4.0 / 3.0 * deep);
    pen.cubic(handle(from, 0.12 * half), handle(to, -0.12 * half), to);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_capsule_inside_a_circle_is_the_circle() {
        let big = round(spot(0.0, 0.0), 5.0);
        assert_eq!(capsule(big, round(spot(1.0, 0.0), 1.0)), circle(big));
    }
}

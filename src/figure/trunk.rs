//! Trunk, neck and head: elliptic sections along a spine that can bend and twist.
//! Our own drawing measures, fractions of stature; never used for weighing.

use super::camera::{Camera, Spot, spot};
use super::outline::{Ends, Round, capsule, circle, line, polygon, round, sides};
use super::paper::{Ink, Paper};
use super::pen::Pen;
use super::sitter::Sitter;
use crate::mechanics::marks::{Mark, Piece};
use crate::mechanics::space::{Vec3, vec3};

/// A section: how far up the trunk, pushed to the front, half depth, half width.
type Section = (f64, f64, f64, f64);

const SHIRT: [Section; 6] = [
    (-0.01, -0.006, 0.0540, 0.083),
    (0.42, 0.001, 0.0505, 0.078),
    (0.66, 0.006, 0.0580, 0.086),
    (0.84, 0.004, 0.0560, 0.098),
    (0.97, -0.002, 0.0420, 0.080),
    (1.03, -0.006, 0.0330, 0.052),
];

const SHORTS: [Section; 2] = [(-0.02, -0.006, 0.0565, 0.088), (0.22, -0.001, 0.0530, 0.081)];

/// How far seat and neck bulge past the trunk's ends, from whichever side they are seen: a body is
/// as deep below its hips from the front as from the side.
const SEAT: f64 = 0.0565;
const COLLAR: f64 = 0.0330;

/// Shirt and shorts of the trunk, over a halo.
pub fn trunk(sitter: &Sitter) -> Paper {
    let mut paper = Paper::default();
    let shirt = outline(sitter, &SHIRT, Ends { first: SEAT, last: COLLAR }, &mut paper);
    // A waistband is a straight line.
    let shorts = outline(sitter, &SHORTS, Ends { first: SEAT, last: 0.0 }, &mut paper);
    paper.draw(Ink::Halo, shirt.clone());
    paper.draw(Ink::Shirt, shirt);
    paper.draw(Ink::Shorts, shorts);
    paper
}

fn outline(sitter: &Sitter, sections: &[Section], ends: Ends, paper: &mut Paper) -> String {
    let shrug = shrug(sitter);
    let centres: Vec<Spot> = sections
        .iter()
        .map(|s| {
            let (at, frame) = spine(sitter, s.0);
            sitter.camera.see(at + frame.0 * (s.1 * sitter.body.stature) + shrug * yields(s.0))
        })
        .collect();
    let n = sections.len();
    let (mut left, mut right, mut radii) = (Vec::new(), Vec::new(), Vec::new());
    for (i, section) in sections.iter().enumerate() {
        let t = centres[i.saturating_sub(1)].to(centres[(i + 1).min(n - 1)]).unit();
        let normal = spot(-t.y, t.x);
        let r = extent(sitter, section, normal);
        left.push(centres[i].along(normal, r));
        right.push(centres[i].along(normal, -r));
        radii.push(r);
        paper.reach(&[round(centres[i], r)]);
    }
    let along = |t: f64| spine(sitter, t).0;
    let long = 100.0 * (along(sections[n - 1].0) - along(sections[0].0)).length();
    if centres[0].to(centres[n - 1]).length() < POINTS_AT_READER * long {
        return hull(sitter, sections, &centres);
    }
    right.reverse();
    let bulge = |share: f64, r: f64| (100.0 * share * sitter.body.stature).min(r);
    let ends = Ends { first: bulge(ends.first, radii[0]), last: bulge(ends.last, radii[n - 1]) };
    sides(&left, &right, ends)
}

/// A trunk seen at less than this part of its length has no sides to follow.
const POINTS_AT_READER: f64 = 0.6;
/// Corners of the outline of such a trunk, the same in every frame of a motion.
const CORNERS: usize = 18;

/// The outline of all sections together: in each direction the section that reaches farthest.
fn hull(sitter: &Sitter, sections: &[Section], centres: &[Spot]) -> String {
    let reach = |section: &Section, way: Spot| {
        let (_, (front, side)) = spine(sitter, section.0);
        let axes = [(front, section.2), (side, section.3)].map(|(axis, half)| {
            let seen = sitter.camera.aim(axis);
            spot(seen.x * half * sitter.body.stature, seen.y * half * sitter.body.stature)
        });
        let part = axes.map(|a| a.x * way.x + a.y * way.y);
        let r = part[0].hypot(part[1]).max(1e-9);
        let out = |k: fn(Spot) -> f64| (part[0] * k(axes[0]) + part[1] * k(axes[1])) / r;
        spot(out(|a| a.x), out(|a| a.y))
    };
    let corner = |i: usize| {
        let (s, c) = (std::f64::consts::TAU * i as f64 / CORNERS as f64).sin_cos();
        let way = spot(c, s);
        let all = sections.iter().zip(centres).map(|(section, centre)| {
            let rim = reach(section, way);
            centre.plus(rim.x, rim.y)
        });
        let far = |p: &Spot| p.x * way.x + p.y * way.y;
        all.max_by(|a, b| far(a).total_cmp(&far(b))).unwrap_or_default()
    };
    polygon(&(0..CORNERS).map(corner).collect::<Vec<Spot>>())
}

/// How far the shoulders are drawn up or down from where they rest, both together.
fn shrug(sitter: &Sitter) -> Vec3 {
    use crate::mechanics::joints::Side;
    use crate::mechanics::marks::LimbMark;
    let at = |side| sitter.body.limb(side, LimbMark::Shoulder);
    at(Side::Near).towards(at(Side::Far), 0.5) - sitter.body.mark(Mark::Shoulders)
}

/// How much of a shrug the trunk's outline follows a fraction `t` up: all of it at the shoulders,
/// nothing below the ribs.
fn yields(t: f64) -> f64 {
    ((t - 0.62) / 0.30).clamp(0.0, 1.0)
}

/// How far an elliptic section reaches across the picture along `normal`, centimetres.
fn extent(sitter: &Sitter, section: &Section, normal: Spot) -> f64 {
    let (_, (front, side)) = spine(sitter, section.0);
    let reach = |direction: Vec3, half: f64| {
        let seen = sitter.camera.aim(direction);
        half * sitter.body.stature * (seen.x * normal.x + seen.y * normal.y)
    };
    reach(front, section.2).hypot(reach(side, section.3))
}

/// A point of the spine a fraction `t` up the trunk, with the front and right of the body there.
fn spine(sitter: &Sitter, t: f64) -> (Vec3, (Vec3, Vec3)) {
    let mark = |m: Mark| sitter.body.mark(m);
    let knots = [mark(Mark::Hips), mark(Mark::Waist), mark(Mark::UpperBack), mark(Mark::Shoulders)];
    let x = (t * 3.0).clamp(-0.5, 3.5);
    let i = (x.floor().max(0.0) as usize).min(2);
    let (b, c) = (knots[i], knots[i + 1]);
    let a = if i == 0 { b + (b - c) } else { knots[i - 1] };
    let d = if i == 2 { c + (c - b) } else { knots[i + 2] };
    let at = curve(a, b, c, d, x - i as f64);
    (at, facing(sitter, t))
}

/// Catmull-Rom: a smooth curve through b and c.
fn curve(a: Vec3, b: Vec3, c: Vec3, d: Vec3, u: f64) -> Vec3 {
    let (u2, u3) = (u * u, u * u * u);
    (b * 2.0
        + (c - a) * u
        + (a * 2.0 - b * 5.0 + c * 4.0 - d) * u2
        + (b * 3.0 - a - c * 3.0 + d) * u3)
        * 0.5
}

fn facing(sitter: &Sitter, t: f64) -> (Vec3, Vec3) {
    let frames = [Piece::Pelvis, Piece::Middle, Piece::Chest].map(|p| sitter.body.frame(p));
    let x = (t * 3.0 - 0.5).clamp(0.0, 2.0);
    let i = (x.floor() as usize).min(1);
    let mix = |a: Vec3, b: Vec3| a.towards(b, x - i as f64).unit();
    (mix(frames[i].front, frames[i + 1].front), mix(frames[i].right, frames[i + 1].right))
}

/// The neck from the collar to the skull.
pub fn neck(sitter: &Sitter) -> Paper {
    let mut paper = Paper::default();
    let h = sitter.body.stature;
    let head = sitter.body.frame(Piece::Head);
    let chest = sitter.body.frame(Piece::Chest);
    let low = sitter.body.mark(Mark::Shoulders) + chest.carry(-0.008, 0.027, 0.0) * h;
    let high = sitter.body.mark(Mark::Head) + head.carry(-0.012, -0.030, 0.0) * h;
    paper.draw(Ink::Skin, capsule(sitter.round(low, 0.0275), sitter.round(high, 0.0260)));
    paper
}

/// The face over its halo: skull and jaw, brow and nose.
pub fn head(sitter: &Sitter) -> Paper {
    let mut paper = Paper::default();
    let at = |front: f64, up: f64, r: f64| on_head(sitter, vec3(front, up, 0.0), r);
    let (skull, jaw) = (at(-0.002, 0.010, skull_radius(sitter)), at(0.013, -0.036, 0.0300));
    let (brow, chin) = (at(0.034, 0.004, 0.0210), at(0.030, -0.046, 0.0165));
    let nose = at(0.0545, -0.016, 0.0070);
    paper.reach(&[skull, jaw, nose]);
    let face = [(skull, jaw), (jaw, chin), (brow, chin), (nose, brow)];
    let face: String = face.map(|(a, b)| capsule(a, b)).concat();
    paper.draw(Ink::Halo, face.clone());
    paper.draw(Ink::Skin, face);
    paper
}

/// A skull is longer than wide: 0.111 and 0.088 of stature.
fn skull_radius(sitter: &Sitter) -> f64 {
    const HALF: (f64, f64) = (0.0520, 0.0455);
    let ahead = sitter.camera.aim(sitter.body.frame(Piece::Head).front).length() / 100.0;
    HALF.1 + (HALF.0 - HALF.1) * ahead.min(1.0)
}

/// What lies over the face's outline: hair over crown and nape, the ears, the eyes.
pub fn hair(sitter: &Sitter) -> Paper {
    let mut paper = Paper::default();
    let frame = sitter.body.frame(Piece::Head);
    let crown = (frame.front * -0.70 + frame.up * 0.72).unit();
    let ball = on_head(sitter, vec3(-0.002, 0.012, 0.0), skull_radius(sitter));
    paper.draw(Ink::Hair, cap(&sitter.camera, ball, crown, 0.04));
    let ears =
        [1.0, -1.0].into_iter().filter(|side| sitter.camera.depth(frame.right * *side) > -0.5);
    let ears = ears.map(|side| circle(on_head(sitter, vec3(-0.006, -0.008, side * 0.046), 0.0095)));
    paper.draw(Ink::Skin, ears.collect());
    let eyes = [1.0, -1.0].map(|side| vec3(0.041, 0.002, side * 0.0195));
    let eyes = eyes.into_iter().filter(|at| {
        let out = frame.carry(at.x, at.y, at.z * 1.4).unit();
        sitter.camera.depth(out) > EYE_SEEN
    });
    let dot = |at| {
        let eye = on_head(sitter, at, 0.0).at;
        line(&[eye, eye])
    };
    paper.draw(Ink::Eye, eyes.map(dot).collect());
    if sitter.camera.depth(frame.front) > FACES {
        face(sitter, &mut paper);
    }
    paper
}

/// A face that is turned to the reader further than this has a mouth and a chin.
const FACES: f64 = 0.75;

fn face(sitter: &Sitter, paper: &mut Paper) {
    let see = |at: &(f64, f64, f64)| on_head(sitter, vec3(at.0, at.1, at.2), 0.0).at;
    let mouth = [(0.044, -0.0335, -0.0095), (0.046, -0.0335, 0.0095)].map(|at| see(&at));
    paper.stroke(Ink::Eye, line(&mouth), 0.9);
    // The chin before the neck: a line of paper, as between fingers.
    let [left, low, right] =
        [(0.012, -0.046, -0.0285), (0.030, -0.0790, 0.0), (0.012, -0.046, 0.0285)]
            .map(|at| see(&at));
    let mut pen = Pen::at(left);
    pen.quadratic(low, right);
    paper.stroke(Ink::ArrowHalo, pen.path(), 0.8);
}

/// An eye on the far side of the face is hidden by it.
const EYE_SEEN: f64 = 0.25;

/// A circle round a point of the head.
fn on_head(sitter: &Sitter, at: Vec3, r: f64) -> Round {
    let frame = sitter.body.frame(Piece::Head);
    let place = sitter.body.mark(Mark::Head) + frame.carry(at.x, at.y, at.z) * sitter.body.stature;
    sitter.round(place, r)
}

/// The part of a ball that lies on the `crown` side of a plane `lift` radii above its middle.
/// The seen part of the rim is cut into equal pieces from end to end, so that a small turn of the
/// head moves every point a little.
fn cap(camera: &Camera, ball: Round, crown: Vec3, lift: f64) -> String {
    let r = ball.r * 1.05;
    let side = if crown.x.abs() < 0.9 {
        Vec3 { x: 1.0, y: 0.0, z: 0.0 }
    } else {
        Vec3 { x: 0.0, y: 0.0, z: 1.0 }
    };
    let a = crown.cross(side).unit();
    let b = crown.cross(a);
    let rim = (1.0 - lift * lift).sqrt();
    // How near the rim is to the reader, all round: `level` more or less `swing`.
    let level = lift * camera.depth(crown);
    let swing = rim * camera.depth(a).hypot(camera.depth(b));
    if swing <= level.abs() {
        return if level > 0.0 { circle(round(ball.at, r)) } else { String::new() };
    }
    let nearest = camera.depth(b).atan2(camera.depth(a));
    let half = (-level / swing).acos();
    let on = |i: usize| {
        let (s, c) = (nearest - half + 2.0 * half * i as f64 / RIM as f64).sin_cos();
        crown * lift + (a * c + b * s) * rim
    };
    let place = |v: Vec3| {
        let flat = camera.aim(v).unit_or_shorter();
        ball.at.plus(flat.x * r, flat.y * r)
    };
    let run: Vec<Spot> = (0..=RIM).map(|i| place(on(i))).collect();
    close_round(&run, ball.at, r, place(crown))
}

/// Pieces of the rim of the hair.
const RIM: usize = 6;

impl Spot {
    /// Per metre to per unit, never longer than one: a ball's rim stays on the ball.
    fn unit_or_shorter(self) -> Spot {
        let s = spot(self.x / 100.0, self.y / 100.0);
        if s.length() > 1.0 { s.unit() } else { s }
    }
}

/// A line from rim to rim, closed along the ball's edge on the side of `crown`.
fn close_round(run: &[Spot], centre: Spot, r: f64, crown: Spot) -> String {
    let (Some(first), Some(last)) = (run.first(), run.last()) else { return String::new() };
    let rim = |p: Spot| centre.along(centre.to(p).unit(), r);
    let (start, end) = (rim(*first), rim(*last));
    let angle = |p: Spot| {
        let d = centre.to(p);
        d.y.atan2(d.x)
    };
    let turn = std::f64::consts::TAU;
    let to_crown = (angle(crown) - angle(end)).rem_euclid(turn);
    let to_start = (angle(start) - angle(end)).rem_euclid(turn);
    let clockwise = to_crown <= to_start;
    let span = if clockwise { to_start } else { turn - to_start };
    let mut line = vec![start];
    line.extend(&run[1..run.len() - 1]);
    line.push(end);
    let mut pen = Pen::at(start);
    pen.smooth(&line);
    pen.arc(r, span > std::f64::consts::PI, clockwise, start);
    pen.close();
    pen.path()
}

//! Motion: what touches stays, nobody's bones grow, and the file stays small.
//! Never a look at the drawings themselves; `cargo test --test motion` writes film strips of every
//! movement to `target/sheets/motion.html` for the eye.

use rungbook::figure::{frame, moving::moving, style};
use rungbook::gym::Gym;
use rungbook::library::reader;
use rungbook::mechanics::between::{Motion, motion};
use rungbook::mechanics::joints::{Joint, Side};
use rungbook::mechanics::kinematics::Body;
use rungbook::mechanics::marks::{LimbMark, Mark};
use rungbook::mechanics::scenery::pieces;
use rungbook::mechanics::skeleton::bounds;
use rungbook::mechanics::solve::{SolvedFigure, SolvedPose};
use rungbook::mechanics::space::Vec3;
use rungbook::mechanics::words::contact::{Contact, Part, Surface};
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::LazyLock;

static GYM: LazyLock<Gym> = LazyLock::new(|| {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    Gym::open(reader::read(&content).expect("the starter library is there"))
});

/// Every movement of the starter library that moves, with its figure and its motion.
fn motions() -> Vec<(&'static str, &'static SolvedFigure, Motion)> {
    let figures = GYM.posed.iter().filter_map(|(id, p)| Some((id.as_str(), p.figure.as_ref()?)));
    figures.filter_map(|(id, figure)| Some((id, figure, motion(figure)?))).collect()
}

/// Fails with every complaint at once.
fn none(complaints: Vec<String>) {
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

/// The points of a body that a contact puts on its surface.
fn points(contact: &Contact) -> Vec<Mark> {
    let Some(side) = contact.side else {
        return match contact.part {
            Part::Back => vec![Mark::Back],
            Part::Head => vec![Mark::Head],
            Part::Chest => vec![Mark::Chest],
            _ => vec![Mark::Hips],
        };
    };
    let of = |marks: &[LimbMark]| marks.iter().map(|m| m.of(side)).collect();
    match contact.part {
        Part::Foot => of(&[LimbMark::Heel, LimbMark::Ball]),
        Part::Toes => of(&[LimbMark::Ball]),
        Part::Heel => of(&[LimbMark::Heel]),
        Part::Knee => of(&[LimbMark::Knee]),
        Part::Forearm => of(&[LimbMark::Elbow, LimbMark::Wrist]),
        _ if contact.surface.is_gripped() => of(&[LimbMark::Grip]),
        _ => of(&[LimbMark::Palm, LimbMark::Wrist]),
    }
}

/// The points that are on the same spot of the same surface in both key poses, within a centimetre.
fn fixed(from: &SolvedPose, to: &SolvedPose) -> Vec<Mark> {
    let holds = |c: &Contact| !matches!(c.surface, Surface::Air | Surface::Slider);
    let mut marks = Vec::new();
    for (old, _) in from.touches.iter().filter(|(c, _)| holds(c)) {
        let again =
            |c: &&Contact| (c.side, c.surface, c.height) == (old.side, old.surface, old.height);
        for new in to.touches.iter().map(|(c, _)| c).filter(again) {
            let in_both = points(old).into_iter().filter(|m| points(new).contains(m));
            marks.extend(in_both.filter(|m| apart(&from.body, &to.body, *m) < 0.01));
        }
    }
    marks
}

/// How far a mark is from where it was, metres, in the plane that the solver works in.
fn apart(a: &Body, b: &Body, mark: Mark) -> f64 {
    (a.mark(mark) - b.mark(mark)).length()
}

/// The poses of a motion, leg by leg: the key poses at both ends, and all from one to the other.
fn legs(motion: &Motion) -> impl Iterator<Item = &[SolvedPose]> {
    motion.keys.windows(2).map(|ends| &motion.poses[ends[0]..=ends[1]])
}

#[test]
fn what_touches_stays_where_it_is() {
    let (mut slid, mut held, mut worst) = (Vec::new(), 0, 0.0_f64);
    for (id, _, motion) in motions() {
        for leg in legs(&motion) {
            let (from, to) = (&leg[0], &leg[leg.len() - 1]);
            for mark in fixed(from, to) {
                for (step, pose) in leg.iter().enumerate().skip(1) {
                    held += 1;
                    let way = apart(&from.body, &pose.body, mark);
                    worst = worst.max(way);
                    if way >= 0.01 {
                        slid.push(format!("{id}: {mark:?} by {:.1} cm at {step}", way * 100.0));
                    }
                }
            }
        }
    }
    println!("{held} contacts looked at, the worst slides {:.2} cm", worst * 100.0);
    none(slid);
    assert!(held > 1500, "{held}");
}

/// The bones: from mark to mark without a joint between.
fn bones() -> Vec<(Mark, Mark)> {
    let central = [
        (Mark::Hips, Mark::Waist),
        (Mark::Waist, Mark::UpperBack),
        (Mark::UpperBack, Mark::Shoulders),
        (Mark::Neck, Mark::Head),
    ];
    let limbs = Side::BOTH.into_iter().flat_map(|side| {
        use LimbMark::*;
        let pairs = [
            (Hip, Knee),
            (Knee, Ankle),
            (Heel, Ball),
            (Ankle, Heel),
            (Shoulder, Elbow),
            (Elbow, Wrist),
            (Wrist, Fingers),
        ];
        pairs.map(|(a, b)| (a.of(side), b.of(side)))
    });
    central.into_iter().chain(limbs).collect()
}

#[test]
fn no_bone_changes_its_length_and_no_joint_leaves_its_range() {
    let (low, high) = bounds();
    let mut bad = Vec::new();
    for (id, figure, motion) in motions() {
        let length = |body: &Body, a, b| (body.mark(a) - body.mark(b)).length();
        for (step, pose) in motion.poses.iter().enumerate() {
            for (a, b) in bones() {
                let change = length(&pose.body, a, b) - length(&figure.start().body, a, b);
                if change.abs() > 1e-9 {
                    bad.push(format!("{id}: {a:?} to {b:?} by {change} m at {step}"));
                }
            }
            for joint in Joint::all().filter(|j| !j.is_place()) {
                let (value, i) = (pose.body.posture.get(joint), joint.index());
                let between = |a: f64, b: f64| (a - 1e-6..=b + 1e-6).contains(&value);
                // A key pose may state a joint beyond its range: then the check has said so.
                let ends = [figure.start(), figure.end()].map(|p| p.body.posture.get(joint));
                let (least, most) =
                    (low[i].min(ends[0]).min(ends[1]), high[i].max(ends[0]).max(ends[1]));
                if !between(least, most) {
                    bad.push(format!(
                        "{id}: {joint:?} at {:.0} degrees at {step}",
                        value.to_degrees()
                    ));
                }
            }
        }
    }
    none(bad);
}

/// The furthest way of a mark from pose to pose, as a multiple of an even pace along the leg.
#[test]
fn no_limb_jumps_from_one_in_between_to_the_next() {
    let mut jumps = Vec::new();
    for (id, _, motion) in motions() {
        for leg in legs(&motion) {
            let ways: Vec<f64> =
                leg.windows(2).map(|pair| furthest(&pair[0].body, &pair[1].body)).collect();
            let whole: f64 = ways.iter().sum();
            for (step, way) in ways.iter().enumerate() {
                // Three fifths of the whole way in a third of the time or less is a jump.
                if *way > 0.05 && *way > 0.6 * whole {
                    jumps.push(format!(
                        "{id}: {:.0} of {:.0} cm at {step}",
                        way * 100.0,
                        whole * 100.0
                    ));
                }
            }
        }
    }
    none(jumps);
}

fn furthest(a: &Body, b: &Body) -> f64 {
    let ways = a.places().iter().zip(b.places()).map(|(p, q): (&Vec3, &Vec3)| (*q - *p).length());
    ways.fold(0.0, f64::max)
}

fn compressed(text: &str) -> usize {
    let pipe = || Stdio::piped();
    let mut gzip =
        Command::new("gzip").arg("-9nc").stdin(pipe()).stdout(pipe()).spawn().expect("gzip");
    gzip.stdin.take().expect("a pipe").write_all(text.as_bytes()).expect("gzip reads");
    gzip.wait_with_output().expect("gzip ends").stdout.len()
}

#[test]
fn a_motion_is_a_small_file() {
    let mut sizes: Vec<(usize, &str)> = motions()
        .iter()
        .map(|(id, figure, motion)| {
            let text = serde_json::to_string(&moving(figure, motion)).expect("JSON");
            (compressed(&text), *id)
        })
        .collect();
    sizes.sort_unstable();
    println!(
        "{} motions, gzip -9: median {}, most {:?}",
        sizes.len(),
        sizes[sizes.len() / 2].0,
        &sizes[sizes.len() - 12..]
    );
    none(sizes.iter().filter(|(size, _)| *size > 6_000).map(|s| format!("{s:?}")).collect());
    assert!(sizes.len() > 70);
}

/// A walk goes on from where it came to, and hands that circle come round: no frame is the first
/// one's by a jump.
#[test]
fn what_goes_on_and_on_ends_as_it_began() {
    let of = |id: &str| {
        let found = motions().into_iter().find(|(own, ..)| *own == id);
        found.unwrap_or_else(|| panic!("{id} does not move")).2
    };
    let ends = |motion: &Motion| {
        (motion.poses[0].body.clone(), motion.poses[motion.poses.len() - 1].body.clone())
    };
    let (first, last) = ends(&of("walking-lunge"));
    let went = |mark: Mark| last.mark(mark) - first.mark(mark);
    let step = went(Mark::Hips);
    assert!(step.x > 0.5, "{step:?}");
    for mark in [LimbMark::Ball.of(Side::Near), LimbMark::Ball.of(Side::Far), Mark::Head] {
        assert!((went(mark) - step).length() < 0.01, "{mark:?} {:?} {step:?}", went(mark));
    }
    let circle = of("arm-circle");
    let (first, last) = ends(&circle);
    let hand = LimbMark::Grip.of(Side::Near);
    assert!((last.mark(hand) - first.mark(hand)).length() < 0.01);
    // Down, ahead, overhead, and out to the side on the way back.
    let from_shoulder = circle
        .poses
        .iter()
        .map(|pose| pose.body.mark(hand) - pose.body.limb(Side::Near, LimbMark::Shoulder));
    let ways: Vec<Vec3> = from_shoulder.collect();
    let reach = ways[0].length();
    let goes = |test: &dyn Fn(&Vec3) -> bool| ways.iter().position(test);
    let ahead = goes(&|way| way.x > 0.8 * reach).expect("ahead");
    let above = goes(&|way| way.y > 0.9 * reach).expect("overhead");
    let aside = goes(&|way| way.z > 0.9 * reach).expect("out to the side");
    assert!(ahead < above && above < aside, "{ahead} {above} {aside}");
}

#[test]
fn film_strips_are_on_a_sheet() {
    let mut strips = String::new();
    for (id, figure, motion) in motions() {
        let kit = pieces(figure);
        strips += &format!("<h2>{id}</h2><p>");
        for pose in &motion.poses {
            let (mut paper, kits) = frame::standing(pose, figure, &kit);
            let mut whole = frame::ground(figure, paper.bounds, kits);
            whole.lay(std::mem::take(&mut paper));
            let b = whole.bounds;
            let (w, h) = (b.max.x - b.min.x, b.max.y - b.min.y);
            strips += &format!(
                "<svg class=\"fig\" height=\"{}\" viewBox=\"{} {} {w} {h}\">{}</svg>",
                h * 0.55,
                b.min.x,
                b.min.y,
                whole.svg()
            );
        }
        strips += "</p>";
    }
    assert!(!strips.contains("NaN"));
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/sheets");
    std::fs::create_dir_all(&folder).expect("a folder");
    let page = format!(
        "<!doctype html><meta charset=\"utf-8\"><title>Motion</title><style>{}{}\
         body{{background:var(--paper);color:var(--ink);font:12px sans-serif}}\
         h2{{margin:4px 0 0;font-size:12px}}p{{margin:0;white-space:nowrap}}</style>{strips}",
        style::ALONE,
        style::SHEET
    );
    std::fs::write(folder.join("motion.html"), page).expect("a sheet");
}

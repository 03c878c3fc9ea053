//! Every pose of the starter library, at every rung and over every setting: forces that balance, and
//! numbers that a person could bear.
//! Never the program's own equations: forces, points and centre of mass are summed afresh.

use super::library::STATURES;
use rayon::prelude::*;
use rungbook::gym::heights::{HeightTable, STATURES as TABLED};
use rungbook::gym::scale::{Axis, Reading, reading};
use rungbook::gym::{Gym, posed};
use rungbook::library::{Movement, Quantity, SettingName, Unit, reader as files};
use rungbook::mechanics::doubt::Doubt;
use rungbook::mechanics::mass::centre_of_mass;
use rungbook::mechanics::segments::Table;
use rungbook::mechanics::solve::{Person, SolvedFigure, SolvedPose};
use rungbook::mechanics::space::{Plane, Vec3};
use rungbook::mechanics::statics::support;
use rungbook::mechanics::words::contact::Surface;
use std::path::Path;

fn starter() -> Gym {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    Gym::open(files::read(&content).expect("the starter library is there"))
}

/// What the forces leave over: sideways, upward, and turning about the centre of mass.
fn left_over(figure: &SolvedFigure, pose: &SolvedPose) -> Option<[f64; 3]> {
    let support = support(pose, figure).filter(|s| s.refused.is_none())?;
    let (mass, centre) = centre_of_mass(&figure.lumps, &pose.body);
    let flat = |v: Vec3| match figure.plane() {
        Plane::Side => (v.x, v.y),
        Plane::Front => (v.z, v.y),
    };
    let (mut level, mut up, mut turn) = (0.0, -mass, 0.0);
    let mut add = |at: Vec3, force: Vec3| {
        let ((x, y), (fx, fy)) = (flat(at - centre), flat(force));
        (level, up, turn) = (level + fx, up + fy, turn + x * fy - y * fx);
    };
    for push in &support.pushes {
        let each = push.force * (1.0 / push.touches.len() as f64);
        support.points(push, pose).for_each(|(_, at)| add(at, each));
    }
    support.pulls.iter().for_each(|pull| add(pull.at, pull.force));
    Some([level, up, turn])
}

/// Upward forces sum to the weight and nothing is left that would turn the body, to 1e-9, in every
/// key pose of every movement and of every rung that has numbers.
#[test]
fn forces_balance_in_every_pose_of_the_library() {
    let gym = starter();
    let figures = gym.posed.values().chain(gym.rungs.values()).filter_map(|p| p.figure.as_ref());
    let (mut poses, mut numbered) = (0, 0);
    for figure in figures {
        for pose in &figure.poses {
            poses += 1;
            let Some(left) = left_over(figure, pose) else { continue };
            numbered += 1;
            assert!(left.iter().all(|over| over.abs() < 1e-9), "{left:?} at {}", pose.at);
        }
    }
    assert!(5 * numbered > 4 * poses, "{numbered} of {poses} poses have forces");
}

/// Steps from one end of a setting to the other.
const STEPS: u32 = 10;

/// Some settings of a movement, each at a value.
type At<'m> = Vec<(&'m SettingName, Quantity)>;

/// Every setting that a pose shows in ten steps, the others as usual; no setting at all; and, where
/// there are several, every end of one with every end of the others.
fn every_value(movement: &Movement) -> Vec<At<'_>> {
    let steps = |from: f64, to: f64, n: u32| from + (to - from) * f64::from(n) / f64::from(STEPS);
    let shown = || movement.settings.iter().filter(|(_, setting)| setting.unit != Unit::Second);
    let each = shown().flat_map(|(name, setting)| {
        let (from, to) = (setting.from.number(), setting.to.number());
        (0..=STEPS)
            .map(move |n| vec![(&name.value, Quantity::new(steps(from, to, n), setting.unit))])
    });
    let corners = shown().fold(vec![Vec::new()], |all: Vec<At<'_>>, (name, setting)| {
        let with = |end: Quantity| {
            all.iter().map(move |at| [at.as_slice(), &[(&name.value, end)]].concat())
        };
        with(setting.from).chain(with(setting.to)).collect()
    });
    let corners = corners.into_iter().filter(|at| at.len() > 1);
    std::iter::once(Vec::new()).chain(each).chain(corners).collect()
}

/// Arms bear the whole body and what is added, and a little more where they slope.
fn most_on_arms(added: f64) -> f64 {
    115.0 * (1.0 + added / Person::default().kilograms)
}

/// A number, its band, and why it could not be true.
fn wrong(read: &Reading, added: f64) -> Option<String> {
    let most = match read.axis {
        // What goes through one arm alone counts twice.
        Axis::Arms => most_on_arms(added) * if read.alone { 2.0 } else { 1.0 },
        Axis::Carried => 2.0 * 40.0,
        // A band at three times its length pulls half as hard again as at twice.
        Axis::Pulled => 1.6 * 4.2,
        // The whole body and a weight as heavy on a lever of a thigh and half a trunk.
        _ => 12.0,
    };
    let possible = read.value.is_finite() && read.value > 0.0 && read.value <= most;
    // What is printed is at least one point, or a tenth: no number looks surer than a scale.
    let least = match read.axis {
        Axis::Arms => 1.0,
        Axis::Carried => 0.0,
        Axis::Pulled => 0.1,
        _ => 0.05,
    };
    let banded = read.band.is_finite() && read.band >= least;
    let sure = read.band <= read.value;
    (!(possible && banded && sure)).then(|| format!("{} give or take {}", read.value, read.band))
}

/// No share at or below nothing, none above what a body can bear, none without a band, and nothing
/// left over of any force, over the whole range of every setting at five statures, for three segment
/// tables.
#[test]
fn no_number_is_impossible_anywhere() {
    let gym = starter();
    let on_an_axis = |m: &&Movement| Axis::of(m.pattern.value.as_str()).is_some();
    let movements: Vec<&Movement> = gym.library.movements.values().filter(on_an_axis).collect();
    let found: Vec<(usize, Vec<String>)> = movements.par_iter().map(|m| impossible(m)).collect();
    let known: usize = found.iter().map(|(known, _)| known).sum();
    let bad: Vec<String> = found.into_iter().flat_map(|(_, bad)| bad).collect();
    println!("{known} numbers");
    assert!(known > 2000, "{known}");
    assert!(bad.is_empty(), "{}", bad.join("\n"));
}

/// How many numbers a movement has over its settings and statures, and the impossible ones.
fn impossible(movement: &Movement) -> (usize, Vec<String>) {
    let axis = Axis::of(movement.pattern.value.as_str()).expect("an axis");
    let (mut known, mut bad) = (0, Vec::new());
    for at in every_value(movement) {
        for (stature, table) in STATURES.into_iter().zip(Table::ALL.into_iter().cycle()) {
            let person = Person { stature, table, ..Person::default() };
            let given: Vec<(&str, Quantity)> =
                at.iter().map(|(name, q)| (name.as_str(), *q)).collect();
            let names: Vec<&SettingName> = at.iter().map(|(name, _)| *name).collect();
            let posed = posed(movement, &given, &person);
            let told = |why: String| format!("{} {at:?} {stature}: {why}", movement.id);
            let demand = posed.as_ref().and_then(|posed| posed.demand.as_ref());
            let added = demand.map_or(0.0, |d| d.weight);
            if let Ok(read) = reading(axis, movement, posed.as_ref(), &names) {
                known += 1;
                bad.extend(wrong(&read, added).map(told));
            }
            let figure = posed.as_ref().and_then(|posed| posed.figure.as_ref());
            for (figure, pose) in figure.iter().flat_map(|f| f.poses.iter().map(move |p| (f, p))) {
                let left = left_over(figure, pose);
                bad.extend(
                    left.filter(|l| l.iter().any(|over| over.abs() >= 1e-9))
                        .map(|left| told(format!("{left:?} left over"))),
                );
            }
            for pose in demand.iter().flat_map(|d| &d.borne).flat_map(|b| &b.at) {
                let possible = (0.0..=most_on_arms(added)).contains(&pose.along);
                if pose.refused.is_none() && !possible {
                    bad.push(told(format!("{pose:?}")));
                }
            }
        }
    }
    (known, bad)
}

/// The table behind pages and placing says at every rung what the ladder says, band and all.
#[test]
fn tables_and_ladders_say_the_same() {
    let gym = starter();
    let mut compared = 0;
    for ladder in gym.library.ladders.values() {
        for (rung, reading) in ladder.rungs.iter().zip(gym.readings(ladder)) {
            let movement = &gym.library.movements[&rung.movement.value];
            let (Ok(read), Some(table)) = (reading, gym.heights(movement)) else { continue };
            let [(name, value)] = rung.settings.as_slice() else { continue };
            if name.value.as_str() != table.setting || !table.is_share {
                continue;
            }
            let at = value.value.number();
            let (demand, band) = (table.at(at, TABLED[1]), table.band_at(at, TABLED[1]));
            let shown = |value: Option<f64>| HeightTable::shown(value.expect("in the table"));
            assert_eq!(shown(demand), read.axis.shown(read.value), "{}", movement.id);
            assert_eq!(shown(band), HeightTable::shown(read.band), "{}", movement.id);
            compared += 1;
        }
    }
    assert!(compared > 10, "{compared}");
}

/// Which contacts a support has, for the limits below.
fn on(figure: &SolvedFigure, surface: Surface) -> bool {
    figure.start().touches.iter().any(|(contact, _)| contact.surface == surface)
}

/// A body that stands upright at a wall bears nothing on its arms; one that stands on its hands
/// bears all of itself.
#[test]
fn shares_go_to_nothing_upright_and_to_the_whole_on_the_hands() {
    use rungbook::mechanics::demand::demand;
    use rungbook::mechanics::solve::figure;
    let share = |pose: &str, surface: Surface| {
        let (solved, _) = figure(&super::facts::pose(pose), 0, &[], &Person::default());
        let solved = solved.expect("a figure");
        assert!(on(&solved, surface));
        let demand = demand(&solved);
        demand.borne.expect("arms").at[0]
    };
    let wall = |lean: f64| {
        let pose = format!(
            "{{start: {{hands: wall, feet: floor, body: \"straight, lean {lean}\", shoulder: {}, elbow: 0}}}}",
            87.0 + lean
        );
        share(&pose, Surface::Wall).along
    };
    let leans = [15.0, 10.0, 6.0, 3.0, 1.0].map(wall);
    assert!(leans.windows(2).all(|pair| pair[1] < pair[0]), "{leans:?}");
    assert!(leans[4] > 0.0 && leans[4] < 1.5, "{leans:?}");
    let stand = share(
        "{shape: handstand, start: {hands: floor, heels: \"wall, 14 ahead of hands\", elbow: 0, hip: 0, knee: 0, shoulder: 182}}",
        Surface::Floor,
    );
    assert!((stand.upward - 100.0).abs() < 1e-9, "{stand:?}");
    assert!(stand.refused.is_none());
}

fn usual<'g>(gym: &'g Gym, id: &str) -> &'g rungbook::mechanics::demand::Demand {
    let posed = gym.posed.iter().find(|(own, _)| own.as_str() == id);
    posed.and_then(|(_, posed)| posed.demand.as_ref()).unwrap_or_else(|| panic!("{id}"))
}

/// The front foot carries what its pose says, and the front leg's moments are what is read: on the
/// rear leg the same pose asks something else.
#[test]
fn split_squats_and_lunges_read_the_leg_that_leads() {
    use rungbook::mechanics::joints::Side;
    let gym = starter();
    let said = [
        ("split-squat", 80.0),
        ("raised-split-squat", 84.0),
        ("reverse-lunge", 80.0),
        ("walking-lunge", 80.0),
    ];
    for (id, wanted) in said {
        let demand = usual(&gym, id);
        let (near, far) = demand.feet.expect("two feet");
        assert!((100.0 * near / (near + far) - wanted).abs() < 0.6, "{id}: {near} {far}");
        assert_eq!(demand.lead, Some(Side::Near), "{id}");
        assert!(demand.ruled, "{id}");
        let movement = gym.library.movements.values().find(|m| m.id.as_str() == id);
        let figure = movement.and_then(|m| posed(m, &[], &Person::default())).expect("a pose");
        let mut rear = figure.figure.expect("a figure");
        rear.recipe.leads = Some(Side::Far);
        let rear = rungbook::mechanics::demand::demand(&rear);
        assert!((rear.moments.leg - demand.moments.leg).abs() > 0.5, "{id}");
    }
}

/// The hand that holds on while the other rows has no number: it is not the one that works.
#[test]
fn a_hand_that_only_holds_on_has_no_number() {
    use rungbook::gym::heights::asked;
    use rungbook::gym::scale::Unknown;
    let gym = starter();
    let row = gym.library.movements.values().find(|m| m.id.as_str() == "one-arm-row");
    let read = asked(row.expect("in the library"), &[], &Person::default());
    assert_eq!(read, Err(Unknown::IdleHand));
}

/// Measurements of other kinds that the model was never set on, `facts/measured_more.csv`. Yoshioka
/// 2007: the least sum of hip and knee that anyone can rise from 40 cm with is 1.53 N m/kg a leg.
/// Schellenberg 2013: at one weight the hips hold less in a deadlift than with straighter knees.
#[test]
fn other_measured_rows_come_out_too() {
    use rungbook::gym::heights::asked;
    let gym = starter();
    let read = |id: &str, name: &str, value: f64, unit: Unit| {
        let movement = gym.library.movements.values().find(|m| m.id.as_str() == id);
        let movement = movement.expect("in the library");
        let (name, _) = movement
            .settings
            .iter()
            .find(|(own, _)| own.value.as_str() == name)
            .expect("a setting");
        let at = [(&name.value, Quantity::new(value, unit))];
        asked(movement, &at, &Person::default()).expect("a number")
    };
    let rise = read("squat-to-box", "seat", 40.0, Unit::Centimetre);
    // No deep squat stands beside the measured ones: there calf and thigh press on each other, which no
    // moment here knows (calf1), and ours holds on to something.
    let miss = rise.value - 1.53;
    let score = 2.0 * rise.band + 20.0 * (miss.abs() - rise.band).max(0.0);
    println!(
        "rise from 40 cm, hip and knee: {:.2} give or take {:.2}, measured 1.53, {miss:+.2}; interval score {score:.2} N m/kg",
        rise.value, rise.band
    );
    assert!(miss.abs() < 0.15 && miss.abs() <= rise.band, "{}", rise.value);
    let [bent, straight] =
        ["deadlift", "romanian-deadlift"].map(|id| read(id, "weight", 16.0, Unit::Kilogram));
    assert!(straight.value - bent.value > 0.0, "{} {}", bent.value, straight.value);
}

/// A band is what the doubts come to: where nothing is in doubt it is small, and where a force turns
/// about its own foot it is wide.
#[test]
fn bands_follow_the_doubts() {
    use rungbook::gym::heights::asked;
    let gym = starter();
    let read = |id: &str, at: Option<f64>| {
        let movement = gym.library.movements.values().find(|m| m.id.as_str() == id);
        let movement = movement.expect("in the library");
        let at: Vec<(&SettingName, Quantity)> = at
            .into_iter()
            .map(|value| {
                let (name, setting) = &movement.settings[0];
                (&name.value, Quantity::new(value, setting.unit))
            })
            .collect();
        asked(movement, &at, &Person::default()).expect("a number")
    };
    assert!((read("pull-up", None).band - 1.0).abs() < 1e-9, "a hang is sure");
    let leans = [10.0, 15.0, 30.0].map(|lean| read("wall-push-up", Some(lean)).band);
    assert!(leans[0] < leans[1] && leans[1] < leans[2], "{leans:?}");
    let (high, low) = (read("incline-push-up", Some(90.0)), read("incline-push-up", Some(60.0)));
    let apart = low.apart(&high);
    assert!(apart < low.band.hypot(high.band), "what both err in alike cancels: {apart}");
    assert!(apart > 0.5, "and the rest stays: {apart}");
    // A share that a rule sets is in doubt itself; two feet side by side have none.
    let by_rule = |id: &str| read(id, None).doubts.0[Doubt::FrontFoot as usize].abs();
    assert!(by_rule("split-squat") > 0.05, "{}", by_rule("split-squat"));
    assert!(by_rule("squat") < 1e-9);
}

/// Rows speak for poses of their kind within their own range and instant, and for no others.
#[test]
fn no_claim_reaches_beyond_its_rows() {
    use rungbook::gym::heights::asked;
    use rungbook::gym::measured::Provenance;
    use rungbook::mechanics::published::When;
    let gym = starter();
    let read = |id: &str, at: Option<f64>| {
        let movement = gym.library.movements.values().find(|m| m.id.as_str() == id);
        let movement = movement.expect("in the library");
        let at: Vec<(&SettingName, Quantity)> = at
            .into_iter()
            .map(|value| {
                let (name, setting) = &movement.settings[0];
                (&name.value, Quantity::new(value, setting.unit))
            })
            .collect();
        asked(movement, &at, &Person::default()).expect("a number")
    };
    let checked = |id: &str, at: Option<f64>, when: When| {
        matches!(gym.provenance_at(&read(id, at), when), Provenance::Checked(_))
    };
    let within = [
        ("push-up", None, When::Straight),
        ("push-up", None, When::Bottom),
        ("knee-push-up", None, When::Straight),
        ("incline-push-up", Some(60.0), When::Straight),
        ("strap-row", Some(45.0), When::Straight),
    ];
    for (id, at, when) in within {
        assert!(checked(id, at, when), "{id} {at:?}");
    }
    let beyond = [
        ("incline-push-up", Some(75.0), When::Straight),
        ("incline-push-up", Some(60.0), When::Bottom),
        ("strap-row", Some(22.0), When::Straight),
        ("strap-row", Some(45.0), When::Bottom),
        // It goes down on the toes and comes up on the knees: Suprak's bottom is somebody else's.
        ("lowering-push-up", None, When::Bottom),
        ("pike-push-up", None, When::Straight),
        ("bench-pike-push-up", None, When::Straight),
        ("wall-push-up", None, When::Straight),
        ("bar-row", None, When::Straight),
        ("pull-up", None, When::Straight),
        ("dip", None, When::Straight),
    ];
    for (id, at, when) in beyond {
        assert!(!checked(id, at, when), "{id} {at:?}");
    }
}

//! Statics against an independent solution: three equations, solved by elimination, on many
//! random supports; and balance of forces and moments to 1e-9.
//! Never reads the program's own equations: only where contacts are and what the forces are.

use super::facts::pose as read;
use rungbook::mechanics::mass::lumps;
use rungbook::mechanics::segments::Table;
use rungbook::mechanics::solve::{Person, SolvedFigure, SolvedPose, figure};
use rungbook::mechanics::statics::{pressure_point, support};
use rungbook::mechanics::words::contact::{Family, Part};

/// Numbers in 0..1 from a plain congruence: the same on every machine.
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }
    fn between(&mut self, a: f64, b: f64) -> f64 {
        a + (b - a) * self.next()
    }
}

fn random_pose(chance: &mut Chance) -> String {
    let r = |c: &mut Chance, a: f64, b: f64| format!("{:.2}", c.between(a, b));
    match (chance.next() * 5.0) as u32 {
        0 => format!(
            "{{start: {{hands: box {}, toes: floor, body: straight, elbow: {}}}}}",
            r(chance, 1.0, 70.0),
            r(chance, 0.0, 60.0)
        ),
        1 => format!(
            "{{start: {{hands: floor, toes: box {}, body: straight, elbow: 0}}}}",
            r(chance, 1.0, 60.0)
        ),
        2 => format!(
            "{{start: {{heels: floor, hands: \"straps 220, anchor over heels +{}\", body: \"straight, lean -{}\"}}}}",
            r(chance, 0.0, 20.0),
            r(chance, 25.0, 70.0)
        ),
        3 => format!(
            "{{start: {{near: {{foot: floor, knee: {}}}, far: {{toes: \"floor, 70 behind near foot\"}}, trunk: {}, arms: hang}}}}",
            r(chance, 5.0, 60.0),
            r(chance, 0.0, 20.0)
        ),
        _ => format!(
            "{{start: {{back: floor, feet: floor, knee: {}, hip: 0, arms: flat}}}}",
            r(chance, 80.0, 105.0)
        ),
    }
}

/// Solve A x = b by elimination with row exchange.
fn eliminate(mut a: [[f64; 3]; 3], mut b: [f64; 3]) -> [f64; 3] {
    for col in 0..3 {
        let pivot =
            (col..3).max_by(|&i, &j| a[i][col].abs().total_cmp(&a[j][col].abs())).expect("a row");
        a.swap(col, pivot);
        b.swap(col, pivot);
        for row in 0..3 {
            if row != col {
                let k = a[row][col] / a[col][col];
                (0..3).for_each(|c| a[row][c] -= k * a[col][c]);
                b[row] -= k * b[col];
            }
        }
    }
    [b[0] / a[0][0], b[1] / a[1][1], b[2] / a[2][2]]
}

fn centre(figure: &SolvedFigure, pose: &SolvedPose) -> (f64, f64, f64) {
    let lumps = lumps(Table::Winter, figure.recipe.held.as_ref(), figure.person.kilograms);
    let (mut m, mut x, mut y) = (0.0, 0.0, 0.0);
    for lump in &lumps {
        for (mark, share) in &lump.spots {
            let at = pose.body.mark(*mark);
            m += lump.mass * share;
            x += lump.mass * share * at.x;
            y += lump.mass * share * at.y;
        }
    }
    (m, x / m, y / m)
}

#[test]
fn forces_and_moments_balance_on_random_poses() {
    let mut chance = Chance(7);
    let mut compared = 0;
    for _ in 0..300 {
        let text = random_pose(&mut chance);
        let person = Person { stature: chance.between(1.5, 1.98), ..Person::default() };
        let (solved, _) = figure(&read(&text), 0, &[], &person);
        let figure = solved.expect("a figure");
        let pose = figure.start();
        let Some(s) = support(pose, &figure) else { continue };
        let (m, cx, cy) = centre(&figure, pose);
        let (mut fx, mut fy, mut turn) = (0.0, -m, 0.0);
        for p in &s.pushes {
            fx += p.force.x;
            fy += p.force.y;
            turn += (p.at.x - cx) * p.force.y - (p.at.y - cy) * p.force.x;
        }
        assert!(
            fx.abs() < 1e-9 && fy.abs() < 1e-9 && turn.abs() < 1e-9,
            "{text}: {fx} {fy} {turn}"
        );
        compared += usize::from(agrees(pose, (m, cx, cy), &s));
    }
    assert!(compared > 150, "{compared}");
}

/// The unknowns (size of the first force along its line, and both parts of the second) from
/// three equations, against the pushes.
fn agrees(
    pose: &SolvedPose,
    (m, cx, cy): (f64, f64, f64),
    s: &rungbook::mechanics::statics::Support,
) -> bool {
    let [first, second] = s.pushes.as_slice() else { return false };
    let point = |touches: &[usize]| {
        let n = touches.len() as f64;
        touches.iter().fold((0.0, 0.0), |(x, y), &i| {
            let p = pressure_point(&pose.touches[i].0, pose);
            (x + p.x / n, y + p.y / n)
        })
    };
    let ((ax, ay), (bx, by)) = (point(&first.touches), point(&second.touches));
    let size = first.force.length();
    let (dx, dy) = (first.force.x / size, first.force.y / size);
    if pose.touches[first.touches[0]].0.part.family() == Family::Arm {
        let c = &pose.touches[first.touches[0]].0;
        assert!(matches!(c.part, Part::Hand | Part::Forearm));
    }
    // Unknowns: t, gx, gy. Level forces, upward forces, moments about the centre of mass.
    let a =
        [[dx, 1.0, 0.0], [dy, 0.0, 1.0], [(ax - cx) * dy - (ay - cy) * dx, -(by - cy), bx - cx]];
    let [t, gx, gy] = eliminate(a, [0.0, m, 0.0]);
    assert!((t - size).abs() < 1e-9, "{t} {size}");
    assert!((gx - second.force.x).abs() < 1e-9 && (gy - second.force.y).abs() < 1e-9);
    true
}

/// The three cases that `tests/statics.py` solves again with scipy: joints and contacts as solved, and
/// the shares that the program gives.
#[test]
fn three_cases_are_left_for_another_solver() {
    use rungbook::mechanics::demand::demand;
    use rungbook::mechanics::joints::Side;
    use rungbook::mechanics::marks::{LimbMark, Mark};
    use std::path::Path;
    let cases = [
        ("push-up", "{start: {hands: floor, toes: floor, body: straight, elbow: 0}}"),
        ("hands on 60 cm", "{start: {hands: box 60, toes: floor, body: straight, elbow: 0}}"),
        (
            "straps at 45 degrees",
            "{start: {heels: floor, hands: \"straps 220, anchor over heels +20\", body: \"straight, lean -45\"}}",
        ),
    ];
    let written = cases.map(|(name, text)| {
        let (solved, _) = figure(&read(text), 0, &[], &Person::default());
        let figure = solved.expect("a figure");
        let pose = figure.start();
        let at = |mark: Mark| [pose.body.mark(mark).x, pose.body.mark(mark).y];
        use LimbMark::{Ankle, Ball, Elbow, Hip, Knee, Palm, Shoulder, Wrist};
        let limb = |mark: LimbMark| Side::BOTH.map(|side| at(mark.of(side)));
        let touches: Vec<_> = pose
            .touches
            .iter()
            .map(|(contact, at)| {
                let rope = contact.surface.is_rope();
                let y = if rope { at.y } else { contact.height.unwrap_or(0.0) };
                let arm = contact.part.family() == Family::Arm;
                serde_json::json!({"arm": arm, "rope": rope, "at": [at.x, y]})
            })
            .collect();
        let borne = demand(&figure).borne.expect("arms");
        serde_json::json!({
            "name": name,
            "hips": at(Mark::Hips), "shoulders": at(Mark::Shoulders), "head": at(Mark::Head),
            "hip": limb(Hip), "knee": limb(Knee), "ankle": limb(Ankle), "ball": limb(Ball),
            "shoulder": limb(Shoulder), "elbow": limb(Elbow), "wrist": limb(Wrist),
            "palm": limb(Palm),
            "touches": touches,
            "anchor": figure.rope.map(|rope| [rope.anchor.x, rope.anchor.y]),
            "upward": borne.at[0].upward, "along": borne.at[0].along,
        })
    });
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("statics");
    std::fs::create_dir_all(&folder).expect("a folder below target");
    let text = serde_json::to_string_pretty(&written).expect("plain numbers");
    std::fs::write(folder.join("cases.json"), text).expect("a file below target");
}

//! The solver: bounded damped least squares (Levenberg-Marquardt with box bounds).
//! Deterministic, no randomness, no clock; it always returns, met or not.

use super::joints::{JOINTS, Joint, Posture};
use super::kinematics::Body;
use super::marks::Mark;
use super::skeleton::bounds;
use super::terms::{Drifts, Role, Term};

const MAX_FREE: usize = 26;
type Square = [[f64; MAX_FREE]; MAX_FREE];

/// The longest step of one round, radians or metres: keeps limbs from flipping over.
const LONGEST_STEP: f64 = 0.6;

/// What came out.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// The body as it stands.
    pub body: Body,
    /// Sum of the squared misses.
    pub cost: f64,
    /// The part of it that is not rest terms: what the author asked for and did not get.
    pub unmet: f64,
    /// Rounds used.
    pub rounds: usize,
}

/// Meet `terms` from `start`, moving only `free` joints.
pub fn solve(terms: &[Term], start: Posture, free: &[Joint], stature: f64, most: usize) -> Outcome {
    let mut run = Run::new(terms, start, free, stature);
    let mut damping = 1e-2;
    let mut rounds = 0;
    while rounds < most {
        rounds += 1;
        match run.step(&mut damping) {
            Some(gain) if gain > 1e-9 => {}
            _ => break,
        }
    }
    let unmet =
        terms.iter().filter(|t| t.role != Role::Rest).map(|t| t.miss(&run.body).powi(2)).sum();
    Outcome { body: run.body, cost: run.cost, unmet, rounds }
}

struct Run<'a> {
    terms: &'a [Term],
    free: &'a [Joint],
    marks: Vec<Mark>,
    low: [f64; JOINTS],
    high: [f64; JOINTS],
    body: Body,
    cost: f64,
}

impl<'a> Run<'a> {
    fn new(terms: &'a [Term], start: Posture, free: &'a [Joint], stature: f64) -> Run<'a> {
        let free = &free[..free.len().min(MAX_FREE)];
        let (low, high) = bounds();
        let mut posture = start;
        for joint in free {
            let i = joint.index();
            posture.0[i] = posture.0[i].clamp(low[i], high[i]);
        }
        let mut marks = Vec::new();
        terms.iter().for_each(|t| t.marks(&mut marks));
        marks.sort_unstable();
        marks.dedup();
        let body = Body::stand(posture, stature);
        let cost = cost(terms, &body);
        Run { terms, free, marks, low, high, body, cost }
    }

    /// One round; the relative gain, or none when no step helps.
    fn step(&mut self, damping: &mut f64) -> Option<f64> {
        let (normal, pull) = self.normal_equations();
        let held = self.at_bounds(&pull);
        for _ in 0..12 {
            if let Some(change) = damped_step(&normal, &pull, &held, *damping, self.free.len()) {
                let body = Body::stand(self.moved(&change), self.body.stature);
                let cost = cost(self.terms, &body);
                if cost < self.cost {
                    let gain = (self.cost - cost) / self.cost.max(1e-12);
                    (self.body, self.cost) = (body, cost);
                    *damping = (*damping * 0.2).max(1e-9);
                    return Some(gain);
                }
            }
            *damping *= 4.0;
        }
        None
    }

    fn normal_equations(&self) -> (Square, [f64; MAX_FREE]) {
        let n = self.free.len();
        let drifts = Drifts::of(&self.body, self.free, &self.marks);
        let mut normal = [[0.0; MAX_FREE]; MAX_FREE];
        let mut pull = [0.0; MAX_FREE];
        for term in self.terms {
            let mut row = [0.0; MAX_FREE];
            term.slope(&self.body, self.free, &drifts, &mut row);
            let miss = term.miss(&self.body);
            for i in 0..n {
                if row[i] == 0.0 {
                    continue;
                }
                pull[i] += row[i] * miss;
                for j in 0..=i {
                    normal[i][j] += row[i] * row[j];
                }
            }
        }
        (normal, pull)
    }

    /// Joints at a bound that the pull would push further out stay where they are.
    fn at_bounds(&self, pull: &[f64; MAX_FREE]) -> [bool; MAX_FREE] {
        let mut held = [false; MAX_FREE];
        for (k, joint) in self.free.iter().enumerate() {
            let i = joint.index();
            let value = self.body.posture.0[i];
            held[k] = (value <= self.low[i] + 1e-9 && pull[k] > 0.0)
                || (value >= self.high[i] - 1e-9 && pull[k] < 0.0);
        }
        held
    }

    fn moved(&self, change: &[f64; MAX_FREE]) -> Posture {
        let longest = change.iter().fold(0.0_f64, |m, c| m.max(c.abs()));
        let scale = (LONGEST_STEP / longest.max(1e-12)).min(1.0);
        let mut posture = self.body.posture;
        for (k, joint) in self.free.iter().enumerate() {
            let i = joint.index();
            posture.0[i] = (posture.0[i] + change[k] * scale).clamp(self.low[i], self.high[i]);
        }
        posture
    }
}

fn cost(terms: &[Term], body: &Body) -> f64 {
    terms.iter().map(|t| t.miss(body)).map(|m| m * m).sum()
}

/// Solve (N + damping diag N) d = -pull over the joints that are not held, by Cholesky.
fn damped_step(
    normal: &Square,
    pull: &[f64; MAX_FREE],
    held: &[bool; MAX_FREE],
    damping: f64,
    n: usize,
) -> Option<[f64; MAX_FREE]> {
    let moving: Vec<usize> = (0..n).filter(|&i| !held[i]).collect();
    let m = moving.len();
    let mut root = [[0.0; MAX_FREE]; MAX_FREE];
    for (a, &i) in moving.iter().enumerate() {
        for (b, &j) in moving[..=a].iter().enumerate() {
            let mut sum = normal[i][j];
            if a == b {
                sum += damping * (normal[i][i] + 1e-6);
            }
            sum -= (0..b).map(|k| root[a][k] * root[b][k]).sum::<f64>();
            if a == b {
                if sum <= 0.0 {
                    return None;
                }
                root[a][a] = sum.sqrt();
            } else {
                root[a][b] = sum / root[b][b];
            }
        }
    }
    let mut d = [0.0; MAX_FREE];
    for a in 0..m {
        let known: f64 = (0..a).map(|k| root[a][k] * d[k]).sum();
        d[a] = (-pull[moving[a]] - known) / root[a][a];
    }
    for a in (0..m).rev() {
        let known: f64 = (a + 1..m).map(|k| root[k][a] * d[k]).sum();
        d[a] = (d[a] - known) / root[a][a];
    }
    let mut change = [0.0; MAX_FREE];
    for (a, &i) in moving.iter().enumerate() {
        change[i] = d[a];
    }
    Some(change)
}

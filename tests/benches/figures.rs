//! Solving and drawing time of every movement's figure and of its motion, and their bytes.
//! A benchmark, not a test: `cargo bench --bench figures`. Needs gzip.

use rungbook::figure;
use rungbook::figure::moving::moving;
use rungbook::gym::{pose_person, posed};
use rungbook::library::reader;
use rungbook::mechanics::between::motion;
use rungbook::mechanics::solve::solve_recipe;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

const TRIES: usize = 7;

fn main() {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let library = reader::read(&content).expect("the starter library is there");
    let mut told: Vec<(&str, Vec<(f64, String)>)> = [
        "solve, ms",
        "read, solve, check, ms",
        "draw, ms",
        "figure, bytes",
        "figure, gzip -9",
        "in-betweens, ms",
        "draw the motion, ms",
        "motion, bytes",
        "motion, gzip -9",
    ]
    .map(|what| (what, Vec::new()))
    .into();
    for movement in library.movements.values().filter(|m| m.figure.is_some()) {
        let whole = || posed(movement, &[], &pose_person());
        let Some(solved) = whole().and_then(|posed| posed.figure) else { continue };
        let draw = || figure::poses(&solved, movement.name.value.as_str(), "fig");
        let mut tell = |at: usize, number| told[at].1.push((number, movement.id.to_string()));
        tell(0, best(|| drop(solve_recipe(solved.recipe.clone(), &pose_person()))));
        tell(1, best(|| drop(whole())));
        tell(2, best(|| drop(draw())));
        tell(3, draw().len() as f64);
        tell(4, compressed(draw().as_bytes()));
        let Some(way) = motion(&solved) else { continue };
        let script = || serde_json::to_string(&moving(&solved, &way)).expect("JSON");
        tell(5, best(|| drop(motion(&solved))));
        tell(6, best(|| drop(script())));
        tell(7, script().len() as f64);
        tell(8, compressed(script().as_bytes()));
    }
    println!("best of {TRIES} tries each");
    told.into_iter().for_each(|(what, numbers)| tell(what, numbers));
}

/// The shortest of some tries, milliseconds: other work on the machine may disturb any of them.
fn best(act: impl Fn()) -> f64 {
    let time = || {
        let start = Instant::now();
        act();
        start.elapsed().as_secs_f64() * 1000.0
    };
    (0..TRIES).map(|_| time()).fold(f64::INFINITY, f64::min)
}

fn compressed(text: &[u8]) -> f64 {
    let pipe = || Stdio::piped();
    let mut gzip =
        Command::new("gzip").arg("-9nc").stdin(pipe()).stdout(pipe()).spawn().expect("gzip");
    gzip.stdin.take().expect("a pipe").write_all(text).expect("gzip reads");
    gzip.wait_with_output().expect("gzip ends").stdout.len() as f64
}

fn tell(what: &str, mut numbers: Vec<(f64, String)>) {
    numbers.sort_by(|a, b| a.0.total_cmp(&b.0));
    let at = |share: f64| &numbers[((numbers.len() - 1) as f64 * share).round() as usize];
    let (median, high, most) = (at(0.5), at(0.95), at(1.0));
    println!(
        "{what:23} {:3} figures  median {:8.2}  p95 {:8.2}  most {:8.2} ({})",
        numbers.len(),
        median.0,
        high.0,
        most.0,
        most.1
    );
}

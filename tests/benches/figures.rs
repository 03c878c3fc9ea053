//! Solving and drawing time of every movement's figure, and its bytes compressed.
//! A benchmark, not a test: `cargo bench --bench figures`. Needs gzip.

use rungbook::figure;
use rungbook::gym::{pose_person, posed};
use rungbook::library::reader;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

const TRIES: usize = 7;

fn main() {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let library = reader::read(&content).expect("the starter library is there");
    let (mut solving, mut drawing, mut bytes) = (Vec::new(), Vec::new(), Vec::new());
    for movement in library.movements.values().filter(|m| m.figure.is_some()) {
        let solve = || posed(movement, &[], &pose_person());
        let Some(solved) = solve().and_then(|posed| posed.figure) else { continue };
        let draw = || figure::draw(&solved, &movement.name.value, "fig");
        solving.push((best(|| drop(solve())), movement.id.to_string()));
        drawing.push((best(|| drop(draw())), movement.id.to_string()));
        bytes.push((compressed(draw().strip.as_bytes()), movement.id.to_string()));
    }
    println!("{} figures, best of {TRIES} tries each", solving.len());
    tell("solve and check, ms", solving);
    tell("draw, ms", drawing);
    tell("gzip -9, bytes", bytes);
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
        "{what:20} median {:8.2}  p95 {:8.2}  most {:8.2} ({})",
        median.0, high.0, most.0, most.1
    );
}

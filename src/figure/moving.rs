//! A figure that moves: every frame from start to end as a small file for the page's script.
//! Never moves anything itself; the page's script does, and only when asked.
//!
//! The file says every path once and then, for each frame, how far each of its numbers strays from
//! going on as before: mostly little, so it compresses to a fraction of the frames' own paths.

use super::frame::{KIT, TRUNK, ground, standing};
use super::paper::{Bounds, Ink, Paper, Shape};
use super::pen::{num, nums};
use crate::mechanics::between::Motion;
use crate::mechanics::scenery::pieces;
use crate::mechanics::solve::SolvedFigure;
use crate::mechanics::words::recipe::Arrow;
use serde::Serialize;

/// A motion as the page's script reads it.
#[derive(Debug, Serialize)]
pub struct Moving {
    /// The `viewBox` that holds every frame.
    view: String,
    /// Frames that are key poses, from 0; the last is the last frame.
    keys: Vec<usize>,
    /// Whether it goes on and on (a crawl, a walk) rather than back.
    onward: bool,
    /// Whether the last key pose is held for a moment.
    pause: bool,
    /// Every path that is there in some frame.
    paths: Vec<Track>,
    /// From this frame on: which paths are there, back to front.
    orders: Vec<(usize, Vec<usize>)>,
}

/// One path through the frames.
#[derive(Debug, Serialize)]
struct Track {
    /// Its look.
    class: &'static str,
    /// Its line width, where it is not the look's own.
    #[serde(skip_serializing_if = "String::is_empty")]
    width: String,
    /// Its pieces in order; from one to the next it changes at once.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    runs: Vec<Run>,
    /// Instead of runs: the paths whose halo it is. A halo is the outline of what it parts from
    /// the ground, so nothing of it needs saying twice.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    of: Vec<usize>,
}

/// Frames of a path that differ only in numbers.
#[derive(Debug, Serialize)]
struct Run {
    /// The first of them.
    from: usize,
    /// How many.
    frames: usize,
    /// Path data of the first.
    d: String,
    /// For each number, for each frame after the first: how far it is from going on as before, in
    /// tenths of a centimetre, written by [`write`]. Empty where nothing moves.
    strays: String,
}

/// Room round the frames, centimetres.
const EDGE: f64 = 4.0;

/// Draw every frame of `motion`.
pub fn moving(figure: &SolvedFigure, motion: &Motion) -> Moving {
    let kit = pieces(figure);
    let drawn: Vec<(Paper, Bounds)> =
        motion.poses.iter().map(|pose| standing(pose, figure, &kit)).collect();
    let (mut bodies, mut kits) = (Bounds::EMPTY, Bounds::EMPTY);
    for (paper, kit) in &drawn {
        bodies.join(paper.bounds);
        kits.join(*kit);
    }
    let ground = ground(figure, bodies, kits);
    let mut all = ground.bounds;
    all.join(bodies);
    let frames = drawn.into_iter().map(|(paper, _)| {
        let mut whole = ground.clone();
        whole.lay(paper);
        named(whole.merged())
    });
    let (paths, orders) = tracks(frames.collect());
    let (wide, tall) = (all.max.x - all.min.x, all.max.y - all.min.y);
    let corner = (all.min.x - EDGE, all.min.y - EDGE);
    let view = nums(&[corner.0, corner.1, wide + 2.0 * EDGE, tall + 2.0 * EDGE]);
    let onward = matches!(figure.recipe.arrow, Arrow::Onward | Arrow::Around);
    let pause = figure.recipe.pause;
    Moving { view, keys: motion.keys.clone(), onward, pause, paths, orders }
}

/// A shape by whose it is, how it looks, and which of that look it is: the same shape through all
/// frames, wherever in the order it lies.
type Name = (usize, &'static str, String, usize);

fn named(shapes: Vec<Shape>) -> Vec<(Name, String)> {
    let mut named: Vec<(Name, String)> = Vec::new();
    for shape in shapes {
        let width = shape.width.map_or(String::new(), num);
        let mut name = (shape.whose, shape.ink.class(), width, 0);
        while named.iter().any(|(other, _)| *other == name) {
            name.3 += 1;
        }
        named.push((name, shape.path));
    }
    named
}

fn tracks(frames: Vec<Vec<(Name, String)>>) -> (Vec<Track>, Vec<(usize, Vec<usize>)>) {
    let mut names: Vec<Name> = Vec::new();
    let mut orders: Vec<(usize, Vec<usize>)> = Vec::new();
    for (at, frame) in frames.iter().enumerate() {
        let mut order = Vec::with_capacity(frame.len());
        for (name, _) in frame {
            let known = names.iter().position(|other| other == name);
            order.push(known.unwrap_or(names.len()));
            if known.is_none() {
                names.push(name.clone());
            }
        }
        if orders.last().is_none_or(|(_, last)| *last != order) {
            orders.push((at, order));
        }
    }
    let track = |name: &Name| {
        let of = haloed(name, &names);
        let of_frame = |frame: &Vec<(Name, String)>| {
            frame.iter().find(|(other, _)| other == name).map(|(_, path)| path.clone())
        };
        let paths: Vec<Option<String>> = frames.iter().map(of_frame).collect();
        let runs = if of.is_empty() { runs(&paths) } else { Vec::new() };
        Track { class: name.1, width: name.2.clone(), runs, of }
    };
    (names.iter().map(track).collect(), orders)
}

/// What a halo of the body goes round: skin and shoes, and the shirt of the trunk.
fn haloed(name: &Name, names: &[Name]) -> Vec<usize> {
    if name.1 != Ink::Halo.class() || name.0 == KIT {
        return Vec::new();
    }
    let mut round = vec![Ink::Skin, Ink::FarSkin, Ink::Shoe, Ink::FarShoe];
    if name.0 == TRUNK {
        round.push(Ink::Shirt);
    }
    let goes_round = |other: &Name| other.0 == name.0 && round.iter().any(|i| i.class() == other.1);
    (0..names.len()).filter(|i| goes_round(&names[*i])).collect()
}

/// A path of every frame, cut wherever more than its numbers changes.
fn runs(paths: &[Option<String>]) -> Vec<Run> {
    let taken: Vec<Option<Apart>> = paths.iter().map(|path| Some(apart(path.as_ref()?))).collect();
    let alike = |a: &Option<Apart>, b: &Option<Apart>| {
        a.as_ref().map(|a| &a.commands) == b.as_ref().map(|b| &b.commands)
    };
    let mut runs = Vec::new();
    let mut from = 0;
    for run in taken.chunk_by(alike) {
        let numbers: Vec<&[i64]> = run.iter().flatten().map(|a| a.numbers.as_slice()).collect();
        let still = numbers.iter().all(|n| *n == numbers[0]);
        if let Some(d) = &paths[from] {
            let strays = if still { String::new() } else { strays(&numbers) };
            runs.push(Run { from, frames: run.len(), d: d.clone(), strays });
        }
        from += run.len();
    }
    runs
}

/// A path taken apart: its commands with the flags of its arcs, and its numbers in tenths.
struct Apart {
    commands: String,
    numbers: Vec<i64>,
}

/// What each number strays from going on as before; in the second frame, from standing still.
fn strays(frames: &[&[i64]]) -> String {
    let mut out = String::new();
    for number in 0..frames[0].len() {
        for at in 1..frames.len() {
            let now = |frame: usize| frames[frame][number];
            let before = now(at.saturating_sub(2));
            write(now(at) - (2 * now(at - 1) - before), &mut out);
        }
    }
    out
}

/// Small numbers as one letter from `#` to `~`, `Q` being nothing (the backslash is left out);
/// larger ones as a space and two letters.
fn write(value: i64, out: &mut String) {
    const HALF: i64 = 45;
    const WHOLE: i64 = 2 * HALF + 1;
    if (-HALF..=HALF).contains(&value) {
        out.push(letter(value + HALF));
        return;
    }
    // Further than forty metres nothing goes.
    let large = (value + WHOLE * HALF).clamp(0, WHOLE * WHOLE - 1);
    out.extend([' ', letter(large / WHOLE), letter(large % WHOLE)]);
}

/// The letter of a place in the alphabet from `#` to `~` without the backslash.
fn letter(place: i64) -> char {
    let code = b'#' + place.clamp(0, 90) as u8;
    char::from(if code >= b'\\' { code + 1 } else { code })
}

/// Take path data of our own pen apart: each command stands once before its numbers.
fn apart(path: &str) -> Apart {
    let mut taken = Apart { commands: String::new(), numbers: Vec::new() };
    let mut rest = path;
    // How many numbers of an arc have been read.
    let mut of_arc = None;
    while let Some(first) = rest.chars().next() {
        if first.is_ascii_alphabetic() {
            taken.commands.push(first);
            of_arc = (first == 'a').then_some(0);
            rest = &rest[1..];
        } else if first == ' ' {
            rest = &rest[1..];
        } else {
            let (tenths, after) = number(rest);
            // The fourth and fifth number of an arc are flags: yes or no, nothing between.
            match of_arc {
                Some(3 | 4) => taken.commands.push(if tenths == 0 { '0' } else { '1' }),
                _ => taken.numbers.push(tenths),
            }
            of_arc = of_arc.map(|n| n + 1);
            rest = after;
        }
    }
    taken
}

/// The number at the start of `text`, in tenths, and what follows it: a second sign or a second
/// point starts the next number.
fn number(text: &str) -> (i64, &str) {
    let mut points = 0;
    let end = text.char_indices().find(|(at, c)| {
        points += i32::from(*c == '.');
        let own = c.is_ascii_digit() || (*c == '-' && *at == 0) || (*c == '.' && points == 1);
        !own
    });
    let (own, rest) = text.split_at(end.map_or(text.len(), |(at, _)| at.max(1)));
    (own.parse::<f64>().map_or(0, |value| (value * 10.0).round() as i64), rest)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_comes_apart_into_commands_and_tenths() {
        let taken = apart("M1-.5l.5.5-3 2a2 2 0 1 0 4-1.5z");
        assert_eq!(taken.commands, "Mla10z");
        assert_eq!(taken.numbers, [10, -5, 5, 5, -30, 20, 20, 20, 0, 40, -15]);
    }

    #[test]
    fn going_on_as_before_is_written_as_nothing() {
        let frames: [&[i64]; 4] = [&[0, 7], &[30, 7], &[60, 7], &[190, 7]];
        // 30 from standing still; nothing; then 100, which is too much for one letter.
        assert_eq!(strays(&frames), "oP Q,PPP");
    }
}

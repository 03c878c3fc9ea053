//! The wordbook of poses: every word with its sign, its zero and its range, and a drawing that our own
//! engine makes of its example. Never words anything itself, and is no part of a site.

use super::frame::{ground, standing};
use super::pen::{escaped, nums};
use super::sheet::{EDGE, width};
use super::style;
use crate::finding::FileId;
use crate::gym::pose_tree;
use crate::library::reader::node::parse;
use crate::mechanics::guard::checked;
use crate::mechanics::node::{PoseCode, PoseProblem};
use crate::mechanics::scenery::pieces;
use crate::mechanics::solve::{Person, SolvedFigure};
use crate::mechanics::words::glossary::{FIGURE, POSE, PoseWord};
use crate::mechanics::words::keypose::joint_of;
use crate::mechanics::words::told::{OPENING, line, lists};
use std::fmt::Write;

/// On what a word's example is shown, where standing does not show it: the word, and the rest of the
/// figure with `HERE` where the example goes.
const SHOWN_ON: &[(&str, &str)] = &[
    ("feet", "view: front, start: {HERE, trunk: upright}"),
    ("foot-angle", "start: {seat: chair 60, trunk: upright, HERE}"),
    (
        "knee-height",
        "shape: all fours, start: {hands: \"floor, under shoulders\", toes: floor, HERE}",
    ),
    (
        "foot-height",
        "start: {feet: floor}, end: {lift: near foot, near: {HERE}, balance: far foot}",
    ),
    ("hand-height", "start: {feet: floor}, end: {HERE, elbow: 0}"),
    ("toes", "start: {hands: floor, body: straight, elbow: 0, HERE}"),
    ("heels", "start: {seat: chair 45, trunk: upright, knee: 20, HERE}"),
    ("knees", "shape: kneel, start: {HERE, trunk: upright, thigh: 0}"),
    ("hands", "start: {HERE, toes: floor, body: straight, elbow: 0}"),
    ("forearms", "start: {HERE, toes: floor, body: straight}"),
    ("seat", "start: {HERE, feet: floor, trunk: upright}"),
    ("back", "start: {HERE, feet: floor, knee: 90, arms: flat}"),
    ("side", "shape: side-lying, view: front, start: {HERE}"),
    ("lift", "start: {feet: floor}, end: {HERE, far: {hip: 60, knee: 60}, balance: near foot}"),
    ("body", "start: {HERE, hands: wall, feet: floor, elbow: 0}"),
    ("chest", "start: {hands: floor, toes: floor, body: straight, elbow: 0}, end: {HERE}"),
    ("hips", "start: {feet: floor, arms: forward, HERE}"),
    ("head", "start: {back: floor, feet: floor, knee: 90, arms: flat, HERE}"),
    ("chin", "shape: hang, start: {hands: bar 225, balance: hands, HERE}"),
    ("arm-out", "view: front, start: {feet: floor, trunk: upright, HERE}"),
    ("leg-out", "view: front, start: {feet: floor, trunk: upright, balance: free, HERE}"),
    ("side-bend", "view: front, start: {feet: floor, HERE}"),
    ("tilt", "view: front, start: {feet: floor, balance: free, HERE}"),
    (
        "balance",
        "view: front, start: {feet: floor, far: {hip: 40, knee: 70}, lift: far foot, HERE}",
    ),
];

/// A drawing of a word's example, and of the same at zero where it says an angle.
struct Pictures {
    zero: Option<String>,
    example: Option<String>,
}

/// The wordbook as a page of its own, for whoever writes poses.
pub fn wordbook() -> String {
    let mut words = String::new();
    let mut group = "";
    for word in POSE.iter().chain(FIGURE) {
        if word.group != group {
            group = word.group;
            let _ = writeln!(words, "<h2>{}</h2>", escaped(group));
        }
        words.push_str(&entry(word));
    }
    let (opening, lists) = (escaped(OPENING), escaped(&lists()));
    format!("{HEAD}<pre>{opening}</pre>\n{words}<h2>Words behind others</h2>\n<pre>{lists}</pre>\n</main></body></html>\n")
        .replace("{sheet}", &format!("{}{}", style::ALONE, style::SHEET))
}

const HEAD: &str = "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\
    <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
    <meta name=\"color-scheme\" content=\"light dark\"><title>Words of poses</title>\n\
    <style>{sheet}\
    body{background:var(--paper);color:var(--ink);font:106%/1.45 system-ui,\"DejaVu Sans\",sans-serif;margin:0}\
    main{max-width:70rem;margin:0 auto;padding:1rem}\
    pre{overflow:auto;white-space:pre-wrap;font-size:.85rem}\
    .word{display:flex;flex-wrap:wrap;gap:.5rem 1.5rem;border-top:1px solid var(--ink);padding:.7rem 0}\
    .word>div{flex:1 1 18rem}.word h3{margin:0}.word p{margin:.3em 0}\
    figure{margin:0;flex:0 0 9rem}figure svg{display:block;width:9rem;height:9rem}\
    figcaption{font-size:.85rem}</style></head><body><main>\n<h1>Words of poses</h1>\n";

fn entry(word: &PoseWord) -> String {
    let names: Vec<String> =
        word.names.iter().map(|name| format!("<code>{}</code>", escaped(name))).collect();
    let Pictures { zero, example } = pictures(word);
    let name = word.names.first().copied().unwrap_or_default();
    let zero = zero.map(|drawing| figure(&drawing, &format!("{name}: 0")));
    let example_drawn = example.map(|drawing| figure(&drawing, word.example));
    format!(
        "<section class=\"word\"><div><h3>{}</h3><p>{}</p><p><code>{}</code></p></div>{}{}</section>\n",
        names.join(", "),
        escaped(&line(word)),
        escaped(word.example),
        zero.unwrap_or_default(),
        example_drawn.unwrap_or_default()
    )
}

fn figure(drawing: &str, words: &str) -> String {
    let words = escaped(words);
    format!("<figure>{drawing}<figcaption><code>{words}</code></figcaption></figure>")
}

fn pictures(word: &PoseWord) -> Pictures {
    let name = word.names.first().copied().unwrap_or_default();
    let is_angle = joint_of(name).is_some() || SLOPES.contains(&name);
    let zero = is_angle.then(|| shown(name, &format!("{name}: 0"))).flatten();
    Pictures { zero, example: shown(name, word.example) }
}

const SLOPES: [&str; 6] = ["trunk", "thigh", "shin", "upper-arm", "forearm", "foot-angle"];

/// The picture of an example, drawn on what shows it; nothing where the engine does not reach it.
fn shown(name: &str, example: &str) -> Option<String> {
    let figure = solved(name, example)?;
    let kit = pieces(&figure);
    let (body, kit_bounds) = standing(figure.end(), &figure, &kit);
    // No arrow and no sign of a hold: a word says neither.
    let mut paper = ground(&figure, body.bounds, kit_bounds);
    paper.lay(body);
    let b = paper.bounds;
    let tall = b.max.y - b.min.y + 2.0 * EDGE;
    let view = nums(&[b.min.x - EDGE, b.min.y - EDGE, width(b) + 2.0 * EDGE, tall]);
    Some(format!(
        "<svg class=\"fig\" viewBox=\"{view}\" aria-hidden=\"true\">{}</svg>",
        paper.svg()
    ))
}

/// The figure of an example; nothing where it cannot be met.
fn solved(name: &str, example: &str) -> Option<SolvedFigure> {
    let is_figures = FIGURE.iter().any(|word| word.names.contains(&name));
    let on = SHOWN_ON.iter().find(|(own, _)| *own == name).map(|(_, on)| *on);
    let on = match on {
        Some(on) => vec![on],
        None if example.starts_with("start:") => vec!["HERE"],
        None if example.starts_with("end:") || example.starts_with("between:") => {
            vec!["start: {feet: floor}, HERE"]
        }
        None if is_figures => vec!["start: {feet: floor, arms: forward}, HERE"],
        // An upright trunk shows best what a limb does; what leans the trunk is shown without.
        None => vec![
            "start: {feet: floor, balance: free, trunk: upright, HERE}",
            "start: {feet: floor, balance: free, HERE}",
        ],
    };
    on.into_iter().find_map(|on| met(&on.replace("HERE", example)))
}

/// A figure solved for the drawn person; nothing where a word of it is missed or cannot be read.
fn met(figure: &str) -> Option<SolvedFigure> {
    let tree = parse(&format!("figure: {{{figure}}}"), FileId::default(), 0).ok()?;
    let tree = pose_tree(&tree);
    let (tree, at) = tree.get("figure")?;
    let (figure, problems) = checked(tree, at, &[], &Person::default());
    let unread = |code| matches!(code, PoseCode::UnknownWord | PoseCode::UnreadableValue);
    let fails = |problem: &PoseProblem| problem.missed.is_some() || unread(problem.code);
    figure.filter(|_| !problems.iter().any(fails))
}

//! Contact sheets: every figure of the starter library on one page, for the eye.
//! Never judges a drawing; it fails only where there is nothing to look at.
//!
//! `cargo test --test sheets` writes `target/sheets/light.html`, `dark.html` and `narrow.html`
//! (320 px wide). Open them in a browser after every change to the room `figure`.

use rungbook::figure::beside::draw_wrong;
use rungbook::figure::wrong::wrong;
use rungbook::figure::{draw, style};
use rungbook::gym::Gym;
use rungbook::library::reader;
use rungbook::mechanics::solve::SolvedFigure;
use std::path::Path;

/// The theme's dark colours, forced, so that both sheets can be looked at on one screen.
const DARK: &str = ":root{--ink:#ece8dd;--paper:#1d262b;--accent:#f0a35e}";

fn page(cells: &str, colours: &str, width: u32) -> String {
    // As high as pages have room: about two parts for three of width.
    let tall = width * 2 / 3;
    format!(
        "<!doctype html><meta charset=\"utf-8\"><title>Figures</title><style>{}{}{colours}\
         body{{background:var(--paper);color:var(--ink);font:13px sans-serif;display:grid;\
         grid-template-columns:repeat(auto-fill,{width}px);gap:14px;margin:0;align-items:end}}\
         figure{{margin:0}}svg{{display:block;width:100%;max-height:{tall}px}}</style>{cells}",
        style::ALONE,
        style::SHEET
    )
}

#[test]
fn every_figure_is_on_the_sheets() {
    let house = Path::new(env!("CARGO_MANIFEST_DIR"));
    let gym = Gym::open(reader::read(&house.join("content")).expect("the starter library"));
    let mut cells = String::new();
    let mut drawn = 0;
    let mut guesses: Vec<(u64, &str, &SolvedFigure)> = Vec::new();
    for (id, posed) in &gym.posed {
        let figure = posed.figure.as_ref().unwrap_or_else(|| panic!("{id} is not solved"));
        let picture = draw(figure, id.as_str(), id.as_str());
        assert!(picture.words.len() > 20, "{id} has no words: {}", picture.words);
        assert!(!picture.strip.contains("NaN") && !picture.strip.contains("inf"), "{id}");
        cells += &format!("<figure>{}<figcaption>{id}</figcaption></figure>", picture.strip);
        guesses.push((turn(id.as_str()), id.as_str(), figure));
        drawn += 1;
    }
    assert_eq!(drawn, gym.library.movements.values().filter(|m| m.figure.is_some()).count());
    let folder = house.join("target/sheets");
    std::fs::create_dir_all(&folder).expect("a folder");
    write_guesses(&folder, guesses);
    let sheets = [("light", "", 230), ("dark", DARK, 230), ("narrow", "", 320)];
    for (name, colours, width) in sheets {
        let text = page(&cells, colours, width);
        std::fs::write(folder.join(format!("{name}.html")), text).expect("a sheet");
    }
}

/// A cell of the sheets to guess from, and the most that a centimetre of the hall takes there, CSS
/// pixels: one person is about as large as the next.
const GUESS: u32 = 404;
const MOST: f64 = 1.75;

/// The figures in an order that tells nothing, drawn under their numbers, and the key to them: for
/// someone to say what each of them shows. Nothing in the page says it, not even to who reads its
/// source.
fn write_guesses(folder: &Path, mut guesses: Vec<(u64, &str, &SolvedFigure)>) {
    guesses.sort_by_key(|(turn, ..)| *turn);
    let (mut cells, mut key) = (String::new(), String::new());
    for (at, (_, id, figure)) in guesses.iter().enumerate() {
        let number = at + 1;
        let drawn = draw(figure, "", &format!("n{number}"));
        let (strip, most) = (unnamed(&drawn.strip), MOST * drawn.size.0);
        cells += &format!(
            "<figure style=\"max-width:{most:.0}px\">{strip}<figcaption>{number}</figcaption></figure>"
        );
        key += &format!("{number} {id}\n");
    }
    let sheet = page(&cells, "", GUESS);
    for (_, id, _) in &guesses {
        assert!(!sheet.contains(id), "the page gives {id} away");
    }
    std::fs::write(folder.join("guess.html"), sheet).expect("a sheet");
    std::fs::write(folder.join("guess-dark.html"), page(&cells, DARK, GUESS)).expect("a sheet");
    std::fs::write(folder.join("guess-key.txt"), key).expect("a key");
}

/// A place in the shuffled order, the same on every machine.
fn turn(id: &str) -> u64 {
    id.bytes().fold(0xcbf2_9ce4_8422_2325, |h, b| (h ^ u64::from(b)).wrapping_mul(0x100_0000_01b3))
}

/// A strip without its name and words, which a pointer held over it would show.
fn unnamed(strip: &str) -> String {
    match (strip.find("<title"), strip.find("</desc>")) {
        (Some(from), Some(to)) => format!("{}{}", &strip[..from], &strip[to + "</desc>".len()..]),
        _ => strip.to_string(),
    }
}

#[test]
fn every_fault_that_geometry_shows_is_on_a_sheet() {
    let house = Path::new(env!("CARGO_MANIFEST_DIR"));
    let gym = Gym::open(reader::read(&house.join("content")).expect("the starter library"));
    let (mut cells, mut drawn) = (String::new(), std::collections::BTreeMap::new());
    for (id, movement) in &gym.library.movements {
        let Some(figure) = gym.posed.get(id).and_then(|posed| posed.figure.as_ref()) else {
            continue;
        };
        for fault in movement.faults.iter().filter_map(|fault| fault.of.as_ref()) {
            let Some(spoilt) = wrong(figure, fault.value.as_str()) else { continue };
            let (svg, _) = draw_wrong(&spoilt, fault.value.as_str());
            assert!(!svg.contains("NaN") && !svg.contains("inf"), "{id} {}", fault.value);
            let name = format!("{id}: {}", fault.value);
            cells += &format!("<figure>{svg}<figcaption>{name}</figcaption></figure>");
            *drawn.entry(fault.value.to_string()).or_insert(0) += 1;
        }
    }
    println!("{drawn:?}");
    assert!(drawn.len() >= 9 && drawn.values().sum::<i32>() > 50, "{drawn:?}");
    let folder = house.join("target/sheets");
    std::fs::create_dir_all(&folder).expect("a folder");
    std::fs::write(folder.join("faults.html"), page(&cells, "", 320)).expect("a sheet");
}

//! A library of two thousand movements: its long lists are dealt over pages that a phone can hold.
//! Never a drawn figure: lists show none, so the entries here have none and nothing is solved.

#[path = "benches/generate.rs"]
mod generate;

use rungbook::gym::Gym;
use rungbook::library::reader;
use rungbook::site::routes::To;
use rungbook::site::theme::Theme;
use rungbook::site::{Made, Part};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use walkdir::WalkDir;

const ENTRIES: usize = 2_000;
/// No list page is heavier, in bytes as built.
const HEAVIEST: usize = 150_000;

/// Takes the pose out of an entry: its key at the top and what is indented below it.
fn without_figure(entry: &Path) {
    let text = fs::read_to_string(entry).expect("an entry");
    let mut inside = false;
    let left = text.lines().filter(|line| {
        inside = line.starts_with("figure:") || (inside && line.starts_with(' '));
        !inside
    });
    fs::write(entry, left.collect::<Vec<_>>().join("\n") + "\n").expect("written");
}

fn gym() -> Gym {
    let folder = tempfile::tempdir().expect("a folder");
    generate::library(folder.path(), ENTRIES);
    for entry in WalkDir::new(folder.path().join("movements")).into_iter().flatten() {
        if entry.file_type().is_file() {
            without_figure(entry.path());
        }
    }
    Gym::open(reader::read(folder.path()).expect("a library"))
}

fn list(gym: &Gym, theme: &Theme, to: To<'static>) -> Vec<(String, String)> {
    let part = Part::Page(to);
    let named: BTreeSet<String> = part.names(gym).into_iter().collect();
    let made: Vec<Made> = part.make(gym, theme).expect("the template fits");
    let text = |(name, bytes): Made| {
        assert!(named.contains(&name), "{name} is not among the names of its part");
        (name, String::from_utf8(bytes).expect("text"))
    };
    made.into_iter().map(text).collect()
}

#[test]
fn long_lists_are_dealt_over_pages_and_nothing_is_left_out() {
    let (gym, theme) = (gym(), Theme::open(None).expect("our theme"));
    assert_eq!(gym.library.movements.len(), ENTRIES);
    let count = |pages: &[(String, String)], what: &str| {
        pages.iter().map(|(_, html)| html.matches(what).count()).sum::<usize>()
    };
    let learning = list(&gym, &theme, To::Learning);
    let floor = list(&gym, &theme, To::Floor);
    let a_to_z = list(&gym, &theme, To::AToZ);
    let others = [To::Movements, To::Home].map(|to| list(&gym, &theme, to)).concat();
    let mut heaviest = Vec::new();
    for (name, html) in learning.iter().chain(&floor).chain(&a_to_z).chain(&others) {
        assert!(html.len() <= HEAVIEST, "{name}: {} bytes", html.len());
        heaviest.push((html.len(), name));
    }
    heaviest.sort();
    println!("heaviest: {:?}", &heaviest[heaviest.len() - 5..]);
    for to in [To::Muscles, To::Cautions, To::Sources, To::Ladders, To::KitList, To::Faults] {
        let pages = list(&gym, &theme, to);
        println!("not dealt: {} {}", pages[0].0, pages[0].1.len());
    }
    assert!(learning.len() > 10 && floor.len() > 10 && a_to_z.len() > 5);

    let rungs: usize = gym.library.ladders.values().map(|ladder| ladder.rungs.len()).sum();
    assert_eq!(count(&floor, " data-rung=\""), rungs, "every rung stands on the floor once");
    let aliases: usize = gym.library.movements.values().map(|m| 1 + m.aliases.len()).sum();
    assert_eq!(count(&a_to_z, "<span class=\"quiet\">movement</span>"), aliases);
    // A fault that movements share, told with one cue, is one card; each of the others has its own.
    let faults = || gym.library.movements.values().flat_map(|movement| &movement.faults);
    let cue = |fault: &rungbook::library::Fault| fault.say.as_ref().map(|say| say.value.clone());
    let shared: BTreeSet<_> =
        faults().filter_map(|fault| Some((&fault.of.as_ref()?.value, cue(fault)))).collect();
    let own = faults().filter(|fault| fault.of.is_none()).count();
    assert_eq!(count(&learning, "<details class=\"fault-card\">"), own + shared.len());
    // Every one of the pages is reached from the first, without a script.
    for (pages, first) in
        [(&learning, "learning.html"), (&floor, "floor.html"), (&a_to_z, "a-to-z.html")]
    {
        let (_, overview) = pages.iter().find(|(name, _)| name == first).expect("the first page");
        for (name, _) in pages.iter().filter(|(name, _)| name != first) {
            assert!(
                overview.contains(&format!("href=\"{name}\"")),
                "{first} does not lead to {name}"
            );
        }
    }
}

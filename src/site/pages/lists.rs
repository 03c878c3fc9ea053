//! Lists: movements by pattern, one pattern, muscles, sources, everything from A to Z.
//! Never ranks; search does.

use super::demand::{
    CalibrationRow, FamilyRow, ResidualRow, calibration_rows, doubt_words, family_rows,
    residual_rows,
};
use super::frame::{Frame, Link, Maker, mark};
use super::large::{Dealt, is_large};
use super::needs::Needs;
use crate::gym::Gym;
use crate::library::{Movement, Pattern, PatternId, Source};
use crate::site::routes::To;
use serde::Serialize;
use std::collections::BTreeMap;

/// A movement in a list.
#[derive(Debug, Serialize)]
pub struct MovementRow {
    /// Its name and page.
    pub link: Link,
    /// Other names.
    pub aliases: Vec<String>,
    /// What it asks for.
    pub needs: Needs,
    /// Its first cue.
    pub cue: Option<String>,
}

/// Movements of one pattern.
#[derive(Debug, Serialize)]
pub struct PatternGroup {
    /// The pattern.
    pub pattern: Link,
    /// What it is.
    pub about: Option<String>,
    /// Its movements by name.
    pub movements: Vec<MovementRow>,
}

/// The context of `movements.html`.
#[derive(Debug, Serialize)]
pub struct MovementsPage {
    page: Frame,
    groups: Vec<PatternGroup>,
    /// Where a library is large, its patterns: their pages have the movements.
    patterns: Vec<Link>,
    count: usize,
}

/// The context of `pattern.html`.
#[derive(Debug, Serialize)]
pub struct PatternPage {
    page: Frame,
    name: String,
    about: Option<String>,
    prime: Vec<Link>,
    near: Vec<Link>,
    ladders: Vec<Link>,
    movements: Vec<MovementRow>,
}

/// The context of `muscles.html`.
#[derive(Debug, Serialize)]
pub struct MusclesPage {
    page: Frame,
    muscles: Vec<MuscleRow>,
}

#[derive(Debug, Serialize)]
struct MuscleRow {
    id: String,
    name: String,
    plain: Option<String>,
    place: Option<String>,
    prime: Vec<Link>,
    assist: Vec<Link>,
}

/// The context of `sources.html`.
#[derive(Debug, Serialize)]
pub struct SourcesPage {
    page: Frame,
    sources: Vec<SourceRow>,
    measured: Vec<ResidualRow>,
    families: Vec<FamilyRow>,
    calibrations: Vec<CalibrationRow>,
    doubts: Vec<String>,
}

#[derive(Debug, Serialize)]
struct SourceRow {
    id: String,
    title: String,
    /// Authors, body, year and place in one line.
    from: String,
    doi: Option<String>,
    number: Option<String>,
    doubts: Option<String>,
    mark: &'static str,
    supports: Option<String>,
    used_by: Vec<Link>,
}

/// The context of `a-to-z.html`.
#[derive(Debug, Serialize)]
pub struct AToZPage {
    page: Frame,
    letters: Vec<Letter>,
    dealt: Vec<Dealt>,
}

/// Entries of one first letter.
#[derive(Debug, Serialize)]
pub struct Letter {
    letter: String,
    entries: Vec<AToZRow>,
}

#[derive(Debug, Serialize)]
struct AToZRow {
    link: Link,
    kind: &'static str,
}

/// All movements by pattern.
pub fn movements_page(gym: &Gym) -> MovementsPage {
    let maker = Maker::new(gym, &To::Movements);
    let count = gym.library.movements.len();
    let description = format!("All {count} movements by pattern.");
    let groups = if is_large(gym) { Vec::new() } else { pattern_groups(&maker, |_| true) };
    let patterns = pattern_links(&maker, |_| true);
    let page = maker.frame("Movements", description).telling_to_move();
    MovementsPage { page, groups, patterns, count }
}

/// Where a library is large, the patterns of the movements that `keep` keeps, each with their number.
pub fn pattern_links(maker: &Maker<'_>, keep: impl Fn(&Movement) -> bool) -> Vec<Link> {
    if !is_large(maker.gym) {
        return Vec::new();
    }
    let mut counts: BTreeMap<&PatternId, usize> = BTreeMap::new();
    for movement in maker.gym.library.movements.values().filter(|movement| keep(movement)) {
        *counts.entry(&movement.pattern.value).or_default() += 1;
    }
    let known = maker.gym.library.words.patterns.keys();
    let link = |id: &PatternId| {
        let Link { text, to } = maker.pattern(id);
        Some(Link { text: format!("{text} ({})", counts.get(id)?), to })
    };
    known.filter_map(link).collect()
}

/// Movements by pattern, those that `keep` keeps.
pub fn pattern_groups(maker: &Maker<'_>, keep: impl Fn(&Movement) -> bool) -> Vec<PatternGroup> {
    let library = &maker.gym.library;
    let group = |pattern: &Pattern| PatternGroup {
        pattern: maker.pattern(&pattern.id.value),
        about: pattern.about.clone(),
        movements: library
            .movements
            .values()
            .filter(|m| m.pattern.value == pattern.id.value && keep(m))
            .map(|m| movement_row(maker, m))
            .collect(),
    };
    let groups = library.words.patterns.values().map(group);
    groups.filter(|group| !group.movements.is_empty()).collect()
}

fn movement_row(maker: &Maker<'_>, movement: &Movement) -> MovementRow {
    MovementRow {
        link: maker.movement(&movement.id),
        aliases: movement.aliases.iter().map(|alias| alias.value.clone()).collect(),
        needs: Needs::of(maker.gym, movement),
        cue: movement.cues.first().map(|cue| cue.say.value.clone()),
    }
}

/// The page of one pattern.
pub fn pattern_page(gym: &Gym, pattern: &Pattern) -> PatternPage {
    let maker = Maker::new(gym, &To::Pattern(&pattern.id.value));
    let description = format!("{}: its movements and ladders.", pattern.name);
    let ladders = gym.library.ladders.values();
    let ours = |ladder: &&crate::library::Ladder| {
        ladder.pattern.as_ref().is_some_and(|id| id.value == pattern.id.value)
    };
    let movements = gym.library.movements.values();
    PatternPage {
        page: maker.frame(format!("{} pattern", pattern.name), description).telling_to_move(),
        name: pattern.name.clone(),
        about: pattern.about.clone(),
        prime: pattern.prime.iter().map(|id| maker.muscle(&id.value)).collect(),
        near: pattern.near.iter().map(|(id, _)| maker.pattern(&id.value)).collect(),
        ladders: ladders.filter(ours).map(|ladder| maker.ladder(&ladder.id)).collect(),
        movements: movements
            .filter(|m| m.pattern.value == pattern.id.value)
            .map(|m| movement_row(&maker, m))
            .collect(),
    }
}

/// All muscles and the movements that work them.
pub fn muscles_page(gym: &Gym) -> MusclesPage {
    let maker = Maker::new(gym, &To::Muscles);
    let muscles = gym.library.words.muscles.values().map(|muscle| {
        let working = |prime: bool| {
            let movements = gym.library.movements.values();
            let works = movements.filter(|movement| {
                let list = if prime { &movement.muscles.prime } else { &movement.muscles.assist };
                list.iter().any(|id| id.value == muscle.id.value)
            });
            works.map(|movement| maker.movement(&movement.id)).collect()
        };
        MuscleRow {
            id: muscle.id.value.to_string(),
            name: muscle.name.clone(),
            plain: muscle.plain.clone(),
            place: muscle.where_found.clone(),
            prime: working(true),
            assist: working(false),
        }
    });
    let muscles = muscles.collect();
    MusclesPage {
        page: maker.frame("Muscles", "Muscles and the movements that work them."),
        muscles,
    }
}

/// All sources, what each supports, and which entries use it.
pub fn sources_page(gym: &Gym) -> SourcesPage {
    let maker = Maker::new(gym, &To::Sources);
    let sources = gym.library.words.sources.values().map(|source| SourceRow {
        id: source.id.value.to_string(),
        title: source.title.clone(),
        from: from_line(source),
        doi: source.doi.clone(),
        number: source.number.clone(),
        doubts: source.doubts.clone(),
        mark: mark(source.read),
        supports: source.supports.clone(),
        used_by: used_by(&maker, &source.id.value),
    });
    let sources = sources.collect();
    let description = "Where every claim comes from, and how each source was read.";
    let measured = residual_rows(&maker);
    let calibrations = calibration_rows(&maker);
    let (page, doubts) = (maker.frame("Sources", description), doubt_words());
    let families = family_rows(&maker);
    SourcesPage { page, sources, measured, families, calibrations, doubts }
}

/// Where a source stands, without its title.
fn from_line(source: &Source) -> String {
    let parts = [&source.authors, &source.body, &source.year, &source.at];
    parts.into_iter().flatten().map(String::as_str).collect::<Vec<_>>().join("; ")
}

fn used_by(maker: &Maker<'_>, id: &crate::library::SourceId) -> Vec<Link> {
    let library = &maker.gym.library;
    let cites = |list: &[crate::finding::Placed<crate::library::SourceId>]| {
        list.iter().any(|source| source.value == *id)
    };
    let movements =
        library.movements.values().filter(|m| cites(&m.sources)).map(|m| maker.movement(&m.id));
    let ladders =
        library.ladders.values().filter(|l| cites(&l.sources)).map(|l| maker.ladder(&l.id));
    let cautions = library
        .words
        .cautions
        .values()
        .filter(|c| c.all_sources().any(|source| source.value == *id));
    let cautions = cautions.map(|c| maker.link(c.name.clone(), &To::Caution(&c.id.value)));
    let kit = library.words.kit.values().filter(|k| cites(&k.sources));
    let kit = kit.map(|k| maker.kit(&k.id.value));
    let sessions = library.sessions.values().filter(|s| cites(&s.sources));
    let sessions = sessions.map(|s| maker.link(s.name.value.clone(), &To::Session(&s.id)));
    let faults = library.words.faults.values().filter(|f| cites(&f.sources));
    let faults = faults.map(|f| maker.known_fault(&f.id.value));
    cautions.chain(faults).chain(kit).chain(ladders).chain(movements).chain(sessions).collect()
}

/// How many lines there are from A to Z.
pub fn a_to_z_count(gym: &Gym) -> usize {
    let library = &gym.library;
    let words = &library.words;
    let named = library.movements.values().map(|movement| 1 + movement.aliases.len());
    named.sum::<usize>()
        + library.ladders.len()
        + library.sessions.len()
        + words.kit.len()
        + words.cautions.len()
        + words.faults.len()
        + words.patterns.len()
        + words.muscles.len()
}

/// Every entry in the order of its words, with its kind: the way in without scripts.
pub fn a_to_z_rows(maker: &Maker<'_>) -> Vec<(Link, &'static str)> {
    let mut rows = Vec::new();
    let library = &maker.gym.library;
    for movement in library.movements.values() {
        rows.push((maker.movement(&movement.id), "movement"));
        let to = maker.links.to(&To::Movement(&movement.id));
        for alias in &movement.aliases {
            let text = format!("{} (see {})", alias.value, movement.name.value);
            rows.push((Link { text, to: to.clone() }, "movement"));
        }
    }
    rows.extend(library.ladders.keys().map(|id| (maker.ladder(id), "ladder")));
    rows.extend(library.words.kit.keys().map(|id| (maker.kit(id), "kit")));
    rows.extend(library.words.cautions.values().map(|caution| {
        (maker.link(caution.name.clone(), &To::Caution(&caution.id.value)), "caution")
    }));
    rows.extend(library.words.faults.keys().map(|id| (maker.known_fault(id), "fault")));
    rows.extend(library.words.patterns.keys().map(|id| (maker.pattern(id), "pattern")));
    rows.extend(library.words.muscles.keys().map(|id| (maker.muscle(id), "muscle")));
    rows.extend(library.sessions.values().map(|session| {
        (maker.link(session.name.value.clone(), &To::Session(&session.id)), "session")
    }));
    rows.sort_by_key(|(link, kind)| (link.text.to_lowercase(), *kind));
    rows
}

impl AToZPage {
    /// A page with these lines, or one that leads to `dealt`.
    pub fn of(page: Frame, letters: Vec<Letter>, dealt: Vec<Dealt>) -> AToZPage {
        AToZPage { page, letters, dealt }
    }
}

/// Lines by the first letter of each.
pub fn by_letter(rows: Vec<(Link, &'static str)>) -> Vec<Letter> {
    let mut letters: Vec<Letter> = Vec::new();
    for (link, kind) in rows {
        let first =
            link.text.chars().next().map_or(String::new(), |c| c.to_uppercase().to_string());
        match letters.last_mut() {
            Some(letter) if letter.letter == first => letter.entries.push(AToZRow { link, kind }),
            _ => letters.push(Letter { letter: first, entries: vec![AToZRow { link, kind }] }),
        }
    }
    letters
}

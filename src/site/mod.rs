//! The site: every page rendered from a library, as files in memory and then on disk.
//! Never shows a half-written site, never puts a roster or a clock into a page.

pub mod body;
pub mod output;
pub mod pages;
pub mod routes;
pub mod theme;

use crate::gym::Gym;
use crate::library::{Movement, SessionId};
use crate::plan;
use crate::search::{Hit, HitKind, HitPart, Index};
use crate::swap;
use pages::*;
use rayon::prelude::*;
use routes::To;
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use theme::{Theme, ThemeError};

/// Files of a site by their names below its folder.
pub type Files = BTreeMap<String, Vec<u8>>;

/// Renders the whole site. `tick` is called after every page, for a progress bar.
///
/// # Errors
/// A template that does not fit its page.
pub fn render(gym: &Gym, theme: &Theme, mut tick: impl FnMut()) -> Result<Files, ThemeError> {
    let mut site = Rendering { theme, files: theme.assets().clone(), tick: &mut tick };
    let sheet = format!("{}\n", crate::figure::style::SHEET);
    site.files.insert("styles/figure.css".to_string(), sheet.into_bytes());
    doors(gym, &mut site)?;
    lists(gym, &mut site)?;
    entries(gym, &mut site)?;
    let mut files = site.files;
    files.insert("data/search-index.js".to_string(), search_index(gym)?.into_bytes());
    files.insert(FAULTS_FILE.to_string(), fault_words(gym).into_bytes());
    files.insert(PLACING_FILE.to_string(), placing_data().into_bytes());
    files.insert(WORDS_FILE.to_string(), words_data(gym).into_bytes());
    files.insert(SIGNS_FILE.to_string(), signs_data(gym).into_bytes());
    if let Some(sitemap) = sitemap(gym, &files) {
        files.insert("sitemap.xml".to_string(), sitemap.into_bytes());
    }
    add_offline_script(&mut files, theme)?;
    Ok(files)
}

/// The search index as a script, so that it opens from disk too.
fn search_index(gym: &Gym) -> Result<String, ThemeError> {
    let index = Index::build(gym).and_then(|index| index.export(search_address));
    Ok(search_script(index.map_err(|error| ThemeError::of(error.to_string()))?))
}

/// The script that hands an exported index to a page.
pub fn search_script(index: String) -> String {
    let text = serde_json::Value::String(index);
    format!("window.rungbookSearchIndex={text};\n")
}

/// The address of what was found, below the site's folder.
pub fn search_address(hit: &Hit) -> String {
    let id = hit.id.as_str();
    match (hit.kind, hit.part) {
        (HitKind::Movement, HitPart::Fault(number)) => To::Fault(&id.into(), number).address(),
        (HitKind::Movement, HitPart::Cue(number)) => To::Cue(&id.into(), number).address(),
        (HitKind::Movement, _) => To::Movement(&id.into()).address(),
        (HitKind::Ladder, HitPart::Rung(number)) => To::Rung(&id.into(), number).address(),
        (HitKind::Ladder, _) => To::Ladder(&id.into()).address(),
        (HitKind::Fault, _) => To::KnownFault(&id.into()).address(),
        (HitKind::Caution, _) => To::Caution(&id.into()).address(),
        (HitKind::Kit, _) => To::Kit(&id.into()).address(),
        (HitKind::Trait, _) => To::Trait(&id.into()).address(),
        (HitKind::Pattern, _) => To::Pattern(&id.into()).address(),
        (HitKind::Muscle, _) => To::Muscle(&id.into()).address(),
        (HitKind::Block, _) => {
            let (session, number) = id.rsplit_once('/').unwrap_or((id, "1"));
            To::Block(&session.into(), number.parse().unwrap_or(1)).address()
        }
        (HitKind::Session, _) => To::Session(&id.into()).address(),
        (HitKind::Cycle, _) => To::Cycle(&id.into()).address(),
    }
}

/// How many pages [`render`] will make.
pub fn page_count(gym: &Gym) -> usize {
    let library = &gym.library;
    let words = &library.words;
    let entries = library.movements.len() + library.ladders.len() + 2 * library.sessions.len();
    let words = words.kit.len() + words.cautions.len() + words.faults.len() + words.patterns.len();
    entries + library.cycles.len() + words + 17
}

struct Rendering<'a> {
    theme: &'a Theme,
    files: Files,
    tick: &'a mut dyn FnMut(),
}

impl Rendering<'_> {
    fn add<T: Serialize>(
        &mut self,
        to: &To<'_>,
        template: &str,
        page: &T,
    ) -> Result<(), ThemeError> {
        let html = self.theme.render(template, page)?;
        self.files.insert(to.file(), html.into_bytes());
        (self.tick)();
        Ok(())
    }
}

fn doors(gym: &Gym, site: &mut Rendering<'_>) -> Result<(), ThemeError> {
    site.add(&To::Front, "front.html", &front_page(gym))?;
    site.add(&To::Today, "today.html", &today_page(gym))?;
    site.add(&To::Floor, "floor.html", &floor_page(gym))?;
    site.add(&To::Home, "home.html", &home_page(gym))?;
    site.add(&To::Learning, "learning.html", &learning_page(gym))?;
    site.add(&To::Picker, "picker.html", &picker_page(gym))?;
    site.add(&To::Book, "book.html", &book_page(gym))?;
    site.add(&To::NotFound, "404.html", &not_found_page(gym))
}

fn lists(gym: &Gym, site: &mut Rendering<'_>) -> Result<(), ThemeError> {
    site.add(&To::Movements, "movements.html", &movements_page(gym))?;
    site.add(&To::Ladders, "ladders.html", &ladders_page(gym))?;
    site.add(&To::KitList, "kit-list.html", &kit_list_page(gym))?;
    site.add(&To::Cautions, "cautions.html", &cautions_page(gym))?;
    site.add(&To::Faults, "faults.html", &faults_page(gym))?;
    site.add(&To::Muscles, "muscles.html", &muscles_page(gym))?;
    site.add(&To::Sources, "sources.html", &sources_page(gym))?;
    site.add(&To::Sessions, "sessions.html", &sessions_page(gym))?;
    site.add(&To::AToZ, "a-to-z.html", &a_to_z_page(gym))
}

fn entries(gym: &Gym, site: &mut Rendering<'_>) -> Result<(), ThemeError> {
    let library = &gym.library;
    movements(gym, site)?;
    for ladder in library.ladders.values() {
        site.add(&To::Ladder(&ladder.id), "ladder.html", &ladder_page(gym, ladder))?;
        site.files.insert(ladder_file(&ladder.id), ladder_data(gym, ladder).into_bytes());
        let figures = rung_figures(gym, ladder).into_iter();
        site.files.extend(figures.map(|(file, svg)| (file, svg.into_bytes())));
    }
    for session in library.sessions.values() {
        site.add(&To::Session(&session.id), "session.html", &session_page(gym, session))?;
        site.add(&To::Poster(&session.id), "poster.html", &poster_page(gym, session))?;
        site.files.insert(steps_file(&session.id), steps(gym, session).into_bytes());
    }
    cycles(gym, site)?;
    for (id, item) in &library.words.kit {
        site.add(&To::Kit(id), "kit.html", &kit_page(gym, item))?;
    }
    for (id, caution) in &library.words.cautions {
        site.add(&To::Caution(id), "caution.html", &caution_page(gym, caution))?;
    }
    for (id, fault) in &library.words.faults {
        site.add(&To::KnownFault(id), "fault.html", &fault_page(gym, fault))?;
        site.files.insert(fault_file(id), fault_card(gym, fault).into_bytes());
    }
    for (id, pattern) in &library.words.patterns {
        site.add(&To::Pattern(id), "pattern.html", &pattern_page(gym, pattern))?;
    }
    Ok(())
}

/// Every cycle's page, its calendar when it says its first day, and the feed of sessions.
fn cycles(gym: &Gym, site: &mut Rendering<'_>) -> Result<(), ThemeError> {
    let page_of = |id: &SessionId| session_address(gym, id);
    for cycle in gym.library.cycles.values() {
        site.add(&To::Cycle(&cycle.id), "cycle.html", &cycle_page(gym, cycle))?;
        site.files.insert(weeks_file(&cycle.id), weeks_data(gym, cycle).into_bytes());
        if let Some(first_day) = plan::first_day(cycle) {
            let calendar = plan::calendar(gym, cycle, first_day, &page_of);
            site.files.insert(To::Calendar(&cycle.id).file(), calendar.into_bytes());
        }
    }
    site.files.insert(To::Feed.file(), plan::feed(gym, &page_of).into_bytes());
    Ok(())
}

/// The full address of a session's page, when the club has one.
pub fn session_address(gym: &Gym, id: &SessionId) -> Option<String> {
    let address = gym.library.club.address.as_deref()?;
    Some(format!("{address}{}", To::Session(id).file()))
}

/// Movements are most of a site, and each is made alone: on every core, in the order of ids.
fn movements(gym: &Gym, site: &mut Rendering<'_>) -> Result<(), ThemeError> {
    let theme = site.theme;
    let movements: Vec<&Movement> = gym.library.movements.values().collect();
    let make = |movement: &Movement| {
        let swaps = swap::ranked(gym, &movement.id);
        let html = theme.render("movement.html", &movement_page(gym, movement, &swaps))?;
        let figures = (figure(gym, movement), wrong_figures(gym, movement));
        let on_request = (motion_script(gym, movement), figures);
        Ok((movement.id.clone(), html, card(gym, movement, &swaps), on_request))
    };
    let made: Vec<Result<_, ThemeError>> = movements.into_par_iter().map(make).collect();
    for page in made {
        let (id, html, card, (motion, (figure, wrong))) = page?;
        site.files.insert(To::Movement(&id).file(), html.into_bytes());
        site.files.insert(card_file(&id), card.into_bytes());
        if let Some(motion) = motion {
            site.files.insert(motion_file(&id), motion.into_bytes());
        }
        if let Some(figure) = figure {
            site.files.insert(figure_file(&id), figure.into_bytes());
        }
        site.files.extend(wrong.into_iter().map(|(file, svg)| (file, svg.into_bytes())));
        (site.tick)();
    }
    Ok(())
}

/// The list of pages for search engines (sitemaps.org, protocol 0.9); it needs the club's address.
fn sitemap(gym: &Gym, files: &Files) -> Option<String> {
    let address = gym.library.club.address.as_deref()?;
    let mut out = String::from(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n",
    );
    let pages = files.keys().filter(|name| name.ends_with(".html") && *name != "404.html");
    for page in pages {
        let address = format!("{address}{page}").replace('&', "&amp;");
        out.push_str(&format!("<url><loc>{address}</loc></url>\n"));
    }
    out.push_str("</urlset>\n");
    Some(out)
}

/// The context of the service worker's template.
#[derive(Serialize)]
struct Offline {
    version: String,
    files: Vec<String>,
}

/// The service worker: knows every file of the site and a version made from their contents, so
/// that the same content gives the same worker and any change a new one.
fn add_offline_script(files: &mut Files, theme: &Theme) -> Result<(), ThemeError> {
    let mut hash = Sha256::new();
    for (name, bytes) in files.iter() {
        hash.update((name.len() as u64).to_le_bytes());
        hash.update(name.as_bytes());
        hash.update((bytes.len() as u64).to_le_bytes());
        hash.update(bytes);
    }
    let digest = hash.finalize();
    let version: String = digest.iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    let names = files.keys().filter(|name| *name != "sitemap.xml").cloned().collect();
    let script = theme.render("offline-worker.js", &Offline { version, files: names })?;
    files.insert("offline-worker.js".to_string(), script.into_bytes());
    Ok(())
}

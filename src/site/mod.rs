//! The site: every page and file made from a library, one part at a time, on every core.
//! Never shows a half-written site, never puts a roster or a clock into a page.

pub mod body;
mod offline;
pub mod output;
pub mod pages;
mod parts;
pub mod routes;
pub mod theme;

pub use parts::{Made, Part};

use crate::gym::Gym;
use crate::kept::Print;
use crate::library::SessionId;
use crate::search::{Hit, HitKind, HitPart, Index};
use offline::Weighed;
use rayon::prelude::*;
use routes::To;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::sync::{Mutex, PoisonError};
use theme::{Theme, ThemeError};

/// Files of a site by their names below its folder.
pub type Files = BTreeMap<String, Vec<u8>>;

/// A file of a site as it is made: its name, its bytes and their print.
pub struct File<'f> {
    /// Below the site's folder.
    pub name: &'f str,
    /// What stands in it.
    pub bytes: &'f [u8],
    /// The print of that.
    pub print: Print,
}

/// Makes the whole site. `put` takes every file as soon as it is made, on any thread and in any order;
/// `tick` is called after every part, for a progress bar.
///
/// # Errors
/// A template that does not fit its page.
pub fn render(
    gym: &Gym,
    theme: &Theme,
    put: &(impl Fn(File<'_>) + Sync),
    tick: &(impl Fn() + Sync),
) -> Result<(), ThemeError> {
    let parts = Part::all(gym, theme);
    let owners = owners(&parts, gym);
    let weighed = Mutex::new(BTreeMap::new());
    let put = |name: String, bytes: &[u8]| {
        let print = Print::of_bytes(bytes);
        put(File { name: &name, bytes, print });
        let file = Weighed { print, bytes: bytes.len() as u64 };
        weighed.lock().unwrap_or_else(PoisonError::into_inner).insert(name, file);
    };
    parts.par_iter().enumerate().try_for_each(|(at, part)| {
        for (name, bytes) in part.make(gym, theme)? {
            if owners.get(&name) == Some(&at) {
                put(name, &bytes);
            }
        }
        tick();
        Ok::<(), ThemeError>(())
    })?;
    let known = || weighed.lock().unwrap_or_else(PoisonError::into_inner).clone();
    if let Some(sitemap) = sitemap(gym, known().keys()) {
        put("sitemap.xml".to_string(), sitemap.as_bytes());
    }
    for (name, text) in offline::scripts(&known(), theme)? {
        put(name.to_string(), text.as_bytes());
    }
    Ok(())
}

/// The whole site at once, for who wants it in memory.
///
/// # Errors
/// A template that does not fit its page.
pub fn files(gym: &Gym, theme: &Theme) -> Result<Files, ThemeError> {
    let files = Mutex::new(Files::new());
    let put = |file: File<'_>| {
        let mut files = files.lock().unwrap_or_else(PoisonError::into_inner);
        files.insert(file.name.to_string(), file.bytes.to_vec());
    };
    render(gym, theme, &put, &|| ())?;
    Ok(files.into_inner().unwrap_or_else(PoisonError::into_inner))
}

/// Which part makes the file of a name, by its place. Where two would, a movement gives way, and else
/// the earlier one.
pub fn owners(parts: &[Part], gym: &Gym) -> HashMap<String, usize> {
    let mut owners: HashMap<String, usize> = HashMap::new();
    let gives_way = |at: usize| matches!(parts[at], Part::Movement(_) | Part::Asset(_));
    for (at, part) in parts.iter().enumerate() {
        for name in part.names(gym) {
            let owner = owners.entry(name).or_insert(at);
            if gives_way(*owner) {
                *owner = at;
            }
        }
    }
    owners
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

/// How many parts a site has.
pub fn part_count(gym: &Gym, theme: &Theme) -> usize {
    Part::all(gym, theme).len()
}

/// The full address of a session's page, when the club has one.
pub fn session_address(gym: &Gym, id: &SessionId) -> Option<String> {
    let address = gym.library.club.address.as_deref()?;
    Some(format!("{address}{}", To::Session(id).file()))
}

/// The full address of the feed, when the club has one.
pub fn feed_address(gym: &Gym) -> Option<String> {
    let address = gym.library.club.address.as_deref()?;
    Some(format!("{address}{}", To::Feed.file()))
}

/// The list of pages for search engines (sitemaps.org, protocol 0.9); it needs the club's address.
pub fn sitemap<'n>(gym: &Gym, names: impl Iterator<Item = &'n String>) -> Option<String> {
    let address = gym.library.club.address.as_deref()?;
    let mut out = String::from(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n",
    );
    let moved: BTreeSet<String> = pages::moved(gym).map(|(file, _)| file).collect();
    let is_page = |name: &&String| name.ends_with(".html") && *name != "404.html";
    let pages = names.filter(|name| is_page(name) && !moved.contains(*name));
    for page in pages {
        let address = format!("{address}{page}").replace('&', "&amp;");
        out.push_str(&format!("<url><loc>{address}</loc></url>\n"));
    }
    out.push_str("</urlset>\n");
    Some(out)
}

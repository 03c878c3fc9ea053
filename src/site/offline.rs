//! What is kept for use without a signal: the worker, and the list of files that it fetches.
//! Never the clock: the same files give the same list, and any change a new version.

use super::theme::{Theme, ThemeError};
use crate::kept::{Inputs, Print};
use serde::Serialize;
use std::collections::BTreeMap;

/// The service worker, small: it is fetched whenever a page asks whether there is a newer site.
pub const WORKER: &str = "offline-worker.js";
/// What it fetches once the worker is another one.
pub const LIST: &str = "offline-files.json";

/// Bytes as built up to which everything is kept unasked: 10 MB packed, as a site of ours packs to
/// less than a quarter (`tests/browser/weights.test.mjs`).
const KEPT_UNASKED: u64 = 40_000_000;

/// A file as it was made.
#[derive(Debug, Clone, Copy)]
pub struct Weighed {
    /// The print of its bytes.
    pub print: Print,
    /// How many they are.
    pub bytes: u64,
}

/// What the worker fetches: names with the first half of their prints, SHA-256 as browsers know it.
#[derive(Debug, Serialize)]
struct List<'n> {
    version: &'n str,
    bytes: Bytes,
    always: BTreeMap<&'n str, String>,
    /// Kept on request where the whole is large.
    more: BTreeMap<&'n str, String>,
}

/// Bytes as built.
#[derive(Debug, Default, Serialize)]
struct Bytes {
    always: u64,
    more: u64,
}

/// The context of the worker's template.
#[derive(Serialize)]
struct Worker<'v> {
    version: &'v str,
}

/// The worker and its list, by name, for a site of these files.
///
/// # Errors
/// A template that does not fit.
pub fn scripts(
    files: &BTreeMap<String, Weighed>,
    theme: &Theme,
) -> Result<[(&'static str, String); 2], ThemeError> {
    let all = files
        .iter()
        .fold(Inputs::of_files(), |all, (name, file)| all.text(name).of_print(file.print));
    let version = short(all.print());
    let list = serde_json::to_string(&list(files, &version));
    let list = list.map_err(|error| ThemeError::of(error.to_string()))?;
    Ok([(LIST, list), (WORKER, theme.render(WORKER, &Worker { version: &version })?)])
}

fn list<'n>(files: &'n BTreeMap<String, Weighed>, version: &'n str) -> List<'n> {
    let whole: u64 = files.values().map(|file| file.bytes).sum();
    let mut list =
        List { version, bytes: Bytes::default(), always: BTreeMap::new(), more: BTreeMap::new() };
    for (name, file) in files.iter().filter(|(name, _)| *name != "sitemap.xml") {
        let hash = short(file.print);
        if whole <= KEPT_UNASKED || is_always_kept(name) {
            list.bytes.always += file.bytes;
            list.always.insert(name, hash);
        } else {
            list.bytes.more += file.bytes;
            list.more.insert(name, hash);
        }
    }
    list
}

/// Of a large library: everything but the pages of movements and ladders (their cards are kept) and
/// the drawings.
fn is_always_kept(name: &str) -> bool {
    let Some((folder, file)) = name.split_once('/') else { return true };
    match folder {
        "movements" | "ladders" => file == "index.html",
        "figures" | "motion" => false,
        _ => true,
    }
}

/// Enough to tell apart what one site has at one address.
fn short(print: Print) -> String {
    print.to_string()[..16].to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files(bytes: u64, names: &[&str]) -> BTreeMap<String, Weighed> {
        let weighed = |name: &&str| {
            (name.to_string(), Weighed { print: Print::of_bytes(name.as_bytes()), bytes })
        };
        names.iter().map(weighed).collect()
    }

    const NAMES: [&str; 9] = [
        "cards/row.js",
        "figures/movements/row.svg",
        "floor.html",
        "ladders/index.html",
        "ladders/row.html",
        "motion/row.js",
        "movements/row.html",
        "sessions/push.html",
        "sitemap.xml",
    ];

    #[test]
    fn a_small_site_is_kept_whole_and_of_a_large_one_what_is_asked_for_in_class() {
        let small = files(1_000, &NAMES);
        let list = super::list(&small, "v");
        assert_eq!((list.always.len(), list.more.len()), (8, 0));
        assert_eq!((list.bytes.always, list.bytes.more), (8_000, 0));
        let large = files(KEPT_UNASKED / 8, &NAMES);
        let list = super::list(&large, "v");
        let always: Vec<_> = list.always.keys().copied().collect();
        assert_eq!(
            always,
            ["cards/row.js", "floor.html", "ladders/index.html", "sessions/push.html"]
        );
        assert_eq!(list.more.len(), 4);
        assert_eq!(list.bytes.more, KEPT_UNASKED / 8 * 4);
    }
}

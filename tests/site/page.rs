//! A page as a checker sees it: its title, headings, links and words, read by a tokenizer.
//! Reference: the html5gum crate, a WHATWG-conforming tokenizer. Never looks at templates.

use html5gum::{DefaultEmitter, Token, Tokenizer};
use std::collections::BTreeSet;

/// What one page holds.
#[derive(Debug, Default)]
pub struct Page {
    /// The words of `<title>`.
    pub title: String,
    /// The language of the page.
    pub lang: String,
    /// How many first headings.
    pub first_headings: usize,
    /// Every id.
    pub ids: BTreeSet<String>,
    /// Ids that stand twice.
    pub twice: Vec<String>,
    /// Every address on the page: element, attribute, value.
    pub addresses: Vec<Address>,
    /// The words that are shown.
    pub words: String,
}

/// An address on a page.
#[derive(Debug, Clone)]
pub struct Address {
    /// The element's name.
    pub element: String,
    /// Its `rel`, where it has one.
    pub rel: String,
    /// The address.
    pub value: String,
}

const WITH_ADDRESS: [&str; 6] = ["href", "src", "action", "poster", "data", "srcset"];

/// Reads a page.
pub fn read(html: &str) -> Page {
    let mut page = Page::default();
    let mut inside = String::new();
    let mut emitter = DefaultEmitter::default();
    // Scripts and titles are text, not markup.
    emitter.naively_switch_states(true);
    for token in Tokenizer::new_with_emitter(html, emitter) {
        let Ok(token) = token;
        match token {
            Token::StartTag(tag) => {
                let name = String::from_utf8_lossy(&tag.name).into_owned();
                let pairs = tag.attributes.iter().map(|(key, value)| {
                    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
                    (text(key), text(value))
                });
                page.start(&name, pairs.collect());
                inside = name;
            }
            Token::String(text) => page.text(&inside, &String::from_utf8_lossy(&text)),
            Token::EndTag(_) => inside.clear(),
            _ => {}
        }
    }
    page.words = page.words.split_whitespace().collect::<Vec<_>>().join(" ");
    page
}

impl Page {
    fn start(&mut self, name: &str, attributes: Vec<(String, String)>) {
        let get = |key: &str| attributes.iter().find(|(k, _)| k == key).map(|(_, v)| v.clone());
        self.words.push(' ');
        if name == "html" {
            self.lang = get("lang").unwrap_or_default();
        }
        if name == "h1" {
            self.first_headings += 1;
        }
        if let Some(id) = get("id")
            && !self.ids.insert(id.clone())
        {
            self.twice.push(id);
        }
        for key in WITH_ADDRESS {
            let Some(value) = get(key) else { continue };
            let rel = get("rel").unwrap_or_default();
            self.addresses.push(Address { element: name.to_string(), rel, value });
        }
    }

    fn text(&mut self, inside: &str, text: &str) {
        match inside {
            "title" => self.title.push_str(text),
            "script" | "style" => {}
            _ => self.words.push_str(text),
        }
    }
}

/// Where an address on the page `from` leads: the file below the site and the place on the page.
/// Nothing when it leaves the site.
pub fn resolve(from: &str, address: &str) -> Option<(String, Option<String>)> {
    let has_scheme = address.split(['/', '#', '?']).next().is_some_and(|head| head.contains(':'));
    if has_scheme || address.starts_with("//") {
        return None;
    }
    let (path, place) = match address.split_once('#') {
        Some((path, place)) => (path, Some(place.to_string())),
        None => (address, None),
    };
    if path.is_empty() {
        return Some((from.to_string(), place));
    }
    let mut parts: Vec<&str> = match path.starts_with('/') {
        true => Vec::new(),
        false => from.split('/').rev().skip(1).collect::<Vec<_>>().into_iter().rev().collect(),
    };
    for part in path.trim_start_matches('/').split('/') {
        match part {
            "." | "" => {}
            ".." => {
                // Above the site's folder there is nothing of ours.
                parts.pop()?;
            }
            part => parts.push(part),
        }
    }
    Some((parts.join("/"), place))
}

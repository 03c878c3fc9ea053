//! What was built, looked at: pages, pictures, calendars, feeds and data that a browser may be given.
//! Never trusts the templates: it reads the bytes with readers of its own.

use html5gum::{DefaultEmitter, Token, Tokenizer};
use std::collections::BTreeSet;
use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::Path;
use std::sync::Mutex;
use walkdir::WalkDir;

/// Files that were looked at already: most of a site is the same from case to case.
#[derive(Default)]
pub struct Seen(Mutex<BTreeSet<u64>>);

impl Seen {
    fn is_new(&self, name: &str, bytes: &[u8]) -> bool {
        let mut hasher = DefaultHasher::new();
        (name, bytes).hash(&mut hasher);
        self.0.lock().expect("nobody panicked").insert(hasher.finish())
    }
}

/// What is wrong with a site, each fault with its file; nothing where there is no site.
pub fn faults_of_site(site: &Path, seen: &Seen) -> Vec<String> {
    let mut faults = Vec::new();
    for entry in WalkDir::new(site).into_iter().flatten() {
        if !entry.file_type().is_file() {
            continue;
        }
        let name = entry.path().strip_prefix(site).expect("below").to_string_lossy().into_owned();
        let bytes = fs::read(entry.path()).expect("it reads");
        if seen.is_new(&name, &bytes)
            && let Some(fault) = fault_of(&name, &bytes)
        {
            faults.push(format!("{name}: {fault}"));
        }
    }
    faults
}

fn fault_of(name: &str, bytes: &[u8]) -> Option<String> {
    let Ok(text) = std::str::from_utf8(bytes) else {
        let binary = ["png", "ico", "woff2", "jpg"];
        return (!binary.iter().any(|end| name.ends_with(end))).then(|| "no UTF-8".to_string());
    };
    let is_data = ["data/", "cards/", "motion/"].iter().any(|start| name.starts_with(start));
    match name.rsplit('.').next().unwrap_or_default() {
        "html" => page(text),
        "svg" | "xml" => super::xml::fault(text),
        "ics" => calendar(text),
        "json" | "webmanifest" => {
            serde_json::from_str::<serde_json::Value>(text).err().map(|error| error.to_string())
        }
        "js" if is_data => data(text),
        _ => None,
    }
}

/// Elements that never have an end.
const VOID: [&str; 8] = ["meta", "link", "br", "hr", "img", "input", "col", "wbr"];
/// Elements that bring in something else, or act by themselves.
const ACTIVE: [&str; 8] =
    ["iframe", "object", "embed", "base", "applet", "frame", "portal", "meta"];

fn page(html: &str) -> Option<String> {
    let mut emitter = DefaultEmitter::default();
    emitter.naively_switch_states(true);
    let mut open: Vec<String> = Vec::new();
    for token in Tokenizer::new_with_emitter(html, emitter) {
        let Ok(token) = token;
        match token {
            Token::StartTag(tag) => {
                let name = String::from_utf8_lossy(&tag.name).into_owned();
                let attributes = tag.attributes.iter().map(|(key, value)| {
                    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
                    (text(key), text(value))
                });
                let attributes: Vec<(String, String)> = attributes.collect();
                if let Some(fault) = element(&name, &attributes) {
                    return Some(fault);
                }
                if !VOID.contains(&name.as_str()) && !tag.self_closing {
                    open.push(name);
                }
            }
            Token::EndTag(tag) => {
                let name = String::from_utf8_lossy(&tag.name).into_owned();
                match open.pop() {
                    Some(begun) if begun == name => {}
                    begun => return Some(format!("`{name}` ends where {begun:?} was begun")),
                }
            }
            Token::String(text) => {
                let text = String::from_utf8_lossy(&text);
                // What a search engine may read is data: nothing runs it, and no sign in it ends it.
                let is_data =
                    !text.contains('<') && serde_json::from_str::<serde_json::Value>(&text).is_ok();
                let in_script = open.last().is_some_and(|name| name == "script");
                if in_script && !text.trim().is_empty() && !is_data {
                    return Some(format!("a script stands in the page: {text}"));
                }
                if let Some(c) = text.chars().find(|c| c.is_control() && !c.is_whitespace()) {
                    return Some(format!("a control character {c:?}"));
                }
            }
            Token::Error(error) => return Some(format!("{error:?}")),
            _ => {}
        }
    }
    open.pop().map(|name| format!("`{name}` is never closed"))
}

/// What an element must not do.
pub fn element(name: &str, attributes: &[(String, String)]) -> Option<String> {
    let get = |key: &str| attributes.iter().find(|(k, _)| k == key).map(|(_, v)| v.as_str());
    let is_charset = name == "meta" && (get("http-equiv") != Some("refresh"));
    if ACTIVE.contains(&name) && !is_charset {
        return Some(format!("an element `{name}`"));
    }
    if name == "script" && get("src").is_none() && get("type") != Some("application/ld+json") {
        return Some("a script without a file".to_string());
    }
    for (key, value) in attributes {
        if key.starts_with("on") {
            return Some(format!("`{name}` has a handler `{key}`"));
        }
        let plain: String = value.chars().filter(|c| !c.is_whitespace()).collect();
        let plain = plain.to_lowercase();
        let is_address =
            ["href", "src", "action", "formaction", "poster", "data", "srcset", "xlink:href"]
                .contains(&key.as_str());
        if is_address
            && ["javascript:", "data:text", "vbscript:"].iter().any(|s| plain.starts_with(s))
        {
            return Some(format!("`{name}` has an address that acts: {value}"));
        }
        // A link that somebody touches may lead elsewhere; what a page brings in by itself may not.
        let leads = name == "a" || (name == "link" && get("rel").is_some_and(|r| r == "canonical"));
        let is_elsewhere = plain.starts_with("//") || plain.starts_with("http");
        if is_address && is_elsewhere && !leads {
            return Some(format!("`{name}` brings in another host: {value}"));
        }
        if key == "style" && (plain.contains("url(") || plain.contains("expression")) {
            return Some(format!("`{name}` has a style that brings in something: {value}"));
        }
    }
    None
}

/// Lines as RFC 5545 has them: CRLF, at most 75 bytes, a known name, what begins ends.
fn calendar(text: &str) -> Option<String> {
    const KNOWN: [&str; 20] = [
        "BEGIN",
        "END",
        "VERSION",
        "PRODID",
        "CALSCALE",
        "METHOD",
        "UID",
        "DTSTAMP",
        "DTSTART",
        "DTEND",
        "DURATION",
        "SUMMARY",
        "DESCRIPTION",
        "URL",
        "LOCATION",
        "X-WR-CALNAME",
        "TRIGGER",
        "ACTION",
        "RRULE",
        "REFRESH-INTERVAL",
    ];
    let mut open: Vec<&str> = Vec::new();
    for line in text.strip_suffix("\r\n").unwrap_or(text).split("\r\n") {
        if line.len() > 75 {
            return Some(format!("a line of {} bytes", line.len()));
        }
        if line.contains(|c: char| c.is_control() && c != '\t') {
            return Some(format!("a control character in {line:?}"));
        }
        if line.starts_with([' ', '\t']) {
            continue;
        }
        let (name, value) = line.split_once([':', ';']).unwrap_or((line, ""));
        if !KNOWN.contains(&name) {
            return Some(format!("a line {line:?}"));
        }
        match name {
            "BEGIN" => open.push(value),
            "END" if open.pop() != Some(value) => return Some(format!("{line:?} was not begun")),
            _ => {}
        }
    }
    open.pop().map(|name| format!("{name} does not end"))
}

/// `name(JSON);` or `window.name=JSON;`, and nothing else.
fn data(text: &str) -> Option<String> {
    let is_name = |name: &str| name.chars().all(|c| c.is_ascii_alphanumeric() || c == '.');
    let text = text.trim().trim_start_matches("\"use strict\";").trim().trim_end_matches(';');
    let at = text.find(['(', '=']);
    let (name, rest) = text.split_at(at.unwrap_or(0));
    let json = match rest.chars().next() {
        Some('(') => rest.strip_prefix('(').and_then(|rest| rest.strip_suffix(')')),
        _ => rest.strip_prefix('='),
    };
    // A motion hands over its name and its frames.
    let json = json.filter(|_| is_name(name.trim())).map(|json| format!("[{json}]"));
    let Some(json) = json else { return Some(format!("no data: {}", &text[..text.len().min(60)])) };
    serde_json::from_str::<serde_json::Value>(json.trim()).err().map(|error| error.to_string())
}

//! XML as a strict reader has it (XML 1.0, fifth edition): every letter allowed, every tag closed,
//! every sign that means something written as one. Never mends.

use super::looked::element;

/// The first thing that is wrong with a document.
pub fn fault(text: &str) -> Option<String> {
    if let Some(c) = text.chars().find(|c| !is_allowed(*c)) {
        return Some(format!("a sign that XML has not: U+{:04X}", u32::from(c)));
    }
    let mut open: Vec<&str> = Vec::new();
    let mut rest = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut roots = 0;
    while let Some(at) = rest.find('<') {
        if let Some(fault) = words(&rest[..at], open.is_empty()) {
            return Some(fault);
        }
        rest = &rest[at..];
        let end = if rest.starts_with("<!--") { "-->" } else { ">" };
        let Some(length) = rest.find(end) else { return Some("a tag without its end".into()) };
        let (tag, after) = rest.split_at(length + end.len());
        rest = after;
        if tag.starts_with("<?") || tag.starts_with("<!") {
            continue;
        }
        if let Some(name) = tag.strip_prefix("</") {
            let name = name.trim_end_matches('>').trim();
            if open.pop() != Some(name) {
                return Some(format!("`{name}` ends and was not begun"));
            }
            continue;
        }
        let inner = tag.trim_start_matches('<').trim_end_matches('>');
        let (inner, is_whole) = inner.strip_suffix('/').map_or((inner, false), |i| (i, true));
        let name_end = inner.find(|c: char| c.is_whitespace()).unwrap_or(inner.len());
        let (name, attributes) = inner.split_at(name_end);
        match attributes_of(attributes) {
            Err(fault) => return Some(format!("`{name}`: {fault}")),
            Ok(attributes) => {
                // The links of a feed are led to by whoever reads it.
                let name_in_page = if name == "link" { "a" } else { name };
                let fault =
                    element(name_in_page, &attributes).or_else(|| draws_nothing(&attributes));
                if name == "script" || name == "foreignObject" || fault.is_some() {
                    return Some(fault.unwrap_or_else(|| format!("an element `{name}`")));
                }
            }
        }
        roots += usize::from(open.is_empty());
        if !is_whole {
            open.push(name);
        }
    }
    if roots != 1 || !open.is_empty() {
        return Some(format!("{roots} roots, and {open:?} left open"));
    }
    words(rest, true)
}

/// A number that is none draws nothing.
fn draws_nothing(attributes: &[(String, String)]) -> Option<String> {
    let drawn =
        ["d", "x", "y", "cx", "cy", "r", "width", "height", "viewBox", "points", "transform"];
    let is_number = |(key, value): &&(String, String)| {
        drawn.contains(&key.as_str()) && ["NaN", "inf"].iter().any(|none| value.contains(none))
    };
    attributes.iter().find(is_number).map(|(key, value)| format!("`{key}` is `{value}`"))
}

fn is_allowed(c: char) -> bool {
    matches!(c, '\t' | '\n' | '\r' | ' '..='\u{d7ff}' | '\u{e000}'..='\u{fffd}' | '\u{10000}'..='\u{10ffff}')
        && u32::from(c) & 0xfffe != 0xfffe
}

/// Text between tags: nothing outside the root, and every `&` begins a known sign.
fn words(text: &str, outside: bool) -> Option<String> {
    if outside && !text.trim().is_empty() {
        return Some(format!("words outside the document: {text}"));
    }
    let known = |rest: &str| {
        ["amp;", "lt;", "gt;", "quot;", "apos;", "#"].iter().any(|sign| rest.starts_with(sign))
    };
    let mut parts = text.split('&').skip(1);
    parts.find(|rest| !known(rest)).map(|rest| format!("a bare `&` before {rest:?}"))
}

fn attributes_of(text: &str) -> Result<Vec<(String, String)>, String> {
    let mut found: Vec<(String, String)> = Vec::new();
    let mut rest = text.trim();
    while !rest.is_empty() {
        let (key, after) = rest.split_once('=').ok_or(format!("`{rest}` has no value"))?;
        let quote = after.chars().next().filter(|c| "\"'".contains(*c));
        let quote = quote.ok_or(format!("`{key}` has no quotes"))?;
        let (value, after) =
            after[1..].split_once(quote).ok_or(format!("`{key}` is never closed"))?;
        if value.contains('<') || found.iter().any(|(known, _)| known == key.trim()) {
            return Err(format!("`{key}` holds a tag or stands twice"));
        }
        if let Some(fault) = words(value, false) {
            return Err(fault);
        }
        found.push((key.trim().to_string(), value.to_string()));
        rest = after.trim_start();
    }
    Ok(found)
}

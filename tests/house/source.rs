//! Rust source as the house rules need it: code without comments, strings and tests, as words.
//! Never a full parser: it knows just enough to tell code from talk about code.

/// The `//!` lines at the top, without their marks.
pub fn promise(text: &str) -> Vec<&str> {
    let lines = text.lines().map_while(|line| line.strip_prefix("//!"));
    lines.map(str::trim).collect()
}

/// Code without comments and without what stands in strings and characters.
pub fn code(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let mut out = String::new();
    let mut at = 0;
    while at < chars.len() {
        match skip(&chars, at) {
            Some(end) => {
                // Line breaks stay, so that lines can still be counted.
                out.extend(chars[at..end].iter().filter(|c| **c == '\n'));
                out.push(' ');
                at = end;
            }
            None => {
                out.push(chars[at]);
                at += 1;
            }
        }
    }
    out
}

/// Where a comment, string or character that starts at `at` ends.
fn skip(chars: &[char], at: usize) -> Option<usize> {
    let next = chars.get(at + 1).copied().unwrap_or(' ');
    match chars[at] {
        '/' if next == '/' => Some(line_end(chars, at)),
        '/' if next == '*' => Some(after(chars, at + 2, "*/")),
        '"' => Some(string_end(chars, at + 1)),
        'r' if (next == '"' || next == '#') && !is_word(chars, at) => raw_end(chars, at + 1),
        '\'' => character_end(chars, at),
        _ => None,
    }
}

fn is_word(chars: &[char], at: usize) -> bool {
    at > 0 && (chars[at - 1].is_alphanumeric() || chars[at - 1] == '_')
}

fn line_end(chars: &[char], at: usize) -> usize {
    (at..chars.len()).find(|i| chars[*i] == '\n').unwrap_or(chars.len())
}

/// The place behind the first `end` from `at` on.
fn after(chars: &[char], at: usize, end: &str) -> usize {
    let end: Vec<char> = end.chars().collect();
    let found = (at..chars.len()).find(|i| chars[*i..].starts_with(&end));
    found.map_or(chars.len(), |i| i + end.len())
}

fn string_end(chars: &[char], mut at: usize) -> usize {
    while at < chars.len() && chars[at] != '"' {
        at += if chars[at] == '\\' { 2 } else { 1 };
    }
    (at + 1).min(chars.len())
}

/// `r"..."`, `r#"..."#`; `at` stands behind the `r`. Nothing for `r#type`.
fn raw_end(chars: &[char], at: usize) -> Option<usize> {
    let hashes = chars[at..].iter().take_while(|c| **c == '#').count();
    if chars.get(at + hashes) != Some(&'"') {
        return None;
    }
    Some(after(chars, at + hashes + 1, &format!("\"{}", "#".repeat(hashes))))
}

/// `'x'` or `'\n'`; nothing for a lifetime.
fn character_end(chars: &[char], at: usize) -> Option<usize> {
    if chars.get(at + 1) == Some(&'\\') {
        return Some(after(chars, at + 3, "'"));
    }
    (chars.get(at + 2) == Some(&'\'')).then_some(at + 3)
}

/// `code` without every item marked `#[cfg(test)]`.
pub fn without_tests(code: &str) -> String {
    let mut left = code.to_string();
    while let Some(start) = left.find("#[cfg(test)]") {
        let end = item_end(&left, start);
        left.replace_range(start..end, "");
    }
    left
}

/// The end of the item that starts at `start`: its closing brace, or its semicolon.
fn item_end(code: &str, start: usize) -> usize {
    let mut depth = 0usize;
    for (at, c) in code[start..].char_indices() {
        match c {
            '{' => depth += 1,
            '}' if depth == 1 => return start + at + 1,
            '}' => depth = depth.saturating_sub(1),
            ';' if depth == 0 => return start + at + 1,
            _ => {}
        }
    }
    code.len()
}

/// Words and marks of code, in order: `use`, `crate`, `::`, `{`, ...
pub fn words(code: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    let mut word = String::new();
    let mut chars = code.chars().peekable();
    while let Some(c) = chars.next() {
        if c.is_alphanumeric() || c == '_' {
            word.push(c);
            continue;
        }
        if !word.is_empty() {
            words.push(std::mem::take(&mut word));
        }
        match c {
            ':' if chars.peek() == Some(&':') => {
                chars.next();
                words.push("::".into());
            }
            c if c.is_whitespace() => {}
            c => words.push(c.into()),
        }
    }
    if !word.is_empty() {
        words.push(word);
    }
    words
}

/// The rooms that code names after `crate::`, alone or in braces.
pub fn rooms_named(code: &str, root: &str) -> Vec<String> {
    let words = words(code);
    let mut rooms = Vec::new();
    for at in 0..words.len() {
        let follows = words.get(at + 1).is_some_and(|word| word == "::");
        if words[at] != root || !follows {
            continue;
        }
        match words.get(at + 2).map(String::as_str) {
            Some("{") => rooms.extend(first_words_in_braces(&words[at + 3..])),
            Some(room) => rooms.push(room.to_string()),
            None => {}
        }
    }
    rooms
}

/// `a::b, c::{d, e}, f` up to the closing brace: a, c, f.
fn first_words_in_braces(words: &[String]) -> Vec<String> {
    let mut depth = 0;
    let mut is_first = true;
    let mut found = Vec::new();
    for word in words {
        match word.as_str() {
            "{" => depth += 1,
            "}" if depth == 0 => break,
            "}" => depth -= 1,
            "," if depth == 0 => is_first = true,
            _ if depth == 0 && is_first => {
                found.push(word.clone());
                is_first = false;
            }
            _ => {}
        }
    }
    found
}

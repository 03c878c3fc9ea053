//! Quotes and brackets: where a text opens and where it should have been closed.
//! Never closes one.

use super::{Line, Slip};

/// The quoted texts of a YAML text: where each opens and the byte after it closes, if it does.
fn quoted(yaml: &str) -> Vec<(usize, Option<usize>)> {
    let bytes = yaml.as_bytes();
    let (mut found, mut at) = (Vec::new(), 0);
    let mut may_open = true;
    while at < bytes.len() {
        match bytes[at] {
            quote @ (b'"' | b'\'') if may_open => {
                let end = closing(bytes, at, quote);
                found.push((at, end));
                at = end.unwrap_or(bytes.len());
                may_open = false;
                continue;
            }
            b'#' if at == 0 || bytes[at - 1].is_ascii_whitespace() => {
                at = yaml[at..].find('\n').map_or(bytes.len(), |end| at + end);
                continue;
            }
            // A text begins at the start of a line and after these.
            b'\n' | b'[' | b'{' | b',' => may_open = true,
            b':' | b'-' if bytes.get(at + 1).is_none_or(u8::is_ascii_whitespace) => may_open = true,
            byte if !byte.is_ascii_whitespace() => may_open = false,
            _ => {}
        }
        at += 1;
    }
    found
}

fn closing(bytes: &[u8], open: usize, quote: u8) -> Option<usize> {
    let mut at = open + 1;
    while at < bytes.len() {
        match bytes[at] {
            b'\\' if quote == b'"' => at += 1,
            b'\'' if quote == b'\'' && bytes.get(at + 1) == Some(&b'\'') => at += 1,
            byte if byte == quote => return Some(at + 1),
            _ => {}
        }
        at += 1;
    }
    None
}

/// A quote that swallows the lines after it: said where it opens, not where it happens to end.
pub(super) fn quote_of_another_line(yaml: &str, at: usize) -> Option<Slip> {
    let (open, end) = quoted(yaml).into_iter().rfind(|(open, end)| {
        *open <= at && yaml[*open..end.unwrap_or(yaml.len())].contains('\n')
    })?;
    // Long texts are folded over lines on purpose; what follows them is then no key.
    let headline = match end {
        Some(_) => "the quote that opens here is not closed in its line",
        None => "this quote is never closed",
    };
    let sign = &yaml[open..=open];
    let help = format!("close it with `{sign}` at the end of the text");
    Some(Slip::new(open, sign, headline.to_string(), help))
}

pub(super) fn quote(yaml: &str, at: usize) -> Option<Slip> {
    if let Some(slip) = quote_of_another_line(yaml, at) {
        return Some(slip);
    }
    let here = quoted(yaml).into_iter().rfind(|(open, _)| *open <= at);
    let (_, end) = here?;
    let end = end?;
    let rest = yaml[end..].lines().next().unwrap_or("").trim();
    let first = rest.split(' ').next().unwrap_or(rest);
    let skipped = yaml[end..].len() - yaml[end..].trim_start().len();
    let headline = "words stand after the quote that ends the text".to_string();
    let is_apostrophe = yaml[..end].ends_with('\'') && skipped == 0;
    let help = match is_apostrophe {
        true => "put double quotes round a text with an apostrophe in it",
        false => "put quotes round the whole text, or round none of it",
    };
    Some(Slip::new(end + skipped, first, headline, help))
}

/// The last bracket above or in a line that is never closed, or that a comment hides the end of.
pub(super) fn bracket(lines: &[Line<'_>], number: usize, yaml: &str) -> Option<Slip> {
    let quoted = quoted(yaml);
    let in_quotes = |at: usize| {
        quoted.iter().any(|(open, end)| (*open..end.unwrap_or(yaml.len())).contains(&at))
    };
    let mut open: Vec<(usize, char)> = Vec::new();
    let mut comment = None;
    for line in &lines[..=number] {
        for (offset, sign) in line.text.char_indices() {
            let at = line.start + offset;
            if in_quotes(at) {
                continue;
            }
            let starts_text =
                offset == 0 || line.text[..offset].ends_with([' ', '\t', '[', '{', ',']);
            match sign {
                '#' if line.text[..offset].ends_with([' ', '\t']) => {
                    comment = (!open.is_empty()).then_some(at).or(comment);
                    break;
                }
                '{' | '[' if starts_text || !open.is_empty() => open.push((at, sign)),
                '}' | ']' => drop(open.pop()),
                _ => {}
            }
        }
    }
    let (at, sign) = open.pop()?;
    if let Some(comment) = comment.filter(|comment| *comment > at) {
        let headline = "` #` starts a remark, which hides the bracket that closes here".to_string();
        return Some(Slip::new(
            comment,
            "#",
            headline,
            "put quotes round the text that holds ` #`",
        ));
    }
    let close = if sign == '{' { '}' } else { ']' };
    let headline = "a bracket is never closed: it opens here".to_string();
    Some(Slip::new(at, "{", headline, format!("close it with `{close}`")))
}

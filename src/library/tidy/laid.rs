//! Parts laid out: one thing a line, brackets only where they fit into one. Never joins what was broken.

use super::parts::{Many, Part, Value};

/// The most letters of a line that has brackets to break.
const WIDTH: usize = 100;

/// The whole text.
pub fn out(head: &[String], whole: &Many) -> String {
    let mut lines: Vec<String> = head.to_vec();
    block(whole, 0, &mut lines);
    lines.dedup_by(|one, before| one.is_empty() && before.is_empty());
    while lines.last().is_some_and(String::is_empty) {
        lines.pop();
    }
    let first = lines.iter().position(|line| !line.is_empty()).unwrap_or(0);
    lines[first..].iter().map(|line| format!("{line}\n")).collect()
}

fn block(many: &Many, indent: usize, lines: &mut Vec<String>) {
    for part in &many.parts {
        remarks(&part.above, indent, lines);
        entry(part, indent, lines);
    }
    remarks(&many.after, indent, lines);
}

fn remarks(found: &[String], indent: usize, lines: &mut Vec<String>) {
    let line = |line: &String| match line.is_empty() {
        true => String::new(),
        false => format!("{}{line}", " ".repeat(indent)),
    };
    lines.extend(found.iter().map(line));
}

/// A part from its key or dash on.
fn entry(part: &Part, indent: usize, lines: &mut Vec<String>) {
    let start = match &part.key {
        Some(key) => format!("{}{key}:", " ".repeat(indent)),
        None => format!("{}-", " ".repeat(indent)),
    };
    let with_remark = |line: String| match &part.beside {
        Some(remark) => format!("{line}  {remark}"),
        None => line,
    };
    match &part.value {
        Value::Nothing => lines.push(with_remark(start)),
        Value::Words(words) => {
            let mut all = words.lines();
            let first = format!("{start} {}", all.next().unwrap_or_default());
            let mut laid = vec![first];
            laid.extend(further(words, indent + 2));
            let last = laid.pop().unwrap_or_default();
            lines.extend(laid);
            lines.push(with_remark(last));
        }
        Value::Flow(many, breaks) => {
            let line = format!("{start} {}", in_line(many));
            let fits = !breaks && line.chars().count() <= WIDTH;
            match many.parts.is_empty() || fits {
                true => lines.push(with_remark(line)),
                false => broken(part, many, (start, indent), lines),
            }
        }
        Value::Block(many) => broken(part, many, (start, indent), lines),
    }
}

/// The lines of a text after its first, set in.
fn further(words: &str, indent: usize) -> Vec<String> {
    let rest: Vec<&str> = words.lines().skip(1).collect();
    let depth = |line: &&str| line.len() - line.trim_start().len();
    let is_block = words.starts_with(['|', '>']);
    let written = rest.iter().filter(|line| !line.trim().is_empty());
    let least = written.map(depth).min().unwrap_or(0);
    let line = |line: &&str| match (line.trim().is_empty(), is_block) {
        (true, _) => String::new(),
        (_, true) => format!("{}{}", " ".repeat(indent), &line[least..]),
        _ => format!("{}{}", " ".repeat(indent), line.trim()),
    };
    rest.iter().map(line).collect()
}

/// A map or a list over lines, under its key or beside its dash.
fn broken(part: &Part, many: &Many, (start, indent): (String, usize), lines: &mut Vec<String>) {
    let mut within = Vec::new();
    block(many, indent + 2, &mut within);
    if part.key.is_some() {
        let remark = part.beside.as_ref().map_or(String::new(), |remark| format!("  {remark}"));
        lines.push(format!("{start}{remark}"));
        within.drain(..within.iter().take_while(|line| line.is_empty()).count());
        lines.extend(within);
        return;
    }
    // A remark cannot stand between a dash and what it is the dash of.
    remarks(part.beside.as_slice(), indent, lines);
    let is_remark = |line: &&String| line.is_empty() || line.trim_start().starts_with('#');
    let above = within.iter().take_while(is_remark).count();
    let shift = |line: String| format!("{}{}", " ".repeat(indent), line.trim());
    lines.extend(within.drain(..above).filter(|line| !line.is_empty()).map(shift));
    let first = within.first_mut();
    if let Some(first) = first {
        *first = format!("{start} {}", first.trim_start());
    }
    lines.extend(within);
}

/// What stands in brackets, in one line.
fn in_line(many: &Many) -> String {
    let parts: Vec<String> = many.parts.iter().map(part_in_line).collect();
    match many.is_map {
        true => format!("{{{}}}", parts.join(", ")),
        false => format!("[{}]", parts.join(", ")),
    }
}

fn part_in_line(part: &Part) -> String {
    let value = match &part.value {
        Value::Nothing => String::new(),
        Value::Words(words) => words.lines().map(str::trim).collect::<Vec<_>>().join(" "),
        Value::Flow(many, _) | Value::Block(many) => in_line(many),
    };
    match &part.key {
        Some(key) if value.is_empty() => format!("{key}:"),
        Some(key) => format!("{key}: {value}"),
        None => value,
    }
}

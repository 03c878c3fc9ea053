//! The parts of a YAML text with the remarks that belong to each, in the order in which they are best
//! written. Never lays anything out.

use crate::finding::Span;
use crate::library::keys::{ITEM, Shape, Table};
use crate::library::reader::node::{Kind, Node};

/// An entry of a map or an item of a list.
#[derive(Debug)]
pub struct Part {
    /// Remarks above it, and an empty line where one stands.
    pub above: Vec<String>,
    /// Its key as written; none for an item.
    pub key: Option<String>,
    /// The remark behind it.
    pub beside: Option<String>,
    /// What it says.
    pub value: Value,
}

/// What stands behind a key or a dash.
#[derive(Debug)]
pub enum Value {
    Nothing,
    /// As written, perhaps over several lines.
    Words(String),
    /// In brackets; true where it is broken over lines in any case.
    Flow(Many, bool),
    /// Over lines.
    Block(Many),
}

/// A map or a list.
#[derive(Debug, Default)]
pub struct Many {
    pub is_map: bool,
    pub parts: Vec<Part>,
    /// Remarks after the last of them.
    pub after: Vec<String>,
}

/// The lines that stay on top, and all parts; nothing where something stands between them that is no
/// remark.
pub fn read(yaml: &str, tree: &Node, shape: &Shape) -> Option<(Vec<String>, Many)> {
    let mut reader = Reader { yaml, at: 0 };
    let mut head = Vec::new();
    if yaml.starts_with("---\n") {
        head.push("---".to_string());
        reader.at = 3;
    }
    if tree.is_in_brackets(yaml) {
        return None;
    }
    let mut whole = reader.block(tree, shape, None)?;
    whole.after.extend(reader.above());
    if reader.at < yaml.trim_end().len() {
        return None;
    }
    stay_on_top(&mut head, &mut whole.parts);
    sort(&mut whole, shape);
    Some((head, whole))
}

/// Every remark of a text, in order.
pub fn remarks(yaml: &str, tree: &Node) -> Vec<String> {
    let mut words = Vec::new();
    leaves(tree, &mut words);
    let starts = std::iter::once(0).chain(words.iter().map(|span| span.end as usize));
    let ends = words.iter().map(|span| span.start as usize).chain([yaml.len()]);
    let gaps = starts.zip(ends).filter_map(|(start, end)| yaml.get(start..end));
    let remark = |line: &str| line.find('#').map(|at| line[at..].trim_end().to_string());
    gaps.flat_map(|gap| gap.lines().filter_map(remark).collect::<Vec<_>>()).collect()
}

fn leaves(node: &Node, found: &mut Vec<Span>) {
    match &node.kind {
        Kind::Scalar(_) => found.push(node.span),
        Kind::List(items) => items.iter().for_each(|item| leaves(item, found)),
        Kind::Map(entries) => entries.iter().for_each(|(key, value)| {
            found.push(key.span);
            leaves(value, found);
        }),
        Kind::Empty => {}
    }
}

/// Remarks on top that an empty line cuts off from the first key, and the line by which an editor finds
/// the schema, stay there whichever key comes first.
fn stay_on_top(head: &mut Vec<String>, parts: &mut [Part]) {
    let Some(first) = parts.first_mut() else { return };
    let empty = first.above.iter().rposition(String::is_empty).map(|at| at + 1);
    let schema = first.above.iter().rposition(|line| line.contains("$schema=")).map(|at| at + 1);
    let end = empty.max(schema).unwrap_or(0);
    head.extend(first.above.drain(..end));
}

/// Puts the keys of a table in its order. What the coach named stays in the coach's.
fn sort(many: &mut Many, shape: &Shape) {
    if let Some(table) = table_of(shape).filter(|_| many.is_map) {
        many.parts.sort_by_key(|part| rank(table, part.key.as_deref().unwrap_or_default()));
    }
}

/// The place of a key. Keys that the coach chooses, such as the settings of a rung, follow what must be
/// there.
fn rank(table: &Table, key: &str) -> usize {
    let plain = key.trim_matches(['"', '\'']);
    let needed = |key: &&str| table.needs.contains(key);
    let place = |name: &str| table.keys.iter().position(|key| key.name == name);
    let last = table.keys.iter().rposition(|key| key.must || needed(&key.name));
    match place(plain) {
        Some(at) => 2 * at,
        None => last.map_or(2 * table.keys.len(), |at| 2 * at + 1),
    }
}

fn table_of(shape: &Shape) -> Option<&'static Table> {
    match shape {
        Shape::Map(table) => Some(table),
        Shape::Same(name) if *name == ITEM.name => Some(&ITEM),
        Shape::Any(shapes) => shapes.iter().find_map(table_of),
        _ => None,
    }
}

/// The shape of what stands behind a key, or in a list.
fn within<'s>(shape: &'s Shape, key: Option<&str>) -> &'s Shape {
    const ANY: Shape = Shape::Nothing;
    match (shape, key) {
        (Shape::List(each), None) | (Shape::Each(_, each), Some(_)) => each,
        (Shape::Any(shapes), _) => {
            shapes.iter().map(|one| within(one, key)).find(|one| !is_any(one)).unwrap_or(&ANY)
        }
        (_, Some(key)) => {
            let known = table_of(shape).and_then(|table| table.key(key.trim_matches(['"', '\''])));
            known.map_or(&ANY, |key| &key.shape)
        }
        _ => &ANY,
    }
}

fn is_any(shape: &Shape) -> bool {
    matches!(shape, Shape::Nothing)
}

/// A list of maps, such as cues: each stands on a line of its own.
fn is_list_of_maps(shape: &Shape) -> bool {
    matches!(shape, Shape::List(each) if table_of(each).is_some())
}

struct Reader<'y> {
    yaml: &'y str,
    /// The first byte that has not been read.
    at: usize,
}

impl<'y> Reader<'y> {
    fn rest(&self) -> &'y str {
        self.yaml.get(self.at..).unwrap_or("")
    }

    fn column(&self) -> usize {
        self.at - self.yaml[..self.at].rfind('\n').map_or(0, |end| end + 1)
    }

    /// Skips blanks in the line.
    fn skip(&mut self) {
        self.at += self.rest().len() - self.rest().trim_start_matches([' ', '\t']).len();
    }

    /// A remark at the end of this line, after something.
    fn beside(&mut self) -> Option<String> {
        let rest = self.rest();
        let remark = rest.trim_start_matches([' ', '\t']);
        let at_start = self.at == 0 || self.yaml[..self.at].ends_with('\n');
        if at_start || !remark.starts_with('#') {
            return None;
        }
        let line = rest.lines().next()?;
        self.at += line.len();
        Some(line.trim().to_string())
    }

    /// Remarks and empty lines up to the next word.
    fn above(&mut self) -> Vec<String> {
        self.remarks_from(0)
    }

    /// The same, as long as the remarks stand at least at `column`, and then without what follows them.
    fn remarks_from(&mut self, column: usize) -> Vec<String> {
        let mut found = Vec::new();
        let mut kept = (0, self.at);
        loop {
            let is_start = self.at == 0 || self.yaml[..self.at].ends_with('\n');
            self.skip();
            let rest = self.rest();
            let line = rest.split('\n').next().unwrap_or(rest);
            let is_remark = is_start && line.starts_with('#') && self.column() >= column;
            if rest.is_empty() || !line.trim().is_empty() && !is_remark {
                break;
            }
            if is_start {
                found.push(line.trim_end().to_string());
            }
            self.at = (self.at + line.len() + 1).min(self.yaml.len());
            if is_remark {
                kept = (found.len(), self.at);
            }
        }
        if column > 0 {
            found.truncate(kept.0);
            self.at = kept.1;
        }
        found
    }

    /// A map or a list over lines, whose parent stands at column `outer`.
    fn block(&mut self, node: &Node, shape: &Shape, outer: Option<usize>) -> Option<Many> {
        let mut many = Many { is_map: matches!(node.kind, Kind::Map(_)), ..Many::default() };
        let mut column = 0;
        match &node.kind {
            Kind::Map(entries) => {
                for (key, value) in entries {
                    let above = self.above();
                    column = self.column();
                    let words = self.words(key.span)?;
                    self.skip();
                    self.at += self.rest().strip_prefix(':').map(|_| 1)?;
                    let shape = within(shape, Some(words));
                    many.parts.push(self.part(above, Some(words), value, (shape, column))?);
                }
            }
            Kind::List(items) => {
                for item in items {
                    let above = self.above();
                    column = self.column();
                    self.at += self.rest().strip_prefix('-').map(|_| 1)?;
                    let shape = within(shape, None);
                    many.parts.push(self.part(above, None, item, (shape, column))?);
                }
            }
            _ => return None,
        }
        if let Some(outer) = outer.filter(|outer| *outer < column) {
            many.after = self.remarks_from(outer + 1);
        }
        Some(many)
    }

    fn part(
        &mut self,
        above: Vec<String>,
        key: Option<&str>,
        node: &Node,
        (shape, column): (&Shape, usize),
    ) -> Option<Part> {
        let key = key.map(str::to_string);
        let (beside, value) = match &node.kind {
            Kind::Empty => {
                // A written null.
                self.skip();
                let rest = self.rest();
                let null = ["null", "~"].into_iter().find(|word| rest.starts_with(word));
                self.at += null.map_or(0, str::len);
                let value = null.map_or(Value::Nothing, |null| Value::Words(null.to_string()));
                (self.beside(), value)
            }
            Kind::Scalar(_) => {
                let words = self.words(node.span)?;
                (self.beside(), Value::Words(words.to_string()))
            }
            _ if node.is_in_brackets(self.yaml) => {
                let words = self.words(whole(self.yaml, node))?;
                let value = match has_remark(self.yaml, node) {
                    true => Value::Words(words.to_string()),
                    false => Value::Flow(flow(self.yaml, node, shape)?, breaks(node, shape)),
                };
                (self.beside(), value)
            }
            _ => {
                let beside = self.beside();
                let mut many = self.block(node, shape, Some(column))?;
                sort(&mut many, shape);
                (beside, Value::Block(many))
            }
        };
        Some(Part { above, key, beside, value })
    }

    /// The words at a place, where nothing but blanks stands before them.
    fn words(&mut self, span: Span) -> Option<&'y str> {
        let (mut start, end) = (span.start as usize, span.end as usize);
        let before = self.yaml.get(self.at..start)?;
        let mut before = before.trim();
        // The sign of a text over several lines may stand before its place.
        if before.starts_with(['|', '>']) && before.len() <= 3 {
            start -= self.yaml[self.at..start].len() - self.yaml[self.at..start].find(before)?;
            before = "";
        }
        let words = self.yaml.get(start..end)?.trim_end();
        self.at = start + words.len();
        before.is_empty().then_some(words)
    }
}

fn breaks(node: &Node, shape: &Shape) -> bool {
    let Kind::List(items) = &node.kind else { return false };
    let maps = items.iter().filter(|item| matches!(item.kind, Kind::Map(_))).count();
    is_list_of_maps(shape) && maps > 1
}

/// The place of all that stands in brackets.
fn whole(yaml: &str, node: &Node) -> Span {
    Span::new(node.span.file, node.span.start as usize, node.end_in(yaml))
}

fn has_remark(yaml: &str, node: &Node) -> bool {
    let (start, end) = (node.span.start as usize, node.end_in(yaml));
    let Some(text) = yaml.get(..end) else { return false };
    let mut words = Vec::new();
    leaves(node, &mut words);
    let starts = std::iter::once(start).chain(words.iter().map(|span| span.end as usize));
    let ends = words.iter().map(|span| span.start as usize).chain([end]);
    starts.zip(ends).any(|(start, end)| text.get(start..end).is_some_and(|gap| gap.contains('#')))
}

/// What stands in brackets.
fn flow(yaml: &str, node: &Node, shape: &Shape) -> Option<Many> {
    let mut many = Many { is_map: matches!(node.kind, Kind::Map(_)), ..Many::default() };
    let words = |span: Span| yaml.get(span.start as usize..span.end as usize).map(str::trim_end);
    let value = |node: &Node, shape: &Shape| {
        Some(match &node.kind {
            Kind::Empty => Value::Nothing,
            Kind::Scalar(_) => Value::Words(words(node.span)?.to_string()),
            _ => Value::Flow(flow(yaml, node, shape)?, false),
        })
    };
    let part = |key, value| Part { above: Vec::new(), key, beside: None, value };
    match &node.kind {
        Kind::Map(entries) => {
            for (key, node) in entries {
                let key = words(key.span)?;
                let value = value(node, within(shape, Some(key)))?;
                many.parts.push(part(Some(key.to_string()), value));
            }
        }
        Kind::List(items) => {
            for item in items {
                many.parts.push(part(None, value(item, within(shape, None))?));
            }
        }
        _ => return None,
    }
    sort(&mut many, shape);
    Some(many)
}

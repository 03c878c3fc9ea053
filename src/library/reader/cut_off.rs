//! Texts that a ` #` cuts off: what a coach wrote and nobody would ever see.
//! Never changes what was read; numbers, ids and fixed words may have a remark behind them.

use super::codes;
use super::fields::Reading;
use super::node::{Kind, Node};
use crate::finding::{FileId, Finding, Severity, Span};
use crate::library::keys::{ITEM, Shape, Table};

/// Reports every text below `node`, written as `shape`, that a ` #` cuts off in `text`.
pub fn texts(node: &Node, shape: &Shape, (file, text): (FileId, &str), reading: &mut Reading) {
    match (&node.kind, shape) {
        (Kind::Scalar(_), Shape::Text) => {
            reading.findings.extend(cut(node.span, (file, text)));
        }
        (Kind::List(items), Shape::List(each)) => {
            items.iter().for_each(|item| texts(item, each, (file, text), reading));
        }
        (Kind::Map(_), Shape::Same(name)) if *name == ITEM.name => {
            texts(node, &Shape::Map(&ITEM), (file, text), reading);
        }
        (Kind::Map(entries), Shape::Map(table)) => {
            for (key, value) in entries {
                if let Some(shape) = shape_of(table, &key.value) {
                    texts(value, shape, (file, text), reading);
                }
            }
        }
        (Kind::Map(entries), Shape::Each(_, each)) => {
            entries.iter().for_each(|(_, value)| texts(value, each, (file, text), reading));
        }
        (_, Shape::Any(shapes)) => {
            shapes.iter().for_each(|one| texts(node, one, (file, text), reading));
        }
        _ => {}
    }
}

fn shape_of<'t>(table: &'t Table, key: &str) -> Option<&'t Shape> {
    table.key(key).map(|key| &key.shape)
}

fn cut(span: Span, (file, text): (FileId, &str)) -> Option<Finding> {
    let written = text.get(span.start as usize..span.end as usize)?;
    if written.is_empty() || written.starts_with(['"', '\'', '|', '>']) {
        return None;
    }
    let end = span.start as usize + written.trim_end().len();
    let rest = text.get(end..)?.lines().next()?;
    let remark = rest.trim_start();
    if !remark.starts_with('#') || remark.len() == rest.len() {
        return None;
    }
    let at = end + rest.len() - remark.len();
    let remark = remark.trim_end();
    let whole = format!("{}{}", written.trim_end(), &rest[..rest.trim_end().len()]);
    let help = match whole.contains('"') || whole.len() > 80 {
        true => "put quotes round the whole text; a remark goes on a line of its own".to_string(),
        false => format!("write `\"{whole}\"`; a remark goes on a line of its own"),
    };
    let span = Span::new(file, at, at + remark.len());
    let headline = "from ` #` on this text is not read";
    Some(Finding::new(codes::TEXT_CUT_OFF, Severity::Warning, headline, span).help(help))
}

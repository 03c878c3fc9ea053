//! Bodies: the Markdown of a movement, part by part, each with its place in the file.
//! Never renders; the site does.

use crate::finding::Span;
use crate::gym::Gym;
use crate::library::Movement;
use pulldown_cmark::{Event, Options, Parser, Tag};

/// The parts of a movement's body.
pub fn parts(movement: &Movement) -> impl Iterator<Item = (Event<'_>, Span)> {
    let (file, start) = (movement.file.file, movement.body.start as usize);
    Parser::new_ext(&movement.body.markdown, Options::ENABLE_TABLES | Options::ENABLE_STRIKETHROUGH)
        .into_offset_iter()
        .map(move |(event, at)| (event, Span::new(file, start + at.start, start + at.end)))
}

/// A link in a body: where it leads and where it stands.
pub struct Link {
    /// What stands between the brackets.
    pub to: String,
    /// Where.
    pub span: Span,
    /// It is written as a footnote, `[^1]`, which nothing reads.
    pub is_footnote: bool,
    /// It has a space in its address, so that Markdown takes it for a text.
    pub is_cut_off: bool,
}

/// Every link of every body.
pub fn links(gym: &Gym) -> Vec<Link> {
    let sources = &gym.library.sources;
    let link = |(event, span): (Event<'_>, Span)| match event {
        Event::Start(Tag::Link { dest_url, .. }) => {
            // The address stands after the words it is under, which may be the same.
            let words = sources.words(span);
            let is_footnote = words.starts_with("[^");
            let span = match words.rfind(dest_url.as_ref()) {
                Some(at) if !dest_url.is_empty() => {
                    let start = span.start as usize + at;
                    Span::new(span.file, start, start + dest_url.len())
                }
                _ => span,
            };
            Some(Link { to: dest_url.to_string(), span, is_footnote, is_cut_off: false })
        }
        _ => None,
    };
    let movements = gym.library.movements.values();
    movements
        .flat_map(|movement| parts(movement).filter_map(link).chain(cut_off(movement)))
        .collect()
}

/// What is written as a link with a space in its address: `[row](towel row)`.
fn cut_off(movement: &Movement) -> impl Iterator<Item = Link> {
    let is_known = |(event, span): (Event<'_>, Span)| {
        let is_one =
            matches!(event, Event::Start(Tag::Link { .. } | Tag::Image { .. }) | Event::Code(_))
                || matches!(event, Event::Start(Tag::CodeBlock(_)));
        is_one.then_some(span)
    };
    let known: Vec<Span> = parts(movement).filter_map(is_known).collect();
    let (file, start) = (movement.file.file, movement.body.start as usize);
    let markdown = &movement.body.markdown;
    let found = markdown.match_indices("](").filter_map(move |(at, _)| {
        let from = at + 2;
        let to = markdown[from..].split([')', '\n']).next()?;
        let span = Span::new(file, start + from, start + from + to.len());
        let is_within = known.iter().any(|known| (known.start..known.end).contains(&span.start));
        let is_one = to.trim().contains(' ') && !to.contains('"') && !is_within;
        is_one.then(|| Link { to: to.to_string(), span, is_footnote: false, is_cut_off: true })
    });
    found.collect::<Vec<_>>().into_iter()
}

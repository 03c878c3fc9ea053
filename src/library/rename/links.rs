//! Links in a movement's body that lead to an entry by its id.
//! Never looks at links to other sites, nor at words that only look like the id.

use super::{Rename, Splice};
use crate::library::named::Named;
use pulldown_cmark::{Event, Options, Parser, Tag};

/// What changes in the body that starts at byte `body` of `text`.
pub(super) fn splices(rename: &Rename<'_>, text: &str, body: usize) -> Vec<Splice> {
    let Some(markdown) = text.get(body..).filter(|markdown| !markdown.is_empty()) else {
        return Vec::new();
    };
    let options = Options::ENABLE_TABLES | Options::ENABLE_STRIKETHROUGH;
    let parser = Parser::new_ext(markdown, options);
    let definitions = parser.reference_definitions().iter();
    let mut places: Vec<(String, std::ops::Range<usize>)> =
        definitions.map(|(_, to)| (to.dest.to_string(), to.span.clone())).collect();
    places.extend(parser.into_offset_iter().filter_map(|(event, at)| match event {
        Event::Start(Tag::Link { dest_url, .. }) => Some((dest_url.to_string(), at)),
        _ => None,
    }));
    let splice = |(to, at): (String, std::ops::Range<usize>)| {
        let fresh = renamed(rename, &to)?;
        // The address stands after the words it is under, which may be the same.
        let start = body + at.start + markdown.get(at)?.rfind(&to)?;
        Some((start, start + to.len(), fresh))
    };
    places.into_iter().filter_map(splice).collect()
}

/// A link's address with the new id in it; nothing where it leads elsewhere.
fn renamed(rename: &Rename<'_>, to: &str) -> Option<String> {
    let (page, place) = to.split_once('#').map_or((to, None), |(page, place)| (page, Some(place)));
    let (folder, id) = page.split_once('/').unwrap_or(("movements", page));
    let is_it = folder == rename.of.folder() && id == rename.old;
    // A place on a movement's page may be its rung of a ladder.
    let rung = format!("rung-{}-", rename.old);
    let rung = place
        .filter(|_| rename.of == Named::Ladder)
        .and_then(|place| place.strip_prefix(&rung))
        .map(|number| format!("rung-{}-{number}", rename.new));
    if !is_it && rung.is_none() {
        return None;
    }
    let page = match (is_it, page.split_once('/')) {
        (false, _) => page.to_string(),
        (true, Some((folder, _))) => format!("{folder}/{}", rename.new),
        (true, None) => rename.new.to_string(),
    };
    let place = rung.or_else(|| place.map(str::to_string));
    Some(place.map_or(page.clone(), |place| format!("{page}#{place}")))
}

//! HTML in a body.
//! Never tells good HTML from bad.

use crate::check::Rule;
use crate::check::bodies;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::Movement;
use pulldown_cmark::{Event, Tag};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("raw-html"),
    severity: Severity::Error,
    what: "A body holds HTML.",
    why: "The page would show it as text, tags and all.",
    example: r#"
Keep <b>long</b>.
"#,
    next: "Write it in Markdown; to show `<` itself write `&lt;`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    gym.library.movements.values().flat_map(|movement| tags(movement, gym)).collect()
}

fn tags(movement: &Movement, gym: &Gym) -> Vec<Finding> {
    let sources = &gym.library.sources;
    let html = bodies::parts(movement).filter_map(|(event, span)| match event {
        Event::Start(Tag::HtmlBlock) => Some(span),
        // The tag that closes another is part of the same slip.
        Event::InlineHtml(tag) if !tag.starts_with("</") => Some(span),
        _ => None,
    });
    html.map(|span| {
        let place = sources.part(span, sources.words(span).trim_end());
        RULE.finding("HTML is not read in a body", place)
            .help("write it in Markdown, such as `**bold**` or `- item`")
    })
    .collect()
}

//! A picture in a body.
//! Never asks whether it is there.

use crate::check::Rule;
use crate::check::bodies;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use pulldown_cmark::{Event, Tag};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("body-image"),
    severity: Severity::Warning,
    what: "A body holds a picture.",
    why: "The site draws its own figures and asks no other host for anything, so this one \
          would not be shown.",
    example: r#"
![the start](start.jpg)
"#,
    next: "Describe it in words, or draw the pose with `figure`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let parts = gym.library.movements.values().flat_map(bodies::parts);
    parts
        .filter(|(event, _)| matches!(event, Event::Start(Tag::Image { .. })))
        .map(|(_, span)| {
            RULE.finding("a picture in a body is not shown", span)
                .help("say it in words, or draw the pose with `figure`")
        })
        .collect()
}

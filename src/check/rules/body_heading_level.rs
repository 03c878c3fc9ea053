//! A heading in a body at the wrong level.
//! Never renumbers headings.

use crate::check::Rule;
use crate::check::bodies;
use crate::finding::{Code, Finding, Severity, Span};
use crate::gym::Gym;
use crate::library::Movement;
use pulldown_cmark::{Event, Tag};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("body-heading-level"),
    severity: Severity::Warning,
    what: "A heading in a body starts above `##` or skips a level.",
    why: "People who listen to a page find their way by its headings.",
    example: r#"
# Set-up
"#,
    next: "Start at `##`, and go down one level at a time.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    gym.library.movements.values().flat_map(|movement| headings(movement, gym)).collect()
}

fn headings(movement: &Movement, gym: &Gym) -> Vec<Finding> {
    // The page's own title is level 1.
    let mut above = 1;
    let mut findings = Vec::new();
    for (event, span) in bodies::parts(movement) {
        let Event::Start(Tag::Heading { level, .. }) = event else { continue };
        let level = level as usize;
        let place = gym.library.sources.part(span, gym.library.sources.words(span).trim_end());
        if level < 2 {
            findings.push(too_high(place));
        } else if level > above + 1 {
            findings.push(skips(above, level, place));
        }
        above = level.max(2);
    }
    findings
}

fn too_high(place: Span) -> Finding {
    RULE.finding("a heading in a body starts at `##`: `#` is the page's own title", place)
        .help("write it with `##`")
}

fn skips(above: usize, level: usize, place: Span) -> Finding {
    let headline = format!("this heading skips a level, from {above} to {level}");
    RULE.finding(headline, place).help(format!("write it with `{}`", "#".repeat(above + 1)))
}

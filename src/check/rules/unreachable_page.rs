//! A page that only an index lists.
//! Never counts the indexes.

use crate::check::Rule;
use crate::check::{bodies, mentions, unknown};
use crate::finding::{Code, Finding, Severity, Span};
use crate::gym::Gym;
use std::collections::BTreeSet;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unreachable-page"),
    severity: Severity::Advice,
    what: "A session, a piece of kit or a caution has a page to which nothing leads but an \
           index.",
    why: "Nobody will come across it.",
    example: r#"
content/sessions/spare.yaml        (and no cycle names it)
"#,
    next: "Use it, link to it from a movement's text, or remove it.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    if unknown::use_is_unknown(library) {
        return Vec::new();
    }
    let linked: BTreeSet<String> = bodies::links(gym)
        .into_iter()
        .filter_map(|link| link.to.split('#').next().map(str::to_string))
        .collect();
    let lost = sessions(gym).into_iter().chain(kit(gym)).chain(cautions(gym));
    lost.filter(|page| !linked.contains(&page.address))
        .map(|page| {
            let headline = format!("nothing leads to `{}`: {}", page.address, page.why);
            RULE.finding(headline, page.span).help("use it, link to it from a text, or remove it")
        })
        .collect()
}

struct Page {
    address: String,
    span: Span,
    why: &'static str,
}

fn sessions(gym: &Gym) -> Vec<Page> {
    let library = &gym.library;
    let named: BTreeSet<_> = mentions::sessions(library).into_iter().map(|id| &id.value).collect();
    let spare = library.sessions.values().filter(|session| !named.contains(&session.id));
    spare
        .map(|session| Page {
            address: format!("sessions/{}", session.id),
            span: session.name.span,
            why: "no cycle has it",
        })
        .collect()
}

fn kit(gym: &Gym) -> Vec<Page> {
    let library = &gym.library;
    let named: BTreeSet<_> = mentions::kit(library).into_iter().map(|id| &id.value).collect();
    let spare = library.words.kit.values().filter(|item| !named.contains(&item.id.value));
    spare
        .map(|item| Page {
            address: format!("kit/{}", item.id.value),
            span: item.id.span,
            why: "no movement uses it",
        })
        .collect()
}

fn cautions(gym: &Gym) -> Vec<Page> {
    let library = &gym.library;
    let had: BTreeSet<_> = mentions::traits_had(library).into_iter().map(|id| &id.value).collect();
    let spare = library.words.cautions.values().filter(|caution| {
        let mut rows = caution.precautions().peekable();
        // A caution that keeps everything is found by its name, on the list and by searching.
        rows.peek().is_some() && rows.all(|row| !had.contains(&row.about.value))
    });
    spare
        .map(|caution| Page {
            address: format!("cautions/{}", caution.id.value),
            span: caution.id.span,
            why: "no movement has its traits",
        })
        .collect()
}

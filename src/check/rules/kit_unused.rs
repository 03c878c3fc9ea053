//! Kit in the hall that no movement uses.
//! Never counts kit that the hall has not; `unreachable-page` looks at that.

use crate::check::Rule;
use crate::check::{mentions, unknown};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use std::collections::BTreeSet;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("kit-unused"),
    severity: Severity::Advice,
    what: "The hall counts kit that no movement uses.",
    why: "It stands in the way of nothing and helps nobody: perhaps movements forgot to name \
          it.",
    example: r#"
hall: {kit: {slider: 8}}        (and no movement needs sliders)
"#,
    next: "Name it in a movement's `kit`, or take it out of the hall's list.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    if unknown::use_is_unknown(library) {
        return Vec::new();
    }
    let used: BTreeSet<_> = mentions::kit_needed(library).into_iter().map(|id| &id.value).collect();
    let hall = library.club.hall_kit.iter().map(|(kit, _)| kit);
    hall.filter(|kit| library.words.kit.contains_key(&kit.value) && !used.contains(&kit.value))
        .map(|kit| {
            let headline = format!("the hall has `{}`, and no movement uses it", kit.value);
            RULE.finding(headline, kit.span)
                .help("name it in a movement's `kit`, or take it out of the list")
        })
        .collect()
}

//! A library without its club's caution line and stop signs.
//! Never words them for the club.

use crate::check::Rule;
use crate::finding::{Finding, Severity};
use crate::gym::Gym;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::NO_CLUB,
    severity: Severity::Error,
    what: "`club.yaml` is missing, or has no caution line or no stop signs.",
    why: "Every page that tells someone to move carries both; without them no page can be \
          shown.",
    example: r#"
name: Thornmere Hall
stop-signs: []
"#,
    next: "Write `caution-line: ...` and `stop-signs: [...]` in club.yaml.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let club = &gym.library.club;
    // A club file that is missing or unreadable is said while reading.
    let Some(file) = club.file else { return Vec::new() };
    let line = club.caution_line.is_none().then(|| {
        RULE.finding("the club has no caution line, and every page shows it", file).help(
            "add `caution-line: ...`: general education, when to ask a clinician, when to stop",
        )
    });
    let signs = club.stop_signs.is_empty().then(|| {
        RULE.finding("the club has no stop signs, and every page shows them", file)
            .help("add `stop-signs: [...]`, such as chest pain, faintness, unusual breathlessness")
    });
    line.into_iter().chain(signs).collect()
}

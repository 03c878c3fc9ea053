//! An `id:` in an entry that differs from its file's name.
//! Never renames anything.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("id-not-file-name"),
    severity: Severity::Error,
    what: "A movement's `id` differs from the name of its file.",
    why: "Other entries find it by its file's name; the `id` written inside would mislead.",
    example: r#"
content/movements/squat/goblet-squat.md:
id: squat-with-weight
"#,
    next: "Remove the `id` line, or rename the file.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let movements = gym.library.movements.values();
    let written = movements.filter_map(|m| Some((m, m.written_id.as_ref()?)));
    written
        .filter(|(movement, id)| id.value != movement.id)
        .map(|(movement, id)| {
            let headline =
                format!("the id `{}` is not the file's name, `{}`", id.value, movement.id);
            RULE.finding(headline, id.span).help("remove this line, or rename the file")
        })
        .collect()
}

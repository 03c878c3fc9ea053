//! A word that should be a day and is none: a training day or the first day of a cycle, the day of a session.
//! Never guesses the day.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity, Span};
use crate::gym::Gym;
use crate::plan::{Day, facts};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unknown-day"),
    severity: Severity::Warning,
    what: "`days` of a cycle names no day of the week, or `starts` of a cycle or `written` of a \
           session is a day that no calendar has.",
    why: "The calendar puts sessions on the wrong day or is not made at all, and the feed cannot \
          tell what is new.",
    example: r#"
days: [tuseday, thursday]
"#,
    next: "Write days of the week as `tuesday` and dates as `2027-01-05`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let found = facts::that_are_no_days(gym).into_iter().map(|no_day| match no_day.of_the_week {
        true => RULE
            .finding(format!("`{}` is no day of the week", no_day.word), no_day.span)
            .help("write it like `tuesday`"),
        false => date(&no_day.word, no_day.span),
    });
    found.collect()
}

fn date(word: &str, span: Span) -> Finding {
    match Day::read_other(word) {
        Some(day) => RULE
            .finding(format!("`{word}` is a day, written another way than here"), span)
            .help(format!("write `{day}`"))
            .mend(span, day.to_string()),
        None => RULE
            .finding(format!("`{word}` is not a day that exists"), span)
            .help("write it like `2027-01-05`: the year, the month, the day"),
    }
}

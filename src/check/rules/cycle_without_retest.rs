//! A cycle that does not end with the test it began with.
//! Never plans the weeks.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::{Cycle, CycleWeek, WeekKind};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("cycle-without-retest"),
    severity: Severity::Warning,
    what: "A cycle does not begin with a test and end with the same session as its retest.",
    why: "Without the same test twice nobody can say what changed.",
    example: r#"
weeks:
  - {week: 1, kind: test, sessions: [test-day]}
  - {week: 6, kind: build, sessions: [tuesday]}
"#,
    next: "Begin with `kind: test`, end with `kind: retest`, and name the test's session in \
           both.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    gym.library.cycles.values().filter_map(fault).collect()
}

fn fault(cycle: &Cycle) -> Option<Finding> {
    let id = &cycle.id;
    let (first, last) = (
        cycle.weeks.iter().min_by_key(|week| week.week),
        cycle.weeks.iter().max_by_key(|week| week.week),
    );
    let (Some(first), Some(last)) = (first, last) else {
        let headline = format!("the cycle `{id}` has no weeks");
        return Some(RULE.finding(headline, cycle.name.span).help("add `weeks: ...`"));
    };
    if first.kind != Some(WeekKind::Test) {
        let headline = format!("the cycle `{id}` does not begin with a test");
        return Some(RULE.finding(headline, first.span).help("give its first week `kind: test`"));
    }
    if last.kind != Some(WeekKind::Retest) {
        let headline = format!("the cycle `{id}` does not end with a retest");
        return Some(RULE.finding(headline, last.span).help("give its last week `kind: retest`"));
    }
    (!share_a_session(first, last)).then(|| {
        RULE.finding(format!("the retest of `{id}` is not the session of its test"), last.span)
            .also(first.span, "the test")
            .help("name the test's session in the week of the retest")
    })
}

fn share_a_session(test: &CycleWeek, retest: &CycleWeek) -> bool {
    let same = |id| retest.sessions.iter().any(|other| other.value == id);
    test.sessions.iter().any(|session| same(session.value.clone()))
}

//! A cycle whose test or retest does not test a ladder that it is about.
//! Never asks how the test is done; the ladder says that.

use crate::check::Rule;
use crate::finding::{Code, Finding, Placed, Severity};
use crate::gym::Gym;
use crate::library::{Block, Cycle, CycleWeek, Item, ItemWork, LadderId, Library, WeekKind};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("focus-untested"),
    severity: Severity::Warning,
    what: "A ladder in a cycle's `focus` stands in no session of a week of test or retest.",
    why: "Nobody's rung is found for it, and nobody can say what changed.",
    example: r#"
focus: [row, dip]
weeks:
  - {week: 1, kind: test, sessions: [row-test]}
"#,
    next: "Add the ladder to the session of that week, or take it out of the focus.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    library.cycles.values().flat_map(|cycle| of_cycle(cycle, library)).collect()
}

fn of_cycle(cycle: &Cycle, library: &Library) -> Vec<Finding> {
    let is_test = |week: &&CycleWeek| matches!(week.kind, Some(WeekKind::Test | WeekKind::Retest));
    let untested = |week: &CycleWeek, ladder: &Placed<LadderId>| {
        // Of a session that is not there nobody can say what is in it.
        let sessions: Option<Vec<_>> =
            week.sessions.iter().map(|id| library.sessions.get(&id.value)).collect();
        let known = library.ladders.contains_key(&ladder.value);
        let blocks = || sessions.iter().flatten().flat_map(|session| &session.blocks);
        known && sessions.is_some() && !blocks().any(|block| names(block, &ladder.value))
    };
    let finding = |ladder: &Placed<LadderId>| {
        let week = cycle.weeks.iter().filter(is_test).find(|week| untested(week, ladder))?;
        let headline =
            format!("no session of week {} has the ladder `{}`", week.week, ladder.value);
        let help = "add it to the session of the test, or take it out of the focus";
        Some(RULE.finding(headline, ladder.span).also(week.span, "the test").help(help))
    };
    cycle.focus.iter().filter_map(finding).collect()
}

fn names(block: &Block, ladder: &LadderId) -> bool {
    block.items.iter().any(|item| is_of(item, ladder))
}

fn is_of(item: &Item, ladder: &LadderId) -> bool {
    match &item.work {
        ItemWork::Ladder(id) => id.value == *ladder,
        ItemWork::Options(options) => options.iter().any(|option| is_of(option, ladder)),
        ItemWork::Movement(..) => false,
    }
}

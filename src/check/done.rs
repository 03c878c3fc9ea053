//! What a roster cannot say, or says no more: days that have not come, a class or a result twice, a pair of
//! which one is at home.
//! Never asks what day it is: that is told.

use super::roster::not_yet;
use super::rules::unknown_day;
use crate::finding::{Finding, Placed, Severity, Span};
use crate::library::reader::codes;
use crate::library::{Member, MemberResult, Roster};
use crate::plan::Day;
use std::collections::BTreeMap;

/// What is stale or cannot be in a member's results and classes, and in whom they work with.
pub(super) fn stale((roster, member): (&Roster, &Member), today: Option<Day>) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    found.extend(member.done.iter().filter_map(|class| no_day(&class.day)));
    if let Some(today) = today {
        // Said, and no more: a class of last week may be written down after newer results.
        let results = member.results.iter().filter_map(|one| not_yet(one, today));
        found.extend(results.map(|one| Finding { severity: Severity::Warning, ..one }));
        found.extend(member.done.iter().filter_map(|class| to_come(&class.day, today)));
    }
    found.extend(results_twice(member));
    found.extend(classes_twice(member));
    found.extend(apart(roster, member));
    found
}

fn warning(headline: String, at: &Placed<impl Sized>, help: &str) -> Finding {
    Finding::new(unknown_day::RULE.code, Severity::Warning, headline, at.span).help(help)
}

fn no_day(day: &Placed<String>) -> Option<Finding> {
    let headline = format!("`{}` is no day of the calendar", day.value);
    let help = "write the year, the month and the day, such as `2026-11-25`";
    let found =
        Finding::new(unknown_day::RULE.code, Severity::Error, headline, day.span).help(help);
    Day::read(&day.value).is_none().then_some(found)
}

/// Tomorrow passes: it is tomorrow already somewhere.
fn to_come(day: &Placed<String>, today: Day) -> Option<Finding> {
    let ahead = Day::read(&day.value).is_some_and(|day| day.since(today) > 1);
    let headline = format!("`{}` has not come yet, and a class was done on it", day.value);
    ahead.then(|| warning(headline, day, "write the day of the class, or take this line out"))
}

fn results_twice(member: &Member) -> Option<Finding> {
    let results = member.results.iter().map(|one| {
        // A note may differ, and what the rung was follows from the rest.
        let plain = MemberResult { note: None, was: None, ..one.clone() };
        (plain.as_yaml(), one.span)
    });
    twice(results, |more| format!("this result of `{}` stands twice{more}", member.name.value))
}

fn classes_twice(member: &Member) -> Option<Finding> {
    let classes = member.done.iter();
    let classes = classes.map(|one| (format!("{} {}", one.session.value, one.day.value), one.span));
    twice(classes, |more| format!("this class of `{}` stands twice{more}", member.name.value))
}

/// The first that says what one before it said; how many more do stands in the headline.
fn twice(
    all: impl Iterator<Item = (String, Span)>,
    headline: impl Fn(&str) -> String,
) -> Option<Finding> {
    let mut known: BTreeMap<String, Span> = BTreeMap::new();
    let mut again: Vec<(Span, Span)> = Vec::new();
    for (said, span) in all {
        match known.get(&said) {
            Some(first) => again.push((span, *first)),
            None => drop(known.insert(said, span)),
        }
    }
    let (at, first) = again.first()?;
    let more = match again.len() {
        1 => String::new(),
        n => format!(" (and {} more)", n - 1),
    };
    let found = Finding::new(codes::DUPLICATE_ID, Severity::Warning, headline(&more), *at);
    Some(found.also(*first, "first here").help("take one of the two out"))
}

/// Two who work together and train at two places cannot share a thing.
fn apart(roster: &Roster, member: &Member) -> Option<Finding> {
    let with = member.coming.with.as_ref()?;
    let other = roster.member(with.value.as_str())?;
    let headline = format!(
        "`{}` works with `{}`, and one of them trains at home",
        member.name.value, other.name.value
    );
    let found = Finding::new(codes::UNKNOWN_WORD, Severity::Warning, headline, with.span);
    let found = found.also(other.name.span, "their entry");
    let apart = member.coming.at_home() != other.coming.at_home();
    apart.then(|| found.help("take `with` out of both entries, or write where they train today"))
}

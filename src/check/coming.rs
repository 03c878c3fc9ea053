//! Who works with whom, who is at home without kit, and what was of another day: a roster before class.
//! Never asks what day it is: that is told.

use super::rules::{unknown_day, unknown_trait, unknown_word};
use super::unknown::Known;
use crate::finding::{Code, Finding, Placed, Severity, did_you_mean};
use crate::gym::Gym;
use crate::library::reader::codes;
use crate::library::{Member, Nickname, OfToday, Roster};
use crate::plan::Day;

/// What is wrong with how a member of a roster comes to class; what is of another day than `today`
/// is said too, where that is known.
pub(super) fn coming(
    gym: &Gym,
    (roster, member): (&Roster, &Member),
    today: Option<Day>,
) -> Vec<Finding> {
    let coming = &member.coming;
    let mut found: Vec<Finding> = Vec::new();
    found.extend(coming.with.as_ref().and_then(|other| pair(roster, member, other)));
    found.extend(without_kit(member));
    if let Some(of_today) = &coming.today {
        found.extend(unknown(gym, of_today));
        found.extend(stale(of_today, today));
    }
    found
}

fn finding(code: Code, severity: Severity, headline: String, at: &Placed<impl Sized>) -> Finding {
    Finding::new(code, severity, headline, at.span)
}

fn same(one: &Nickname, other: &Nickname) -> bool {
    one.as_str().to_lowercase() == other.as_str().to_lowercase()
}

/// A pair with nobody known, with oneself, or of which only one says so.
fn pair(roster: &Roster, member: &Member, other: &Placed<Nickname>) -> Option<Finding> {
    let name = &member.name.value;
    if same(name, &other.value) {
        let headline = format!("`{name}` cannot work with themselves");
        let found = finding(codes::UNKNOWN_WORD, Severity::Error, headline, other);
        return Some(found.help("write the other's nickname, or leave `with` out"));
    }
    let Some(there) = roster.member(other.value.as_str()) else {
        let known = roster.members.iter().map(|member| member.name.as_str());
        let headline = format!("nobody on the roster is called `{}`", other.value);
        let help = did_you_mean(other.value.as_str(), known, "write a nickname of this roster");
        return Some(finding(codes::UNKNOWN_WORD, Severity::Error, headline, other).help(help));
    };
    let back = there.coming.with.as_ref();
    if back.is_some_and(|back| same(&back.value, name)) {
        return None;
    }
    let headline = match back {
        Some(back) => {
            format!("`{name}` works with `{}`, who works with `{}`", other.value, back.value)
        }
        None => format!("`{name}` works with `{}`, whose entry does not say so", other.value),
    };
    let found = finding(codes::UNKNOWN_WORD, Severity::Warning, headline, other);
    let found = found.also(there.name.span, "their entry");
    Some(found.help(format!("write `with: {name}` there, or leave this one out")))
}

/// At home nobody has what the hall has: with no kit written, none is reckoned with.
fn without_kit(member: &Member) -> Option<Finding> {
    let trains = member.coming.trains.as_ref().filter(|_| member.coming.at_home())?;
    let headline = format!("`{}` trains at home, and no kit is written", member.name.value);
    let found = finding(codes::MISSING_KEY, Severity::Advice, headline, trains);
    let help = "write what they have, such as `kit: [chair, towel]`, or `kit: []` for none";
    member.kit.is_none().then(|| found.help(help))
}

fn unknown(gym: &Gym, today: &OfToday) -> Vec<Finding> {
    let words = &gym.library.words;
    let traits = Known::words(&gym.library, "trait", "words/traits.yaml", &words.traits);
    let limits = today.limits.iter().map(|(name, _)| name);
    let mut found = traits.missing(&unknown_trait::RULE, limits);
    let cautions = Known::words(&gym.library, "caution", "words/cautions.yaml", &words.cautions);
    found.extend(cautions.missing(&unknown_word::RULE, today.cautions.iter()));
    found
}

/// What is of no day, or of another day, leaves nothing out: it is said, so that nobody relies on it.
fn stale(of_today: &OfToday, today: Option<Day>) -> Option<Finding> {
    let day = &of_today.day;
    let Some(written) = Day::read(&day.value) else {
        let headline = format!("`{}` is no day of the calendar", day.value);
        let help = "write the year, the month and the day, such as `2026-11-25`";
        let found = finding(unknown_day::RULE.code, Severity::Error, headline, day);
        return Some(found.help(help));
    };
    let headline = match written.since(today?) {
        0 => return None,
        ..0 => format!("`{}` is over: what was of that day is left out no more", day.value),
        1.. => format!("`{}` has not come: what is of that day is not left out yet", day.value),
    };
    let found = finding(unknown_day::RULE.code, Severity::Warning, headline, day);
    Some(found.help("ask how they are today; write that day, or take `today` out"))
}

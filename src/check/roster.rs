//! What a roster and a handed-in result name: ladders, rungs, days, settings, kit and traits.
//! Never a rule of the library: a roster is no part of one.

use super::Rule;
use super::coming::coming;
use super::done::stale;
use super::rules::{
    setting_unknown, unknown_day, unknown_kit, unknown_ladder, unknown_trait, unknown_word,
};
use super::unknown::Known;
use crate::finding::{Code, Finding, Placed, Severity, Span, did_you_mean};
use crate::gym::Gym;
use crate::library::reader::codes;
use crate::library::{
    Amount, Counts, Dose, Ladder, LadderId, Member, MemberResult, Quantity, Roster, Rung, RungWas,
    SettingName,
};
use crate::placing::possible;
use crate::plan::Day;
use std::collections::BTreeMap;

/// What is wrong with a member's entry on the roster.
pub fn member(gym: &Gym, (roster, member): (&Roster, &Member), today: Option<Day>) -> Vec<Finding> {
    let words = &gym.library.words;
    let kit = Known::words(&gym.library, "kit", "words/kit.yaml", &words.kit);
    let traits = Known::words(&gym.library, "trait", "words/traits.yaml", &words.traits);
    let limits = member.limits.iter().map(|(name, _)| name);
    let mut findings = kit.missing(&unknown_kit::RULE, member.kit.iter().flatten());
    findings.extend(traits.missing(&unknown_trait::RULE, limits));
    let cautions = Known::words(&gym.library, "caution", "words/cautions.yaml", &words.cautions);
    findings.extend(cautions.missing(&unknown_word::RULE, member.cautions.iter()));
    for (ladder, own) in &member.rungs {
        let found = ladder_and_rung(gym, ladder, &own.rung).err();
        findings.extend(found.filter(|f| own.was.is_none() || is_no_ladder(f)).map(|found| *found));
    }
    findings.extend(member.results.iter().flat_map(|one| result(gym, one)));
    findings.extend(numbers_alone(member));
    findings.extend(coming(gym, (roster, member), today));
    findings.extend(stale((roster, member), today));
    findings
}

/// Rungs of which only the number is written down: a ladder that changes would move their owner.
fn numbers_alone(member: &Member) -> Option<Finding> {
    let rungs = member.rungs.iter().filter(|(_, own)| own.was.is_none()).map(|(_, own)| &own.rung);
    let results = member.results.iter().filter(|one| one.was.is_none()).map(|one| &one.rung);
    let alone: Vec<_> = rungs.chain(results).collect();
    let more = match alone.len() {
        0 | 1 => String::new(),
        all => format!(" (and {} more of `{}`)", all - 1, member.name.value),
    };
    let headline = format!("what this rung is stands nowhere, and ladders change{more}");
    let help = "run `rungbook roster keep`: it writes down what each rung is today; until then the \
                number counts for nothing";
    alone.first().map(|first| {
        Finding::new(codes::MISSING_KEY, Severity::Warning, headline, first.span).help(help)
    })
}

/// False where the ladder is there and has no such rung: it may have had one when it was written.
fn is_no_ladder(found: &Finding) -> bool {
    found.code != codes::BAD_QUANTITY
}

/// What is wrong with a result: everything at once, each at its word.
pub fn result(gym: &Gym, result: &MemberResult) -> Vec<Finding> {
    let mut findings = Vec::new();
    if Day::read(&result.day).is_none() {
        let headline = format!("`{}` is no day of the calendar", result.day.value);
        let help = "write the year, the month and the day, such as `2026-11-25`";
        findings.push(finding(unknown_day::RULE.code, headline, result.day.span, help));
    }
    match ladder_and_rung(gym, &result.ladder, &result.rung) {
        Err(found) if result.was.is_none() || is_no_ladder(&found) => findings.push(*found),
        Err(_) => {}
        // Of a rung that was another one then, the ladder of today says nothing.
        Ok((_, rung)) if result.was.as_ref().is_some_and(|was| !is_same(rung, was)) => {}
        Ok((ladder, rung)) => {
            findings.extend(counts_other(ladder, rung, result));
            findings.extend(no_such_setting(gym, rung, result));
        }
    }
    findings.extend(cannot_be(result));
    findings
}

/// A day that has not come yet is asked again: a slip of the finger would stand above every later
/// result. Tomorrow passes, since it is tomorrow already somewhere.
pub fn not_yet(result: &MemberResult, today: Day) -> Option<Finding> {
    let ahead = Day::read(&result.day).is_some_and(|day| day.since(today) > 1);
    let headline = format!("`{}` has not come yet", result.day.value);
    let help = "ask for the day of the test, and write that";
    ahead.then(|| finding(unknown_day::RULE.code, headline, result.day.span, help))
}

/// A count or an added weight that cannot be: asked again, not scored.
fn cannot_be(result: &MemberResult) -> Vec<Finding> {
    let counts = if result.counts == Counts::Seconds { possible::SECONDS } else { possible::REPS };
    let amount = counts.ask_again(f64::from(result.amount.value));
    let added = result.added.as_ref().map(|added| (added.span, added.number()));
    let added = added.and_then(|(span, kg)| Some((span, possible::ADDED.ask_again(kg)?)));
    let told = |(span, sentence): (Span, String)| {
        let (headline, help) = sentence.split_once(". ").unwrap_or((&sentence, "ask again"));
        finding(codes::BAD_QUANTITY, headline.to_string(), span, help.trim_end_matches('.'))
    };
    amount
        .map(|sentence| (result.amount.span, sentence))
        .into_iter()
        .chain(added)
        .map(told)
        .collect()
}

fn finding(code: Code, headline: String, span: Span, help: impl Into<String>) -> Finding {
    Finding::new(code, Severity::Error, headline, span).help(help)
}

type OnLadder<'g> = (&'g Ladder, &'g Rung);

fn ladder_and_rung<'g>(
    gym: &'g Gym,
    ladder: &Placed<LadderId>,
    rung: &Placed<u32>,
) -> Result<OnLadder<'g>, Box<Finding>> {
    let ladders = &gym.library.ladders;
    let Some(found) = ladders.get(&ladder.value) else {
        let rule: &Rule = &unknown_ladder::RULE;
        let known: Vec<&str> = ladders.keys().map(LadderId::as_str).collect();
        let otherwise = format!("the ladders are {}", known.join(", "));
        let help = did_you_mean(ladder.as_str(), known.iter().copied(), &otherwise);
        let headline = format!("there is no ladder `{}`", ladder.value);
        return Err(Box::new(rule.finding(headline, ladder.span).help(help)));
    };
    let at = (rung.value as usize).checked_sub(1);
    at.and_then(|at| found.rungs.get(at)).map(|rung| (found, rung)).ok_or_else(|| {
        let headline = format!("the ladder `{}` has no rung {}", found.id, rung.value);
        let help = format!("name one of its rungs, 1 to {}", found.rungs.len());
        Box::new(finding(codes::BAD_QUANTITY, headline, rung.span, help))
    })
}

/// True when the rung is today what it was.
fn is_same(rung: &Rung, was: &RungWas) -> bool {
    let plain = |settings: &[(Placed<SettingName>, Placed<Quantity>)]| {
        let settings = settings.iter().map(|(name, at)| (name.to_string(), at.value));
        settings.collect::<BTreeMap<_, _>>()
    };
    rung.movement.value == was.movement.value && plain(&rung.settings) == plain(&was.settings)
}

/// A result in seconds on a rung that counts repetitions, or the other way.
fn counts_other(ladder: &Ladder, rung: &Rung, result: &MemberResult) -> Option<Finding> {
    let amount = |dose: &Dose| dose.amount.as_ref().map(|amount| amount.value);
    let dose = rung.dose.as_ref().and_then(amount);
    let dose = dose.or_else(|| ladder.dose.as_ref().and_then(amount))?;
    let (counts, words) = match dose {
        Amount::Reps(_) => (Counts::Reps, "reps"),
        Amount::Seconds(_) => (Counts::Seconds, "seconds"),
        _ => return None,
    };
    (counts != result.counts).then(|| {
        let headline = format!("rung {} of `{}` counts {words}", result.rung.value, ladder.id);
        let help = format!("ask what was counted, and write {words} or the rung that was tested");
        finding(codes::UNKNOWN_WORD, headline, result.amount.span, help)
    })
}

fn no_such_setting(gym: &Gym, rung: &Rung, result: &MemberResult) -> Vec<Finding> {
    let Some(movement) = gym.library.movements.get(&rung.movement.value) else { return Vec::new() };
    let known: Vec<&str> = movement.settings.iter().map(|(name, _)| name.as_str()).collect();
    let unknown = result.settings.iter().filter(|(name, _)| !known.contains(&name.as_str()));
    let say = |(name, _): &(Placed<_>, _)| {
        let name: &Placed<SettingName> = name;
        let headline = format!("`{}` has no setting `{}`", movement.name.value, name.value);
        let otherwise = match known.as_slice() {
            [] => "leave it out: this movement has no settings".to_string(),
            _ => format!("its settings are {}", known.join(", ")),
        };
        let help = did_you_mean(name.as_str(), known.iter().copied(), &otherwise);
        finding(setting_unknown::RULE.code, headline, name.span, help)
    };
    unknown.map(say).collect()
}

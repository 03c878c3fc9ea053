//! Answer: which movement a person does for a line, from their own rung downward.
//! Never orders anything where nothing fits.

use super::dose::{EachCount, manages, own_dose, own_swap_dose};
use super::height::{NotHere, Stood, named, stand};
use super::held::{held, lowest};
use super::line::{Line, Work, compared_as};
use super::member::Member;
use super::standing::{Now, Standing, by_hand, now, number, standing, standings};
use super::words::{book, change_words, general, starts_low, told, why, why_changed};
use super::{Kind, Own};
use crate::gym::Gym;
use crate::library::{Ladder, LadderId, Movement, MovementId};
use crate::placing::{Sheet, Target};
use crate::swap::{
    Answer, Change, Fit, Person, RungOf, Swap, fit, ranked, rungs_of, start_here, swaps,
};
use std::collections::BTreeMap;

/// A person's version of a line.
pub fn of_line(gym: &Gym, line: &Line<'_>, member: &Member) -> Own {
    match &line.work {
        Work::Ladder(ladder, middle) => {
            let own = asked_rung(gym, ladder, (line, *middle), member);
            on_ladder(gym, (ladder, own), line, member)
        }
        Work::Movement(movement, rung) => on_movement(gym, (movement, rung), line, member),
        Work::Options(options) => of_options(gym, options, member),
        Work::Nothing => Own::ask(MovementId(String::new()), vec![NOT_HERE.to_string()]),
    }
}

const NOT_HERE: &str = "The library does not have what this line names. Ask your coach.";

/// A person's version of a rung, from 1, as the ladder itself asks for it; never above their own.
pub fn of_rung(gym: &Gym, ladder: &Ladder, rung: u32, member: &Member) -> Own {
    let above = standing(gym, ladder, member).filter(|own| own.rung < rung);
    let own = above.map(|own| {
        let whose = told(member, "your", "their");
        let why = format!("Rung {rung} is above {whose} own. {}", own.why.replace("{below}", ""));
        Standing { rung: own.rung, why }
    });
    let own = own.unwrap_or_else(|| Standing { rung, why: format!("Rung {rung}.") });
    on_ladder(gym, (ladder, own), &plain_line(ladder, rung), member)
}

/// The person's own rung of a ladder as they do it; nothing where nothing is known of it.
pub fn of_own_rung(gym: &Gym, ladder: &Ladder, member: &Member) -> Option<Own> {
    let own = standing(gym, ladder, member).or_else(|| lowest(gym, ladder, "", member))?;
    let own = Standing { why: own.why.replace("{below}", ""), ..own };
    let line = plain_line(ladder, own.rung);
    Some(on_ladder(gym, (ladder, own), &line, member))
}

/// A rung of a ladder, asked for itself.
fn plain_line(ladder: &Ladder, rung: u32) -> Line<'_> {
    Line {
        work: Work::Ladder(ladder, rung),
        below: 0,
        asked: Sheet::of(ladder).rungs,
        tests: false,
        counts_down: false,
        dose: String::new(),
    }
}

impl Own {
    fn ask(movement: MovementId, why: Vec<String>) -> Own {
        Own {
            kind: Kind::Ask,
            movement,
            rung: None,
            setting: String::new(),
            change: String::new(),
            change_brief: String::new(),
            dose: String::new(),
            each: None,
            cue: String::new(),
            why,
        }
    }
}

/// The rung that a line asks of a person, from 1, and why.
pub(super) fn asked_rung(
    gym: &Gym,
    ladder: &Ladder,
    (line, middle): (&Line<'_>, u32),
    member: &Member,
) -> Standing {
    let known = standing(gym, ladder, member);
    if line.tests && by_hand(gym, ladder, member).is_none() {
        return test_rung(gym, ladder, known, member);
    }
    let middle = || {
        let name = &ladder.name.value;
        let why = format!("No result on the {name} ladder yet: its middle rung{{below}}.");
        Standing { rung: middle, why }
    };
    let known = known.or_else(|| lowest(gym, ladder, "", member));
    let Standing { rung, why } = known.unwrap_or_else(middle);
    let said = match line.below {
        0 => String::new(),
        below if rung > below => format!(", {below} below it here"),
        _ => ", and here as low as the ladder goes".to_string(),
    };
    Standing { rung: lowered(rung, line.below), why: why.replace("{below}", &said) }
}

fn test_rung(gym: &Gym, ladder: &Ladder, known: Option<Standing>, member: &Member) -> Standing {
    let latest = member.latest(&ladder.id);
    let there = latest.map(|result| now(gym, ladder, result.then.as_ref()));
    match (there, known) {
        (Some(Now::Same(at)), _) => {
            let your = told(member, "your", "their");
            let why = format!("The rung of {your} last test.");
            Standing { rung: number(at), why }
        }
        (Some(_), Some(Standing { rung, why })) => {
            Standing { rung, why: why.replace("{below}", "") }
        }
        _ => {
            let rung = ladder.test.as_ref().map_or(1, |test| test.rung.value);
            let own = || Standing { rung, why: "The ladder's own test.".to_string() };
            lowest(gym, ladder, "the test on ", member).unwrap_or_else(own)
        }
    }
}

fn lowered(rung: u32, below: u32) -> u32 {
    rung.saturating_sub(below).max(1)
}

/// The person as swaps are sought for them: their own rungs, as far below as the line asks.
pub(super) fn as_asked(gym: &Gym, line: &Line<'_>, member: &Member) -> Person {
    let rung = |(id, rung): (LadderId, u32)| (id, lowered(rung, line.below) as usize - 1);
    let rungs: BTreeMap<LadderId, usize> = standings(gym, member).into_iter().map(rung).collect();
    Person { rungs, harder: false, ..member.person.clone() }
}

fn on_ladder(
    gym: &Gym,
    (ladder, own): (&Ladder, Standing),
    line: &Line<'_>,
    member: &Member,
) -> Own {
    let top = (own.rung as usize).min(ladder.rungs.len());
    let mut out = Vec::new();
    for at in (0..top).rev() {
        match on_rung(gym, (ladder, at), line, member) {
            Ok(found) => {
                let lower = out.first().cloned().into_iter();
                let lower = lower.chain(
                    (at + 1 < top)
                        .then(|| format!("The nearest rung below that fits: {}.", at + 1)),
                );
                let why = [own.why].into_iter().chain(lower).chain(found.why);
                return Own { why: why.collect(), ..found };
            }
            Err(reason) => out.push(reason),
        }
    }
    let at = top.saturating_sub(1);
    let Some(asked) = RungOf::on(gym, &ladder.id, at) else {
        return Own::ask(MovementId(String::new()), vec![own.why, NOT_HERE.to_string()]);
    };
    let none = "No rung below it fits either.".to_string();
    let why = [own.why].into_iter().chain(out.into_iter().next()).chain([none]).collect();
    swap_for(gym, &Asked { rung: asked, target: line.asks(at), line, why }, member)
}

/// One rung for a person; a sentence where it does not fit.
pub(super) fn on_rung(
    gym: &Gym,
    (ladder, at): (&Ladder, usize),
    line: &Line<'_>,
    member: &Member,
) -> Result<Own, String> {
    let named = named(gym, ladder, at);
    let known = manages(gym, (ladder, at), (line, member), None);
    let stood = stand(gym, (ladder, at), member);
    let Stood { rung, setting, demand, say, fit } = stood.map_err(|not| match not {
        NotHere::NoHeight => format!("Not {named}: no height in {} is near enough.", book(member)),
        NotHere::Out(rung) => {
            let why = why(gym, member, &rung);
            format!("Not {named}: {why}.")
        }
    })?;
    let movement = gym.library.movements.get(&rung.key.movement).ok_or(NOT_HERE)?;
    let known =
        demand.map_or(known, |demand| manages(gym, (ladder, at), (line, member), Some(demand)));
    let Some((dose, said)) = own_dose(line, at, known, member) else {
        let your = told(member, "your", "their");
        return Err(format!(
            "Not {named}: by {your} result not one repetition to the standard yet."
        ));
    };
    let dose = if dose.is_empty() { line.dose.clone() } else { dose };
    let (changes, changed) = changes_of(gym, member, (movement, &rung), &fit);
    let why = [say, said, changed].into_iter().filter(|words| !words.is_empty());
    let (change, change_brief) = change_words(&changes);
    let each = EachCount::of(movement).filter(|_| line.counts_down);
    Ok(Own {
        kind: if changes.is_empty() { Kind::Fine } else { Kind::Changed },
        movement: movement.id.clone(),
        rung: Some((ladder.id.clone(), number(at))),
        setting,
        change,
        change_brief,
        dose: with_each(dose, each),
        each,
        cue: cue(movement, &changes),
        why: why.collect(),
    })
}

fn changes_of<'g>(
    gym: &Gym,
    member: &Member,
    of: (&Movement, &RungOf),
    fit: &Fit<'g>,
) -> (Vec<Change<'g>>, String) {
    match fit {
        Fit::Changed(changes) => (changes.clone(), why_changed(gym, member, of)),
        Fit::Fine | Fit::Out(_) => (Vec::new(), String::new()),
    }
}

fn with_each(dose: String, each: Option<EachCount>) -> String {
    each.map_or(dose.clone(), |each| format!("{dose}, {each}"))
}

/// What to say. Of what is changed nothing: a cue written for the whole movement may ask for the very
/// part that the change leaves out, and the change is what to say.
fn cue(movement: &Movement, changes: &[Change<'_>]) -> String {
    let said = movement.cues.first().filter(|_| changes.is_empty());
    said.map_or(String::new(), |cue| cue.say.value.clone())
}

/// A rung that a person is not to do, and why.
pub(super) struct Asked<'a, 'g> {
    pub rung: RungOf,
    pub target: Option<Target>,
    pub line: &'a Line<'g>,
    pub why: Vec<String>,
}

/// The swap for a rung that does not fit; nothing left means that a coach decides.
fn swap_for(gym: &Gym, asked: &Asked<'_, '_>, member: &Member) -> Own {
    let id = asked.rung.key.movement.clone();
    let Some(from) = gym.library.movements.get(&id) else {
        return Own::ask(id, vec![NOT_HERE.to_string()]);
    };
    let compared = match asked.rung.place {
        Some(_) => asked.rung.clone(),
        None => compared_as(gym, from, &asked.rung).1,
    };
    let person = as_asked(gym, asked.line, member);
    match swaps(gym, &compared, &person, None) {
        Answer::Swaps(found) => match found.into_iter().next() {
            Some(swap) => swapped(gym, asked, (from, &swap), member),
            None => nothing(gym, asked, from, member),
        },
        Answer::AskYourCoach { .. } => nothing(gym, asked, from, member),
    }
}

pub(super) fn swapped(
    gym: &Gym,
    asked: &Asked<'_, '_>,
    (from, swap): (&Movement, &Swap<'_>),
    member: &Member,
) -> Own {
    let Some(to) = gym.library.movements.get(&swap.candidate.to) else {
        return nothing(gym, asked, from, member);
    };
    let asks = (asked.target, asked.line.dose.as_str());
    let Some((dose, fewer)) = own_swap_dose(gym, (from, (to, &swap.rung)), asks, member) else {
        return nothing(gym, asked, from, member);
    };
    let brings = swap.brings_in.as_ref().map(|brings| format!(" {brings}.")).unwrap_or_default();
    let reason = format!("{}{brings}", swap.candidate.reason);
    let start = start_here(told(member, "your own", "their own"));
    let changed = (!swap.changes.is_empty()).then(|| why_changed(gym, member, (to, &swap.rung)));
    let why = asked.why.iter().cloned().chain([reason]).chain(swap.start_here.then_some(start));
    let why = why.chain(Some(fewer).filter(|words| !words.is_empty())).chain(changed).collect();
    let (change, change_brief) = change_words(&swap.changes);
    let each = EachCount::of(to).filter(|_| asked.line.counts_down);
    let place = swap.rung.place.as_ref();
    Own {
        kind: Kind::Swap,
        movement: to.id.clone(),
        rung: place.map(|(ladder, at)| (ladder.clone(), number(*at))),
        setting: swap.rung.said_changed(&swap.changes),
        change,
        change_brief,
        dose: with_each(dose, each),
        each,
        cue: cue(to, &swap.changes),
        why,
    }
}

fn nothing(gym: &Gym, asked: &Asked<'_, '_>, from: &Movement, member: &Member) -> Own {
    let mut why = asked.why.clone();
    let fits = |rung: &RungOf| fit(gym, &member.person, rung).is_in();
    let harder = ranked(gym, &from.id).into_iter().any(|candidate| {
        let to = gym.library.movements.get(&candidate.to);
        to.is_some_and(|to| rungs_of(gym, to).iter().any(fits))
    });
    let left = match harder {
        true => "What is left asks more than this, so it is not suggested.",
        false => "Nothing here does the same work and fits.",
    };
    why.push(format!("{left} {}", told(member, "Ask your coach.", "You decide.")));
    why.extend(general(gym, member, from, &asked.rung));
    Own::ask(from.id.clone(), why)
}

fn on_movement(
    gym: &Gym,
    (movement, rung): (&Movement, &RungOf),
    line: &Line<'_>,
    member: &Member,
) -> Own {
    if let Some(held) = held(gym, (movement, rung), line, member) {
        return on_ladder(gym, (held.ladder, held.own), &held.line, member);
    }
    as_it_is(gym, (movement, rung), line, member).unwrap_or_else(|| {
        let reason = why(gym, member, rung);
        let why = vec![format!("Not {}: {reason}.", movement.name.value)];
        let asked = Asked { rung: rung.clone(), target: line.asks(0), line, why };
        swap_for(gym, &asked, member)
    })
}

/// A movement for a person, as it stands or changed; nothing where it does not fit.
pub(super) fn as_it_is(
    gym: &Gym,
    (movement, rung): (&Movement, &RungOf),
    line: &Line<'_>,
    member: &Member,
) -> Option<Own> {
    let answer = fit(gym, &member.person, rung);
    if let Fit::Out(_) = answer {
        return None;
    }
    let (changes, changed) = changes_of(gym, member, (movement, rung), &answer);
    let (change, change_brief) = change_words(&changes);
    let each = EachCount::of(movement).filter(|_| line.counts_down);
    Some(Own {
        kind: if changes.is_empty() { Kind::Fine } else { Kind::Changed },
        movement: movement.id.clone(),
        rung: None,
        setting: rung.said_changed(&changes),
        change,
        change_brief,
        dose: with_each(line.dose.clone(), each),
        each,
        cue: cue(movement, &changes),
        why: Some(changed).filter(|words| !words.is_empty()).into_iter().collect(),
    })
}

/// Of several options the middle one, or the lowest where a situation says so; else the next below it
/// that fits, else what stands for it.
fn of_options(gym: &Gym, options: &[Line<'_>], member: &Member) -> Own {
    let low = starts_low(gym, member);
    let start = if low.is_some() { 0 } else { options.len() / 2 };
    let Some(line) = options.get(start) else {
        return Own::ask(MovementId(String::new()), vec![NOT_HERE.to_string()]);
    };
    let first = of_line(gym, line, member);
    let is_own = |own: &Own| matches!(own.kind, Kind::Fine | Kind::Changed);
    if is_own(&first) {
        let said = low.map(|name| format!("The lowest one, for {name}."));
        return with_why([said.unwrap_or_else(|| "The middle one.".to_string())], first);
    }
    for line in options[..start].iter().rev() {
        let lower = of_line(gym, line, member);
        if is_own(&lower) {
            let reason = first.why.first().cloned().unwrap_or_default();
            return with_why([reason, "The next one down that fits.".to_string()], lower);
        }
    }
    first
}

fn with_why<const N: usize>(before: [String; N], own: Own) -> Own {
    let why = before.into_iter().chain(own.why).collect();
    Own { why, ..own }
}

//! A cycle in plain words, for a terminal or a sheet of paper.
//! Never in colour, and never wider than it must be.

use super::cycle::{CyclePlan, LadderPlan, LadderWeek};
use super::day::{Day, training_dates};
use crate::gym::Gym;
use crate::library::{Amount, Cycle};
use std::fmt::Write;

/// The plan of a cycle in words, with the dates of its sessions when a first day is given.
pub fn as_text(gym: &Gym, cycle: &Cycle, plan: &CyclePlan, first_day: Option<Day>) -> String {
    let mut text = format!("{}\n", cycle.name.value);
    plan.ladders.iter().for_each(|ladder| ladder_text(&mut text, ladder));
    balance_text(&mut text, plan);
    if let Some(first_day) = first_day {
        dates_text(&mut text, gym, cycle, first_day);
    }
    if let Some(caution) = &gym.library.club.caution_line {
        let _ = writeln!(text, "\n{}", caution.value);
    }
    text
}

fn ladder_text(text: &mut String, ladder: &LadderPlan) {
    let _ = writeln!(text, "\n{}", ladder.name);
    let width = ladder.weeks.iter().map(|week| week.said.chars().count()).max().unwrap_or(0);
    for week in &ladder.weeks {
        let kind = week.kind.map_or("", |kind| kind.word());
        let (number, rung, said, dose) = (week.week, week.rung, &week.said, week_dose(week));
        let _ =
            writeln!(text, "  week {number}  {kind:<7}  rung {rung:<2}  {said:<width$}  {dose}");
        let _ = writeln!(text, "{:19}{}", "", week.why);
    }
    if let Some(rule) = &ladder.moves_up {
        let _ = writeln!(text, "  Move up: {rule}. Until then the rung stays.");
    }
    if let Some(rule) = &ladder.moves_down {
        let _ = writeln!(text, "  Step back: {rule}.");
    }
    if let Some(rule) = &ladder.stops {
        let _ = writeln!(text, "  Stop a test at: {rule}.");
    }
}

/// `4 sets of 8`, `3 sets of 6 a side`, or what a test does.
pub fn week_dose(week: &LadderWeek) -> String {
    match (week.sets, week.aim) {
        (Some(sets), Some(aim)) => {
            let sets_word = if sets.to == 1 { "set" } else { "sets" };
            let aim = match aim {
                Amount::Reps(n) => n.to_string(),
                other => other.to_string(),
            };
            let side = if week.each_side { " a side" } else { "" };
            format!("{sets} {sets_word} of {aim}{side}")
        }
        (Some(sets), None) => format!("{sets} sets"),
        (None, _) => "one set, counted".to_string(),
    }
}

fn balance_text(text: &mut String, plan: &CyclePlan) {
    text.push_str("\nSets a week, without warm-ups and stretches\n");
    for week in &plan.balance {
        let _ = writeln!(
            text,
            "  week {}  {:<7}  {} in all; pushing {}, pulling {}",
            week.week,
            week.kind.map_or("", |kind| kind.word()),
            week.all,
            week.pushing,
            week.pulling,
        );
    }
}

fn dates_text(text: &mut String, gym: &Gym, cycle: &Cycle, first_day: Day) {
    text.push_str("\nDays\n");
    for (week, _, day, session) in training_dates(cycle, first_day) {
        let name = gym.library.sessions.get(session).map_or(session.as_str(), |s| &s.name.value);
        let _ = writeln!(text, "  {day}  {:<9}  week {week}  {name}", day.weekday_word());
    }
}

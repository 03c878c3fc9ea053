//! Say: a board as plain text, for a terminal.
//! Never a reason unless it is asked for: somebody may be looking over the coach's shoulder.

use super::view::{AT_HOME, BlockView, PROPOSED, View};
use super::why::{misfit, why};
use super::{Board, weights};
use crate::gym::Gym;
use std::fmt::Write;

/// A board; with every choice's reason where `with_why`.
pub fn as_text(gym: &Gym, (board, view): (&Board, &View), with_why: bool) -> String {
    let mut text = heading(view);
    text += &judged(board);
    text += &before(view);
    for (at, block) in view.blocks.iter().enumerate() {
        text += &block_text(view, at, block);
        if with_why {
            text += &reasons(gym, board, view, at);
        }
    }
    if with_why {
        text += &notes(board);
    }
    text
}

/// What is due after the last classes.
fn notes(board: &Board) -> String {
    let people = board.class.people.iter();
    let lines: String = people
        .flat_map(|one| one.notes.iter().map(|note| format!("- {}, {note}\n", one.name)))
        .collect();
    match lines.is_empty() {
        true => lines,
        false => format!("\nAfter the last classes, for you alone\n{lines}"),
    }
}

fn heading(view: &View) -> String {
    let home = view.people.iter().filter(|(_, at_home)| *at_home).count();
    let all = view.people.len();
    let people = if all == 1 { "person" } else { "people" };
    let day = view.day.as_ref().map_or(String::new(), |day| format!(", {day}"));
    format!("{}{day}: {all} {people}, {} in the hall, {home} at home\n", view.session, all - home)
}

/// How good it is, and how good it could be.
fn judged(board: &Board) -> String {
    let solved = &board.solved;
    let totals = board.totals();
    let hall = board.class.in_the_hall();
    let worst = hall.iter().copied().max_by_key(|who| (totals[*who], std::cmp::Reverse(*who)));
    let Some(worst) = worst.filter(|who| totals[*who] > 0) else {
        return "Everybody in the hall does their own version.\n".to_string();
    };
    let name = &board.class.people[worst].name;
    let (worst_bound, sum_bound) =
        (weights::said(solved.worst_bound), weights::said(solved.sum_bound));
    let bound = match (solved.is_best(), board.by_block) {
        (true, _) => "No board is better.".to_string(),
        (false, true) => format!(
            "All at once was too much to reckon, so each block was dealt out for itself, and a better \
             board may exist: none has a worst below {worst_bound} or less than {sum_bound} in all."
        ),
        (false, false) => format!(
            "The search stopped here: no board has a worst below {worst_bound} or, with this one, less \
             than {sum_bound} in all."
        ),
    };
    format!(
        "Furthest from their own in the hall: {name}, {}; all together {}. {bound}\n",
        misfit(solved.worst, board.leaves_something(worst)),
        weights::said(solved.sum)
    )
}

fn before(view: &View) -> String {
    let mut text = "\nBefore class\n".to_string();
    let kit: Vec<String> = view.hall_kit.iter().map(|(n, name)| format!("{n} × {name}")).collect();
    let kit = if kit.is_empty() { "nothing".to_string() } else { kit.join(", ") };
    // Writing to a String cannot fail.
    let _ = writeln!(text, "- hall: {kit}");
    if !view.set_up.is_empty() {
        let _ = writeln!(text, "- set up: {}", view.set_up.join("; "));
    }
    for (name, kit) in &view.home_kit {
        let kit = if kit.is_empty() { "nothing".to_string() } else { kit.join(", ") };
        let _ = writeln!(text, "- {name}, at home: {kit}");
    }
    text
}

fn block_text(view: &View, at: usize, block: &BlockView) -> String {
    let mut text = format!("\n{}. {}, {} to {}\n", at + 1, block.name, block.from, block.to);
    let format = block.format.as_ref().map_or(String::new(), |format| format!("{format}. "));
    let proposed = if block.is_proposed { format!(" {PROPOSED}") } else { String::new() };
    let _ = writeln!(text, "   {format}{}{proposed}", block.how);
    let is_any_at_home = view.people.iter().any(|(_, at_home)| *at_home);
    for (at, (letter, names)) in block.groups.iter().enumerate() {
        let home = if at == 0 && is_any_at_home { format!(", {AT_HOME}") } else { String::new() };
        let _ = writeln!(text, "   {letter}: {}{home}", names.join(", "));
    }
    for line in &block.lines {
        let _ = writeln!(text, "- {}", line.name);
        for doing in &line.doing {
            let _ = writeln!(text, "  {}", doing.said());
            for (dose, who) in &doing.who {
                let dose = if dose.is_empty() { String::new() } else { format!("{dose}: ") };
                let everybody = who.len() == view.people.len();
                let names = if everybody { "everybody".to_string() } else { view.names(who) };
                let _ = writeln!(text, "    {dose}{names}");
            }
        }
    }
    text
}

fn reasons(gym: &Gym, board: &Board, view: &View, block: usize) -> String {
    let mut text = String::new();
    for (line, shown) in view.blocks[block].lines.iter().enumerate() {
        for (who, (name, _)) in view.people.iter().enumerate() {
            if let Some(why) = why(gym, board, (block, line), who) {
                let _ = writeln!(text, "   {}, {name}: {why}", shown.name);
            }
        }
    }
    match text.is_empty() {
        true => "   Everybody here does as the session asks.\n".to_string(),
        false => format!("   Why, for you alone; the others do as the session asks\n{text}"),
    }
}

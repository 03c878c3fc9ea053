//! A line that asks for more rungs below one's own than its ladder has.
//! Never moves it up.

use crate::check::Rule;
use crate::check::mentions;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::{Item, ItemWork};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("below-the-ladder"),
    severity: Severity::Error,
    what: "A line of a session asks for rungs below everybody's own, and no rung of its ladder has \
           so many below it; or it names no ladder.",
    why: "Nobody could do what it says, however high they stand.",
    example: r#"
- {ladder: row, below: 9, dose: {reps: 4}}        (the row ladder has 7 rungs)
"#,
    next: "Ask for fewer rungs below, or for a movement at the bottom of the ladder.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    mentions::items(&gym.library).into_iter().filter_map(|item| fault(gym, item)).collect()
}

fn fault(gym: &Gym, item: &Item) -> Option<Finding> {
    let below = item.below.as_ref()?;
    let ItemWork::Ladder(id) = &item.work else {
        let headline = "`below` stands on a line that names no ladder".to_string();
        let help = "only a ladder has rungs below: name one, or remove `below`";
        return Some(RULE.finding(headline, below.span).help(help));
    };
    let rungs = gym.library.ladders.get(&id.value)?.rungs.len();
    if (below.value as usize) < rungs {
        return None;
    }
    let headline =
        format!("nobody stands {} rungs above another on the ladder `{}`", below.value, id.value);
    let help = match rungs {
        0 | 1 => "remove `below`: this ladder has no rung below another".to_string(),
        _ => format!("it has {rungs} rungs: ask for 1 to {} below", rungs - 1),
    };
    Some(RULE.finding(headline, below.span).help(help))
}

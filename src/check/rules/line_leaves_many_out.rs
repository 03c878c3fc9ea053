//! A line of a session for which more than a few usual people have no version.
//! Never counts anybody on a roster: a library knows no members.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::Session;
use crate::own::{self, LineCover};
use crate::swap::cover::{Tally, UsualLimit, usual_kits, usual_situations};
use rayon::prelude::*;

/// A few: so many are left to the coach, who knows them. Common practice, no source.
const FEW: usize = 3;

/// And of so many usual people one with nothing: in a class of ten the coach finds something for one.
/// Common practice, no source.
const ONE_IN: usize = 10;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("line-leaves-many-out"),
    severity: Severity::Advice,
    what: "More than three usual people, and more than one in ten, have no version of a line that \
           fits. Usual people are everybody with one of the usual kits of club.yaml and nothing to \
           leave out, and everybody in the hall with one situation.",
    why: "In class the coach would stand before somebody with nothing to give them, week after week.",
    example: r#"
items:
  - {movement: burpee}     (no sore wrist, no sore knee, no high blood pressure)
"#,
    next: "Offer another movement beside it with `options`, or write a change or a swap that does \
           without what leaves them out.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let sessions: Vec<&Session> = gym.library.sessions.values().collect();
    sessions.par_iter().flat_map_iter(|session| of_session(gym, session)).collect()
}

fn of_session(gym: &Gym, session: &Session) -> Vec<Finding> {
    let kits = usual_kits(gym);
    let (hall, none) = (&kits[kits.len().saturating_sub(1)..], [UsualLimit::nothing()]);
    let with_kits = own::cover(gym, session, (&kits, &none));
    let in_the_hall = own::cover(gym, session, (hall, &usual_situations(gym)));
    let lines =
        with_kits.iter().zip(&in_the_hall).map(|(one, other)| (one, one.all().and(other.all())));
    let many =
        |(_, all): &(&LineCover, Tally)| all.nothing > FEW && all.nothing * ONE_IN > all.all();
    let finding = |(line, all): (&LineCover, Tally)| {
        let headline =
            format!("{} has nothing for {} of {} usual people", line.name, all.nothing, all.all());
        let help = format!(
            "offer another movement beside it with `options`; `rungbook cover {}` says for whom, and why",
            session.id
        );
        RULE.finding(headline, line.span).help(help)
    };
    lines.filter(many).map(finding).collect()
}

//! What `rungbook demand` says of a number: in motion, against a pull, and as text.
//! Never computes: it only words what the gym knows.

use super::demand::Report;
use crate::gym::pulled as pull;
use crate::gym::scale::{Axis, Reading, Unknown};
use crate::library::Movement;
use crate::mechanics::demand::Demand;
use crate::mechanics::doubt::NINE_OF_TEN;
use crate::mechanics::published::{IN_MOTION, InMotion};
use crate::mechanics::pulls::OnHands;
use crate::mechanics::refused::Refused;
use crate::mechanics::solve::Person;
use crate::mechanics::space::Plane;

/// What was published of the same movement in motion: a multiple of the still force.
pub(super) fn in_motion(
    report: &mut Report<'_>,
    read: &Reading,
    person: &Person,
) -> Result<(), String> {
    let of_person = |known: &&InMotion| known.table == person.table;
    let known = IN_MOTION.iter().find(of_person).filter(|known| Some(known.rows) == read.rows);
    let known = known.ok_or("no number: nothing published says what this asks in motion")?;
    report.instant = "peak in motion";
    report.demand = format!("{:.2} times", known.times);
    report.of = "the force of holding still, hands and feet together";
    report.give_or_take = format!("{:.2} times", NINE_OF_TEN * known.spread);
    report.how = format!("Published: {} ({}).", known.when, known.source);
    Ok(())
}

/// What a band or a pulley pulls on the hands in the first or the last key pose, and what that does to
/// who stands against it.
pub(super) fn pulled(
    report: &mut Report<'_>,
    demand: &Demand,
    (end, person, plane): (bool, &Person, Plane),
) -> Result<(), String> {
    let axis = Axis::Pulled;
    report.instant = if end { "at the end" } else { "at the start" };
    let known = demand.doubtful(|demand| axis.in_pose(demand, end));
    let (value, doubts) = known.ok_or(Refused::TooFar.words())?;
    let band = axis.band(doubts);
    let slack = value <= 0.0;
    if slack || band > value {
        let why = if slack { Unknown::Slack } else { Unknown::TooRough };
        return Err(why.words().to_string());
    }
    report.demand = axis.shown(value);
    report.give_or_take = axis.band_shown(band);
    report.of = "of pull on both hands together";
    report.stretch = pull::times(demand, end).map(|(times, doubts)| {
        format!("{times:.1} times its length at rest, give or take {:.1}", doubts.band().max(0.1))
    });
    report.against = pull::on_hands(demand, end).and_then(|hands| against(hands, person, plane));
    Ok(())
}

/// What a pull does to the body, in points of body weight and N m per kg; nothing where it does next
/// to nothing, as when both ends hold the same body.
fn against(hands: &OnHands, person: &Person, plane: Plane) -> Option<String> {
    let off = hands.takes_off.round();
    let heavy = format!("of {:.0} kg", person.kilograms);
    let floor = match off {
        off if off >= 1.0 => Some(format!("takes {off:.0} % {heavy} off the floor")),
        off if off <= -1.0 => Some(format!("adds {:.0} % {heavy} to the floor", -off)),
        _ => None,
    };
    let way = match (plane, hands.turning > 0.0) {
        (Plane::Side, true) => "forwards",
        (Plane::Side, false) => "backwards",
        (Plane::Front, true) => "to the near side",
        (Plane::Front, false) => "to the far side",
    };
    let turn = hands.turning.abs();
    let turn = (turn >= 0.05)
        .then(|| format!("turns the body {way} about what carries it by {turn:.1} N m/kg"));
    let said: Vec<String> = floor.into_iter().chain(turn).collect();
    (!said.is_empty()).then(|| format!("It {}.", said.join(" and ")))
}

pub(super) fn as_text(movement: &Movement, report: &Report<'_>) -> String {
    let at: String = report.at.iter().map(|at| format!(", {at}")).collect();
    if report.written {
        return format!(
            "{}{at}: {} carried.\n{}\n",
            movement.name.value, report.demand, report.how
        );
    }
    let up = report.straight_up.as_ref().filter(|up| **up != report.demand);
    let up = up.map_or(String::new(), |up| format!(" ({up} of body weight straight up)"));
    let knee = report.at_the_knee.as_ref();
    let knee = knee.map_or(String::new(), |knee| format!("; at the knee alone about {knee}"));
    let stretch = report.stretch.as_ref();
    let stretch = stretch.map_or(String::new(), |to| format!("; the band is stretched to {to}"));
    let against = report.against.as_ref().map_or(String::new(), |said| format!("{said}\n"));
    format!(
        "{}{at}, for {}, {}: about {} {}{up}, give or take {}{knee}{stretch}\n{against}{}\n",
        movement.name.value,
        report.whom,
        report.instant,
        report.demand,
        report.of,
        report.give_or_take,
        report.how
    )
}

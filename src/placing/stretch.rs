//! Stretched: how far a band is stretched where the heels stand, and where they stand for a stretch.
//! Never a stretch of a band whose length at rest nobody wrote, nor without its band of doubt.
//!
//! The drawn body stands on its heels; only the anchor moves with the setting. So the hands are where
//! the last key pose has them, and the band is the straight line from there to the anchor.

use super::demand::RungDemand;
use super::set_up::Measure;
use super::there::{NotThere, There};
use super::words::{self, fill};
use super::{Across, Stand};
use crate::finding::capital;
use crate::gym::heights::asked;
use crate::gym::pulled::times;
use crate::gym::scale::{Axis, Reading};
use crate::gym::{Gym, pose_person};
use crate::ladder::RungKey;
use crate::library::{Harder, Ladder, Movement, Quantity, Rung, SettingName, Unit};
use crate::mechanics::demand::Demand;
use crate::mechanics::marks::Mark;
use crate::mechanics::pulls::strung;
use crate::mechanics::solve::Person;
use crate::mechanics::words::props::{LineEnd, Tension};

/// How far the band is stretched where the ladder writes how far the heels stand from the anchor.
pub const STRETCH: &str = "stretch";

/// How far a tape along a band or on the floor, and where the hands come to, may be off, cm; how far
/// from the drawn stature somebody may be who does not say it, cm. Common practice, no source.
const MISREAD: f64 = 3.0;
const OTHER_STATURE: f64 = 0.12;

/// A band between the hands and an anchor, in the last key pose, centimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Its length at rest.
    pub rest: f64,
    /// From the heels forward to the hand.
    pub hand_ahead: f64,
    /// From the hand up to the anchor.
    pub up: f64,
    /// From the hand sideways to the anchor.
    pub aside: f64,
}

impl Span {
    /// How long the band is with the anchor so far ahead of the heels.
    pub fn length(&self, away: f64) -> f64 {
        (away - self.hand_ahead).hypot(self.up).hypot(self.aside)
    }

    /// How far ahead of the heels the anchor is when the band is so long, none where it cannot be.
    pub fn away(&self, length: f64) -> Option<f64> {
        let across = length * length - self.up * self.up - self.aside * self.aside;
        (across >= 0.0).then(|| self.hand_ahead + across.sqrt())
    }
}

/// The setting that says how far the heels of a movement stand from the anchor of its band, and the
/// band as it is stretched for `person`.
pub fn span_of<'m>(
    gym: &Gym,
    movement: &'m Movement,
    person: &Person,
) -> Option<(&'m SettingName, Span)> {
    let away = |unit, harder| unit == Unit::Centimetre && harder == Some(Harder::More);
    let (name, _) = movement.settings.iter().find(|(_, s)| away(s.unit, s.harder))?;
    let figure = gym.posed_at(movement, &[], person)?.figure?;
    let band = figure.recipe.lines.iter().find_map(|line| match (line.tension, line.to) {
        (Some(Tension::Band { rest, .. }), LineEnd::Anchor { ahead, .. }) => Some((rest, ahead)),
        _ => None,
    });
    let (rest, ahead) = band?;
    let all = strung(figure.end(), &figure, &Default::default());
    let [hand, anchor] = all.first()?.ends;
    matches!(hand.mark, Some(Mark::Limb(..))).then_some(())?;
    let across = anchor.at - hand.at;
    let span = Span {
        rest: 100.0 * rest,
        hand_ahead: 100.0 * (ahead - across.x),
        up: 100.0 * across.y,
        aside: 100.0 * across.z,
    };
    Some((&name.value, span))
}

/// The heels' distance for a length of the band, and how far that may be off.
fn away(gym: &Gym, movement: &Movement, length: f64, stature: Option<f64>) -> Option<Measure> {
    let person = person(stature);
    let (_, span) = span_of(gym, movement, &person)?;
    let value = span.away(length)?;
    let taller = Person { stature: person.stature + OTHER_STATURE, ..person };
    let by_body = || Some(span_of(gym, movement, &taller)?.1.away(length)? - value);
    let by_body = if stature.is_none() { by_body().unwrap_or(0.0) } else { 0.0 };
    let by_tape = span.away(length + MISREAD)? - value;
    Some(Measure { value, band: by_tape.hypot(by_body).hypot(MISREAD) })
}

fn person(stature: Option<f64>) -> Person {
    let drawn = pose_person();
    Person { stature: stature.map_or(drawn.stature, |cm| cm / 100.0), ..drawn }
}

/// `band 2.0 times its length`, of a rung whose band has its pull written.
pub fn stretch_words(gym: &Gym, rung: &Rung) -> Option<String> {
    let demand = gym.rungs.get(&RungKey::of(rung))?.demand.as_ref()?;
    words_of(demand)
}

/// The same of a movement at its settings, and the setting in words.
pub fn stretch_at(
    gym: &Gym,
    movement: &Movement,
    settings: &[(SettingName, Quantity)],
) -> Option<(String, String)> {
    let (name, _) = span_of(gym, movement, &pose_person())?;
    let (_, away) = settings.iter().find(|(known, _)| known == name)?;
    let at: Vec<(&str, Quantity)> = settings.iter().map(|(n, q)| (n.as_str(), *q)).collect();
    let demand = gym.posed_at(movement, &at, &pose_person())?.demand?;
    Some((format!("{name} {away}"), words_of(&demand)?))
}

fn words_of(demand: &Demand) -> Option<String> {
    let (times, _) = times(demand, true)?;
    Some(fill(words::STRETCHED, &[("times", &format!("{times:.1}"))]))
}

/// A rung whose setting says how far the heels stand from the anchor: its place from 0, that distance,
/// its movement and the setting's name.
type Row<'g> = (usize, f64, &'g Movement, &'g SettingName);

fn rows<'g>(gym: &'g Gym, ladder: &'g Ladder) -> impl Iterator<Item = Row<'g>> {
    ladder.rungs.iter().enumerate().filter_map(|(at, rung)| {
        let movement = gym.library.movements.get(&rung.movement.value)?;
        let (name, _) = span_of(gym, movement, &pose_person())?;
        let written = rung.settings.iter().find(|(known, _)| known.value == *name)?;
        Some((at, written.1.value.number(), movement, name))
    })
}

/// What `text` of the setting `name`, or of how far the band is [`STRETCH`] out, is on a ladder of pulls;
/// nothing where the ladder has no such band.
pub fn there(
    gym: &Gym,
    (ladder, rung): (&Ladder, Option<u32>),
    (name, text): (&str, &str),
    stand: &Stand,
) -> Option<Result<There, NotThere>> {
    let asked_for = |row: &Row<'_>| rung.is_none_or(|rung| row.0 + 1 == rung as usize);
    let by_length = name == STRETCH;
    let fits = |row: &Row<'_>| by_length || row.3.as_str() == name;
    let rows: Vec<Row<'_>> = rows(gym, ladder).filter(|r| asked_for(r) && fits(r)).collect();
    let first = rows.first()?;
    let Ok(value) = Quantity::read(text, Unit::Centimetre) else {
        return Some(Err(NotThere::Unreadable(Unit::Centimetre)));
    };
    let stature = stand.stature.map(Quantity::number);
    let (from, to) = first.2.setting(first.3.as_str()).map(|s| (s.from, s.to))?;
    let range = || NotThere::Outside(format!("{} from {from} to {to}", first.3));
    let found = match by_length {
        true => away(gym, first.2, value.number(), stature),
        false => Some(Measure { value: value.number(), band: 0.0 }),
    };
    let inside = |at: &Measure| (from.number()..=to.number()).contains(&at.value);
    let Some(at) = found.filter(inside) else { return Some(Err(range())) };
    let off = |row: &Row<'_>| (row.1 - at.value).abs();
    let row = rows.iter().min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(first);
    let length = by_length.then_some(value.number());
    Some(on_rung(gym, row, (length, at), stand).ok_or_else(range))
}

fn on_rung(
    gym: &Gym,
    (at, written, movement, name): &Row<'_>,
    (length, away): (Option<f64>, Measure),
    stand: &Stand,
) -> Option<There> {
    let stature = stand.stature.map(Quantity::number);
    let table = stand.segments.unwrap_or(pose_person().table);
    let person = Person { table, ..person(stature) };
    let here = Quantity::new(away.value, Unit::Centimetre);
    let read = asked(movement, &[(*name, here)], &person).ok()?;
    let demand = gym.posed_at(movement, &[(name.as_str(), here)], &person)?.demand?;
    let (times, doubts) = times(&demand, true)?;
    let (_, span) = span_of(gym, movement, &person)?;
    let rung = u32::try_from(at + 1).ok()?;
    let tenth = |value: f64| format!("{value:.1}");
    let holes: [(&str, &dyn std::fmt::Display); 12] = [
        ("setting", &capital(name.as_str())),
        ("away", &away.value.round()),
        ("off", &away.band.ceil()),
        ("granted", &format!("for {:.0} cm tall", 100.0 * person.stature)),
        ("length", &length.unwrap_or(span.length(away.value)).round()),
        ("rest", &span.rest.round()),
        ("times", &tenth(times)),
        ("give", &tenth(doubts.band().max(0.1))),
        ("pull", &Axis::Pulled.shown(read.value)),
        ("band", &Axis::Pulled.band_shown(read.band)),
        ("rung", &rung),
        ("written", &format!("{name} {written} cm")),
    ];
    let words = if length.is_some() { words::BAND_FOR } else { words::BAND_THERE };
    let (demand, by_heels) = (as_carried(gym, &read), length.is_some());
    Some(There { rung, demand, by_heels, say: fill(words, &holes) })
}

/// A pull is no share of a body: it stands here as kilograms alone, and compares with no rung.
fn as_carried(gym: &Gym, read: &Reading) -> RungDemand {
    RungDemand {
        share: 0.0,
        band: 0.0,
        end: None,
        weight_kg: read.value,
        kind: u32::MAX,
        pose: u32::MAX,
        in_mass: false,
        across: Across::of(&gym.library.club),
    }
}

/// What the stretches on a ladder take for granted; nothing where no rung has one.
pub fn granted(gym: &Gym, ladder: &Ladder) -> Option<String> {
    let (.., movement, _) = rows(gym, ladder).next()?;
    let (_, span) = span_of(gym, movement, &pose_person())?;
    let lines = &gym.posed.get(&movement.id)?.figure.as_ref()?.recipe.lines;
    let kg = lines.iter().find_map(|line| match line.tension {
        Some(Tension::Band { at_twice, .. }) => Some(at_twice),
        _ => None,
    })?;
    let tall = format!("for {:.0} cm tall", 100.0 * pose_person().stature);
    let holes: [(&str, &dyn std::fmt::Display); 3] =
        [("granted", &tall), ("rest", &span.rest.round()), ("kg", &kg)];
    Some(fill(words::BAND_GRANTED, &holes))
}

/// The settings of a ladder's bands, by name.
pub fn settings(gym: &Gym, ladder: &Ladder) -> Vec<String> {
    let names = rows(gym, ladder).flat_map(|row| [row.3.to_string(), STRETCH.to_string()]);
    names.collect()
}

//! What a rung demands, as placing needs it, and which rungs may be compared by it.
//! Never measures: the gym does; an unknown demand stays unknown.

use super::across::Across;
use super::words::{self, fill};
use crate::gym::Gym;
use crate::gym::heights::{HeightTable, STATURES};
use crate::gym::scale::{Axis, Reading, Unknown, reading};
use crate::gym::{pose_person, posed};
use crate::library::{Change, Counts, Ladder, Movement, Quantity, Rung, SettingName, Unit};
use crate::mechanics::segments::Table;
use crate::mechanics::solve::Person;
use serde::Serialize;

/// A share of body weight at one instant.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Share {
    /// The share.
    pub share: f64,
    /// How far the true share may be from it, either way.
    pub band: f64,
}

impl Share {
    /// A pair of per cents: the number and its band.
    fn of_percent((value, band): (f64, f64)) -> Share {
        Share { share: value / 100.0, band: band / 100.0 }
    }
}

/// What one repetition of a rung carries.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct RungDemand {
    /// Force through the arms as a share of body weight, what one arm bears alone counted twice; for a
    /// hold of the trunk the moment at the waist, N m per kg of body mass.
    pub share: f64,
    /// How far the true share may be from it, either way, in the same unit.
    pub band: f64,
    /// The share where a repetition ends: the bottom of a push, the top of a pull. Only of the arms, where
    /// balance decides.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub end: Option<Share>,
    /// Weight that the rung itself adds, in kg; 0 for none.
    pub weight_kg: f64,
    /// Rungs of one ladder are compared by what they carry only where this number is the same.
    pub kind: u32,
    /// Rungs with the same number are one movement at several settings, computed from one pose: what
    /// the model gets wrong there it gets wrong alike.
    pub pose: u32,
    /// Whether the share is of body mass, so that kilograms can be added to it.
    pub in_mass: bool,
    /// How far a difference shows in repetitions.
    pub across: Across,
}

/// The body that a ladder's rungs are reckoned for; left out, the one that everything is drawn for.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Build {
    /// 1.50 to 1.98 m; 1.72 m where none is given.
    pub stature: Option<Quantity>,
    /// The segments of women or of men, where a person wishes that.
    pub segments: Option<Table>,
}

impl From<Option<Quantity>> for Build {
    fn from(stature: Option<Quantity>) -> Build {
        Build { stature, segments: None }
    }
}

impl Build {
    /// Whom to solve anew for; nobody where the tables solved once have the answer.
    fn person(self) -> Option<Person> {
        let stature = centimetres(self.stature) / 100.0;
        self.segments.map(|table| Person { stature, table, ..pose_person() })
    }
}

/// What a set carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Carried {
    /// In kg when the body mass is known, else as a share of it.
    pub weight: f64,
    /// How far it may be off, as a share of itself.
    pub doubt: f64,
}

/// Two rungs at the same instant. A set ends where the arms cannot go on, low in a push and high in a
/// pull, and there the joints stand alike on both: common practice; of the bench press from memory, van
/// den Tillaar R, Ettema G. J Sports Sci 2010;28(5):529-535. Where that instant is not known of both,
/// they are compared with the arms straight.
pub(super) fn at_one_instant(one: RungDemand, other: RungDemand) -> [RungDemand; 2] {
    let at = |demand: RungDemand, Share { share, band }| RungDemand { share, band, ..demand };
    match (one.end, other.end) {
        (Some(here), Some(there)) => [at(one, here), at(other, there)],
        _ => [one, other],
    }
}

/// What `demand` makes of a body; an added weight counts whole, as if it hung straight over the
/// hands or feet that carry. `None` when the demand leaves nothing to carry.
pub(super) fn carried(demand: RungDemand, body: f64, added_kg: f64) -> Option<Carried> {
    let weight = demand.share * body + (demand.weight_kg + added_kg);
    let doubt = demand.band * body / weight;
    let adds = demand.in_mass || demand.weight_kg + added_kg == 0.0;
    (adds && weight > 0.0 && weight.is_finite() && (0.0..1.0).contains(&doubt))
        .then_some(Carried { weight, doubt })
}

/// The demand of each rung of `ladder` for a body (raised hands ask more of a tall person).
///
/// Only what the arms bear and what the waist holds: there a rung asks more by carrying more. A
/// rung without a number is help, lowering, a pause, a hold among repetitions, or a leg's work,
/// where range and balance decide.
pub fn demands_of(gym: &Gym, ladder: &Ladder, build: impl Into<Build>) -> Vec<Option<RungDemand>> {
    let build = build.into();
    let Some(axis @ (Axis::Arms | Axis::Waist)) = gym.axis(ladder) else {
        return vec![None; ladder.rungs.len()];
    };
    let mut kind = 0;
    let readings = gym.readings(ladder);
    let rung = |(rung, known): (&Rung, Result<Reading, Unknown>)| {
        if rung.changes.as_ref().is_some_and(|change| !compares(axis, change.value)) {
            kind += 1;
        }
        let known = known.ok()?;
        let movement = gym.library.movements.get(&rung.movement.value)?;
        let mut demand = of_rung((gym, axis), movement, (rung, known), build)?;
        (demand.kind, demand.pose) = (kind, first_of(ladder, rung));
        Some(demand)
    };
    ladder.rungs.iter().zip(readings).map(rung).collect()
}

/// The first place on the ladder of a rung's movement.
fn first_of(ladder: &Ladder, rung: &Rung) -> u32 {
    let first = ladder.rungs.iter().position(|one| one.movement.value == rung.movement.value);
    first.and_then(|at| u32::try_from(at).ok()).unwrap_or_default()
}

/// The demand at an own height or lean of the movement on rung `at` (from 0): the kitchen counter
/// instead of the box. `None` outside the table, and where the rung itself has no number.
pub fn demand_at(
    gym: &Gym,
    ladder: &Ladder,
    (at, value): (usize, f64),
    build: impl Into<Build>,
) -> Option<RungDemand> {
    let build = build.into();
    let demand = demands_of(gym, ladder, build).get(at).copied().flatten()?;
    let rung = ladder.rungs.get(at)?;
    let movement = gym.library.movements.get(&rung.movement.value)?;
    let table = rung_table(gym, rung)?;
    let tabled = from_table(table, value, centimetres(build.stature))?;
    let Some(person) = build.person() else {
        return Some(tabled.on(demand));
    };
    let here = |(name, written): (&SettingName, Quantity)| {
        let own = name.as_str() == table.setting;
        (name.clone(), if own { Quantity::new(value, table.unit) } else { written })
    };
    let at: Vec<(SettingName, Quantity)> = written(rung).map(here).collect();
    let at: Vec<(&SettingName, Quantity)> = at.iter().map(|(name, q)| (name, *q)).collect();
    let read = solved(Axis::Arms, movement, (&at, &person))?;
    Some(Tabled::read(&read).on(demand))
}

fn written(rung: &Rung) -> impl Iterator<Item = (&SettingName, Quantity)> {
    rung.settings.iter().map(|(name, value)| (&name.value, value.value))
}

/// The number of a movement at some settings for a person of their own segments.
fn solved(
    axis: Axis,
    movement: &Movement,
    (at, person): (&[(&SettingName, Quantity)], &Person),
) -> Option<Reading> {
    let given: Vec<(&str, Quantity)> = at.iter().map(|(name, q)| (name.as_str(), *q)).collect();
    let names: Vec<&SettingName> = at.iter().map(|(name, _)| *name).collect();
    reading(axis, movement, posed(movement, &given, person).as_ref(), &names).ok()
}

/// The table by which an own height of `movement` becomes a share of body mass.
pub fn share_table<'g>(gym: &'g Gym, movement: &Movement) -> Option<&'g HeightTable> {
    gym.heights(movement).filter(|table| table.is_share)
}

/// The same for a rung: a table is solved with the movement's other settings as usual, so it says
/// nothing of a rung that writes one of them otherwise (heels on a box under a bar).
pub fn rung_table<'g>(gym: &'g Gym, rung: &Rung) -> Option<&'g HeightTable> {
    let movement = gym.library.movements.get(&rung.movement.value)?;
    let table = share_table(gym, movement)?;
    let usual = |name: &SettingName| movement.setting(name.as_str())?.usual.as_ref();
    let as_usual = |(name, value): (&SettingName, Quantity)| {
        name.as_str() == table.setting || usual(name).is_none_or(|usual| usual.value == value)
    };
    written(rung).all(as_usual).then_some(table)
}

/// Said beside shares that were reckoned for another stature than was asked about.
pub fn stature_note(stature: Option<Quantity>) -> Option<String> {
    let (asked, taken) = (stature?.number(), centimetres(stature));
    let holes: [(&str, &dyn std::fmt::Display); 4] =
        [("asked", &asked), ("taken", &taken), ("least", &STATURES[0]), ("most", &STATURES[2])];
    ((asked - taken).abs() > 1e-9).then(|| fill(words::NOTE_STATURE, &holes))
}

fn centimetres(stature: Option<Quantity>) -> f64 {
    stature.map_or(STATURES[1], |stature| stature.number().clamp(STATURES[0], STATURES[2]))
}

/// Whether rungs on both sides of a step are compared by what they carry. Help and tempo make a
/// rung of their own that has no number; the rungs around it still compare.
fn compares(axis: Axis, change: Change) -> bool {
    match change {
        Change::Share | Change::Weight | Change::Assistance | Change::Tempo => true,
        Change::Lever | Change::Range => axis == Axis::Waist,
        _ => false,
    }
}

fn of_rung(
    (gym, axis): (&Gym, Axis),
    movement: &Movement,
    (rung, known): (&Rung, Reading),
    build: Build,
) -> Option<RungDemand> {
    let is_slowed = |value: Quantity| value.unit == Unit::Second && value.number() > 0.0;
    if rung.settings.iter().any(|(_, value)| is_slowed(value.value)) {
        return None;
    }
    // Nothing published says what a moment at the waist does to repetitions.
    if axis == Axis::Waist && movement.counts != Counts::Seconds {
        return None;
    }
    let own = build.person();
    let known = match &own {
        Some(person) => {
            let at: Vec<(&SettingName, Quantity)> = written(rung).collect();
            solved(axis, movement, (&at, person))?
        }
        None => known,
    };
    let person = own.clone().unwrap_or_else(pose_person);
    let bare = without_weight((gym, axis), movement, (rung, &person)).unwrap_or(known);
    let whole = if axis == Axis::Arms { 100.0 } else { 1.0 };
    let weight_kg = (known.value - bare.value) / whole * pose_person().kilograms;
    if weight_kg.abs() > 0.01 && (known.usual_weight || axis == Axis::Waist) {
        return None;
    }
    let weight_kg = if weight_kg.abs() > 0.01 { weight_kg } else { 0.0 };
    // A weight on one arm alone would count twice too, and nothing says that it goes through that arm.
    let in_mass = axis == Axis::Arms && !known.alone;
    let across = Across::of(&gym.library.club);
    let (share, band) = (bare.value / whole, bare.band / whole);
    let end = bare.at_end.map(Share::of_percent);
    let known = RungDemand { share, band, end, weight_kg, kind: 0, pose: 0, in_mass, across };
    let tabled = own_share(gym, rung, centimetres(build.stature)).filter(|_| own.is_none());
    Some(tabled.map_or(known, |tabled| tabled.on(known)))
}

/// The rung as it is with no weight added, where its movement takes one.
fn without_weight(
    (gym, axis): (&Gym, Axis),
    movement: &Movement,
    (rung, person): (&Rung, &Person),
) -> Option<Reading> {
    movement.setting("weight")?;
    let written = written(rung).map(|(name, value)| (name.as_str(), value));
    let mut at: Vec<(&str, Quantity)> = written.filter(|(name, _)| *name != "weight").collect();
    at.push(("weight", Quantity::new(0.0, Unit::Kilogram)));
    let posed = gym.posed_at(movement, &at, person)?;
    reading(axis, movement, Some(&posed), &[]).ok()
}

/// The share at the rung's written height or lean, for the stature.
fn own_share(gym: &Gym, rung: &Rung, stature: f64) -> Option<Tabled> {
    let table = rung_table(gym, rung)?;
    let written = rung.settings.iter().find(|(name, _)| name.value.as_str() == table.setting)?;
    from_table(table, written.1.value.number(), stature)
}

/// What a movement asks at a height or lean: with the arms straight, and where a repetition ends.
struct Tabled {
    start: Share,
    end: Option<Share>,
}

impl Tabled {
    fn read(read: &Reading) -> Tabled {
        let start = Share::of_percent((read.value, read.band));
        Tabled { start, end: read.at_end.map(Share::of_percent) }
    }

    /// `demand` at that height.
    fn on(self, demand: RungDemand) -> RungDemand {
        RungDemand { share: self.start.share, band: self.start.band, end: self.end, ..demand }
    }
}

fn from_table(table: &HeightTable, value: f64, stature: f64) -> Option<Tabled> {
    let start = Share::of_percent((table.at(value, stature)?, table.band_at(value, stature)?));
    Some(Tabled { start, end: table.end_at(value, stature).map(Share::of_percent) })
}

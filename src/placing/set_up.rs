//! Set-up: a lean as heels so far from the anchor or the wall, since nobody measures degrees in class.
//! Never an angle or a distance without what was taken for granted, nor without its band.
//!
//! Seen from the side, the body is a straight line of [`BODY`] statures from ankle to shoulder. Under
//! an anchor, arm and strap make one straight line from the shoulder to the anchor. At a wall the
//! arms, or the upper arms, go level to it. All lengths are shares of stature of the drawn body
//! (Drillis and Contini 1966; the foot's from Winter 2009), the same as every pose has.

use super::stretch::{stretch_at, stretch_words};
use crate::gym::Gym;
use crate::library::{Harder, Movement, Quantity, Rung, SettingName, Unit};
use crate::mechanics::skeleton::{
    ELBOW_RADIUS, FOOT_HEEL, FOOT_SOLE, FOREARM, GRIP, HAND, PALM_THICKNESS, SHANK, THIGH, TRUNK,
    UPPER_ARM,
};
use crate::mechanics::words::contact::{Contact, Part, Surface};

/// Ankle to shoulder.
const BODY: f64 = SHANK + THIGH + TRUNK;
/// Shoulder to a closed hand's grip.
const TO_GRIP: f64 = UPPER_ARM + FOREARM + GRIP * HAND;
/// Shoulder to a palm flat on a wall.
const TO_PALM: f64 = UPPER_ARM + FOREARM + PALM_THICKNESS;
/// Shoulder to a forearm upright on a wall.
const TO_FOREARM: f64 = UPPER_ARM + ELBOW_RADIUS;

/// Height of the anchor where nobody says, cm: as the straps are drawn.
pub const ANCHOR: f64 = 225.0;
/// Height over the floor at which the handles hang free, where nobody says, cm. Common practice, no
/// source: about the height of a hip.
pub const HANDLES: f64 = 95.0;
/// The stature that is drawn, cm.
pub const STATURE: f64 = 172.0;

/// How far a mark for the heels, an anchor or a handle may be misread, cm; how far a body's own
/// lengths may be off the table's, as a share of them; and how far from the drawn stature a person
/// may be who does not say it, cm. Common practice, no source.
const MISREAD: f64 = 3.0;
const BODIES: f64 = 0.03;
const OTHER_STATURE: f64 = 12.0;

/// Leans between which the heels are looked for, degrees.
const LEANS: (f64, f64) = (1.0, 85.0);

/// What the hands or forearms are on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tie {
    /// Straps or rings from an anchor overhead.
    Anchor,
    /// Palms on a wall, arms straight.
    Palms,
    /// Forearms on a wall.
    Forearms,
}

/// A person in front of an anchor or a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetUp {
    /// What they hold on to.
    pub tie: Tie,
    /// Stature, cm; the drawn one where nobody says.
    pub stature: Option<f64>,
    /// Height of the anchor, cm.
    pub anchor: f64,
    /// Height over the floor at which the handles hang free, cm.
    pub handles: f64,
}

/// A distance or an angle, and how far it may be off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// Centimetres or degrees.
    pub value: f64,
    /// Give or take.
    pub band: f64,
}

/// Lengths of one body and one anchor, cm.
#[derive(Debug, Clone, Copy)]
struct Lengths {
    stature: f64,
    /// Ankle to shoulder.
    body: f64,
    /// Shoulder to the wall, or to the anchor along arm and strap.
    reach: f64,
    /// Anchor over the floor; nothing at a wall.
    anchor: Option<f64>,
}

impl SetUp {
    /// As it is drawn, for a stature in cm if one is said.
    pub fn usual(tie: Tie, stature: Option<f64>) -> SetUp {
        SetUp { tie, stature, anchor: ANCHOR, handles: HANDLES }
    }

    /// How far the heels stand from under the anchor (below 0: past it), or from the wall, at a lean
    /// in degrees.
    pub fn heels(&self, lean: f64) -> Option<Measure> {
        self.measured(lean, 0.0, Lengths::heels)
    }

    /// The lean in degrees when the heels stand so far, cm, from under the anchor or from the wall.
    pub fn lean(&self, heels: f64) -> Option<Measure> {
        self.measured(heels, MISREAD, Lengths::lean)
    }

    /// The answer, and the root of the squares of what each doubt moves it by.
    fn measured(
        &self,
        asked: f64,
        misread: f64,
        answer: fn(&Lengths, f64) -> Option<f64>,
    ) -> Option<Measure> {
        let value = answer(&Lengths::of(self, [0.0; 4]), asked)?;
        let taller = if self.stature.is_some() { 0.0 } else { OTHER_STATURE };
        let straps = if self.tie == Tie::Anchor { MISREAD } else { 0.0 };
        let doubts = [taller, BODIES, straps, straps];
        let moved = |at: usize| {
            let mut shifts = [0.0; 4];
            shifts[at] = doubts[at];
            answer(&Lengths::of(self, shifts), asked).map_or(0.0, |moved| moved - value)
        };
        let by_mark = answer(&Lengths::of(self, [0.0; 4]), asked + misread);
        let by_mark = by_mark.map_or(0.0, |moved| moved - value);
        let squares = (0..4).map(moved).chain([by_mark]).map(|moved| moved * moved);
        Some(Measure { value, band: squares.sum::<f64>().sqrt() })
    }

    /// Where the heels stand at a lean: `heels about 60 cm from under the anchor`.
    pub fn words(&self, lean: f64) -> Option<String> {
        let cm = 5.0 * (self.heels(lean)?.value / 5.0).round();
        Some(match self.tie {
            Tie::Anchor if cm < 0.0 => format!("heels about {} cm past the anchor", -cm),
            Tie::Anchor if cm == 0.0 => "heels under the anchor".to_string(),
            Tie::Anchor => format!("heels about {cm} cm from under the anchor"),
            Tie::Palms | Tie::Forearms => format!("heels about {cm} cm from the wall"),
        })
    }

    /// The same in the few words that a wall has room for: `heels 60 cm out`.
    pub fn short(&self, lean: f64) -> Option<String> {
        let cm = 5.0 * (self.heels(lean)?.value / 5.0).round();
        Some(match self.tie {
            Tie::Anchor if cm < 0.0 => format!("heels {} cm past the anchor", -cm),
            Tie::Anchor if cm == 0.0 => "heels under the anchor".to_string(),
            Tie::Anchor | Tie::Palms | Tie::Forearms => format!("heels {cm} cm out"),
        })
    }

    /// What is taken for granted: `for 172 cm tall`, and of straps how they hang.
    pub fn granted(&self) -> String {
        let stature = self.stature.unwrap_or(STATURE);
        match self.tie {
            Tie::Anchor => format!(
                "for {stature} cm tall, an anchor {} cm up and handles that hang {} cm over the floor",
                self.anchor, self.handles
            ),
            Tie::Palms | Tie::Forearms => format!("for {stature} cm tall"),
        }
    }
}

impl Lengths {
    /// For a set-up with its doubts moved: stature, arms and body, anchor, handles.
    fn of(set_up: &SetUp, [taller, bodies, anchor, handles]: [f64; 4]) -> Lengths {
        let stature = set_up.stature.unwrap_or(STATURE) + taller;
        let body = BODY * (1.0 + bodies) * stature;
        let arm = |share: f64| share * (1.0 + bodies) * stature;
        let height = set_up.anchor + anchor;
        let (reach, anchor) = match set_up.tie {
            Tie::Anchor => (arm(TO_GRIP) + height - (set_up.handles + handles), Some(height)),
            Tie::Palms => (arm(TO_PALM), None),
            Tie::Forearms => (arm(TO_FOREARM), None),
        };
        Lengths { stature, body, reach, anchor }
    }

    fn heels(&self, lean: f64) -> Option<f64> {
        let (sine, cosine) = lean.to_radians().sin_cos();
        let foot = |share: f64| share * self.stature;
        let Some(anchor) = self.anchor else {
            // On flat feet the heels stand behind the ankles, away from the wall.
            return Some(self.reach + self.body * sine - foot(FOOT_HEEL));
        };
        // On the heels, toes up, the foot stays square to the shank and turns with it.
        let ankle = -foot(FOOT_SOLE) * cosine - foot(FOOT_HEEL) * sine;
        let heels_ahead = -foot(FOOT_SOLE) * sine + foot(FOOT_HEEL) * cosine;
        let up = anchor - ankle - self.body * cosine;
        let across = self.reach * self.reach - up * up;
        (across >= 0.0).then(|| across.sqrt() - self.body * sine - heels_ahead)
    }

    /// Undoes `heels`, which only rises at a wall and only falls under an anchor: by halving.
    fn lean(&self, heels: f64) -> Option<f64> {
        let (mut low, mut high) = LEANS;
        let at_wall = self.anchor.is_none();
        // Where arm and strap reach no more the lean is too far.
        let leans_more =
            |lean: f64| self.heels(lean).is_some_and(|stand| (stand < heels) == at_wall);
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            match leans_more(middle) {
                true => low = middle,
                false => high = middle,
            }
        }
        // Beyond both ends nobody stands.
        let lean = (low + high) / 2.0;
        self.heels(lean).filter(|stand| (stand - heels).abs() < 0.01).map(|_| lean)
    }
}

/// What a movement's lean hangs on, and the name of the setting: only a straight body whose hands or
/// forearms are on a wall, or which leans back on its heels from straps. Who faces away from an anchor
/// stands elsewhere: there arm and strap are no straight line.
pub fn tie_of<'m>(gym: &Gym, movement: &'m Movement) -> Option<(&'m str, Tie)> {
    let leans = movement.settings.iter();
    let mut leans = leans.filter(|(_, s)| s.unit == Unit::Degree && s.harder == Some(Harder::More));
    let (name, _) = leans.next()?;
    let figure = gym.posed.get(&movement.id)?.figure.as_ref()?;
    let on_heels = figure.start().touches.iter().any(|(contact, _)| contact.part == Part::Heel);
    let tie = |contact: &Contact| match (contact.part, contact.surface) {
        (Part::Hand, Surface::Straps | Surface::Rings) => on_heels.then_some(Tie::Anchor),
        (Part::Hand, Surface::Wall) => Some(Tie::Palms),
        (Part::Forearm, Surface::Wall) => Some(Tie::Forearms),
        _ => None,
    };
    let tie = figure.start().touches.iter().find_map(|(contact, _)| tie(contact))?;
    Some((name.value.as_str(), tie))
}

/// How a rung is set up where its setting is one that nobody measures: the heels for a lean, and how
/// far a band is stretched.
pub fn set_up_words(gym: &Gym, rung: &Rung, stature: Option<f64>) -> Option<String> {
    let Some((tie, lean)) = leaning(gym, rung) else { return stretch_words(gym, rung) };
    SetUp::usual(tie, stature).words(lean)
}

/// The same in the few words that a wall has room for, for the drawn stature.
pub fn set_up_short(gym: &Gym, rung: &Rung) -> Option<String> {
    let Some((tie, lean)) = leaning(gym, rung) else { return stretch_words(gym, rung) };
    SetUp::usual(tie, None).short(lean)
}

/// The same of a movement at its settings: the lean in words, and where the heels go for it.
pub fn set_up_at(
    gym: &Gym,
    movement: &Movement,
    settings: &[(SettingName, Quantity)],
) -> Option<(String, String)> {
    let Some((name, tie)) = tie_of(gym, movement) else {
        return stretch_at(gym, movement, settings);
    };
    let (_, lean) = settings.iter().find(|(known, _)| known.as_str() == name)?;
    let heels = SetUp::usual(tie, None).short(lean.number())?;
    Some((format!("{name} {lean}"), heels))
}

/// What a rung leans on or hangs from, and by how much.
fn leaning(gym: &Gym, rung: &Rung) -> Option<(Tie, f64)> {
    let movement = gym.library.movements.get(&rung.movement.value)?;
    let (name, tie) = tie_of(gym, movement)?;
    let (_, lean) = rung.settings.iter().find(|(known, _)| known.value.as_str() == name)?;
    Some((tie, lean.value.number()))
}

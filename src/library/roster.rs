//! The roster: who is in class, by nickname, with kit, limits, rungs and results.
//! Never part of a library: it is read from a file of its own and never reaches the site.

use super::{
    CautionId, Coming, Counts, Done, KitId, LadderId, MovementId, Nickname, Quantity, SettingName,
    TraitId,
};
use crate::finding::{Placed, Span};

/// Who is in class, in the order written.
#[derive(Debug, Clone, Default)]
pub struct Roster {
    /// The members.
    pub members: Vec<Member>,
}

/// One member.
#[derive(Debug, Clone)]
pub struct Member {
    /// What they are called here.
    pub name: Placed<Nickname>,
    /// The kit at hand. Nothing written: everything the hall has.
    pub kit: Option<Vec<Placed<KitId>>>,
    /// Traits to leave out, each from this level on (1 or 2).
    pub limits: Vec<(Placed<TraitId>, u8)>,
    /// Situations whose cautions say what to leave out and change.
    pub cautions: Vec<Placed<CautionId>>,
    /// How they come to class.
    pub coming: Coming,
    /// Their own rungs.
    pub rungs: Vec<(Placed<LadderId>, OwnRung)>,
    /// What they counted in tests, in the order written.
    pub results: Vec<MemberResult>,
    /// What they did in classes, in the order written.
    pub done: Vec<Done>,
}

/// A member's own rung of a ladder, as the coach wrote it down.
#[derive(Debug, Clone)]
pub struct OwnRung {
    /// The rung, from 1.
    pub rung: Placed<u32>,
    /// What the rung was when it was written down; nothing where only its number is.
    pub was: Option<RungWas>,
}

/// What a member counted in a test, in one set to the standard.
#[derive(Debug, Clone)]
pub struct MemberResult {
    /// The ladder.
    pub ladder: Placed<LadderId>,
    /// The rung, from 1.
    pub rung: Placed<u32>,
    /// Repetitions or seconds.
    pub counts: Counts,
    /// How many.
    pub amount: Placed<u32>,
    /// The day as written, such as `2026-11-25`; whether there is such a day is for checks to say.
    pub day: Placed<String>,
    /// Settings that were not those of the rung, such as hands on a counter of 92 cm.
    pub settings: Vec<(Placed<SettingName>, Placed<Quantity>)>,
    /// What the rung was on that day, as a ladder writes it; a ladder may be rewritten.
    pub was: Option<RungWas>,
    /// Weight added beyond what the rung says.
    pub added: Option<Placed<Quantity>>,
    /// What else was written.
    pub note: Option<String>,
    /// Where it is written.
    pub span: Span,
}

/// The movement and written settings of a rung on the day of a test.
#[derive(Debug, Clone)]
pub struct RungWas {
    /// The movement.
    pub movement: Placed<MovementId>,
    /// The settings that the rung was written with.
    pub settings: Vec<(Placed<SettingName>, Placed<Quantity>)>,
}

impl Roster {
    /// The member of that nickname, capital letters apart.
    pub fn member(&self, name: &str) -> Option<&Member> {
        let wanted = name.to_lowercase();
        self.members.iter().find(|member| member.name.as_str().to_lowercase() == wanted)
    }
}

impl Member {
    /// A member of whom nothing is written but the nickname.
    pub fn named(name: Placed<Nickname>) -> Member {
        Member {
            name,
            kit: None,
            limits: Vec::new(),
            cautions: Vec::new(),
            coming: Coming::default(),
            rungs: Vec::new(),
            results: Vec::new(),
            done: Vec::new(),
        }
    }
}

impl MemberResult {
    /// True when both say the same of the same test; a note may differ.
    pub fn says_the_same(&self, other: &MemberResult) -> bool {
        let plain = |result: &MemberResult| {
            let added = result.added.as_ref().map_or(0, |added| added.micro);
            let mut settings: Vec<(String, Quantity)> =
                result.settings.iter().map(|(name, at)| (name.to_string(), at.value)).collect();
            settings.sort();
            (result.rung.value, result.amount.value, added, settings)
        };
        self.ladder.value == other.ladder.value
            && self.day.value == other.day.value
            && self.counts == other.counts
            && plain(self) == plain(other)
    }

    /// The result as the roster's file has it: `{ladder: push-up, rung: 4, reps: 12, ...}`.
    pub fn as_yaml(&self) -> String {
        let counts = if self.counts == Counts::Seconds { "seconds" } else { "reps" };
        let MemberResult { ladder, rung, amount, day, .. } = self;
        let mut text = format!(
            "{{ladder: {}, rung: {}, {counts}: {}, day: {}",
            ladder.value, rung.value, amount.value, day.value
        );
        for (name, value) in &self.settings {
            text += &format!(", {}: {}", name.value, exact(value.value));
        }
        if let Some(was) = &self.was {
            text += &format!(", {}", was.as_yaml());
        }
        if let Some(added) = &self.added {
            text += &format!(", added: {}", exact(added.value));
        }
        if let Some(note) = &self.note {
            text += &format!(", note: \"{}\"", note.replace('\\', "\\\\").replace('"', "\\\""));
        }
        text + "}"
    }
}

impl OwnRung {
    /// As the roster's file has it: `4`, or `{rung: 4, was: {movement: ...}}`.
    pub fn as_yaml(&self) -> String {
        let rung = self.rung.value;
        self.was
            .as_ref()
            .map_or_else(|| rung.to_string(), |was| format!("{{rung: {rung}, {}}}", was.as_yaml()))
    }
}

impl RungWas {
    /// As the roster's file has it: `was: {movement: incline-push-up, hands: 60 cm}`.
    pub fn as_yaml(&self) -> String {
        let settings = self.settings.iter();
        let settings = settings.map(|(n, at)| format!(", {}: {}", n.value, exact(at.value)));
        format!("was: {{movement: {}{}}}", self.movement.value, settings.collect::<String>())
    }
}

/// Every digit of a quantity: what is read again must be the same.
fn exact(quantity: Quantity) -> String {
    format!("{} {}", quantity.number(), quantity.unit.symbol())
}

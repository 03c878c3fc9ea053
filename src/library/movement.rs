//! Movements: something a person does, with its cues, faults, settings and cautions.
//! Never says what is above or below what; ladders do.

use super::reader::node::Node;
use super::{
    ChangeOf, Fault, KitId, MovementId, MuscleId, PatternId, Quantity, SettingName, SourceId,
    TraitId, TraitOf, Unit,
};
use crate::finding::{Placed, Span};

/// Declares an enum whose values are the words that a coach writes.
macro_rules! written_words {
    ($($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal),* $(,)? })*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$vdoc])* $variant),* }

        impl $name {
            /// Every word that may be written.
            pub const WORDS: &'static [&'static str] = &[$($word),*];

            /// The value written as `word`.
            pub fn from_word(word: &str) -> Option<Self> {
                match word { $($word => Some($name::$variant),)* _ => None }
            }

            /// The word as written.
            pub fn word(self) -> &'static str {
                match self { $($name::$variant => $word),* }
            }
        }
    )*};
}
pub(super) use written_words;

written_words! {
    /// What a movement is trained for.
    Purpose {
        /// Force.
        Strength = "strength",
        /// Lasting.
        Endurance = "endurance",
        /// Force, fast.
        Power = "power",
        /// Range.
        Mobility = "mobility",
        /// Control.
        Skill = "skill",
    }
    /// Whether both sides work at once.
    Sides {
        /// Both at once.
        Together = "together",
        /// One, then the other: twice the time.
        Each = "each",
        /// Turn about within a set.
        Alternating = "alternating",
    }
    /// The plane the movement happens in.
    Plane {
        /// Forward and back.
        Sagittal = "sagittal",
        /// Side to side.
        Frontal = "frontal",
        /// Turning.
        Transverse = "transverse",
    }
    /// How much the neighbours hear.
    Noise {
        /// Nothing.
        Quiet = "quiet",
        /// Some.
        Some = "some",
        /// A lot.
        Loud = "loud",
    }
    /// Which way a setting asks more of the body.
    Harder {
        /// A larger number asks more.
        More = "more",
        /// A smaller number asks more.
        Less = "less",
    }
    /// What a repetition or set counts.
    Counts {
        /// Repetitions.
        Reps = "reps",
        /// Seconds.
        Seconds = "seconds",
        /// Metres.
        Metres = "metres",
        /// Foot contacts.
        Contacts = "contacts",
    }
}

/// Muscles by how much they do.
#[derive(Debug, Clone, Default)]
pub struct Muscles {
    /// The prime movers, the hardest working first.
    pub prime: Vec<Placed<MuscleId>>,
    /// Those that help or hold.
    pub assist: Vec<Placed<MuscleId>>,
}

/// One need for kit: any one of these serves.
#[derive(Debug, Clone)]
pub struct KitNeed(pub Vec<Placed<KitId>>);

/// What a movement lets you adjust, with its range.
#[derive(Debug, Clone)]
pub struct Setting {
    /// The unit its values are written in.
    pub unit: Unit,
    /// The smallest value.
    pub from: Quantity,
    /// The largest.
    pub to: Quantity,
    /// Where most people start.
    pub usual: Option<Placed<Quantity>>,
    /// Which way asks more.
    pub harder: Option<Harder>,
    /// What is measured, in words.
    pub means: String,
    /// Whether one is held in each hand: two of the same kind.
    pub each_hand: bool,
    /// Where it is written.
    pub span: Span,
}

impl Setting {
    /// What is measured, and that it is held in each hand: `In each hand, a bottle or small weight`.
    pub fn said(&self) -> String {
        match (self.each_hand, self.means.as_str()) {
            (false, means) => means.to_string(),
            (true, "") => IN_EACH_HAND.to_string(),
            (true, means) => {
                let (first, rest) = means.split_at(means.chars().next().map_or(0, char::len_utf8));
                format!("{IN_EACH_HAND}, {}{rest}", first.to_lowercase())
            }
        }
    }
}

/// How a weight is said of which there are two.
pub const IN_EACH_HAND: &str = "In each hand";

/// The space a movement needs.
#[derive(Debug, Clone, Default)]
pub struct Room {
    /// Length.
    pub length: Option<Quantity>,
    /// Width.
    pub width: Option<Quantity>,
    /// Height.
    pub height: Option<Quantity>,
    /// Noise.
    pub noise: Option<Noise>,
}

/// A few words said while a person moves.
#[derive(Debug, Clone)]
pub struct Cue {
    /// The words.
    pub say: Placed<String>,
    /// When in the movement.
    pub when: Option<String>,
}

/// A link to a movement that no ladder makes.
#[derive(Debug, Clone)]
pub struct Beside {
    /// The other movement.
    pub to: Placed<MovementId>,
    /// Why one would go there.
    pub because: Option<String>,
}

/// The Markdown body and where it starts in its file.
#[derive(Debug, Clone, Default)]
pub struct Body {
    /// The text.
    pub markdown: String,
    /// Byte offset of the text in its file.
    pub start: u32,
}

/// Something a person does.
#[derive(Debug, Clone)]
pub struct Movement {
    /// Its id: the name of its file.
    pub id: MovementId,
    /// Its file as a whole, for findings about what is not there.
    pub file: Span,
    /// The folder that holds it, which must be its pattern.
    pub folder: String,
    /// The id written in the entry, if any.
    pub written_id: Option<Placed<MovementId>>,
    /// The name shown.
    pub name: Placed<String>,
    /// Other names people use.
    pub aliases: Vec<Placed<String>>,
    /// Its pattern.
    pub pattern: Placed<PatternId>,
    /// What it is trained for.
    pub purpose: Option<Purpose>,
    /// What is counted.
    pub counts: Counts,
    /// Whether both sides work at once.
    pub sides: Sides,
    /// Its plane.
    pub plane: Option<Plane>,
    /// Its muscles.
    pub muscles: Muscles,
    /// All that it needs; each need may be met by any of several things.
    pub kit: Vec<KitNeed>,
    /// What can be adjusted, in the coach's order.
    pub settings: Vec<(Placed<SettingName>, Setting)>,
    /// Its traits, in the coach's order; nothing when the entry does not say, which is an error:
    /// what is not said is not assumed harmless.
    pub traits: Option<Vec<TraitOf>>,
    /// Whether something under `traits` could not be read: what it was is not known.
    pub traits_unread: bool,
    /// How traits may be taken out or lessened here, what is tried first in front.
    pub changes: Vec<ChangeOf>,
    /// The space it needs.
    pub room: Room,
    /// Seconds a repetition takes.
    pub pace: Option<Quantity>,
    /// What counts as a repetition.
    pub standard: Option<Placed<String>>,
    /// Cues.
    pub cues: Vec<Cue>,
    /// Faults.
    pub faults: Vec<Fault>,
    /// What is said before anyone moves.
    pub caution: Option<Placed<String>>,
    /// Links no ladder makes.
    pub beside: Vec<Beside>,
    /// The pose to draw and to weigh, as a tree for the mechanics room.
    pub figure: Option<Node>,
    /// Why a figure cannot show it.
    pub no_figure: Option<Placed<String>>,
    /// Where its claims come from.
    pub sources: Vec<Placed<SourceId>>,
    /// The text for people.
    pub body: Body,
}

impl Movement {
    /// How much of a trait the movement has at its usual settings, 0 to 2.
    pub fn trait_level(&self, id: &TraitId) -> u8 {
        self.level_at(id, &[])
    }

    /// How much of a trait it has with some settings given and the others as usual, 0 to 2.
    pub fn level_at(&self, id: &TraitId, settings: &[(&str, Quantity)]) -> u8 {
        self.trait_of(id).map_or(0, |of| of.level(|name| self.value_at(name, settings)))
    }

    /// The most that it has of a trait at any setting.
    pub fn most_of(&self, id: &TraitId) -> u8 {
        let levels = self.trait_of(id).map_or(&[][..], |of| &of.levels);
        levels.iter().map(|at| at.level).max().unwrap_or(0)
    }

    /// What the entry says about a trait.
    pub fn trait_of(&self, id: &TraitId) -> Option<&TraitOf> {
        self.traits.iter().flatten().find(|of| of.id.value == *id)
    }

    /// Every trait it has with some settings given and the others as usual, in the coach's order.
    pub fn traits_at(&self, settings: &[(&str, Quantity)]) -> Vec<(&Placed<TraitId>, u8)> {
        let level = |of: &TraitOf| of.level(|name| self.value_at(name, settings));
        let traits = self.traits.iter().flatten().map(|of| (&of.id, level(of)));
        traits.filter(|(_, level)| *level > 0).collect()
    }

    /// The value of a setting: as given, else as usual, else the least of its range.
    pub fn value_at(&self, name: &str, settings: &[(&str, Quantity)]) -> Option<Quantity> {
        let given = settings.iter().find(|(known, _)| *known == name).map(|(_, value)| *value);
        let usual = |setting: &Setting| setting.usual.as_ref().map_or(setting.from, |u| u.value);
        given.or_else(|| self.setting(name).map(usual))
    }

    /// A setting by name.
    pub fn setting(&self, name: &str) -> Option<&Setting> {
        self.settings.iter().find(|(id, _)| id.as_str() == name).map(|(_, setting)| setting)
    }
}

//! Ladders: rungs in order of demand toward a goal, as the coach wrote them.
//! Never walks them; the room `ladder` does.

use super::movement::written_words;
use super::{Dose, LadderId, MovementId, PatternId, Quantity, SettingName, SourceId};
use crate::finding::{Placed, Span};

written_words! {
    /// The one variable that a step changes.
    Change {
        /// External load.
        Weight = "weight",
        /// The share of body mass carried.
        Share = "share",
        /// How far the load is from the joint.
        Lever = "lever",
        /// How far the movement goes.
        Range = "range",
        /// How wide and firm the base is.
        Base = "base",
        /// Two limbs to one.
        Limbs = "limbs",
        /// Speed and pauses.
        Tempo = "tempo",
        /// Help from a band, a foot or a partner.
        Assistance = "assistance",
        /// Landing.
        Impact = "impact",
        /// Skill.
        Skill = "skill",
    }
}

/// A movement at a setting, on a ladder.
#[derive(Debug, Clone)]
pub struct Rung {
    /// The movement.
    pub movement: Placed<MovementId>,
    /// The values of its settings, in the order of setting names.
    pub settings: Vec<(Placed<SettingName>, Placed<Quantity>)>,
    /// What the step from the rung below changes.
    pub changes: Option<Placed<Change>>,
    /// Why that asks more.
    pub because: Option<String>,
    /// A dose of its own.
    pub dose: Option<Dose>,
    /// Where it is written.
    pub span: Span,
}

impl Rung {
    /// Its settings in words: `lean 45 deg`. No height and no weight are not said.
    pub fn settings_said(&self) -> Vec<String> {
        let said = self.settings.iter().filter(|(_, value)| !value.value.is_nothing());
        said.map(|(name, value)| format!("{} {}", name.value, value.value)).collect()
    }
}

/// The test that places a person on a ladder.
#[derive(Debug, Clone)]
pub struct LadderTest {
    /// Which rung is tested, from 1.
    pub rung: Placed<u32>,
    /// What is counted.
    pub count: Option<String>,
    /// When to stop.
    pub stop: Option<String>,
}

/// Rungs in order of demand toward a goal.
#[derive(Debug, Clone)]
pub struct Ladder {
    /// Its id: the name of its file.
    pub id: LadderId,
    /// Its file as a whole.
    pub file: Span,
    /// The name shown.
    pub name: Placed<String>,
    /// What its top rung is for.
    pub goal: Option<Placed<String>>,
    /// The pattern it trains.
    pub pattern: Option<Placed<PatternId>>,
    /// What it trains and how to use it.
    pub about: Option<String>,
    /// When to move up.
    pub moves_up: Option<Placed<String>>,
    /// When to step down.
    pub moves_down: Option<String>,
    /// The test.
    pub test: Option<LadderTest>,
    /// The usual dose.
    pub dose: Option<Dose>,
    /// The rungs, lowest demand first.
    pub rungs: Vec<Rung>,
    /// Where its claims come from.
    pub sources: Vec<Placed<SourceId>>,
}

impl Ladder {
    /// The rung, from 0, on which somebody starts of whom nothing is known: the middle, or the lower
    /// of two.
    pub fn middle(&self) -> usize {
        self.rungs.len().saturating_sub(1) / 2
    }
}

//! Steps of ladders with the numbers on both sides, for the rules that compare them.
//! Never compares what the model cannot: a step counts only where it changes what the axis shows.

use crate::check::Rule;
use crate::finding::Finding;
use crate::gym::Gym;
use crate::gym::scale::{Axis, Reading, Unknown};
use crate::library::Rung;

/// A step that should show on its ladder's axis.
pub struct MeasuredStep<'a> {
    /// The axis.
    pub axis: Axis,
    /// The rung below and its number.
    pub lower: (&'a Rung, Result<Reading, Unknown>),
    /// The rung above and its number.
    pub upper: (&'a Rung, Result<Reading, Unknown>),
}

/// Every step of every ladder that changes what its axis shows.
pub fn measured_steps(gym: &Gym) -> Vec<MeasuredStep<'_>> {
    let mut steps = all_steps(gym);
    steps.retain(MeasuredStep::is_on_axis);
    steps
}

/// Every step of every ladder that has an axis, whatever it says that it changes.
pub fn all_steps(gym: &Gym) -> Vec<MeasuredStep<'_>> {
    let mut steps = Vec::new();
    for ladder in gym.library.ladders.values() {
        let Some(axis) = gym.axis(ladder) else { continue };
        let rungs: Vec<_> = ladder.rungs.iter().zip(gym.readings(ladder)).collect();
        for pair in rungs.windows(2) {
            if let [lower, upper] = pair {
                steps.push(MeasuredStep { axis, lower: *lower, upper: *upper });
            }
        }
    }
    steps
}

/// A finding of `rule` at each of the steps whose two numbers, the lower rung's first, stand `wrong`; its
/// words are the label of the upper rung and the next step.
pub fn steps_where(
    steps: &[MeasuredStep<'_>],
    rule: &Rule,
    (label, help): (&str, &str),
    wrong: impl Fn(Axis, Reading, Reading) -> bool,
) -> Vec<Finding> {
    let found = |step: &MeasuredStep<'_>| {
        let (lower, upper) = step.numbers()?;
        wrong(step.axis, lower, upper).then(|| {
            rule.finding(step.against(lower, upper), step.upper.0.movement.span)
                .label(label)
                .also(step.lower.0.movement.span, "the rung below")
                .help(help)
        })
    };
    steps.iter().filter_map(found).collect()
}

impl MeasuredStep<'_> {
    /// Whether it says that it changes what the axis shows.
    pub fn is_on_axis(&self) -> bool {
        self.upper.0.changes.as_ref().is_some_and(|changes| self.axis.measures(changes.value))
    }

    /// Both numbers, where both are known, both at written weights.
    fn numbers(&self) -> Option<(Reading, Reading)> {
        let (lower, upper) = (self.lower.1.ok()?, self.upper.1.ok()?);
        (!lower.usual_weight && !upper.usual_weight).then_some((lower, upper))
    }

    /// The two numbers side by side; moments mean something only as a ratio.
    fn against(&self, lower: Reading, upper: Reading) -> String {
        let movement = &self.upper.0.movement.value;
        let (a, b) = (self.axis.shown(lower.value), self.axis.shown(upper.value));
        match self.axis {
            Axis::Arms | Axis::Carried | Axis::Pulled => {
                format!("`{movement}` asks {b}, the rung below it {a}")
            }
            _ => {
                let times = upper.value / lower.value.max(1e-6);
                format!("`{movement}` asks {times:.1} times what the rung below it asks")
            }
        }
    }
}

//! A level of a trait that never counts, or a gap between two of them.
//! Never says how much of the trait there is; only that what is written does not cover the setting.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::{End, LevelAt, Movement, Quantity, Setting, SettingName, TraitOf};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("trait-level-lost"),
    severity: Severity::Warning,
    what: "A level of a trait never counts, or a setting falls between two levels and has none.",
    why: "Whoever must not do it is offered it at the settings that nothing covers.",
    example: r#"
traits:
  loaded-wrist-extension: [{level: 2, hands: up to 45 cm}, {level: 1, hands: from 60 cm}]
"#,
    next: "Let each row begin where the one before it ends, the strictest first.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let movements = gym.library.movements.values();
    movements
        .flat_map(|movement| movement.traits.iter().flatten().flat_map(|one| of(movement, one)))
        .collect()
}

/// The findings of a trait whose levels hang on one setting; of several at once nothing is said.
fn of(movement: &Movement, one: &TraitOf) -> Vec<Finding> {
    let Some((name, setting)) = setting_of(movement, one) else { return Vec::new() };
    let steps = steps(setting, one);
    let counts = |at: f64| one.levels.iter().position(|row| holds(row, at));
    let lost = one
        .levels
        .iter()
        .enumerate()
        .filter(|(row, _)| !steps.iter().any(|at| counts(*at) == Some(*row)));
    let mut findings: Vec<Finding> = lost.map(|(_, row)| never(one, row, &name, setting)).collect();
    findings.extend(gap(one, &steps, (&name, setting)));
    findings
}

/// The one setting that all ends of a trait name.
fn setting_of<'m>(movement: &'m Movement, one: &TraitOf) -> Option<(SettingName, &'m Setting)> {
    let mut names = one.levels.iter().flat_map(|row| row.ends.iter().map(|(name, _)| &name.value));
    let first = names.next()?;
    let setting = movement.setting(first.as_str())?;
    names.all(|name| name == first).then(|| (first.clone(), setting))
}

/// The settings at which something may change: the range's ends, and each row's end and just beyond it.
fn steps(setting: &Setting, one: &TraitOf) -> Vec<f64> {
    let (from, to) = (setting.from.number(), setting.to.number());
    let beyond = (to - from) / 1000.0;
    let ends = one.levels.iter().flat_map(|row| &row.ends).flat_map(|(_, end)| {
        let (End::UpTo(at) | End::From(at)) = end;
        [at.number() - beyond, at.number(), at.number() + beyond]
    });
    let mut steps: Vec<f64> =
        ends.chain([from, to]).filter(|at| (from..=to).contains(at)).collect();
    steps.sort_by(f64::total_cmp);
    steps
}

fn holds(row: &LevelAt, at: f64) -> bool {
    row.ends.iter().all(|(_, end)| match end {
        End::UpTo(most) => at <= most.number(),
        End::From(least) => at >= least.number(),
    })
}

fn never(one: &TraitOf, row: &LevelAt, name: &SettingName, setting: &Setting) -> Finding {
    let sentence =
        format!("level {} of `{}` never counts, whatever `{name}` is", row.level, one.id.value);
    RULE.finding(sentence, row.span)
        .label("a row before it holds first, or its reach lies outside the setting")
        .help(format!(
            "`{name}` goes from {} to {}; write the strictest row first",
            setting.from, setting.to
        ))
}

/// A stretch without any level that lies between two that have one.
fn gap(one: &TraitOf, steps: &[f64], (name, setting): (&SettingName, &Setting)) -> Option<Finding> {
    let covered: Vec<bool> =
        steps.iter().map(|at| one.levels.iter().any(|row| holds(row, *at))).collect();
    let first = covered.iter().position(|is| *is)?;
    let last = covered.iter().rposition(|is| *is)?;
    let open = (first..last).find(|at| !covered[*at])?;
    let (below, above) = (
        steps[open - 1],
        steps[open..].iter().zip(&covered[open..]).find(|(_, is)| **is).map(|(at, _)| *at)?,
    );
    let [below, above] = [below, above].map(|at| Quantity::new(at, setting.unit));
    let sentence = format!(
        "between `{name}` {below} and {above} nothing says how much `{}` there is",
        one.id.value
    );
    Some(RULE.finding(sentence, one.id.span).label("its levels leave a gap").help(
        "let each row begin where the one before it ends; a level of 0 says that there is none",
    ))
}

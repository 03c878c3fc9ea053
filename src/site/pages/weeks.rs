//! The weeks of a cycle as drawings and as the table beside them: sets, and what rungs ask.
//! Never counts or computes: the rooms `plan` and `gym` did.

use super::demand::ticks;
use crate::figure::weeks::{Asks, Bars, Stair, Step, Week, bars, stair};
use crate::finding::capital;
use crate::gym::Gym;
use crate::gym::scale::axis_words;
use crate::library::{Count, Ladder, PatternId, WeekKind};
use crate::plan::{LadderPlan, WeekBalance};
use serde::Serialize;
use std::collections::BTreeSet;

/// Sets of every week, drawn and as a table.
#[derive(Debug, Serialize)]
pub struct SetsDrawn {
    /// Pushing beside pulling; nothing where no week has either.
    svg: Option<String>,
    /// The numbers of the weeks, the heads of the columns.
    weeks: Vec<String>,
    /// A row a pattern, the whole last.
    rows: Vec<SetsRow>,
}

#[derive(Debug, Serialize)]
struct SetsRow {
    name: String,
    sets: Vec<String>,
}

/// The sets of a cycle's weeks.
pub fn sets_drawn(gym: &Gym, balance: &[WeekBalance]) -> SetsDrawn {
    let patterns: BTreeSet<&PatternId> = balance.iter().flat_map(|week| week.sets.keys()).collect();
    let name = |id: &PatternId| {
        gym.library.words.patterns.get(id).map_or(id.to_string(), |pattern| pattern.name.clone())
    };
    let mut rows: Vec<SetsRow> = patterns
        .into_iter()
        .map(|id| {
            let sets = balance.iter().map(|week| week.sets.get(id));
            let sets = sets.map(|sets| sets.map_or("0".to_string(), Count::to_string));
            SetsRow { name: name(id), sets: sets.collect() }
        })
        .collect();
    let all = balance.iter().map(|week| week.all.to_string());
    rows.push(SetsRow { name: "All".to_string(), sets: all.collect() });
    let any = balance.iter().any(|week| week.pushing.to + week.pulling.to > 0);
    let heads = balance.iter().map(|week| format!("{} {}", week.week, word(week.kind)));
    SetsDrawn {
        svg: any.then(|| bars(&pushing_and_pulling(balance), "sets")),
        weeks: heads.map(|head| head.trim_end().to_string()).collect(),
        rows,
    }
}

fn pushing_and_pulling(balance: &[WeekBalance]) -> Bars {
    let both = |sets: Count| (sets.from, sets.to);
    let week = |week: &WeekBalance| Week {
        number: week.week,
        word: word(week.kind).to_string(),
        lighter: week.kind == Some(WeekKind::Lighter),
        drawn: [both(week.pulling), both(week.pushing)],
    };
    Bars {
        title: "Pulling and pushing sets, week by week".to_string(),
        names: ["pulling".to_string(), "pushing".to_string()],
        weeks: balance.iter().map(week).collect(),
    }
}

fn word(kind: Option<WeekKind>) -> &'static str {
    kind.map_or("", WeekKind::word)
}

/// What the planned rung of each week asks; nothing where no week has a number.
pub fn stair_drawn(gym: &Gym, ladder: &Ladder, planned: &LadderPlan, start: u32) -> Option<String> {
    let axis = gym.axis(ladder)?;
    let readings = gym.readings(ladder);
    let of = |rung: u32| readings.get(rung as usize - 1).and_then(|reading| reading.as_ref().ok());
    let known = planned.weeks.iter().filter_map(|week| of(week.rung));
    let most = known.map(|read| read.value + read.band).reduce(f64::max)?;
    let weeks = planned.weeks.iter().map(|week| Week {
        number: week.week,
        word: word(week.kind).to_string(),
        lighter: week.kind == Some(WeekKind::Lighter),
        drawn: Step {
            rung: week.said.clone(),
            asks: of(week.rung).map(|read| Asks {
                value: read.value,
                band: super::demand::drawn_band(read),
                words: short(axis.shown(read.value)),
            }),
        },
    });
    let drawn = Stair {
        title: format!("{}: what the planned rung asks, week by week", ladder.name.value),
        axis: capital(axis_words(axis, readings.iter().flatten())),
        ticks: ticks(axis, most),
        weeks: weeks.collect(),
    };
    Some(stair(&drawn, &format!("{}-{start}", ladder.id)))
}

/// The unit of a moment stands on the axis alone: there is no room for it on a step.
fn short(shown: String) -> String {
    shown.strip_suffix(" N m/kg").map_or(shown.clone(), str::to_string)
}

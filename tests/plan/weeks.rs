//! A session as a week of a cycle asks for it: the same digits as the cycle's plan, from every starting
//! rung; a lighter week is half, and no week ever asks more than the session does.

use rungbook::gym::Gym;
use rungbook::library::{Session, WeekKind};
use rungbook::own::{Work, line_of};
use rungbook::plan::{aim_number, cycle_plan, in_week, session_plan, warm_up_block, weeks_with};
use rungbook::site::pages::{steps, weeks_data};
use serde_json::Value;
use std::collections::BTreeMap;

fn gym() -> &'static Gym {
    crate::starter::gym()
}

/// What stands between the brackets of a script that hands over data.
fn handed(script: &str) -> Value {
    let inside = script.split_once('(').and_then(|(_, rest)| rest.rsplit_once(')'));
    serde_json::from_str(inside.expect("a call").0).expect("JSON")
}

/// The blocks of a session as the page's script has them in a week.
fn blocks_in(session: &Value, weeks: &Value, week: u32, id: &str) -> Value {
    let mut blocks = session["blocks"].clone();
    let changes = weeks["weeks"][week.to_string()][id].as_array().cloned().unwrap_or_default();
    for change in changes {
        let at = change[0].as_u64().expect("a block") as usize;
        let place = match change[1].as_u64() {
            Some(line) => &mut blocks[at]["items"][line as usize],
            None => &mut blocks[at],
        };
        for (key, value) in change[2].as_object().expect("fields") {
            place[key] = value.clone();
        }
    }
    blocks
}

/// The line of a ladder with the most sets: the one that the cycle's plan is made for.
fn main_line(blocks: &Value, ladder: &str) -> Option<Value> {
    let lines = blocks.as_array()?.iter().flat_map(|block| block["items"].as_array()).flatten();
    let ours = lines.filter(|line| line["ladder_id"] == ladder && line["below"] == 0);
    let sets = |line: &Value| line["asked"][0]["sets"][1].as_u64().unwrap_or(0);
    ours.filter(|line| sets(line) > 0).max_by_key(|line| sets(line)).cloned()
}

#[test]
fn the_session_of_a_week_asks_what_the_cycle_plans_from_every_rung() {
    let gym = gym();
    let mut compared = 0;
    for cycle in gym.library.cycles.values() {
        let weeks = handed(&weeks_data(gym, cycle));
        for focus in &cycle.focus {
            let ladder = &gym.library.ladders[&focus.value];
            for start in 1..=ladder.rungs.len() as u32 {
                let plan = cycle_plan(gym, cycle, &BTreeMap::from([(ladder.id.clone(), start)]));
                let ours = plan.ladders.iter().find(|one| one.ladder == ladder.id).expect("it");
                for planned in &ours.weeks {
                    let (Some(share), Some(aim)) = (planned.sets, planned.aim) else { continue };
                    let written = cycle.weeks.iter().find(|w| w.week == planned.week).expect("it");
                    let lines = written.sessions.iter().filter_map(|id| {
                        let data = handed(&steps(gym, gym.library.sessions.get(&id.value)?));
                        let blocks = blocks_in(&data, &weeks, planned.week, id.value.as_str());
                        main_line(&blocks, ladder.id.as_str())
                    });
                    let sets = |line: &Value| line["asked"][0]["sets"][1].as_u64().unwrap_or(0);
                    let Some(line) = lines.max_by_key(sets) else { continue };
                    let asked = &line["asked"][planned.rung as usize - 1];
                    let at = format!("{} from {start}, week {}", ladder.id, planned.week);
                    assert_eq!(asked["sets"], serde_json::json!([share.from, share.to]), "{at}");
                    let (from, to) = (asked["from"].as_u64(), asked["to"].as_u64());
                    let aim = u64::from(aim_number(aim));
                    assert!(from <= Some(aim) && Some(aim) <= to, "{at}: {aim} of {asked}");
                    // Only where the plan is on a new rung, or on the top one, the range stays open.
                    let open = planned.why.contains("one rung up")
                        || planned.rung as usize == ladder.rungs.len();
                    assert!(open || from == to, "{at}: {asked}");
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 50, "{compared} weeks compared");
}

#[test]
fn a_lighter_week_is_half_and_no_week_asks_more_than_is_written() {
    let gym = gym();
    let mut lighter = 0;
    for (cycle, week) in
        gym.library.cycles.values().flat_map(|c| c.weeks.iter().map(move |w| (c, w)))
    {
        let weeks = handed(&weeks_data(gym, cycle));
        for id in &week.sessions {
            let session = &gym.library.sessions[&id.value];
            let written = session_plan(gym, session);
            let asked = session_plan(gym, &in_week((cycle, week), session));
            assert!(asked.total.most <= written.total.most);
            for (pattern, sets) in &asked.sets {
                let full = written.sets[pattern];
                assert!(
                    sets.to <= full.to && sets.to * 2 >= full.to,
                    "{pattern}: {sets:?} of {full:?}"
                );
            }
            if week.kind == Some(WeekKind::Lighter) {
                lighter += 1;
                let all = |plan: &rungbook::plan::SessionPlan| -> u32 {
                    plan.sets.values().map(|n| n.to).sum()
                };
                assert!(all(&asked) < all(&written), "{}", session.id);
            }
            let data = handed(&steps(gym, session));
            let blocks = blocks_in(&data, &weeks, week.week, session.id.as_str());
            assert_no_more(&data["blocks"], &blocks);
        }
    }
    assert!(lighter > 1);
}

/// Warming up is no work to be halved: whoever trains lightly warms up as ever.
#[test]
fn a_lighter_week_warms_up_as_written() {
    let gym = gym();
    let weeks = gym.library.cycles.values().flat_map(|c| c.weeks.iter().map(move |w| (c, w)));
    let mut seen = 0;
    for (cycle, week) in weeks.filter(|(_, week)| week.kind == Some(WeekKind::Lighter)) {
        for id in &week.sessions {
            let session = &gym.library.sessions[&id.value];
            let Some(warm) = warm_up_block(session) else { continue };
            let asked = in_week((cycle, week), session);
            let as_text = |session: &Session, at: usize| format!("{:?}", session.blocks[at]);
            assert_eq!(as_text(&asked, warm), as_text(session, warm), "{}", id.value);
            seen += usize::from(as_text(&asked, warm + 1) != as_text(session, warm + 1));
        }
    }
    assert!(seen > 0, "no work was lightened beside a warm-up");
}

/// A cycle plans sets at one's own rung: a line below it, and a test, ask what the session asks.
#[test]
fn a_line_below_the_own_rung_and_a_test_keep_what_is_written() {
    let gym = gym();
    let (mut below, mut tests) = (0, 0);
    let weeks = gym.library.cycles.values().flat_map(|c| c.weeks.iter().map(move |w| (c, w)));
    for (cycle, week) in weeks.filter(|(_, week)| week.kind != Some(WeekKind::Lighter)) {
        for id in &week.sessions {
            let mut session = gym.library.sessions[&id.value].clone();
            let under = Some(rungbook::finding::Placed::new(1, rungbook::finding::Span::default()));
            session.blocks.iter_mut().flat_map(|b| &mut b.items).step_by(2).for_each(|item| {
                item.below = item.below.clone().or(under.clone());
            });
            let in_week = in_week((cycle, week), &session);
            for (at, block) in session.blocks.iter().enumerate() {
                for item in &block.items {
                    let written = line_of(gym, &session, at, item);
                    if !written.tests && written.below == 0 {
                        continue;
                    }
                    let asked = line_of(gym, &in_week, at, item).asked;
                    assert_eq!(asked, written.asked, "{} block {at}", id.value);
                    let ladder = matches!(written.work, Work::Ladder(..));
                    tests += usize::from(written.tests);
                    below += usize::from(ladder && Some(at) != warm_up_block(&session));
                }
            }
        }
    }
    assert!(below > 3 && tests > 0, "{below} below, {tests} tests");
}

/// A week has seven days: the next one begins on the day after it.
#[test]
fn no_day_lies_between_two_weeks_of_a_session() {
    let gym = gym();
    let mut seen = 0;
    for cycle in gym.library.cycles.values() {
        for id in gym.library.sessions.keys() {
            for two in weeks_with(cycle, id).windows(2) {
                let ((one, _, to), (next, from, _)) = (two[0], two[1]);
                if one.week + 1 == next.week {
                    assert_eq!(to.later(1), from, "{id}, week {}", one.week);
                    seen += 1;
                }
            }
        }
    }
    assert!(seen > 3);
}

/// No line asks more repetitions, seconds or sets of any rung, and no clock runs longer.
fn assert_no_more(written: &Value, asked: &Value) {
    for (before, now) in
        written.as_array().expect("blocks").iter().zip(asked.as_array().expect("blocks"))
    {
        assert!(
            now["clock"]["total_s"].as_u64() <= before["clock"]["total_s"].as_u64(),
            "{}",
            now["name"]
        );
        let lines = before["items"]
            .as_array()
            .expect("lines")
            .iter()
            .zip(now["items"].as_array().expect("lines"));
        for (before, now) in lines {
            assert_eq!(
                (&before["ladder_id"], &before["movement_id"]),
                (&now["ladder_id"], &now["movement_id"])
            );
            let rungs = before["asked"]
                .as_array()
                .expect("rungs")
                .iter()
                .zip(now["asked"].as_array().expect("rungs"));
            for (before, now) in rungs.filter(|(before, _)| !before.is_null()) {
                assert!(now["to"].as_u64() <= before["to"].as_u64(), "{now} of {before}");
                assert!(now["from"].as_u64() >= before["from"].as_u64(), "{now} of {before}");
                assert!(now["sets"][1].as_u64() <= before["sets"][1].as_u64(), "{now} of {before}");
            }
        }
    }
}

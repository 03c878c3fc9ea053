//! Worked numbers of the trade. "Common practice, no source" where it says so.

use crate::laid::Laid;
use crate::starter::gym;
use rungbook::gym::Gym;
use rungbook::library::{SessionId, Unit};
use rungbook::plan::{Band, BlockPlan, Joint, WayPlan, session_plan};

/// The blocks of a session laid into the tiny library.
fn blocks(written: &str) -> Vec<BlockPlan> {
    let page = format!("```file sessions/clock.yaml\nname: Clock\nblocks:\n{written}```\n");
    let gym = Gym::open(Laid::on("tiny", &page).read());
    assert!(gym.library.findings.is_empty(), "{:?}", gym.library.findings);
    session_plan(&gym, &gym.library.sessions[&SessionId::from("clock")]).blocks
}

fn block(written: &str) -> BlockPlan {
    blocks(written).remove(0)
}

fn way(block: &BlockPlan, item: usize) -> &WayPlan {
    &block.items[item].ways[0]
}

/// Sets that fit a window: floor((W + rest) / (reps x s x sides + rest)); in 12 minutes with 8
/// repetitions and 90 s rest 7 two-sided, 5 a side (the trade's arithmetic; 3 s by ACSM 2009).
#[test]
fn seven_sets_fit_twelve_minutes_and_five_of_a_side() {
    let with = |movement: &str, dose: &str| {
        block(&format!(
            "  - name: Row\n    format: timed-sets\n    window: 12 min\n    items:\n      \
             - {{movement: {movement}, dose: {dose}, rest: 90 s}}\n"
        ))
    };
    let (both, side) = (with("strap-row", "3 x 8"), with("one-arm-row", "3 x 8"));
    assert_eq!(way(&both, 0).sets_that_fit, Some(7));
    assert_eq!(way(&side, 0).sets_that_fit, Some(5));
    // Of a range its top has to fit.
    assert_eq!(way(&with("one-arm-row", "3 x 1-8"), 0).sets_that_fit, Some(5));
    assert_eq!((way(&both, 0).set, way(&side, 0).set), (Band::exact(24), Band::exact(48)));
    assert_eq!((way(&side, 0).side, side.total), (Band::exact(24), Band::exact(720)));
}

/// Ten a side at 3 s is 60 s and does not fit an every-minute slot, which has room for about 40 s
/// of work (common practice, no source).
#[test]
fn ten_a_side_does_not_fit_a_minute() {
    let minutes = block(
        "  - name: Minutes\n    format: every-minute\n    window: 8 min\n    items:\n      \
         - {movement: one-arm-row, dose: {reps: 10, per-side: true}}\n      \
         - {movement: one-arm-row, dose: {reps: 6, per-side: true}}\n      \
         - {movement: strap-row, dose: {reps: 13}}\n      \
         - {movement: strap-row, dose: {reps: 14}}\n",
    );
    assert_eq!(way(&minutes, 0).set, Band::exact(60));
    let fits: Vec<bool> = (0..4).map(|item| way(&minutes, item).fits).collect();
    assert_eq!(fits, [false, true, true, false]);
    assert_eq!((minutes.total, minutes.items[0].sets.to), (Band::exact(480), 2));
    let starts: Vec<u32> = minutes.timeline.iter().map(|slot| slot.from_s).collect();
    assert_eq!(starts, [0, 60, 120, 180, 240, 300, 360, 420]);
}

/// Three windows of 90 s make a set of 4:30, and four sets 18:00 (common practice, no source).
#[test]
fn three_windows_of_ninety_seconds() {
    let with = |rounds: u32| {
        block(&format!(
            "  - name: Windows\n    format: intervals\n    rounds: {rounds}\n    work: 90 s\n    \
             rest: 0 s\n    items:\n      - {{ladder: row}}\n      - {{movement: towel-row}}\n      \
             - {{movement: strap-row}}\n"
        ))
    };
    assert_eq!(with(1).total.to_string(), "4:30");
    assert_eq!(with(4).total.to_string(), "18:00");
    assert_eq!(with(4).timeline.len(), 12);
}

/// Rest stands between intervals and not after the last one.
#[test]
fn nothing_follows_the_last_rest() {
    let three = block(
        "  - name: Three\n    format: intervals\n    rounds: 3\n    work: 40 s\n    rest: 20 s\n    \
         items: [{movement: towel-row}]\n",
    );
    assert_eq!((three.work, three.rest), (Band::exact(120), Band::exact(40)));
    assert_eq!(three.total.to_string(), "2:40");
}

/// Eight positions of 5 s, the two middle ones joined to one of 10 s, are 40 s a pass, and twice
/// that fits 90 s (common practice, no source).
#[test]
fn eight_positions_twice_fit_ninety_seconds() {
    let with = |rounds: u32| {
        let holds: String = [5, 5, 5, 10, 5, 5, 5]
            .map(|s| format!("      - {{movement: towel-row, dose: {{seconds: {s} s}}}}\n"))
            .concat();
        block(&format!(
            "  - name: Positions\n    format: holds\n    rounds: {rounds}\n    window: 90 s\n    \
             items:\n{holds}"
        ))
    };
    assert_eq!((with(1).total, with(2).total), (Band::exact(40), Band::exact(80)));
    assert!(with(2).items.iter().all(|item| item.ways.iter().all(|way| way.fits)));
    assert!(with(3).items.iter().any(|item| item.ways.iter().any(|way| !way.fits)));
}

/// A count from 20 a hand is 20+20, 19+19 and so on (common practice, no source): 210 a hand,
/// which at 3 s is 630 s a hand.
#[test]
fn a_count_down_from_twenty_a_hand() {
    let down = block(
        "  - name: Down\n    format: descending\n    from: 20\n    to: 1\n    items:\n      \
         - {movement: one-arm-row}\n",
    );
    assert_eq!(down.work, Band::exact(2 * 630));
    let said: Vec<&str> = down.timeline.iter().map(|slot| slot.what.as_str()).collect();
    assert_eq!(&said[..2], ["One-arm row, 20+20", "One-arm row, 19+19"]);
    assert_eq!((said.len(), said[19]), (20, "One-arm row, 1+1"));
}

/// 5-10 on the scaled rung, 5-8 on the full one and 5 a side on the one-sided one share one window
/// of 90 s (common practice, no source).
#[test]
fn three_options_share_a_window() {
    let shared = block(
        "  - name: Shared\n    format: intervals\n    work: 90 s\n    rest: 0 s\n    items:\n      \
         - options:\n          - {movement: strap-row, lean: 30 deg, dose: {reps: 5-10}}\n          \
         - {movement: strap-row, lean: 60 deg, dose: {reps: 5-8}}\n          \
         - {movement: one-arm-row, dose: {reps: 5, per-side: true}}\n",
    );
    let sets: Vec<Band> = shared.items[0].ways.iter().map(|way| way.set).collect();
    assert_eq!(sets, [Band::new(15, 30), Band::new(15, 24), Band::exact(30)]);
    assert!(shared.items[0].ways.iter().all(|way| way.fits));
}

/// Prone arm raises stay at 2.3 kg a hand or under (common practice, no source).
#[test]
fn prone_arm_raises_stay_light() {
    let raise = crate::starter::movement("prone-arm-raise");
    let weight = raise.setting("weight").expect("the weight is a setting");
    assert_eq!(weight.to.unit, Unit::Kilogram);
    assert!(weight.to.number() <= 2.3, "{}", weight.to);
}

/// As many rounds as possible: a band, from the slowest round to the fastest. A round is 10 to 20
/// repetitions at 3 s and a change of station each way, 10 to 15 s: 2 x 10 s + 30 s + 20 s = 70 s
/// at best, 2 x 15 s + 60 s + 20 s = 110 s at worst; in 10 minutes 5 to 8.
#[test]
fn rounds_to_expect_are_a_band() {
    let most = block(
        "  - name: Most\n    format: most-rounds\n    window: 10 min\n    items:\n      \
         - {movement: strap-row, dose: {reps: 10-20}}\n      \
         - {movement: towel-row, dose: {seconds: 20 s}}\n",
    );
    let rounds = most.rounds.expect("rounds");
    assert_eq!((rounds.from, rounds.to, most.total), (5, 8, Band::exact(600)));
}

/// A cap ends a block, and what cannot be done under it says so.
#[test]
fn a_cap_ends_the_block() {
    let capped = |cap: u32| {
        block(&format!(
            "  - name: Race\n    format: for-time\n    rounds: 3\n    cap: {cap} s\n    items:\n      \
             - {{movement: one-arm-row, dose: {{reps: 10}}}}\n"
        ))
    };
    assert_eq!((capped(180).total, way(&capped(180), 0).fits), (Band::exact(180), true));
    assert_eq!((capped(179).total, way(&capped(179), 0).fits), (Band::exact(179), false));
}

/// A rung whose own dose asks less does its own: lowering push-ups, 3-5 where others do 6-10. A
/// test counts what there is on every rung.
#[test]
fn the_lowering_rung_does_its_own_dose() {
    let lowering = |session: &str| -> Vec<String> {
        let plan = session_plan(gym(), &gym().library.sessions[&SessionId::from(session)]);
        let ways = plan.blocks.iter().flat_map(|block| &block.items).flat_map(|item| &item.ways);
        ways.filter(|way| way.movement.as_str() == "lowering-push-up")
            .filter_map(|way| way.amount.map(|amount| amount.to_string()))
            .collect()
    };
    // Warm-up, the main work, and the count down from six.
    assert_eq!(lowering("push-and-pull"), ["4", "3-5", "6"]);
    // Two tries, then the test.
    assert_eq!(lowering("test-day"), ["2", "1-20"]);
}

/// A line two rungs below each person's own means nobody's top two rungs.
#[test]
fn a_line_below_leaves_out_the_top_rungs() {
    let rungs = |below: &str| -> Vec<Option<usize>> {
        let written = format!(
            "  - name: Low\n    format: rounds\n    rounds: 1\n    items:\n      \
             - {{ladder: row{below}, dose: {{reps: 4}}}}\n"
        );
        block(&written).items[0].ways.iter().map(|way| way.rung).collect()
    };
    assert_eq!(rungs(""), [Some(0), Some(1), Some(2)]);
    assert_eq!(rungs(", below: 1"), [Some(0), Some(1)]);
    assert_eq!(rungs(", below: 2"), [Some(0)]);
}

/// What each person moves through at their own pace, and the rest after it.
#[test]
fn turns_follow_the_sets_and_their_rests() {
    let sets = block(
        "  - name: Sets\n    format: timed-sets\n    window: 8 min\n    items:\n      \
         - {movement: strap-row, dose: 2 x 8, rest: 90 s}\n",
    );
    let turns: Vec<(&str, u32)> =
        sets.turns.iter().map(|turn| (turn.what.as_str(), turn.rest_s)).collect();
    assert_eq!(turns, [("Strap row", 90), ("Strap row", 0)]);
    let minutes = block(
        "  - name: Minutes\n    format: every-minute\n    window: 2 min\n    items:\n      \
         - {movement: strap-row, dose: {reps: 8}}\n",
    );
    assert!(minutes.turns.is_empty());
}

/// What a session tells of itself: sets by pattern without the warm-up, joints, and the kit that
/// the class needs at once, the most of any block.
#[test]
fn a_session_counts_its_sets_joints_and_kit() {
    let page = "```file sessions/clock.yaml\nname: Clock\nblocks:\n  - {name: Warm-up, format: rounds, \
                rounds: 2, items: [{movement: one-arm-row, dose: {reps: 4}}]}\n  - {name: A, format: \
                rounds, rounds: 3, items: [{movement: strap-row, dose: {reps: 8}}, {movement: \
                strap-row, dose: {reps: 8}}]}\n  - {name: B, format: rounds, rounds: 2, items: \
                [{movement: strap-row, dose: {reps: 8}}, {movement: towel-row, dose: {seconds: 20 \
                s}}]}\n```\n";
    let gym = Gym::open(Laid::on("tiny", page).read());
    let plan = session_plan(&gym, &gym.library.sessions[&SessionId::from("clock")]);
    let sets: Vec<_> = plan.sets.iter().map(|(id, n)| (id.as_str(), n.from, n.to)).collect();
    // Two lines by three rounds and two by two; the warm-up counts for nothing.
    assert_eq!(sets, [("pull-horizontal", 10, 10)]);
    let kit: Vec<_> = plan.kit.iter().map(|(id, n)| (id.as_str(), *n)).collect();
    assert_eq!(kit, [("dumbbell", 1), ("straps", 2), ("towel", 1)]);
    assert!(plan.joints.contains(&Joint::Shoulder) && plan.joints.contains(&Joint::Elbow));
}

/// A slip of the pen makes no endless page.
#[test]
fn absurd_numbers_end() {
    let absurd = block(
        "  - name: Absurd\n    format: rounds\n    rounds: 100\n    items:\n      \
         - {movement: strap-row, dose: {reps: 1000}}\n",
    );
    assert!(absurd.timeline.len() <= 400 && absurd.total.most >= 100 * 1000 * 3);
    for beyond in ["rounds: 101", "rounds: 4000000000", "rounds: 0"] {
        let page = format!(
            "```file sessions/clock.yaml\nname: Clock\nblocks: [{{name: A, format: rounds, {beyond}, \
             items: [{{movement: strap-row}}]}}]\n```\n"
        );
        let said = Laid::on("tiny", &page).read().findings;
        assert!(said.iter().any(|finding| finding.code.0 == "bad-quantity"), "{beyond}: {said:?}");
    }
}

#[test]
fn every_starter_session_fits_its_hour_and_every_option_its_time() {
    for (id, session) in &gym().library.sessions {
        let plan = session_plan(gym(), session);
        assert!(plan.length.is_some(), "{id} says no length");
        assert!(plan.fits, "{id} takes {}", plan.total);
        for item in plan.blocks.iter().flat_map(|block| &block.items) {
            assert!(!item.ways.is_empty(), "{id}: {}", item.name);
            for way in &item.ways {
                assert!(way.fits, "{id}: {}: {}", way.said, way.why);
            }
        }
        let warm_up = plan.warm_up.unwrap_or_else(|| panic!("{id} has no warm-up"));
        assert!(warm_up.missed.is_empty(), "{id}: {:?} stay cold", warm_up.missed);
        // Two sessions are for legs and balance alone.
        let legs_alone = ["legs-in-a-small-room", "steady-on-your-feet"].contains(&id.as_str());
        let arms = !legs_alone;
        assert_eq!(plan.joints.contains(&Joint::Shoulder), arms, "{id}");
    }
}

/// A warm-up takes 8 to 12 minutes (common practice, no source).
#[test]
fn starter_warm_ups_take_eight_to_twelve_minutes() {
    for (id, session) in &gym().library.sessions {
        let plan = session_plan(gym(), session);
        let warm_up = plan.warm_up.unwrap_or_else(|| panic!("{id} has no warm-up"));
        let total = plan.blocks[warm_up.block].total;
        assert!(total.least >= 8 * 60 && total.most <= 12 * 60, "{id}: {total}");
    }
}

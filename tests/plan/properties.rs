//! Properties of any block: random movements, doses and formats.

use proptest::prelude::*;
use rungbook::finding::{Placed, Span};
use rungbook::gym::Gym;
use rungbook::library::{
    Amount, Block, Count, Dose, Format, Item, ItemWork, Library, MovementId, Quantity, Session,
    SessionId, Sides, Unit,
};
use rungbook::plan::{BlockPlan, SlotKind, block_plan, session_plan};

const FORMATS: [Format; 8] = [
    Format::Rounds,
    Format::TimedSets,
    Format::MostRounds,
    Format::EveryMinute,
    Format::Intervals,
    Format::Descending,
    Format::ForTime,
    Format::Holds,
];

/// Two movements that differ in their sides alone.
fn gym() -> Gym {
    let mut library = Library::default();
    let starter = crate::starter::movement("strap-row");
    for (id, sides) in [("both", Sides::Together), ("side", Sides::Each)] {
        let mut movement = starter.clone();
        movement.sides = sides;
        movement.id = MovementId::from(id);
        library.movements.insert(movement.id.clone(), movement);
    }
    Gym { library, ..Gym::default() }
}

fn seconds(number: u32) -> Option<Quantity> {
    Some(Quantity::new(f64::from(number), Unit::Second))
}

fn here<T>(value: T) -> Placed<T> {
    Placed::new(value, Span::default())
}

fn item(each: bool, reps: Count, sets: Count, rest: u32) -> Item {
    let id = MovementId::from(if each { "side" } else { "both" });
    let dose = Dose {
        sets: Some(sets),
        amount: Some(here(Amount::Reps(reps))),
        rest: seconds(rest),
        per_side: None,
    };
    let work = ItemWork::Movement(here(id), Vec::new());
    Item { work, below: None, dose: Some(dose), note: None, span: Span::default() }
}

fn counts(most: u32) -> impl Strategy<Value = Count> {
    (1..=most, 0..=5_u32).prop_map(|(from, more)| Count { from, to: from + more })
}

fn items() -> impl Strategy<Value = Vec<Item>> {
    let one = (any::<bool>(), counts(20), counts(6), 0..=180_u32);
    let one = one.prop_map(|(each, reps, sets, rest)| item(each, reps, sets, rest));
    prop::collection::vec(one, 1..5)
}

prop_compose! {
    fn block()(
        format in prop::sample::select(FORMATS.as_slice()),
        items in items(),
        rounds in counts(5),
        window in 1..=30_u32,
        (work, rest) in (10..=90_u32, 0..=60_u32),
        (from, to) in (1..=12_u32, 1..=12_u32),
        capped in any::<bool>(),
    ) -> Block {
        let windowed = matches!(format, Format::TimedSets | Format::MostRounds | Format::EveryMinute);
        Block {
            name: here("Block".to_string()),
            purpose: None,
            format: Some(here(format)),
            spread: None,
            rounds: Some(rounds),
            window: if windowed { seconds(window * 60) } else { None },
            work: seconds(work),
            rest: seconds(rest),
            from: Some(from),
            to: Some(to),
            cap: if capped && !windowed { seconds(window * 60) } else { None },
            items,
        }
    }
}

fn session(blocks: Vec<Block>) -> Session {
    Session {
        id: SessionId::from("any"),
        file: Span::default(),
        name: here("Any".to_string()),
        focus: None,
        length: None,
        about: None,
        written: None,
        blocks,
        sources: Vec::new(),
        in_week: None,
    }
}

fn fitting(plan: &BlockPlan) -> Vec<Option<u32>> {
    plan.items.iter().map(|item| item.ways[0].sets_that_fit).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_session_is_its_blocks_and_what_is_between_them(blocks in prop::collection::vec(block(), 1..6)) {
        let (gym, session) = (gym(), session(blocks));
        let plan = session_plan(&gym, &session);
        let alone: Vec<_> = session.blocks.iter().map(|b| block_plan(&gym, b).total).collect();
        let (least, most) = alone.iter().fold((0, 0), |(l, m), t| (l + t.least, m + t.most));
        let changes = session.blocks.len() as u32 - 1;
        prop_assert_eq!(plan.total.least, least + 30 * changes);
        prop_assert_eq!(plan.total.most, most + 60 * changes);
    }

    #[test]
    fn the_clock_has_no_gap_and_ends_with_the_block(block in block()) {
        let plan = block_plan(&gym(), &block);
        let mut at = 0;
        for slot in &plan.timeline {
            prop_assert_eq!(slot.from_s, at);
            prop_assert!(slot.to_s > slot.from_s);
            at = slot.to_s;
        }
        prop_assert_eq!(at, plan.total.most);
        prop_assert!(plan.timeline.first().is_none_or(|slot| slot.kind == SlotKind::Work));
        prop_assert!(plan.total.least <= plan.total.most);
    }

    #[test]
    fn a_side_at_a_time_never_takes_less(block in block(), at in 0..4_usize) {
        let at = at % block.items.len();
        let done = |id: &str| {
            let mut block = block.clone();
            block.items[at].work = ItemWork::Movement(here(MovementId::from(id)), Vec::new());
            block_plan(&gym(), &block)
        };
        let (both, side) = (done("both"), done("side"));
        prop_assert!(side.total.least >= both.total.least && side.total.most >= both.total.most);
        let (one, other) = (&both.items[at].ways[0], &side.items[at].ways[0]);
        prop_assert_eq!(other.set.most, 2 * one.set.most);
        prop_assert_eq!(other.side, one.set);
        prop_assert!(one.fits || !other.fits);
        prop_assert!(both.rounds.map(|r| r.to) >= side.rounds.map(|r| r.to));
    }

    #[test]
    fn more_window_never_means_fewer(block in block(), more in 1..=600_u32) {
        let mut wider = block.clone();
        let grown = |time: Option<Quantity>| time.and_then(|t| seconds(t.number() as u32 + more));
        (wider.window, wider.cap) = (grown(block.window), grown(block.cap));
        let (before, now) = (block_plan(&gym(), &block), block_plan(&gym(), &wider));
        prop_assert!(fitting(&now) >= fitting(&before));
        for (one, other) in before.items.iter().zip(&now.items) {
            prop_assert!(!one.ways[0].fits || other.ways[0].fits);
        }
        prop_assert!(now.rounds.map(|r| r.from) >= before.rounds.map(|r| r.from));
    }
}

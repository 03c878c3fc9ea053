//! Facts for the check room: what the arithmetic of sessions and cycles shows to be wrong.
//! Never worded as a finding; each rule of `check` does that.

use super::balance::{WeekBalance, week_balance};
use super::band::Band;
use super::block::block_plan;
use super::day::{Day, is_weekday, training_days};
use super::joints::Joint;
use super::pace::{FRESH_H, REPETITION_S, STEADY_SHARE, WAKING_REPS};
use super::session::{is_mobility, session_plan};
use super::trials::trials;
use super::ways::{Way, kit_needs, ways};
use crate::finding::Span;
use crate::gym::Gym;
use crate::library::{
    Amount, Cycle, CycleId, CycleWeek, Item, ItemWork, KitId, LadderId, MuscleId, Session,
    SessionId, TraitId, WeekKind,
};
use crate::swap::{Answer, Person, RungOf, swaps};
use std::collections::{BTreeMap, BTreeSet};

/// A way to do a line that does not fit its time.
#[derive(Debug, Clone)]
pub struct DoesNotFit {
    /// The line.
    pub span: Span,
    /// The movement at its settings.
    pub said: String,
    /// How many ways of the line do not fit; this is the longest.
    pub ways: usize,
    /// Why, in words without a full stop.
    pub why: String,
}

/// Every line with a way that does not fit: its longest.
pub fn that_do_not_fit(gym: &Gym) -> Vec<DoesNotFit> {
    let blocks = gym.library.sessions.values().flat_map(|session| &session.blocks);
    let items = blocks.flat_map(|block| block_plan(gym, block).items);
    items
        .filter_map(|item| {
            let late: Vec<_> = item.ways.iter().filter(|way| !way.fits).collect();
            let longest = late.iter().max_by_key(|way| way.set.most)?;
            let (said, why) = (longest.said.clone(), longest.why.clone());
            Some(DoesNotFit { span: item.span, said, ways: late.len(), why })
        })
        .collect()
}

/// A session whose blocks may take longer than it lasts.
#[derive(Debug, Clone)]
pub struct TooLong {
    /// The session.
    pub session: SessionId,
    /// Where its name is written.
    pub span: Span,
    /// What its blocks take, with what is between them.
    pub total: Band,
    /// What it should take, in seconds.
    pub length: u32,
}

/// Sessions that may not fit their length.
pub fn too_long(gym: &Gym) -> Vec<TooLong> {
    let sessions = gym.library.sessions.values().map(|s| (s, session_plan(gym, s)));
    sessions
        .filter(|(_, plan)| !plan.fits)
        .map(|(session, plan)| TooLong {
            session: session.id.clone(),
            span: session.name.span,
            total: plan.total,
            length: plan.length.unwrap_or(0),
        })
        .collect()
}

/// A warm-up that misses joints which the work uses.
#[derive(Debug, Clone)]
pub struct ColdJoints {
    /// Where the warm-up's name is written.
    pub span: Span,
    /// The joints.
    pub joints: BTreeSet<Joint>,
}

/// Warm-ups that miss a joint.
pub fn cold_joints(gym: &Gym) -> Vec<ColdJoints> {
    let sessions = gym.library.sessions.values();
    let found = sessions.filter_map(|session| {
        let warm_up = session_plan(gym, session).warm_up?;
        let span = session.blocks.get(warm_up.block)?.name.span;
        (!warm_up.missed.is_empty()).then_some(ColdJoints { span, joints: warm_up.missed })
    });
    found.collect()
}

/// Something on a test day that tires what a later block tests.
#[derive(Debug, Clone)]
pub struct TiresTheTest {
    /// The line that tires.
    pub span: Span,
    /// Its movement.
    pub said: String,
    /// Which prime movers of the test it works.
    pub muscles: BTreeSet<MuscleId>,
    /// The ladder tested.
    pub ladder: LadderId,
    /// Where the block of the test is named.
    pub test: Span,
}

/// Lines before a test that tire what it tests, of every session that tests.
pub fn that_tire_a_test(gym: &Gym) -> Vec<TiresTheTest> {
    let sessions = gym.library.sessions.values();
    sessions.flat_map(|session| tiring(gym, session)).collect()
}

fn tiring(gym: &Gym, session: &Session) -> Vec<TiresTheTest> {
    let mut found = Vec::new();
    for (ladder, at) in trials(gym, session) {
        let tested = primes_of(gym, ladder);
        for item in session.blocks[..at].iter().flat_map(|block| &block.items) {
            let ways = ways(gym, item);
            let Some(way) = ways.iter().find(|way| tires(way, &tested)) else { continue };
            found.push(TiresTheTest {
                span: item.span,
                said: way.said(),
                muscles: primes(way).intersection(&tested).cloned().collect(),
                ladder: ladder.clone(),
                test: session.blocks[at].name.span,
            });
        }
    }
    found
}

fn primes(way: &Way<'_>) -> BTreeSet<MuscleId> {
    way.movement.muscles.prime.iter().map(|muscle| muscle.value.clone()).collect()
}

fn primes_of(gym: &Gym, ladder: &LadderId) -> BTreeSet<MuscleId> {
    let rungs = gym.library.ladders.get(ladder).into_iter().flat_map(|ladder| &ladder.rungs);
    let movements = rungs.filter_map(|rung| gym.library.movements.get(&rung.movement.value));
    let muscles = movements.flat_map(|movement| &movement.muscles.prime);
    muscles.map(|muscle| muscle.value.clone()).collect()
}

fn tires(way: &Way<'_>, tested: &BTreeSet<MuscleId>) -> bool {
    let much = match way.amount {
        Some(Amount::Reps(n) | Amount::Contacts(n)) => n.to > WAKING_REPS,
        Some(Amount::Seconds(n)) => n.to > WAKING_REPS * REPETITION_S,
        Some(Amount::Metres(_)) | None => false,
    };
    much && !is_mobility(way.movement) && !primes(way).is_disjoint(tested)
}

/// A week of a cycle whose pulling sets fall behind its pushing sets.
#[derive(Debug, Clone)]
pub struct PullsLess {
    /// The cycle.
    pub cycle: CycleId,
    /// Where the week's number is written.
    pub span: Span,
    /// Its sets.
    pub balance: WeekBalance,
}

/// Weeks that push more than they pull.
pub fn weeks_that_pull_less(gym: &Gym) -> Vec<PullsLess> {
    let weeks = weeks(gym).filter_map(|(cycle, week)| {
        let balance = week_balance(gym, cycle, week.week)?;
        let span = week.span;
        balance.pulls_less().then(|| PullsLess { cycle: cycle.id.clone(), span, balance })
    });
    weeks.collect()
}

fn weeks(gym: &Gym) -> impl Iterator<Item = (&Cycle, &CycleWeek)> {
    let cycles = gym.library.cycles.values();
    cycles.flat_map(|cycle| cycle.weeks.iter().map(move |week| (cycle, week)))
}

/// A week of building with many more sets than the week of building before it.
#[derive(Debug, Clone)]
pub struct SetsJump {
    /// The cycle.
    pub cycle: CycleId,
    /// Where the week's number is written.
    pub span: Span,
    /// Sets of the week before, half-way between fewest and most.
    pub before: f64,
    /// Sets of this week, likewise.
    pub now: f64,
}

/// Jumps in weekly sets. A week of test, and the return from a lighter week, are no jump.
pub fn jumps_in_sets(gym: &Gym) -> Vec<SetsJump> {
    let mut found = Vec::new();
    for cycle in gym.library.cycles.values() {
        for pair in cycle.weeks.windows(2) {
            let builds = pair.iter().all(|week| week.kind == Some(WeekKind::Build));
            let sets =
                |week: &CycleWeek| week_balance(gym, cycle, week.week).map(|b| b.all.middle());
            let (Some(before), Some(now)) = (sets(&pair[0]), sets(&pair[1])) else { continue };
            if builds && before > 0.0 && now * 100.0 > before * f64::from(STEADY_SHARE) {
                found.push(SetsJump { cycle: cycle.id.clone(), span: pair[1].span, before, now });
            }
        }
    }
    found
}

/// A line that leaves somebody with nothing: every way to do it has a trait, and so has every swap.
#[derive(Debug, Clone)]
pub struct NothingLeft {
    /// The line.
    pub span: Span,
    /// The trait.
    pub limit: TraitId,
}

/// Lines of which a person who avoids one trait can do nothing, with everything in the hall at
/// hand. A line that offers options, or a ladder, is asked whether one of them or one of its rungs
/// is free of it first.
pub fn nothing_left(gym: &Gym) -> Vec<NothingLeft> {
    let blocks = gym.library.sessions.values().flat_map(|session| &session.blocks);
    let items = blocks.flat_map(|block| &block.items);
    let mut answered: BTreeMap<(String, TraitId), bool> = BTreeMap::new();
    let mut found = Vec::new();
    for item in items.filter(|item| matches!(item.work, ItemWork::Options(_) | ItemWork::Ladder(_)))
    {
        let ways = ways(gym, item);
        for limit in shared_traits(&ways) {
            let none = ways.iter().all(|way| {
                let key = (way.movement.id.to_string(), limit.clone());
                *answered.entry(key).or_insert_with(|| nobody_left(gym, way, &limit))
            });
            if none {
                found.push(NothingLeft { span: item.span, limit });
            }
        }
    }
    found
}

fn shared_traits(ways: &[Way<'_>]) -> Vec<TraitId> {
    let Some((first, others)) = ways.split_first() else { return Vec::new() };
    let had = first.movement.traits_at(&[]).into_iter().map(|(id, _)| &id.value);
    had.filter(|id| others.iter().all(|way| way.movement.trait_level(id) > 0)).cloned().collect()
}

fn nobody_left(gym: &Gym, way: &Way<'_>, limit: &TraitId) -> bool {
    let person = Person { limits: BTreeMap::from([(limit.clone(), 1)]), ..Person::default() };
    matches!(
        swaps(gym, &RungOf::usual(&way.movement.id), &person, None),
        Answer::AskYourCoach { .. }
    )
}

/// Kit that a line needs and the hall lacks.
#[derive(Debug, Clone)]
pub struct KitLacking {
    /// The line.
    pub span: Span,
    /// The movement that needs it.
    pub said: String,
    /// Any of these would do.
    pub any_of: Vec<KitId>,
    /// How many the lines of the block need at once and how many there are, where there are some.
    pub too_few: Option<(u32, u32)>,
}

/// Kit that sessions need and the hall lacks, where the club counts what its hall has. How many
/// people share it is not known without a roster.
pub fn kit_lacking(gym: &Gym) -> Vec<KitLacking> {
    let hall: BTreeMap<&KitId, u32> =
        gym.library.club.hall_kit.iter().map(|(id, count)| (&id.value, *count)).collect();
    if hall.is_empty() {
        return Vec::new();
    }
    let mut found = Vec::new();
    for block in gym.library.sessions.values().flat_map(|session| &session.blocks) {
        found.extend(block.items.iter().filter_map(|item| lacking(gym, item, &hall)));
        for (kit, lines) in block_plan(gym, block).kit {
            let there = hall.get(&kit).copied().unwrap_or(0);
            if there > 0 && lines > there {
                found.push(KitLacking {
                    span: block.name.span,
                    said: block.name.value.clone(),
                    any_of: vec![kit],
                    too_few: Some((lines, there)),
                });
            }
        }
    }
    found
}

fn lacking(gym: &Gym, item: &Item, hall: &BTreeMap<&KitId, u32>) -> Option<KitLacking> {
    let has = |id: &KitId| hall.get(id).is_some_and(|count| *count > 0);
    ways(gym, item).iter().find_map(|way| {
        let needs = kit_needs(gym, way.movement);
        let need = needs.into_iter().find(|need| !need.0.iter().any(|id| has(&id.value)))?;
        let any_of = need.0.iter().map(|id| id.value.clone()).collect();
        Some(KitLacking { span: item.span, said: way.said(), any_of, too_few: None })
    })
}

/// A word that should be a day and is none.
#[derive(Debug, Clone)]
pub struct NoDay {
    /// Where it is written.
    pub span: Span,
    /// The word.
    pub word: String,
    /// Whether a day of the week was wanted, and not a date.
    pub of_the_week: bool,
}

/// Days of cycles that are no day of the week, and days of sessions and first days of cycles that
/// no calendar has.
pub fn that_are_no_days(gym: &Gym) -> Vec<NoDay> {
    let days = gym.library.cycles.values().flat_map(|cycle| &cycle.days);
    let days = days.filter(|day| !is_weekday(&day.value)).map(|day| (day, true));
    let written = gym.library.sessions.values().filter_map(|session| session.written.as_ref());
    let starts = gym.library.cycles.values().filter_map(|cycle| cycle.starts.as_ref());
    let dates =
        starts.chain(written).filter(|day| Day::read(&day.value).is_none()).map(|day| (day, false));
    days.chain(dates)
        .map(|(day, of_the_week)| NoDay { span: day.span, word: day.value.clone(), of_the_week })
        .collect()
}

/// A test too soon after work.
#[derive(Debug, Clone)]
pub struct TestTooSoon {
    /// The cycle.
    pub cycle: CycleId,
    /// Where the test's session is named in its week.
    pub span: Span,
    /// The session before it.
    pub after: SessionId,
    /// Hours between the two days.
    pub hours: u32,
}

/// Tests and retests with hard work on the day before, by the days that the cycle names.
pub fn tests_too_soon(gym: &Gym) -> Vec<TestTooSoon> {
    let cycles = gym.library.cycles.values().filter(|cycle| !cycle.days.is_empty());
    cycles.flat_map(|cycle| too_soon(gym, cycle)).collect()
}

fn too_soon(gym: &Gym, cycle: &Cycle) -> Vec<TestTooSoon> {
    let days = training_days(cycle);
    let mut found = Vec::new();
    for pair in days.windows(2) {
        let ((_, _, before, after), (week, place, day, id)) = (pair[0], pair[1]);
        let Some(week) = cycle.weeks.iter().find(|written| written.week == week) else { continue };
        let tests = matches!(week.kind, Some(WeekKind::Test | WeekKind::Retest));
        let session = gym.library.sessions.get(id);
        let hours = u32::try_from((day - before).max(0) * 24).unwrap_or(u32::MAX);
        let is_test = session.is_some_and(|session| !trials(gym, session).is_empty());
        if tests && is_test && hours < FRESH_H && is_hard(gym, after) {
            let span = week.sessions[place].span;
            let cycle = cycle.id.clone();
            found.push(TestTooSoon { cycle, span, after: after.clone(), hours });
        }
    }
    found
}

/// Whether a session works anything harder than range.
fn is_hard(gym: &Gym, session: &SessionId) -> bool {
    let session = gym.library.sessions.get(session);
    session.is_some_and(|session| !session_plan(gym, session).joints.is_empty())
}

//! The board: what must hold of every class that is dealt out. Limits hold, nothing is used beyond its
//! count at any second, at home people use what they have, and the order of a roster changes nothing.
//! Never asks the filter itself whether a limit holds: traits are read from the entries again.

mod dice;
#[path = "board/clocked.rs"]
mod clocked;
#[path = "board/counted.rs"]
mod counted;
#[path = "board/drawn.rs"]
mod drawn;
#[path = "board/hands.rs"]
mod hands;
#[path = "board/hard.rs"]
mod hard;
#[path = "board/outside.rs"]
mod outside;
#[path = "board/parts.rs"]
mod parts;
#[path = "board/shown.rs"]
mod shown;
#[path = "board/standing.rs"]
mod standing;

use dice::Dice;
use drawn::{GYM, TODAY, drawn, limits_of, roster, session_of};
use rungbook::board::puzzle::{Offered, Outcome, Puzzle, Resource, Set};
use rungbook::board::{self, Board, Class, Hall, Offer, View};
use rungbook::finding::Sources;
use rungbook::library::reader::roster as roster_reader;
use rungbook::library::{
    Item, ItemWork, KitId, KitKind, Member, Roster, Session, SessionId, Spread, TraitId,
};
use rungbook::own::Kind;
use rungbook::plan::Day;
use rungbook::swap::{RungOf, changes_of, needs_at, over, remaining, traits_of};
use std::collections::{BTreeMap, BTreeSet};

fn dealt(session: &Session, roster: &Roster) -> Option<Board> {
    let people = board::class(&GYM, roster, Day::read(TODAY));
    board::board(Class::of(&GYM, session, people)).ok()
}

/// Every choice of a board: block, line, person.
fn choices(board: &Board) -> Vec<(usize, usize, usize)> {
    let blocks = board.taken.iter().enumerate();
    blocks
        .flat_map(|(block, lines)| {
            lines.iter().enumerate().flat_map(move |(line, people)| {
                (0..people.len()).map(move |who| (block, line, who))
            })
        })
        .collect()
}

/// The rung that an offer orders, read from what it says.
fn ordered(session: &Session, (block, line): (usize, usize), offer: &Offer) -> RungOf {
    if let Some((ladder, rung)) = &offer.own.rung {
        return RungOf::on(&GYM, ladder, *rung as usize - 1).expect("a rung of the ladder");
    }
    let item = &session.blocks[block].items[line];
    let items = match &item.work {
        ItemWork::Options(options) => options.iter().collect(),
        _ => vec![item],
    };
    let rung = |item: &Item| match &item.work {
        ItemWork::Movement(id, settings) if id.value == offer.own.movement => {
            let mut rung = RungOf::usual(&id.value);
            rung.key.settings =
                settings.iter().map(|(name, at)| (name.value.clone(), at.value)).collect();
            rung.key.settings.sort();
            Some(rung)
        }
        _ => None,
    };
    let rungs: Vec<RungOf> =
        items.into_iter().filter_map(rung).filter(|_| offer.own.kind != Kind::Swap).collect();
    // Of two options of one movement the one whose setting is said.
    let said = rungs.iter().find(|rung| rung.said() == offer.own.setting);
    said.or(rungs.first()).cloned().unwrap_or_else(|| RungOf::usual(&offer.own.movement))
}

/// What is wrong with one choice for somebody's limits and kit; nothing where all holds.
fn wrong(session: &Session, member: &Member, at: (usize, usize), offer: &Offer) -> Option<String> {
    wrong_with(session, (member, &limits_of(member)), at, offer)
}

/// The same for limits that have been added to since.
fn wrong_with(
    session: &Session,
    (member, limits): (&Member, &BTreeMap<TraitId, u8>),
    at: (usize, usize),
    offer: &Offer,
) -> Option<String> {
    if offer.own.kind == Kind::Ask {
        return None;
    }
    let movement = &GYM.library.movements[&offer.own.movement];
    let rung = ordered(session, at, offer);
    let said = |how: &str| offer.own.change.contains(how.trim_end_matches('.'));
    let made: Vec<_> = changes_of(&GYM, movement)
        .into_iter()
        .filter(|change| !offer.own.change.is_empty() && said(change.how()))
        .collect();
    let left = remaining(&traits_of(movement, &rung), &made);
    let who = &member.name.value;
    if over(&left, limits) {
        return Some(format!("{who}: {} has {left:?}", offer.own.movement));
    }
    if !member.coming.at_home() {
        return None;
    }
    let own: BTreeSet<&KitId> = member.kit.iter().flatten().map(|id| &id.value).collect();
    let anywhere =
        |id: &KitId| GYM.library.words.kit.get(id).is_some_and(|kit| kit.kind == KitKind::Anywhere);
    let changes = made.iter().flat_map(|change| change.kit().iter().cloned());
    let unmet = needs_at(movement, &rung)
        .into_iter()
        .chain(changes)
        .find(|need| !need.0.iter().any(|id| own.contains(&id.value) || anywhere(&id.value)));
    unmet.map(|need| format!("{who} at home: {} needs {need:?}", offer.own.movement))
}

/// The class of a number: some session of the starter library, and a drawn roster.
fn class_of(seed: u64, people: usize) -> (Session, Roster) {
    let mut dice = Dice(seed + 1);
    let text = drawn(&mut dice, people);
    (session_of(&mut dice), roster(&text))
}

#[test]
fn nobody_is_given_what_they_leave_out_nor_kit_that_they_lack() {
    let (mut given, mut limited, mut home) = (0, 0, 0);
    for seed in 0..24 {
        let (session, roster) = class_of(seed, 8);
        let Some(board) = dealt(&session, &roster) else { continue };
        for (block, line, who) in choices(&board) {
            let name = &board.class.people[who].name;
            let member = roster.member(name).expect("a member");
            let found = wrong(&session, member, (block, line), board.offer(block, line, who));
            assert_eq!(found, None, "seed {seed}, {}, block {block} line {line}", session.id);
            given += 1;
            limited += usize::from(!limits_of(member).is_empty());
            home += usize::from(member.coming.at_home());
        }
    }
    // Otherwise the test says nothing.
    assert!(given > 1000 && limited > 300 && home > 300, "{given} {limited} {home}");
}

/// What is in use of each thing while everybody does some line of theirs.
fn in_use(
    board: &Board,
    block: usize,
    line_of: impl Fn(usize) -> Option<usize>,
) -> BTreeMap<KitId, u32> {
    let mut used = BTreeMap::new();
    for who in 0..board.class.people.len() {
        let Some(line) = line_of(who).filter(|_| !board.class.people[who].at_home) else {
            continue;
        };
        for id in &board.offer(block, line, who).kit {
            *used.entry(id.clone()).or_insert(0) += 1;
        }
    }
    used
}

fn no_more_than_there_is(used: &BTreeMap<KitId, u32>, place: &str) {
    let hall = &GYM.library.club.hall_kit;
    for (id, n) in used {
        let count =
            hall.iter().find(|(known, _)| known.value == *id).map_or(0, |(_, count)| *count);
        assert!(*n <= count, "{place}: {n} of {id}, and there are {count}");
    }
}

#[test]
fn no_thing_is_used_beyond_its_count_at_any_second() {
    let mut scarce = 0;
    for seed in 100..120 {
        let (mut session, roster) = class_of(seed, 12);
        let mut dice = Dice(seed);
        for block in &mut session.blocks {
            block.spread = [None, Some(Spread::Halves), Some(Spread::Stations)][dice.roll(3)];
        }
        let Some(board) = dealt(&session, &roster) else { continue };
        for (block, rota) in board.rotas.iter().enumerate() {
            let place = format!("seed {seed}, {}, block {block}", session.id);
            let end = rota.stretches.last().map_or(0, |last| last.to_s);
            for second in 0..end {
                let used = in_use(&board, block, |who| rota.doing(who, second));
                no_more_than_there_is(&used, &format!("{place}, second {second}"));
                scarce += usize::from(!used.is_empty());
            }
            // Where each moves on by themselves any mixture of lines may come about.
            for _ in 0..if end == 0 { 200 } else { 0 } {
                let at: Vec<usize> =
                    (0..board.class.people.len()).map(|_| dice.roll(rota.lines.max(1))).collect();
                let used = in_use(&board, block, |who| Some(at[who]).filter(|_| rota.lines > 0));
                no_more_than_there_is(&used, &place);
            }
        }
    }
    assert!(scarce > 10_000, "nothing was shared: {scarce}");
}

#[test]
fn everybody_is_at_every_line_once_a_round() {
    for spread in [Spread::Together, Spread::Halves, Spread::Stations] {
        let (mut session, roster) = class_of(7, 9);
        session.blocks.iter_mut().for_each(|block| block.spread = Some(spread));
        let Some(board) = dealt(&session, &roster) else { continue };
        for rota in &board.rotas {
            for group in 0..rota.groups.len() {
                let lines = rota.stretches.iter().filter_map(|stretch| stretch.lines[group]);
                let been: BTreeSet<usize> = lines.collect();
                let all = rota.stretches.is_empty() || been.len() == rota.lines;
                assert!(all, "{spread:?}: group {group} has been at {been:?} of {}", rota.lines);
            }
        }
    }
}

#[test]
fn the_order_of_the_roster_changes_nothing() {
    for seed in 200..206 {
        let (session, mut roster) = class_of(seed, 8);
        let text = |roster: &Roster| {
            dealt(&session, roster).map(|board| {
                let view = View::of(&GYM, &session, &board, None);
                board::as_text(&GYM, (&board, &view), true)
            })
        };
        let before = text(&roster);
        roster.members.reverse();
        assert_eq!(before, text(&roster), "seed {seed}");
    }
}

/// How good a board is, where that is certain.
fn worth(session: &Session, roster: &Roster, hall: impl Fn(Hall) -> Hall) -> Option<(u32, u32)> {
    let people = board::class(&GYM, roster, Day::read(TODAY));
    let here = people.iter().filter(|person| !person.at_home).count();
    let hall = hall(Hall::of(&GYM, here));
    let board = board::board(Class::with_hall(&GYM, session, people, hall)).ok()?;
    board.solved.is_best().then_some((board.solved.worst, board.solved.sum))
}

/// A session of which each block says how it is gone through: what the board would choose is not the
/// question here.
fn settled(mut session: Session, dice: &mut Dice) -> Session {
    for block in &mut session.blocks {
        block.spread = Some([Spread::Together, Spread::Halves][dice.roll(2)]);
    }
    session
}

#[test]
fn one_thing_more_or_one_limit_fewer_never_makes_the_best_worse() {
    let (mut things, mut limits, mut better) = (0, 0, 0);
    for seed in 300..330 {
        let mut dice = Dice(seed);
        let (session, roster) = class_of(seed, 7);
        let session = settled(session, &mut dice);
        let Some(now) = worth(&session, &roster, |hall| hall) else { continue };
        let hall = &GYM.library.club.hall_kit;
        let (id, count) = &hall[dice.roll(hall.len())];
        if let Some(then) = worth(&session, &roster, |hall| hall.with(&id.value, count + 1)) {
            assert!(then <= now, "seed {seed}: one {} more: {now:?} to {then:?}", id.value);
            things += 1;
            better += usize::from(then < now);
        }
        let mut fewer = roster.clone();
        let limited = fewer.members.iter_mut().find(|member| !member.limits.is_empty());
        let Some(member) = limited.filter(|member| !member.coming.at_home()) else { continue };
        let (gone, _) = member.limits.remove(0);
        if let Some(then) = worth(&session, &fewer, |hall| hall) {
            assert!(then <= now, "seed {seed}: without {}: {now:?} to {then:?}", gone.value);
            limits += 1;
            better += usize::from(then < now);
        }
    }
    assert!(things > 15 && limits > 5 && better > 0, "{things} {limits} {better}");
}

fn demo() -> Roster {
    let text = include_str!("board/roster.yaml");
    let mut sources = Sources::default();
    let file = sources.add("roster.yaml", text);
    let (read, findings) = roster_reader::read(file, &sources);
    assert!(findings.is_empty(), "{findings:?}");
    read.roster
}

#[test]
fn fourteen_birds_share_four_pairs_of_straps() {
    let session = &GYM.library.sessions[&SessionId::from("push-and-pull")];
    let birds = demo();
    assert_eq!(birds.members.len(), 14);
    assert_eq!(birds.members.iter().filter(|bird| bird.coming.at_home()).count(), 7);
    let people = board::class(&GYM, &birds, Day::read(TODAY));
    // Nobody sharing: with the kit of the hall alone not everybody can do their own at once.
    let mut together = session.clone();
    together.blocks.iter_mut().for_each(|block| block.spread = Some(Spread::Together));
    let crowded = board::board(Class::of(&GYM, &together, people.clone()));
    let own = |board: &Board| {
        let class = &board.class;
        let all = choices(board).into_iter().filter(|(_, _, who)| !class.people[*who].at_home);
        all.map(|(b, l, w)| class.blocks[b].offers[l][w][0].misfit.total()).sum::<u32>()
    };
    assert!(crowded.as_ref().map_or(true, |board| board.solved.sum > own(board)));
    let board = board::board(Class::of(&GYM, session, people)).expect("a board");
    assert!(board.solved.is_best(), "{:?}", board.solved);
}

#[test]
fn what_is_sore_today_is_gone_tomorrow() {
    let birds = demo();
    let painful = |day: &str| {
        let people = board::class(&GYM, &birds, Day::read(day));
        let linnet = people.into_iter().find(|person| person.name == "linnet").expect("linnet");
        !linnet.member.person.limits.is_empty()
    };
    assert!(painful("2026-11-30"));
    assert!(!painful("2026-12-01"));
    assert!(!painful("2026-11-29"));
}

#[test]
fn a_limit_of_today_counts_today_as_one_of_always_does() {
    let kneeling = |text: &str, day: &str| {
        let people = board::class(&GYM, &roster(text), Day::read(day));
        people[0].member.person.limits.get(&TraitId::from("kneeling")).copied()
    };
    let today = "wren: {today: {day: 2026-11-30, limits: {kneeling: 1}}}\n";
    assert_eq!(kneeling(today, "2026-11-30"), Some(1));
    assert_eq!(kneeling(today, "2026-12-01"), None);
    // The stricter of the two counts.
    let both = "wren: {limits: {kneeling: 2}, today: {day: 2026-11-30, limits: {kneeling: 1}}}\n";
    assert_eq!((kneeling(both, "2026-11-30"), kneeling(both, "2026-12-01")), (Some(1), Some(2)));
}

#[test]
fn where_there_is_too_little_it_says_what_is_missing() {
    let mut puzzle = Puzzle { people: 3, ..Puzzle::default() };
    puzzle.resources.push(Resource { count: 1, held: false });
    for who in 0..3 {
        let offers = vec![Offered { cost: 0, movement: Some(0), uses: vec![(0, 1)] }];
        puzzle.sets.push(Set { who, line: 0, own: Some(0), offers });
    }
    assert_eq!(puzzle.solve(), Outcome::None);
    // In the starter library something always fits: limits take everything away but bands here.
    let text = "a:\n  rungs: {}\nb:\nc:\n";
    let session = &GYM.library.sessions[&SessionId::from("push-and-pull")];
    let people = board::class(&GYM, &roster(text), None);
    let none: Vec<KitId> =
        GYM.library.club.hall_kit.iter().map(|(id, _)| id.value.clone()).collect();
    let hall = none.iter().fold(Hall::of(&GYM, 3), |hall, id| hall.with(id, 0));
    let board = board::board(Class::with_hall(&GYM, session, people, hall));
    // With nothing at all everybody still has something, or the coach is asked: nobody is left out.
    assert!(board.is_ok());
}

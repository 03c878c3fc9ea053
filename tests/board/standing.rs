//! Standing: what a touch changes in class. Only those who must do something else, limits hold with what was
//! said since, nothing is used beyond what is left, and what is told names nothing that anybody has.
//! Never asks the solver whether a change was needed: what else could have been done is counted out.

use crate::counted::{alike, changed, excess, least_without_moving, misfit, name_of, overused};
use crate::dice::Dice;
use crate::drawn::{GYM, TODAY, drawn, limits_of, roster, session_of};
use crate::shown::secrets;
use crate::{demo, wrong_with};
use rungbook::board::weights::MOVED;
use rungbook::board::{self, Class, Copy, Hall, Place, Rows, Standing, Touch, table_now, told};
use rungbook::library::{KitId, Roster, Session, SessionId, TraitId};
use rungbook::plan::Day;
use rungbook::swap::limits_from;
use std::collections::{BTreeMap, BTreeSet};

/// A class that begins with the last of its people away; with fewer things than the hall has, where `scarce`.
fn begun(session: &Session, roster: &Roster, away: usize, scarce: bool) -> Option<Standing> {
    let mut people = board::class(&GYM, roster, Day::read(TODAY));
    let later = people.split_off(people.len() - away);
    let in_hall = people.iter().chain(&later).filter(|one| !one.at_home).count();
    let few = |id: &KitId| ["chair", "mat", "towel"].contains(&id.as_str());
    let all = GYM.library.club.hall_kit.iter();
    let hall = all
        .filter(|(id, _)| scarce && !few(&id.value))
        .fold(Hall::of(&GYM, in_hall), |hall, (id, count)| hall.with(&id.value, count.div_ceil(3)));
    let board = board::board(Class::with_hall(&GYM, session, people, hall)).ok()?;
    Some(Standing::of(&GYM, session, &board, &later))
}

/// What may be said to hurt, in the order of the touches.
fn situations(session: &Session, standing: &Standing) -> Vec<String> {
    let table = table_now(&GYM, session, standing, (Copy::Coach, Rows::NotYet));
    let table = serde_json::to_value(table).expect("JSON");
    let all = table["situations"].as_array().expect("situations").iter();
    all.map(|one| one[0].as_str().expect("a name").to_string()).collect()
}

/// A class in which things happen.
struct Happening {
    session: Session,
    roster: Roster,
    now: Standing,
    limits: BTreeMap<String, BTreeMap<TraitId, u8>>,
    /// Touches, people who had to make room, people who changed themselves.
    counts: (usize, usize, usize),
}

impl Happening {
    fn touch(&mut self, touch: Touch) {
        let Some(after) = self.now.after(&GYM, &self.session, touch) else { return };
        if let Touch::Sore(who, at) = touch {
            let name = situations(&self.session, &self.now).swap_remove(at);
            let found = limits_from(&GYM, std::slice::from_ref(&name)).expect("a situation");
            let known = self.limits.get_mut(&name_of(&after, who)).expect("somebody");
            for (id, from) in found.levels {
                let level = known.entry(id).or_insert(from);
                *level = (*level).min(from);
            }
        }
        self.limits_hold(&after);
        for block in 0..after.rotas.len() {
            let over = overused(&after, &|place| after.offer(place).cloned(), block);
            assert!(over.is_empty(), "{touch:?}, block {block}: {over:?}");
        }
        self.only_who_must(&after, touch);
        self.now = after;
        self.counts.0 += 1;
    }

    fn limits_hold(&self, after: &Standing) {
        for place in after.places() {
            let Some(offer) = after.offer(place) else { continue };
            let name = name_of(after, place.2);
            let member = self.roster.member(&name).expect("a member");
            let (at, limits) = ((place.0, place.1), &self.limits[&name]);
            let found = wrong_with(&self.session, (member, limits), at, offer);
            assert_eq!(found, None, "{}, {place:?}", self.session.id);
        }
    }

    fn only_who_must(&mut self, after: &Standing, touch: Touch) {
        let own = match touch {
            Touch::Here(who) | Touch::Hurts(who) | Touch::Sore(who, _) => Some(who),
            Touch::Gone(_) | Touch::Broke(_) => None,
        };
        let all = changed(&self.now, after);
        self.counts.2 += all.iter().filter(|(.., who)| Some(*who) == own).count();
        // Who had nothing and now has something is no harm to anybody.
        let others = all.into_iter().filter(|place| Some(place.2) != own);
        let others: Vec<Place> = others.filter(|at| self.now.offer(*at).is_some()).collect();
        self.counts.1 += others.len();
        let blocks: BTreeSet<usize> = others.iter().map(|(block, ..)| *block).collect();
        let makes_room = |at: &&Place| self.now.offer((at.0, at.1, at.2)).is_none();
        for block in blocks {
            let n = u32::try_from(others.iter().filter(|at| at.0 == block).count()).unwrap();
            // Those who had nothing may have been given something at others' cost.
            let served = after.places();
            let served = served.iter().filter(|at| at.0 == block && self.now.here[at.2]);
            let served = served.filter(makes_room).filter(|at| after.offer(**at).is_some()).count();
            match (touch, own) {
                (Touch::Broke(_), _) => {
                    let was = |place: Place| self.now.offer(place).cloned();
                    let over = excess(after, &was, block);
                    let most = 2 * (over + served);
                    assert!(n as usize <= most, "{n} change for {over} too many, {served} served");
                }
                (_, Some(who)) if served == 0 => {
                    let other = least_without_moving(&self.now, after, block, who);
                    let with = misfit(after, block, who) + n * MOVED;
                    assert!(other >= with, "{touch:?}: {n} make room for {other} against {with}");
                }
                _ => assert!(served > 0, "{touch:?} changes {others:?}"),
            }
        }
    }
}

/// Any of the things that may be said.
fn any(dice: &mut Dice, people: usize, situations: usize) -> Touch {
    let (who, kit) = (dice.roll(people), GYM.library.club.hall_kit.len());
    match dice.roll(5) {
        0 => Touch::Here(who),
        1 => Touch::Gone(who),
        2 => Touch::Sore(who, dice.roll(situations)),
        3 if dice.roll(4) == 0 => Touch::Hurts(who),
        _ => Touch::Broke(dice.roll(kit)),
    }
}

#[test]
fn whatever_happens_limits_hold_kit_is_enough_and_only_those_change_who_must() {
    let (mut touches, mut room, mut own) = (0, 0, 0);
    for seed in 0..30 {
        let mut dice = Dice(500 + seed);
        let text = drawn(&mut dice, 8);
        let (session, roster) = (session_of(&mut dice), roster(&text));
        let Some(now) = begun(&session, &roster, 2, seed % 3 != 0) else { continue };
        let members = roster.members.iter();
        let limits = members.map(|one| (one.name.value.to_string(), limits_of(one))).collect();
        let names = situations(&session, &now);
        let mut class = Happening { session, roster, now, limits, counts: (0, 0, 0) };
        while class.counts.0 < 12 {
            class.touch(any(&mut dice, 8, names.len()));
        }
        touches += class.counts.0;
        room += class.counts.1;
        own += class.counts.2;
    }
    println!("{touches} touches: {own} lines of who spoke, {room} of others");
    assert!(touches >= 300 && own > 50 && room > 20, "{touches} touches, {own} own, {room} others");
}

fn push_and_pull() -> &'static Session {
    &GYM.library.sessions[&SessionId::from("push-and-pull")]
}

fn place_of(standing: &Standing, name: &str) -> usize {
    standing.class.people.iter().position(|one| one.name == name).expect("a bird")
}

fn thing(id: &str) -> usize {
    let mut kit = GYM.library.club.hall_kit.iter();
    kit.position(|(known, _)| known.value.as_str() == id).expect("a thing")
}

#[test]
fn who_broke_no_straps_of_theirs_goes_on_and_who_must_change_is_named() {
    let session = push_and_pull();
    let mut now = begun(session, &demo(), 0, false).expect("a board");
    let mut moved = 0;
    for left in (0..4).rev() {
        let next = now.after(&GYM, session, Touch::Broke(thing("straps"))).expect("a touch");
        let words = told(&GYM, (&now, &next), Touch::Broke(thing("straps")));
        let straps = |place: &Place| {
            now.offer(*place).is_some_and(|one| one.kit.contains(&KitId::from("straps")))
        };
        assert!(words.said.starts_with("One less of straps"), "{}", words.said);
        assert!(words.said.contains(&format!(", {left} left.")), "{}", words.said);
        for place in &words.moved {
            assert!(words.said.contains(&name_of(&next, place.2)), "{}", words.said);
        }
        // Somebody in each block had straps, else nobody makes room.
        let blocks: BTreeSet<usize> = words.moved.iter().map(|(block, ..)| *block).collect();
        assert!(blocks.iter().all(|block| now.places().iter().any(|p| p.0 == *block && straps(p))));
        let unmoved = now.places().into_iter().filter(|place| !words.moved.contains(place));
        assert!(unmoved.into_iter().all(|place| alike(now.offer(place), next.offer(place))));
        moved += words.moved.len();
        now = next;
    }
    assert!(moved >= 4, "{moved}");
    assert_eq!(now.after(&GYM, session, Touch::Broke(thing("straps"))).map(|_| ()), None);
}

#[test]
fn who_goes_changes_nobody_and_who_comes_back_is_as_before() {
    let session = push_and_pull();
    let now = begun(session, &demo(), 0, false).expect("a board");
    let wren = place_of(&now, "wren");
    let gone = now.after(&GYM, session, Touch::Gone(wren)).expect("gone");
    assert!(now.places().into_iter().all(|p| p.2 == wren || alike(now.offer(p), gone.offer(p))));
    assert!(gone.places().into_iter().all(|p| p.2 != wren || gone.offer(p).is_none()));
    assert_eq!(gone.after(&GYM, session, Touch::Gone(wren)).map(|_| ()), None);
    let back = gone.after(&GYM, session, Touch::Here(wren)).expect("here");
    assert!(now.places().into_iter().all(|p| p.2 == wren || alike(now.offer(p), back.offer(p))));
    assert!(back.places().into_iter().all(|p| p.2 != wren || back.offer(p).is_some()));
}

#[test]
fn whom_something_hurts_asks_the_coach_and_goes_on_asking() {
    let session = push_and_pull();
    let now = begun(session, &demo(), 0, false).expect("a board");
    let wren = place_of(&now, "wren");
    let mut hurt = now.after(&GYM, session, Touch::Hurts(wren)).expect("a touch");
    let none = |standing: &Standing| {
        standing.places().into_iter().all(|p| p.2 != wren || standing.offer(p).is_none())
    };
    assert!(none(&hurt));
    let others = changed(&now, &hurt).into_iter().filter(|place| place.2 != wren);
    assert_eq!(others.collect::<Vec<_>>(), []);
    // What is not known does not go away by going out and coming in, nor by anything else.
    for touch in
        [Touch::Gone(wren), Touch::Here(wren), Touch::Broke(thing("band")), Touch::Sore(wren, 0)]
    {
        hurt = hurt.after(&GYM, session, touch).expect("a touch");
        assert!(none(&hurt), "{touch:?}");
    }
}

#[test]
fn what_is_told_names_nothing_that_anybody_has() {
    let session = push_and_pull();
    let secrets = secrets();
    let mut told_of = 0;
    for seed in 600..606 {
        let mut dice = Dice(seed);
        let roster = roster(&drawn(&mut dice, 8));
        let Some(mut now) = begun(session, &roster, 2, true) else { continue };
        let names = situations(session, &now);
        for _ in 0..12 {
            let touch = any(&mut dice, 8, names.len());
            let Some(next) = now.after(&GYM, session, touch) else { continue };
            let words = told(&GYM, (&now, &next), touch).said;
            let plain = words.to_lowercase();
            let named = secrets.iter().find(|secret| plain.contains(*secret));
            assert_eq!(named, None, "{words}");
            told_of += usize::from(words.contains("New for"));
            now = next;
        }
        // The table of the wall neither, whatever was said since.
        let table = table_now(&GYM, session, &now, (Copy::Wall, Rows::All));
        let table = serde_json::to_string(&table).expect("JSON").to_lowercase();
        assert_eq!(secrets.iter().find(|secret| table.contains(*secret)), None);
    }
    assert!(told_of > 10, "{told_of}");
}

#[test]
fn one_class_and_one_touch_are_one_board() {
    let session = push_and_pull();
    let run = || {
        let mut now = begun(session, &demo(), 3, true).expect("a board");
        for touch in
            [Touch::Broke(thing("straps")), Touch::Here(13), Touch::Sore(0, 1), Touch::Gone(4)]
        {
            now = now.after(&GYM, session, touch).unwrap_or(now);
        }
        let table = table_now(&GYM, session, &now, (Copy::Coach, Rows::All));
        serde_json::to_string(&table).expect("JSON")
    };
    assert_eq!(run(), run());
}

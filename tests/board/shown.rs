//! Shown: what others see of a board says what to do, never what somebody leaves out.
//! Never asks the room `board` what is a secret: names are read from the library's words.

use crate::drawn::{GYM, TODAY, roster};
use crate::{choices, class_of, dealt, demo};
use rungbook::board::{self, Board, Class, Copy, Hall, View};
use rungbook::finding::Placed;
use rungbook::gym::Gym;
use rungbook::library::{ItemWork, KitId, Roster, Session, SessionId, reader};
use rungbook::own::Kind;
use rungbook::plan::Day;
use serde_json::Value;
use std::path::Path;

fn view(session: &Session, board: &Board) -> View {
    View::of(&GYM, session, board, Day::read(TODAY))
}

fn page(session: &Session, roster: &Roster, copy: Copy) -> String {
    let board = dealt(session, roster).expect("a board");
    let live = board::table(&GYM, session, &board, &[]);
    board::as_page(&GYM, (&board, &view(session, &board)), live, copy)
}

fn push_and_pull() -> &'static Session {
    &GYM.library.sessions[&SessionId::from("push-and-pull")]
}

/// A drawing of the movement as written misleads beside a change: heels down that are to be up.
#[test]
fn no_drawing_stands_beside_a_change() {
    let (session, birds) = (push_and_pull(), demo());
    let page = page(session, &birds, Copy::Wall);
    let board = dealt(session, &birds).expect("a board");
    let (mut changed, mut drawn) = (0, 0);
    for card in page.split("<li class=\"card\">").skip(1) {
        let has_drawing = card.contains("<svg");
        let said = card.split("<p class=\"what\">").nth(1).and_then(|text| text.split('<').next());
        let said = said.expect("what is done");
        let is_changed = choices(&board).into_iter().any(|(block, line, who)| {
            let own = &board.offer(block, line, who).own;
            !own.change_brief.is_empty() && said.ends_with(&own.change_brief)
        });
        assert!(!(is_changed && has_drawing), "{said} is drawn unchanged");
        changed += usize::from(is_changed);
        drawn += usize::from(has_drawing);
    }
    assert!(changed > 10 && drawn > 20, "{changed} changed, {drawn} drawn");
}

/// Names of what somebody may have, and of what may be left out, as the library says them.
pub fn secrets() -> Vec<String> {
    let words = &GYM.library.words;
    let cautions = words.cautions.values().map(|caution| caution.name.clone());
    let quick = GYM.library.club.quick_limits.iter().map(|quick| quick.value.clone());
    let ids = words.cautions.keys().map(|id| format!("\"{id}\""));
    let all = cautions.chain(quick).chain(ids).map(|name| name.to_lowercase());
    all.chain(["leave out".to_string(), "sore ".to_string(), "painful".to_string()]).collect()
}

/// Footers say the caution line and the stop signs to everybody, whoever they are.
fn without_footer(page: &str) -> String {
    let (before, after) = page.split_once("<footer>").expect("a footer");
    let after = after.split_once("</footer>").expect("its end").1;
    let script = after.split_once("<script>").expect("the script").0;
    format!("{before}{script}").to_lowercase()
}

#[test]
fn the_wall_and_the_table_name_nothing_that_anybody_has() {
    let mut limited = 0;
    for seed in 400..406 {
        let (session, birds) = class_of(seed, 7);
        let Some(board) = dealt(&session, &birds) else { continue };
        let shown = view(&session, &board);
        let csv = board::as_csv(&GYM, (&board, &shown), false).to_lowercase();
        let text = board::as_text(&GYM, (&board, &shown), false).to_lowercase();
        let wall = without_footer(&page(&session, &birds, Copy::Wall));
        for secret in secrets() {
            for (what, said) in [("csv", &csv), ("text", &text), ("wall", &wall)] {
                assert!(!said.contains(&secret), "seed {seed}: {what} says `{secret}`");
            }
        }
        limited += birds.members.iter().filter(|one| !one.cautions.is_empty()).count();
    }
    assert!(limited > 3, "{limited}");
    // The coach's copy is where they stand.
    let coach = without_footer(&page(push_and_pull(), &demo(), Copy::Coach));
    assert!(coach.contains("painful shoulder") && coach.contains("leave out"));
}

/// A menu that lacked what somebody has, or in which touching it changed nothing, would name it.
#[test]
fn the_menu_of_the_wall_is_the_same_whatever_anybody_has() {
    let plain = roster("wren:\nrobin:\n");
    let hurt = roster("wren: {cautions: [sore-wrist, pregnancy]}\nrobin:\n");
    let menu = |roster: &Roster| {
        let page = page(push_and_pull(), roster, Copy::Wall);
        let table =
            page.split("id=\"table\">").nth(1).and_then(|text| text.split("</script>").next());
        let table: serde_json::Value = serde_json::from_str(table.expect("a table")).expect("JSON");
        table["situations"].clone()
    };
    assert_eq!(menu(&plain), menu(&hurt));
    assert_eq!(menu(&hurt), serde_json::json!([]));
}

/// A library of one hall with next to nothing.
fn small() -> Gym {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    Gym::open(reader::read(&root.join("tests/commands/board.in/small")).expect("a small library"))
}

#[test]
fn who_gets_nothing_is_told_to_ask_and_the_coach_is_told_who() {
    let gym = small();
    let session = &gym.library.sessions[&SessionId::from("monday")];
    let all: Vec<KitId> =
        gym.library.club.hall_kit.iter().map(|(id, _)| id.value.clone()).collect();
    let bare = all.iter().fold(Hall::of(&gym, 1), |hall, id| hall.with(id, 0));
    let people = board::class(&gym, &roster("wren:\n"), None);
    let board = board::board(Class::with_hall(&gym, session, people, bare)).expect("a board");
    let lines = choices(&board);
    assert_eq!(lines.len(), 2);
    for (block, line, who) in lines {
        // Nothing of this hall is there: whatever else is said would order it.
        let offer = board.offer(block, line, who);
        assert_eq!(offer.own.kind, Kind::Ask);
        assert!(offer.own.dose.is_empty() && offer.own.cue.is_empty() && offer.kit.is_empty());
    }
    let view = View::of(&gym, session, &board, None);
    assert_eq!(view.left_to_the_coach(), ["Row: wren", "Towel row: wren"]);
}

/// What the table of the coach's copy has for somebody: by line what may be done, in words, with its
/// misfit.
fn left(page: &str, situation: Option<&str>) -> Vec<Vec<(String, u64)>> {
    let table = page.split("id=\"table\">").nth(1).and_then(|text| text.split("</script>").next());
    let table: Value = serde_json::from_str(table.expect("a table")).expect("JSON");
    let others = situation.map(|name| {
        let all = table["situations"].as_array().expect("situations");
        all.iter().find(|one| one[0] == name).expect("the situation")[1].clone()
    });
    let sets = table["sets"].as_array().expect("sets").iter().enumerate();
    let offers = |(place, set): (usize, &Value)| {
        let other = others.as_ref().and_then(|others| others.get(place.to_string()));
        let offers = other.unwrap_or(&set["offers"]).as_array().expect("offers").clone();
        let said = |offer: &Value| {
            let text = offer[0].as_u64().map(|at| table["texts"][at as usize].to_string());
            (text.unwrap_or_default(), offer[1].as_u64().expect("misfit"))
        };
        offers.iter().map(said).collect()
    };
    sets.map(offers).collect()
}

/// The table of a situation is what a board would offer if the roster said it.
#[test]
fn a_touch_leaves_what_the_roster_would_have_left() {
    let mut library = reader::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("content"))
        .expect("the starter library");
    // A situation of which nobody starts in the middle: it counts beyond its traits.
    let quick = library.club.quick_limits.first().cloned().expect("a quick limit");
    library.club.quick_limits.push(Placed::new("Pelvic floor symptoms".to_string(), quick.span));
    let gym = Gym::open(library);
    let session = &gym.library.sessions[&SessionId::from("push-and-pull")];
    let page = |text: &str| {
        let people = board::class(&gym, &roster(text), None);
        let board = board::board(Class::of(&gym, session, people)).expect("a board");
        let live = board::table(&gym, session, &board, &[]);
        board::as_page(&gym, (&board, &View::of(&gym, session, &board, None)), live, Copy::Coach)
    };
    let plain = page("wren:\n");
    let situations = [("Sore wrist", "sore-wrist"), ("Pelvic floor symptoms", "pelvic-floor")];
    for (name, id) in situations {
        let wanted = left(&page(&format!("wren: {{cautions: [{id}]}}\n")), None);
        assert_eq!(left(&plain, Some(name)), wanted, "{name}");
        assert_ne!(left(&plain, None), wanted, "{name} changes nothing: the test says nothing");
    }
}

/// Where nobody knows what day it is, what somebody leaves out on one day counts.
#[test]
fn without_a_day_what_is_of_today_counts() {
    let left_out = |today| {
        let class = board::class(&GYM, &demo(), today);
        let linnet = class.into_iter().find(|one| one.name == "linnet").expect("linnet");
        linnet.member.person.limits
    };
    assert_eq!(left_out(None), left_out(Day::read("2026-11-30")));
    assert!(!left_out(None).is_empty() && left_out(Day::read("2026-12-01")).is_empty());
}

/// Who is due for a move, and who was left out twice running, is for the coach alone: the wall would tell
/// what somebody leaves out.
#[test]
fn what_is_to_do_after_class_is_not_on_the_wall() {
    let text = format!(
        "{}  results:\n    {}\n    {}\n  done:\n    {}\n    {}\n",
        include_str!("roster.yaml"),
        "- {ladder: push-up, rung: 5, reps: 30, day: 2026-11-16, was: {movement: incline-push-up, hands: 45 cm}}",
        "- {ladder: push-up, rung: 5, reps: 30, day: 2026-11-23, was: {movement: incline-push-up, hands: 45 cm}}",
        "- {day: 2026-11-16, session: push-and-pull, left-out: [Farmer carry]}",
        "- {day: 2026-11-23, session: push-and-pull, left-out: [Farmer carry]}",
    );
    let (session, birds) = (push_and_pull(), roster(&text));
    let board = dealt(session, &birds).expect("a board");
    let (due, twice) = ("Push-up: due up from rung 5", "Farmer carry: left out twice running");
    let shown = view(session, &board);
    let text = |why: bool| board::as_text(&GYM, (&board, &shown), why);
    let coach = [
        page(session, &birds, Copy::Coach),
        text(true),
        board::as_csv(&GYM, (&board, &shown), true),
    ];
    assert!(coach[..2].iter().all(|copy| copy.contains(due) && copy.contains(twice)));
    let wall = [
        page(session, &birds, Copy::Wall),
        text(false),
        board::as_csv(&GYM, (&board, &shown), false),
    ];
    for copy in &wall {
        assert!(!copy.contains("due up") && !copy.contains("twice running"), "{copy}");
    }
}

/// The line after class says what the board dealt out: of a ladder the line nearest to their own rung, and
/// every line for which it had nothing.
#[test]
fn what_was_done_is_what_was_dealt_out() {
    let session = &GYM.library.sessions[&SessionId::from("legs-and-trunk")];
    // Of rail, who holds on and may not lean on the hands, nothing of the jumps is left.
    let rail = "rail:\n  trains: home\n  kit: []\n  cautions: [stroke, sore-wrist]\n";
    let birds = roster(&format!("{}{rail}", include_str!("roster.yaml")));
    let board = dealt(session, &birds).expect("a board");
    let day = Day::read(TODAY).expect("a day");
    let own_rungs: Vec<(usize, usize)> = (0..session.blocks.len())
        .flat_map(|block| (0..session.blocks[block].items.len()).map(move |line| (block, line)))
        .filter(|(block, line)| {
            let item = &session.blocks[*block].items[*line];
            matches!(item.work, ItemWork::Ladder(_)) && item.below.is_none()
        })
        .collect();
    assert!(own_rungs.len() > 2, "{own_rungs:?}");
    let mut left_out = 0;
    for (who, person) in board.class.people.iter().enumerate() {
        let span = birds.member(&person.name).expect("on the roster").name.span;
        let done = board::done(&GYM, (session, &board), (who, span), day);
        assert!(done.is_of(&session.id, TODAY));
        // What the coach decided was not done: another line of the ladder speaks, or none.
        assert!(done.did.iter().all(|(_, what)| !what.starts_with("Ask")), "{done:?}");
        for (block, line) in &own_rungs {
            let name = &board.class.blocks[*block].plan.items[*line].name;
            let offer = board.offer(*block, *line, who);
            if offer.own.kind == Kind::Ask {
                assert!(done.left_out.contains(name), "{name}: {done:?}");
                continue;
            }
            let movement = &GYM.library.movements[&offer.own.movement].name.value;
            let said = |(line, what): &(String, String)| {
                line == name && what.starts_with(movement) && what.contains(&offer.own.dose)
            };
            assert!(done.did.iter().any(said), "{name}, {movement}: {done:?}");
        }
        let is_ask = |(block, line, one): &(usize, usize, usize)| {
            *one == who && board.offer(*block, *line, who).own.kind == Kind::Ask
        };
        let asks = choices(&board).into_iter().filter(is_ask).count();
        assert_eq!(asks == 0, done.left_out.is_empty(), "{}: {done:?}", person.name);
        left_out += asks;
    }
    assert!(left_out > 0, "nothing is left to the coach");
}

/// A warm-up two rungs below is no sign of what somebody can do: the line at their own rung is noted.
#[test]
fn of_two_lines_of_a_ladder_the_nearer_to_the_own_rung_is_noted() {
    let (session, birds) = (push_and_pull(), demo());
    let board = dealt(session, &birds).expect("a board");
    let day = Day::read(TODAY).expect("a day");
    let warm_up = |item: &rungbook::library::Item| item.below.is_some();
    assert!(session.blocks[0].items.iter().any(warm_up) && !warm_up(&session.blocks[1].items[0]));
    let mut differ = 0;
    for (who, person) in board.class.people.iter().enumerate() {
        let span = birds.member(&person.name).expect("on the roster").name.span;
        let done = board::done(&GYM, (session, &board), (who, span), day);
        let name = &board.class.blocks[1].plan.items[0].name;
        let own = &board.offer(1, 0, who).own;
        let Some((_, what)) = done.did.iter().find(|(line, _)| line == name) else { continue };
        assert!(what.contains(&own.setting) && what.contains(&own.dose), "{}: {what}", person.name);
        differ += usize::from(!own.setting.is_empty());
    }
    assert!(differ > 5);
}

/// What the hall sets up stands by word, rising, each height once.
#[test]
fn heights_to_set_up_stand_together_and_rise() {
    let (session, birds) = (push_and_pull(), demo());
    let shown = view(session, &dealt(session, &birds).expect("a board"));
    let hands =
        shown.set_up.iter().find(|said| said.starts_with("hands ")).expect("heights of hands");
    let numbers: Vec<u32> =
        hands.split(|c: char| !c.is_ascii_digit()).filter_map(|word| word.parse().ok()).collect();
    assert!(numbers.len() > 3 && numbers.windows(2).all(|two| two[0] < two[1]), "{hands}");
    assert_eq!(shown.set_up.iter().filter(|said| said.starts_with("hands ")).count(), 1);
}

/// Of a guest nothing is known: nobody on the roster is called so, and they begin at the bottom.
#[test]
fn a_guest_begins_at_the_bottom_under_a_name_of_their_own() {
    let birds = roster(&format!("{}guest:\n", include_str!("roster.yaml")));
    let people = board::class(&GYM, &birds, Day::read(TODAY));
    let guests = board::guests(&GYM, &people, 2);
    let names: Vec<&str> = guests.iter().map(|one| one.name.as_str()).collect();
    assert_eq!(names, ["guest 2", "guest 3"]);
    let session = push_and_pull();
    let class = Class::with_hall(&GYM, session, guests, Hall::of(&GYM, 16));
    let alone = board::board(class).expect("a board");
    let mut rungs = 0;
    for (block, line, who) in choices(&alone) {
        let ItemWork::Ladder(_) = session.blocks[block].items[line].work else { continue };
        let own = &alone.offer(block, line, who).own;
        if own.kind == Kind::Fine {
            assert_eq!(own.rung.as_ref().map(|(_, rung)| *rung), Some(1), "{own:?}");
            rungs += 1;
        }
    }
    assert!(rungs > 3);
}

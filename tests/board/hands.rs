//! Hands: what is held in each hand is two of one kind, in the hall and at home.
//! Never two things from one word of a roster.

use crate::drawn::{GYM, roster};
use crate::{choices, dealt};
use rungbook::board::{self, Board, Class, Hall, Offer, Person};
use rungbook::library::{KitId, Session, SessionId};

fn push_and_pull() -> &'static Session {
    &GYM.library.sessions[&SessionId::from("push-and-pull")]
}

fn carries(board: &Board) -> Vec<(String, &Offer)> {
    let name = |who: usize| board.class.people[who].name.clone();
    let all = choices(board).into_iter();
    let all = all.map(|(block, line, who)| (name(who), board.offer(block, line, who)));
    all.filter(|(_, offer)| offer.own.movement.as_str() == "farmer-carry").collect()
}

#[test]
fn a_weight_in_each_hand_is_two_weights_of_one_kind() {
    let board = dealt(push_and_pull(), &roster("wren:\nrobin:\n")).expect("a board");
    let carries = carries(&board);
    assert_eq!(carries.len(), 2);
    for (_, offer) in carries {
        assert!(offer.kit.len() == 2 && offer.kit[0] == offer.kit[1], "{:?}", offer.kit);
    }
}

#[test]
fn one_dumbbell_and_one_kettlebell_are_no_pair() {
    let hall = |count: u32| {
        let none: Vec<KitId> =
            GYM.library.club.hall_kit.iter().map(|(id, _)| id.value.clone()).collect();
        let hall = none.iter().fold(Hall::of(&GYM, 1), |hall, id| hall.with(id, 0));
        hall.with(&KitId::from("dumbbell"), count).with(&KitId::from("kettlebell"), 1)
    };
    let people: Vec<Person> = board::class(&GYM, &roster("wren:\n"), None);
    let carried = |count: u32| {
        let class = Class::with_hall(&GYM, push_and_pull(), people.clone(), hall(count));
        carries(&board::board(class).expect("a board")).len()
    };
    assert_eq!((carried(1), carried(2)), (0, 1));
}

#[test]
fn one_word_on_the_roster_is_one_thing_at_home() {
    let text = "wren: {trains: home, kit: [dumbbell]}\n\
                robin: {trains: home, kit: [dumbbell, dumbbell]}\n";
    let board = dealt(push_and_pull(), &roster(text)).expect("a board");
    let who: Vec<String> = carries(&board).into_iter().map(|(name, _)| name).collect();
    assert_eq!(who, ["robin"]);
}

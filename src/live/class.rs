//! Class: the board as it stands by now, with its number, and the few that can be taken back.
//! Never applies a touch to a board that the one who touched did not see.

use crate::board::{Copy, Live, Rows, Standing, Told, Touch, table_now, told};
use crate::gym::Gym;
use crate::library::Session;
use serde::Serialize;
use std::collections::VecDeque;

/// How many touches can be taken back: each keeps a board, a few megabytes in a class of two hundred.
const MOST_KEPT: usize = 10;

/// The board of a class that is on.
pub struct Class {
    gym: Gym,
    session: Session,
    copy: Copy,
    /// Rises with every touch.
    number: u64,
    now: Standing,
    before: VecDeque<Standing>,
}

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked {
    /// Something has changed.
    Touch(Touch),
    /// The last touch is taken back.
    Back,
}

impl Asked {
    /// Read from an address, such as `gone/3` or `sore/3/1`; nothing where it says nothing of ours. On a
    /// board for everybody nobody says what hurts.
    pub fn read(words: &str, copy: Copy) -> Option<Asked> {
        let words: Vec<&str> = words.split('/').collect();
        let place = |at: usize| words.get(at)?.parse::<usize>().ok();
        let touch = match (*words.first()?, words.len()) {
            ("back", 1) => return Some(Asked::Back),
            ("here", 2) => Touch::Here(place(1)?),
            ("gone", 2) => Touch::Gone(place(1)?),
            ("hurts", 2) => Touch::Hurts(place(1)?),
            ("broke", 2) => Touch::Broke(place(1)?),
            ("sore", 3) if copy == Copy::Coach => Touch::Sore(place(1)?, place(2)?),
            _ => return None,
        };
        Some(Asked::Touch(touch))
    }
}

/// What the page gets.
#[derive(Serialize)]
pub struct Answer {
    /// The number of this board.
    number: u64,
    /// Whether a touch can be taken back.
    undo: bool,
    /// What changed.
    told: Told,
    /// The board, and from what the page goes on alone.
    table: Live,
}

/// What came of a touch.
pub enum Outcome {
    /// The board after it.
    Done(Box<Answer>),
    /// It was made on an earlier board: this is the one that stands.
    Stale(Box<Answer>),
    /// It says what cannot be.
    Impossible,
}

impl Class {
    /// A class that begins.
    pub fn new(gym: Gym, session: Session, now: Standing, copy: Copy) -> Class {
        Class { gym, session, copy, number: 1, now, before: VecDeque::new() }
    }

    /// The board as it stands, with all that its page needs to go on alone.
    pub fn now(&self) -> Answer {
        self.answer(Told { said: String::new(), moved: Vec::new() }, Rows::All)
    }

    /// The board after a touch on the one of that number.
    pub fn touch(&mut self, number: u64, asked: Asked) -> Outcome {
        if number != self.number {
            let said = "The board had changed elsewhere: this is how it stands. Touch again.";
            let told = Told { said: said.to_string(), moved: Vec::new() };
            return Outcome::Stale(Box::new(self.answer(told, Rows::NotYet)));
        }
        let told = match asked {
            Asked::Touch(touch) => match self.now.after(&self.gym, &self.session, touch) {
                None => return Outcome::Impossible,
                Some(next) => {
                    let told = told(&self.gym, (&self.now, &next), touch);
                    self.before.push_back(std::mem::replace(&mut self.now, next));
                    told
                }
            },
            Asked::Back => match self.before.pop_back() {
                None => return Outcome::Impossible,
                Some(before) => {
                    self.now = before;
                    Told { said: "Taken back.".to_string(), moved: Vec::new() }
                }
            },
        };
        while self.before.len() > MOST_KEPT {
            self.before.pop_front();
        }
        self.number += 1;
        Outcome::Done(Box::new(self.answer(told, Rows::NotYet)))
    }

    fn answer(&self, told: Told, rows: Rows) -> Answer {
        let table = table_now(&self.gym, &self.session, &self.now, (self.copy, rows));
        Answer { number: self.number, undo: !self.before.is_empty(), told, table }
    }
}

//! Board: one class, everyone's version of every line, and the kit that they share.
//! Never anything that a limit leaves out, never more of a thing than there is, never a home member on
//! the hall's kit; never a clock or chance: one class has one board.
//!
//! Reading order: `people`, `hall`, `offers` (what each could do, with its misfit by `weights`),
//! `class`; `rota` (who is where when), `share` (the offers as a `puzzle`), `model` (its solver, by `parts`),
//! `blockwise` (where that is too hard), `settle` (ties), `short` (what lacks where there is none); `say`, `csv`, `sheet` (what is shown);
//! `standing` (what a touch changes in class), `told` (who, and why), `live` (the table of the file alone),
//! `clock` (its clock); `done` (what is kept after class).

mod blockwise;
mod class;
mod clock;
mod csv;
mod done;
mod hall;
mod live;
mod model;
mod noted;
mod offers;
mod parts;
mod people;
pub mod puzzle;
mod rota;
mod say;
mod settle;
mod share;
mod sheet;
mod short;
mod standing;
mod told;
mod view;
pub mod weights;
mod why;

pub use class::{Asked, Class};
pub use csv::as_csv;
pub use done::done;
pub use hall::Hall;
pub use live::{Live, Rows, table, table_now};
pub use noted::{Noted, NotedPerson};
pub use offers::{Misfit, Offer};
pub use people::{Person, class, guests};
pub use rota::{Moment, Rota, Stretch};
pub use say::as_text;
pub use sheet::{Copy, as_page};
pub use short::short;
pub use standing::{Place, Standing, Touch};
pub use told::{Told, told};
pub use view::{BlockView, Doing, LineView, View};
pub use why::why;

use blockwise::Undealt;
use puzzle::{Outcome, Puzzle, Solved};
use share::{Shared, spread};

/// A class and what everybody does.
#[derive(Debug, Clone)]
pub struct Board {
    /// Who comes, and what they could do.
    pub class: Class,
    /// How each block is gone through.
    pub rotas: Vec<Rota>,
    /// Which offer each person takes, by block, line and person.
    pub taken: Vec<Vec<Vec<usize>>>,
    /// How good it is, and how good it could be.
    pub solved: Solved,
    /// Whether all at once was too hard, and each block was dealt out for itself.
    pub by_block: bool,
}

impl Board {
    /// What somebody does for a line.
    pub fn offer(&self, block: usize, line: usize, who: usize) -> &Offer {
        &self.class.blocks[block].offers[line][who][self.taken[block][line][who]]
    }

    /// Whether some line of a person is left to the coach.
    pub fn leaves_something(&self, who: usize) -> bool {
        let places = self
            .taken
            .iter()
            .enumerate()
            .flat_map(|(block, lines)| (0..lines.len()).map(move |line| (block, line)));
        let mut offers = places.map(|(block, line)| self.offer(block, line, who));
        offers.any(|offer| offer.own.kind == crate::own::Kind::Ask)
    }

    /// What each person's misfit adds up to.
    pub fn totals(&self) -> Vec<u32> {
        let mut totals = vec![0; self.class.people.len()];
        for (block, lines) in self.taken.iter().enumerate() {
            for (line, of_line) in lines.iter().enumerate() {
                for (who, total) in totals.iter_mut().enumerate().take(of_line.len()) {
                    *total += self.offer(block, line, who).misfit.total();
                }
            }
        }
        totals
    }
}

/// Why a class has no board.
#[derive(Debug, Clone)]
pub enum NoBoard {
    /// The kit is too little.
    TooLittle(Class),
    /// None was found with the effort allowed, in the block of this number, from 1, and
    /// this name.
    TooHard(usize, String),
}

/// The board of a class: first the worst-off person in the hall is as well off as possible, then all
/// together; nothing where the kit is too little.
///
/// # Errors
/// What stands in the way.
pub fn board(class: Class) -> Result<Board, NoBoard> {
    board_with(class, Puzzle::solve)
}

/// The same with a solver of one's own.
///
/// # Errors
/// What stands in the way.
pub fn board_with(class: Class, solve: impl Fn(&Puzzle) -> Outcome) -> Result<Board, NoBoard> {
    let rotas: Vec<Rota> = (0..class.blocks.len()).map(|block| spread(&class, block)).collect();
    let shared = Shared::of(&class, &rotas.iter().enumerate().collect::<Vec<_>>());
    let (solved, by_block) = match blockwise::deal((&class, &rotas), &shared, solve) {
        Ok(found) => found,
        Err(Undealt::TooLittle) => return Err(NoBoard::TooLittle(class)),
        Err(Undealt::TooHard(block)) => {
            let name = class.blocks.get(block).map(|asked| asked.name.clone());
            return Err(NoBoard::TooHard(block + 1, name.unwrap_or_default()));
        }
    };
    let solved = settle::by_nickname(&shared.puzzle, solved);
    let mut taken: Vec<Vec<Vec<usize>>> = class
        .blocks
        .iter()
        .map(|block| vec![vec![0; class.people.len()]; block.offers.len()])
        .collect();
    for ((block, line, who), at) in shared.places.iter().zip(&solved.picked) {
        taken[*block][*line][*who] = *at;
    }
    Ok(Board { class, rotas, taken, solved, by_block })
}

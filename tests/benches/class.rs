//! How long a class takes to deal out, and how far its board may be from the best: drawn classes of 14 to
//! 200 people, a third at home, in every session of the starter library of six blocks or more.
//! A benchmark, not a test: `cargo bench --bench class`; `-- 30 200` for other sizes.

#[path = "../dice/mod.rs"]
mod dice;
#[allow(dead_code)]
#[path = "../board/drawn.rs"]
mod drawn;

use dice::Dice;
use drawn::{GYM, TODAY, drawn, roster};
use rungbook::board::puzzle::Solved;
use rungbook::board::{self, Class, Hall, NoBoard, Person};
use rungbook::library::Session;
use rungbook::plan::Day;
use std::time::Instant;

/// A whole hour.
const BLOCKS: usize = 6;

/// Misfit is in rungs; the gap is how far the sum may be from the best with that worst.
const HEAD: &str =
    "people  hall  pieces  offers s  deal s   worst  bound     sum   bound    gap  how";

/// How many people one hall as it is written serves; a bigger class stands in more of them.
const A_HALL: usize = 30;

fn main() {
    let asked: Vec<usize> = std::env::args().skip(1).filter_map(|word| word.parse().ok()).collect();
    let sizes = if asked.is_empty() { vec![14, 30, 60, 120, 200] } else { asked };
    let long = GYM.library.sessions.values().filter(|session| session.blocks.len() >= BLOCKS);
    for session in long {
        println!(
            "\n{}: {} blocks, {} lines\n{HEAD}",
            session.name.value,
            session.blocks.len(),
            session.blocks.iter().map(|block| block.items.len()).sum::<usize>()
        );
        for people in &sizes {
            println!("{}", row(session, *people));
        }
    }
}

fn row(session: &Session, people: usize) -> String {
    let birds = roster(&drawn(&mut Dice(people as u64), people));
    let people: Vec<Person> = board::class(&GYM, &birds, Day::read(TODAY));
    let here = people.iter().filter(|person| !person.at_home).count();
    let (hall, pieces) = hall_for(here);
    let all = people.len();
    let start = Instant::now();
    let class = Class::with_hall(&GYM, session, people, hall);
    let offers_s = start.elapsed().as_secs_f64();
    let start = Instant::now();
    let dealt = board::board(class);
    let deal_s = start.elapsed().as_secs_f64();
    let head = format!("{all:6}  {here:4}  {pieces:6}  {offers_s:8.2}  {deal_s:6.2}");
    match dealt {
        Ok(board) => format!("{head}  {}", judged(&board.solved, board.by_block)),
        Err(NoBoard::TooLittle(_)) => format!("{head}  too little kit"),
        Err(NoBoard::TooHard(block, name)) => format!("{head}  none found: block {block}, {name}"),
    }
}

fn judged(solved: &Solved, by_block: bool) -> String {
    let Solved { worst, worst_bound, sum, sum_bound, .. } = solved;
    let gap = 100.0 * f64::from(sum - sum_bound) / f64::from((*sum).max(1));
    let how = if by_block { "each block for itself" } else { "all at once" };
    let (worst, least) = (f64::from(*worst) / 100.0, f64::from(*worst_bound) / 100.0);
    let (sum, least_sum) = (f64::from(*sum) / 100.0, f64::from(*sum_bound) / 100.0);
    format!("{worst:6.2} {least:6.2}  {sum:6.1}  {least_sum:6.1}  {gap:4.1} %  {how}")
}

/// The hall's kit, as many times over as a class of that size fills it, and how many pieces that is.
fn hall_for(here: usize) -> (Hall, u32) {
    let times = u32::try_from(here.div_ceil(A_HALL)).unwrap_or(1).max(1);
    let kit = &GYM.library.club.hall_kit;
    let hall =
        kit.iter().fold(Hall::of(&GYM, here), |hall, (id, n)| hall.with(&id.value, n * times));
    (hall, kit.iter().map(|(_, count)| count * times).sum())
}

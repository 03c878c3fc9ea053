//! Plan: the clock of a session, its balance, and a cycle week by week.
//! Never prints, never reads a clock, never promises: what a person will manage stays a band.
//!
//! Rules of thumb stand in [`pace`], each with its source or the words "common practice, no
//! source". Findings are returned as facts by [`facts`]; the room `check` words them.

mod balance;
mod band;
mod block;
mod calendar;
mod clock_row;
mod cycle;
mod day;
pub mod facts;
mod feed;
mod fits;
mod format;
mod joints;
mod line;
pub mod pace;
mod pieces;
mod say;
mod session;
mod share;
mod trials;
mod turns;
mod ways;
mod week;

pub use balance::{WeekBalance, week_balance};
pub use band::{Band, clock};
pub use block::{BlockPlan, ItemPlan, Slot, WayPlan, block_plan};
pub use calendar::{PageOf, Reminder, calendar};
pub use clock_row::{ClockRow, clock_row};
pub use cycle::{
    CyclePlan, LadderPlan, LadderWeek, aim_number, cycle_plan, from_every_rung, starting_rungs,
};
pub use day::{Day, first_day, training_dates, training_days};
pub use feed::feed;
pub use format::{clock_words, format_words};
pub use joints::Joint;
pub use line::SlotKind;
pub use say::{as_text, week_dose};
pub use session::{SessionPlan, WarmUp, in_turn, session_plan, warm_up_block};
pub use share::{Share, Station, Stop, at_once, share, stations};
pub use trials::trials;
pub use turns::{Turn, self_paced};
pub use ways::{Way, ways};
pub use week::{aim_rungs, aimed, in_week, is_focus, weeks_with};

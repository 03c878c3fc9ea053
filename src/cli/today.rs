//! Today: the day of whoever asks, as their own clock has it, or as they say.
//! Never the day of another time zone: an evening class is not tomorrow's.

use crate::plan::Day;

/// What day it is, where a command asks
#[derive(Debug, Clone, Copy, clap::Args)]
pub(super) struct Today {
    /// What day it is, where this machine's clock is wrong or the class is another day
    #[arg(long, value_name = "DAY", value_parser = day)]
    today: Option<Day>,
}

impl Today {
    /// The day that was said, else that of this machine's clock; nothing where the clock has none.
    pub(super) fn day(self) -> Option<Day> {
        self.today.or_else(|| Day::read(&jiff::Zoned::now().date().to_string()))
    }
}

fn day(text: &str) -> Result<Day, String> {
    Day::read(text)
        .ok_or_else(|| "write the year, the month and the day, such as 2026-11-25".into())
}

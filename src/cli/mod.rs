//! Commands only translate: arguments in, one call, print, exit code. One file a command.
//! Never an `if` about movements: that belongs to a room above.

mod add;
mod board;
mod board_file;
mod build;
mod called;
mod check;
mod check_mend;
mod completions;
mod complete_ids;
mod cover;
mod cover_session;
mod csv;
mod demand;
mod demand_said;
mod explain;
mod explain_ids;
mod exchange;
mod files;
mod find;
mod man;
mod new;
mod own;
mod place;
mod plan;
mod preview;
mod private_file;
mod rename;
mod roster;
mod roster_done;
mod roster_file;
mod roster_json;
mod roster_keep;
mod roster_relate;
mod say;
mod swap;
mod tidy;
mod today;
mod week;
mod whom;

use clap::{Parser, Subcommand};
use say::Outcome;
use std::ffi::OsString;
use std::process::ExitCode;

/// The program's number and that of the form of libraries, rosters and books which it reads.
const VERSION: &str = concat!(env!("CARGO_PKG_VERSION"), " (format 1)");

/// A movement library and scaling ladders for a small strength club, checked and published.
#[derive(Parser)]
#[command(name = "rungbook", version = VERSION, about, long_about = None, propagate_version = true)]
#[command(after_help = "Exit codes: 0 fine, 1 findings, 2 could not run.\n\
    Start here: rungbook new my-club && cd my-club && rungbook preview")]
pub struct Command {
    #[command(subcommand)]
    task: Task,
}

#[derive(Subcommand)]
enum Task {
    New(new::New),
    Add(add::Add),
    Check(check::Check),
    Tidy(tidy::Tidy),
    Rename(rename::Rename),
    Csv(csv::Csv),
    Explain(explain::Explain),
    Build(build::Build),
    Preview(preview::Preview),
    Find(find::Find),
    Swap(swap::Swap),
    Own(own::Own),
    Board(board::Board),
    Cover(cover::Cover),
    Place(place::Place),
    Demand(demand::Demand),
    Plan(plan::Plan),
    Roster(roster::Roster),
    Completions(completions::Completions),
    Man(man::Man),
}

/// Runs the command line and returns its exit code: 0 fine, 1 findings, 2 could not run.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let command = match Command::try_parse_from(arguments) {
        Ok(command) => command,
        Err(help) => {
            // Help that was asked for goes to standard output and is fine; a mistake is not.
            help.print().unwrap_or_else(|error| say::lose(&error));
            return ended(if help.use_stderr() { 2 } else { 0 });
        }
    };
    let outcome = match command.task {
        Task::New(task) => task.run(),
        Task::Add(task) => task.run(),
        Task::Check(task) => task.run(),
        Task::Tidy(task) => task.run(),
        Task::Rename(task) => task.run(),
        Task::Csv(task) => task.run(),
        Task::Explain(task) => task.run(),
        Task::Build(task) => task.run(),
        Task::Preview(task) => task.run(),
        Task::Find(task) => task.run(),
        Task::Swap(task) => task.run(),
        Task::Own(task) => task.run(),
        Task::Board(task) => task.run(),
        Task::Cover(task) => task.run(),
        Task::Place(task) => task.run(),
        Task::Demand(task) => task.run(),
        Task::Plan(task) => task.run(),
        Task::Roster(task) => task.run(),
        Task::Completions(task) => task.run(),
        Task::Man(task) => task.run(),
    };
    ended(match outcome {
        Ok(Outcome::Fine) => 0,
        Ok(Outcome::Findings) => 1,
        Err(trouble) => {
            say::trouble(&trouble);
            2
        }
    })
}

/// `code`, unless what was said did not arrive.
fn ended(code: u8) -> ExitCode {
    let Some(lost) = say::lost() else { return ExitCode::from(code) };
    say::trouble(&lost);
    ExitCode::from(2)
}

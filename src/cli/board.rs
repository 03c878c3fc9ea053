//! `rungbook board`: one class, everyone's version of every line, and the kit that they share.
//! Never decides who does what: the room `board` does; never writes where a site or a library is.

use super::board_file;
use super::roster::{no_roster, without_errors};
use super::roster_file::RosterText;
use super::say::{self, LibraryDir, Outcome, Trouble};
use super::today::Today;
use super::week::AskedWeek;
use super::whom;
use crate::board::{self, Class, Copy, Hall, NoBoard, Person, Rows, Standing, View};
use crate::check;
use crate::door::Door;
use crate::finding::{Sources, did_you_mean};
use crate::gym::Gym;
use crate::library::{Session, SessionId};
use crate::live::{self, Wanted};
use crate::plan::Day;
use std::io;
use std::path::{Path, PathBuf};

/// Deal out a session to a class: who does what, with which kit, so that nobody is left holding nothing
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  \
    rungbook board push-and-pull --roster roster.yaml\n  \
    rungbook board push-and-pull --roster roster.yaml --out board.html\n  \
    rungbook board push-and-pull --roster roster.yaml --live\n\n\
    Limits hold, nothing is used beyond what the hall has, and at home people use what they have. \
    First whoever is furthest from their own is as near to it as possible, then all together. Where \
    there is too little kit it says what is missing, and where nothing fits somebody the coach \
    decides: then the exit code is 1.")]
pub struct Board {
    /// A session, by its id
    session: String,
    /// File of the roster
    #[arg(long = "roster", value_name = "FILE", default_value = "roster.yaml")]
    roster_file: PathBuf,
    #[command(flatten)]
    today: Today,
    #[command(flatten)]
    week: AskedWeek,
    /// Who is on the roster and not here; they can still come on the file's own board
    #[arg(long, value_delimiter = ',', value_name = "NICKNAME")]
    away: Vec<String>,
    /// So many who are on no roster and may still come, on the file's own board and with --live: each
    /// begins at the bottom of every ladder
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u8).range(0..=9))]
    guests: u8,
    /// Say why, for your eyes alone: reasons tell what people leave out
    #[arg(long)]
    why: bool,
    /// As a table, a row a person and line
    #[arg(long, conflicts_with = "out")]
    csv: bool,
    /// Write it as one file for a tablet and the wall, such as board.html; with --why the coach's copy
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Show it in a browser of this machine, and deal it out anew at every touch; Ctrl-C ends it
    #[arg(long, conflicts_with_all = ["csv", "out"])]
    live: bool,
    /// Port of --live; 0 takes any free one
    #[arg(long, value_name = "N", requires = "live", default_value_t = 0)]
    port: u16,
    #[command(flatten)]
    library: LibraryDir,
}

impl Board {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let today = self.today.day();
        let session = &self.week.asked(&gym, session(&gym, &self.session)?, today)?;
        whom::can_keep_limits(&gym)?;
        let roster = sound_roster(&gym, &self.roster_file, today)?;
        let people = board::class(&gym, roster.roster(), today);
        let guests = board::guests(&gym, &people, usize::from(self.guests));
        let (mut away, here) = who(people, &self.away)?;
        without_their_partner(&here, &away).into_iter().for_each(say::tell);
        away.extend(guests.into_iter().filter(|_| self.live || self.out.is_some()));
        // Whoever may still come counts in what is plenty for everybody.
        let in_hall = here.iter().chain(&away).filter(|person| !person.at_home).count();
        let class = Class::with_hall(&gym, session, here, Hall::of(&gym, in_hall));
        match board::board(class) {
            Ok(board) => {
                let view = View::of(&gym, session, &board, today);
                let left = view.left_to_the_coach();
                let asks =
                    || say::tell(format!("Left to you, as nothing fits: {}.\n", left.join("; ")));
                if self.live {
                    (!left.is_empty()).then(asks);
                    self.serve(gym, (session, &board, &view), &away)?;
                    return Ok(Outcome::Fine);
                }
                self.show(&gym, (session, &board, &view), &away)?;
                (!left.is_empty()).then(asks);
                Ok(if left.is_empty() { Outcome::Fine } else { Outcome::Findings })
            }
            Err(none) => {
                say::print(none_found(&gym, none));
                Ok(Outcome::Findings)
            }
        }
    }

    /// Serves a board until Ctrl-C. No browser is opened: what starts one shows the address, with its token,
    /// to everybody on this machine.
    fn serve(
        self,
        gym: Gym,
        (session, board, view): (&Session, &board::Board, &View),
        away: &[Person],
    ) -> Result<(), Trouble> {
        let door = Door::open(Some(self.port)).map_err(|error| self.unserved(&error))?;
        let standing = Standing::of(&gym, session, board, away);
        let table = board::table_now(&gym, session, &standing, (self.copy(), Rows::All));
        let page = board::as_page(&gym, (board, view), table, self.copy());
        let (session, copy) = (session.clone(), self.copy());
        let tell = |address: &str| {
            say::print(format!("board: {address} (for this machine alone; Ctrl-C ends it)\n"));
        };
        live::run(Wanted { gym, session, standing, copy, page }, door, tell)
            .map_err(|error| self.unserved(&error))?;
        say::print("board ended\n");
        Ok(())
    }

    fn unserved(&self, error: &io::Error) -> Trouble {
        let sentence = match error.kind() {
            io::ErrorKind::AddrInUse => format!("port {} is taken", self.port),
            io::ErrorKind::PermissionDenied => format!("port {} is not for you to open", self.port),
            _ => format!("the board could not be served: {error}"),
        };
        Trouble::new(sentence, "leave --port out, and a free one is found")
    }

    fn copy(&self) -> Copy {
        if self.why { Copy::Coach } else { Copy::Wall }
    }

    fn show(
        &self,
        gym: &Gym,
        (session, board, view): (&Session, &board::Board, &View),
        away: &[Person],
    ) -> Result<(), Trouble> {
        let Some(file) = &self.out else {
            say::print(match self.csv {
                true => board::as_csv(gym, (board, view), self.why),
                false => {
                    let text = board::as_text(gym, (board, view), self.why);
                    say::stop_signs(gym) + &text + &say::caution_line(gym)
                }
            });
            return Ok(());
        };
        let live = board::table(gym, session, board, away);
        let copy = self.copy();
        board_file::write(file, &board::as_page(gym, (board, view), live, copy), copy)?;
        say::print(format!("{}: private, open it from disk\n", say::shown(file)));
        Ok(())
    }
}

/// Who is away and who is here.
///
/// # Errors
/// Where somebody away is not on the roster.
pub(super) fn who(
    people: Vec<Person>,
    away: &[String],
) -> Result<(Vec<Person>, Vec<Person>), Trouble> {
    let is = |person: &Person, name: &String| person.name.to_lowercase() == name.to_lowercase();
    let unknown = away.iter().find(|name| !people.iter().any(|one| is(one, name)));
    if let Some(name) = unknown {
        let known: Vec<&str> = people.iter().map(|person| person.name.as_str()).collect();
        let help = did_you_mean(name, known, "write nicknames of the roster");
        return Err(Trouble::new(format!("nobody on the roster is called `{name}`"), help));
    }
    let is_away = |person: &Person| away.iter().any(|name| is(person, name));
    Ok(people.into_iter().partition(is_away))
}

/// Who works with somebody that is away: said, so that nobody stands and waits.
fn without_their_partner(here: &[Person], away: &[Person]) -> Vec<String> {
    let is_away = |name: &String| away.iter().any(|one| one.name == *name);
    let alone =
        here.iter().filter_map(|one| Some((one, one.with.as_ref().filter(|n| is_away(n))?)));
    alone.map(|(one, with)| format!("{} works with {with}, who is away.\n", one.name)).collect()
}

/// The roster in a file, without an error in it.
///
/// # Errors
/// Where it is not there, cannot be read, or has one.
pub(super) fn sound_roster(
    gym: &Gym,
    file: &Path,
    today: Option<Day>,
) -> Result<RosterText, Trouble> {
    if !file.exists() {
        return Err(no_roster(file));
    }
    let mut sources = Sources::default();
    let read = RosterText::read(file, &mut sources)?;
    let everybody = read.roster().members.iter();
    let found = everybody.flat_map(|member| check::member(gym, (read.roster(), member), today));
    without_errors(found.collect(), &sources, file)?;
    Ok(read)
}

/// Why there is no board, and what to do about it.
pub(super) fn none_found(gym: &Gym, none: NoBoard) -> String {
    let (which, name) = match none {
        NoBoard::TooLittle(class) => {
            let missing = board::short(gym, &class);
            if !missing.is_empty() {
                return missing.iter().map(|line| format!("{line}\n")).collect();
            }
            ("One of the blocks".to_string(), String::new())
        }
        NoBoard::TooHard(number, name) => (format!("Block {number}"), format!(", {name}")),
    };
    format!(
        "{which}{name}: no way to deal it out was found, and none is ruled out.\n  = help: say how the \
         class goes through it, such as `spread: stations`, or deal out a part of the class with --away\n"
    )
}

/// A session of the library.
///
/// # Errors
/// Where there is none of that id.
pub(super) fn session<'g>(gym: &'g Gym, id: &str) -> Result<&'g Session, Trouble> {
    let sessions = &gym.library.sessions;
    sessions.get(&SessionId::from(id)).ok_or_else(|| {
        let known: Vec<&str> = sessions.keys().map(SessionId::as_str).collect();
        let otherwise = format!("write one of {}", known.join(", "));
        let help = did_you_mean(id, known, &otherwise);
        Trouble::new(format!("there is no session `{id}`"), help)
    })
}

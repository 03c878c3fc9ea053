//! `rungbook roster done`: after class, what everybody did by its board, one line each on the roster.
//! Never writes a class twice, and never takes out more than the class that is named.

use super::board::{none_found, session, sound_roster, who};
use super::roster::{RosterPlace, no_roster};
use super::roster_file::{RosterText, RosterTurn, sent_text};
use super::say::{self, LibraryDir, Outcome, Trouble};
use super::today::Today;
use super::week::AskedWeek;
use super::whom;
use crate::board::{self, Class, Noted};
use crate::finding::Sources;
use crate::gym::Gym;
use crate::library::{Done as Line, Member, Nickname, Session};
use crate::plan::Day;
use std::path::{Path, PathBuf};

/// Write down after class what everybody did by its board, one line each
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook roster done push-and-pull\n  \
    rungbook roster done push-and-pull --today 2026-11-30 --away wren,robin\n  \
    rungbook roster done push-and-pull --from push-and-pull-done.json\n  \
    rungbook roster done push-and-pull --today 2026-11-30 --undo\n\n\
    It keeps own rungs, and the lines for which nothing fitted somebody: with --from as the board's page \
    saved them after class, touches and all, else as `rungbook board` deals the class out. The same class of one day is written once. What was counted \
    goes on the roster with `rungbook roster add`; `rungbook roster show` says who is due for a move, \
    and who was left out twice running.")]
pub struct Done {
    /// The session that was taken, by its id
    session: String,
    #[command(flatten)]
    today: Today,
    #[command(flatten)]
    week: AskedWeek,
    /// Who is on the roster and was not there
    #[arg(long, value_delimiter = ',', value_name = "NICKNAME", conflicts_with = "undo")]
    away: Vec<String>,
    /// What the board's page saved at its button `Note what was done`; `-` for what is piped in
    #[arg(long, value_name = "FILE", conflicts_with_all = ["undo", "away", "week", "cycle", "as_written"])]
    from: Option<PathBuf>,
    /// Take the lines of this session on this day out again
    #[arg(long)]
    undo: bool,
    #[command(flatten)]
    roster: RosterPlace,
    #[command(flatten)]
    library: LibraryDir,
}

impl Done {
    pub(super) fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let day = self.today.day().ok_or_else(|| {
            let help = "say the day of the class, such as `--today 2026-11-30`";
            Trouble::new("this machine does not know what day it is".to_string(), help)
        })?;
        if !self.roster.roster_file.exists() {
            return Err(no_roster(&self.roster.roster_file));
        }
        match &self.from {
            _ if self.undo => self.take_out(day),
            Some(from) => self.write_noted(&gym, from, day),
            None => self.write_down(&gym, day),
        }
    }

    /// Writes what the board's page saved.
    fn write_noted(&self, gym: &Gym, from: &Path, day: Day) -> Result<Outcome, Trouble> {
        let file = &self.roster.roster_file;
        let session = session(gym, &self.session)?;
        let noted =
            Noted::read(gym, session, &sent_text(from, "the file that the board's page saved")?)
                .map_err(|why| {
                    let help = format!(
                        "save it anew from the board of {}, and mend nothing by hand",
                        session.id
                    );
                    Trouble::new(format!("`{}` is not taken: {why}", say::shown(from)), help)
                })?;
        let turn = RosterTurn::take(file)?;
        let text = sound_roster(gym, file, Some(day))?;
        let (mut new, mut said) = (Vec::new(), String::new());
        for person in &noted.people {
            let Some(member) = text.roster().member(&person.name) else {
                said += &format!(
                    "not on the roster, nothing is kept: {}\n",
                    say::shown(Path::new(&person.name))
                );
                continue;
            };
            let done = person.done(session, &day.to_string(), member.name.span);
            keep(&mut new, &mut said, member, done);
        }
        text.done(&new, &turn)?;
        say::print(said + &self.undo_words(day, !new.is_empty()));
        Ok(Outcome::Fine)
    }

    fn write_down(&self, gym: &Gym, day: Day) -> Result<Outcome, Trouble> {
        let file = &self.roster.roster_file;
        let session = &self.week.asked(gym, session(gym, &self.session)?, Some(day))?;
        whom::can_keep_limits(gym)?;
        let turn = RosterTurn::take(file)?;
        let text = sound_roster(gym, file, Some(day))?;
        let people = board::class(gym, text.roster(), Some(day));
        let (_, here) = who(people, &self.away)?;
        let board = match board::board(Class::of(gym, session, here)) {
            Ok(board) => board,
            Err(none) => {
                say::print(none_found(gym, none));
                return Ok(Outcome::Findings);
            }
        };
        let (new, said) = lines(gym, (session, &board), &text, day);
        text.done(&new, &turn)?;
        say::print(said + &self.undo_words(day, !new.is_empty()));
        Ok(Outcome::Fine)
    }

    /// The command as it is to be typed, its roster too where that was named.
    fn undo_words(&self, day: Day, has_new: bool) -> String {
        if !has_new {
            return "nothing to write: everybody's line of this class is there\n".to_string();
        }
        let session = &self.session;
        let place = self.roster.named();
        format!(
            "To take it out again: rungbook roster done {session} --today {day} --undo{place}\n"
        )
    }

    /// The session may be gone from the library by now: its lines can still be taken out.
    fn take_out(&self, day: Day) -> Result<Outcome, Trouble> {
        let file = &self.roster.roster_file;
        let turn = RosterTurn::take(file)?;
        let text = RosterText::read(file, &mut Sources::default())?;
        let id = self.session.as_str().into();
        let is_gone = |done: &Line| done.is_of(&id, &day.to_string());
        let members = text.roster().members.iter();
        let whose: Vec<&str> = members
            .filter(|member| member.done.iter().any(is_gone))
            .map(|member| member.name.as_str())
            .collect();
        if whose.is_empty() {
            say::print(format!("nothing to take out: nobody has {} on {day}\n", self.session));
            return Ok(Outcome::Fine);
        }
        text.undone(is_gone, &turn)?;
        say::print(format!("taken out: {} on {day}: {}\n", self.session, whose.join(", ")));
        Ok(Outcome::Fine)
    }
}

/// A line for everybody who has none of this class yet, and what is said of everyone.
fn lines(
    gym: &Gym,
    (session, board): (&Session, &board::Board),
    text: &RosterText,
    day: Day,
) -> (Vec<(Nickname, Line)>, String) {
    let mut new = Vec::new();
    let mut said = String::new();
    for (who, person) in board.class.people.iter().enumerate() {
        let Some(member) = text.roster().member(&person.name) else { continue };
        let done = board::done(gym, (session, board), (who, member.name.span), day);
        keep(&mut new, &mut said, member, done);
    }
    (new, said)
}

/// One line of a member, unless it is there.
fn keep(new: &mut Vec<(Nickname, Line)>, said: &mut String, member: &Member, done: Line) {
    let (session, day) = (&done.session.value, &done.day.value);
    if member.done.iter().any(|one| one.is_of(session, day)) {
        *said += &format!("already there: {}: {session} on {day}\n", member.name.value);
        return;
    }
    *said += &format!("done: {}: {}\n", member.name.value, words(&done));
    new.push((member.name.value.clone(), done));
}

/// `Row: Strap row, lean 37 deg, 4 x 6-10; left out: Overhead`.
pub(super) fn words(done: &Line) -> String {
    let mut parts: Vec<String> =
        done.did.iter().map(|(line, what)| format!("{line}: {what}")).collect();
    if !done.left_out.is_empty() {
        parts.push(format!("left out: {}", done.left_out.join(", ")));
    }
    match parts.is_empty() {
        true => "as the session asks".to_string(),
        false => parts.join("; "),
    }
}

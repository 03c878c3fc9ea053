//! `rungbook own`: a session or a rung as one person does it, line by line.
//! Never decides what fits: the room `own` does, as the page does.

use super::called;
use super::roster::{RosterPlace, member_called};
use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use super::today::Today;
use super::week::AskedWeek;
use super::whom::{self, Whom};
use crate::check;
use crate::finding::Sources;
use crate::gym::{Gym, heights};
use crate::library::reader::handed;
use crate::library::{KitId, Ladder, Quantity, Session};
use crate::own::{self, Kind, Member, Own as Answer, Tested};
use crate::swap;
use serde::Serialize;

/// Show a session, or a rung, as one person does it
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  \
    rungbook own push-and-pull --kit chair,towel --avoid 'sore wrist'\n  \
    rungbook own push-up --rung 4 --avoid 'sore wrist' --result 'push-up rung 2 12 reps'\n  \
    rungbook own push-and-pull --member wren --roster roster.yaml\n  \
    rungbook own push-and-pull --week 5 --kit chair,towel\n\n\
    From the own rung downward, on each rung as it stands, then changed; then another movement that \
    does the same work, never a harder one. Where nothing fits the answer is to ask the coach, and \
    the exit code is 1.")]
pub struct Own {
    /// A session or a ladder: its id or its name
    #[arg(required = true, value_name = "SESSION|LADDER")]
    what: Vec<String>,
    /// On a ladder: the rung that is asked, from 1; without it the person's own
    #[arg(long, value_name = "N")]
    rung: Option<u32>,
    /// A result, such as 'push-up rung 4 12 reps', with a day where there are several; may be said
    /// again
    #[arg(long, value_name = "RESULT")]
    result: Vec<String>,
    /// A height at home, such as counter=92cm; may be said again
    #[arg(long, value_delimiter = ',', value_name = "KIT=HEIGHT")]
    height: Vec<String>,
    /// Stature, such as '168 cm'
    #[arg(long, value_name = "LENGTH", value_parser = whom::stature)]
    stature: Option<Quantity>,
    /// A member of the roster; what is said here besides counts before it
    #[arg(long, value_name = "NICKNAME")]
    member: Option<String>,
    #[command(flatten)]
    week: AskedWeek,
    #[command(flatten)]
    today: Today,
    #[command(flatten)]
    roster: RosterPlace,
    #[command(flatten)]
    whom: Whom,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person or for a script
    #[arg(long, short, value_enum, default_value = "human")]
    format: Format,
}

impl Own {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let member = self.person(&gym)?;
        let (text, blocks) = match named(&gym, &called::joined(&self.what))? {
            Named::Session(session) => self.of_session(&gym, session, &member)?,
            Named::Ladder(ladder) => {
                self.no_week()?;
                let answer = self.of_ladder(&gym, ladder, &member)?;
                let text = own::line_as_text(&gym, &answer);
                (text, rows(&gym, None, vec![vec![answer]]))
            }
        };
        let asks = blocks.iter().flat_map(|block| &block.lines).any(|line| line.kind == "ask");
        say::print(match self.format {
            Format::Human => say::stop_signs(&gym) + &text + &say::caution_line(&gym),
            Format::Json => serde_json::to_string_pretty(&blocks).unwrap_or_default() + "\n",
        });
        Ok(if asks { Outcome::Findings } else { Outcome::Fine })
    }

    fn of_session(
        &self,
        gym: &Gym,
        session: &Session,
        member: &Member,
    ) -> Result<(String, Vec<Block>), Trouble> {
        let session = &self.week.asked(gym, session, self.today.day())?;
        let blocks = own::of_session(gym, session, member);
        let text = own::as_text(gym, session, &blocks);
        Ok((text, rows(gym, Some(session), blocks)))
    }

    fn no_week(&self) -> Result<(), Trouble> {
        let sentence = "a week is of a session: a ladder has none";
        let help = "name a session, or say nothing of a week";
        if self.week.is_said() { Err(Trouble::new(sentence, help)) } else { Ok(()) }
    }

    fn of_ladder(&self, gym: &Gym, ladder: &Ladder, member: &Member) -> Result<Answer, Trouble> {
        let top = u32::try_from(ladder.rungs.len()).unwrap_or(u32::MAX);
        match self.rung {
            Some(rung) if (1..=top).contains(&rung) => Ok(own::of_rung(gym, ladder, rung, member)),
            Some(rung) => {
                let sentence = format!("the ladder `{}` has no rung {rung}", ladder.id);
                Err(Trouble::new(sentence, format!("name one of its rungs, 1 to {top}")))
            }
            None => own::of_own_rung(gym, ladder, member).ok_or_else(|| {
                let sentence = "nobody knows this person's own rung".to_string();
                Trouble::new(sentence, format!("add --rung, 1 to {top}, or a --result"))
            }),
        }
    }

    /// The person: of the roster, if one is named, and what is said here before it.
    fn person(&self, gym: &Gym) -> Result<Member, Trouble> {
        let mut member = match &self.member {
            Some(name) => {
                let today = self.today.day();
                let entry = member_called(gym, name, &self.roster, today)?;
                whom::can_keep_limits(gym)?;
                own::from_roster(gym, &entry, today)
            }
            None => Member::default(),
        };
        let said = self.whom.person(gym)?;
        if said.kit.is_some() {
            member.person.kit = said.kit;
        }
        // What the roster leaves out is left out here too: of two levels the lower one holds.
        for (id, from) in said.limits {
            let level = member.person.limits.entry(id).or_insert(from);
            *level = from.min(*level);
        }
        member.person.situations.extend(said.situations);
        (member.person.noise, member.person.room) = (said.noise, said.room);
        member.stature = self.stature;
        for height in &self.height {
            let (kit, cm) = height_of(gym, height)?;
            member.heights.insert(kit, cm);
        }
        for result in &self.result {
            member.results.push(result_of(gym, result)?);
        }
        Ok(member)
    }
}

fn height_of(gym: &Gym, text: &str) -> Result<(KitId, f64), Trouble> {
    let help = "write it like `--height counter=92cm`";
    let wrong = || Trouble::new(format!("`{text}` is no height"), help);
    let (kit, height) = text.split_once('=').ok_or_else(wrong)?;
    let unknown = |sentence| Trouble::new(sentence, "mend the word and ask again");
    let kit = swap::kit_from(gym, &[kit.to_string()]).map_err(unknown)?;
    let again = |why| Trouble::new(format!("`{text}`: {why}"), help);
    let cm = whom::height(height.trim()).map_err(again)?.number();
    let kit = kit.into_iter().next().ok_or_else(wrong)?;
    let range =
        heights::can_be(kit.as_str()).filter(|(least, most)| !(*least..=*most).contains(&cm));
    match range {
        None => Ok((kit, cm)),
        Some((least, most)) => {
            let where_ =
                "measure from the floor to where the weight goes: a seat, not a chair's back";
            Err(Trouble::new(format!("`{text}`: this is from {least} to {most} cm"), where_))
        }
    }
}

/// A day before every day: results without one count in the order typed.
const NO_DAY: &str = "0001-01-01";

fn result_of(gym: &Gym, text: &str) -> Result<Tested, Trouble> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let has_day = words.get(5).is_some_and(|word| word.contains('-'));
    let (first, rest) = words.split_at(words.len().min(5));
    let day = if has_day { "" } else { NO_DAY };
    let line = format!("me {} {day} {}\n", first.join(" "), rest.join(" "));
    let mut sources = Sources::default();
    let file = sources.add("--result", line);
    let (found, mut findings) = handed::read(file, &sources);
    findings.extend(found.iter().flat_map(|one| check::result(gym, &one.result)));
    findings.retain(|finding| !finding.headline.contains(NO_DAY));
    match (findings.first(), found.first()) {
        // Whoever types a result means the ladder of today.
        (None, Some(one)) => Ok(own::tested(&own::with_its_rung(gym, one.result.clone()))),
        (found, _) => {
            let sentence = found.map_or("there is no result in it", |f| f.headline.as_str());
            let help = "write it like `push-up rung 4 12 reps 2026-11-25`";
            Err(Trouble::new(format!("`{text}`: {sentence}"), help))
        }
    }
}

enum Named<'g> {
    Session(&'g Session),
    Ladder(&'g Ladder),
}

fn named<'g>(gym: &'g Gym, word: &str) -> Result<Named<'g>, Trouble> {
    let library = &gym.library;
    let sessions = library
        .sessions
        .values()
        .map(|one| (one.id.as_str(), one.name.as_str(), Named::Session(one)));
    let ladders = library
        .ladders
        .values()
        .map(|one| (one.id.as_str(), one.name.as_str(), Named::Ladder(one)));
    called::called("session and no ladder", word, sessions.chain(ladders))
}

#[derive(Serialize)]
struct Block {
    #[serde(skip_serializing_if = "Option::is_none")]
    block: Option<String>,
    lines: Vec<Row>,
}

#[derive(Serialize)]
struct Row {
    kind: &'static str,
    movement: String,
    name: String,
    ladder: Option<String>,
    rung: Option<u32>,
    setting: String,
    change: String,
    dose: String,
    cue: String,
    why: Vec<String>,
}

fn rows(gym: &Gym, session: Option<&Session>, blocks: Vec<Vec<Answer>>) -> Vec<Block> {
    let name = |at: usize| Some(session?.blocks.get(at)?.name.value.clone());
    let block = |(at, lines): (usize, Vec<Answer>)| Block {
        block: name(at),
        lines: lines.into_iter().map(|own| row(gym, own)).collect(),
    };
    blocks.into_iter().enumerate().map(block).collect()
}

fn row(gym: &Gym, own: Answer) -> Row {
    let name = gym.library.movements.get(&own.movement).map(|known| known.name.value.clone());
    let (ladder, rung) =
        own.rung.map_or((None, None), |(id, rung)| (Some(id.to_string()), Some(rung)));
    Row {
        kind: own.kind.word(),
        name: name.filter(|_| own.kind != Kind::Ask).unwrap_or_default(),
        movement: own.movement.to_string(),
        ladder,
        rung,
        setting: own.setting,
        change: own.change,
        dose: own.dose,
        cue: own.cue,
        why: own.why,
    }
}

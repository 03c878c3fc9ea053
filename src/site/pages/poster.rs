//! What of a session hangs on the wall, one sheet a block, or stands at its stations, one card a line.
//! Never says why: no purpose, no note, nobody's limit and nobody's name reaches a sheet.

use super::block::ItemRow;
use super::card::figure_file;
use super::demand::rung_figure_file;
use super::frame::{Frame, Link, Maker};
use super::session::block_rows;
use super::standing::on_the_wall;
use crate::gym::Gym;
use crate::library::{Ladder, MovementId, Session};
use crate::own::shown_rungs;
use crate::plan::{self, BlockPlan, session_plan};
use crate::site::routes::To;
use serde::Serialize;

/// Lines of a block from which on a sheet is crowded: then it shows no cue and no second name.
const CROWDED: usize = 4;

/// What a sheet has room for, in lines; one with columns counts as [`WITH_COLUMNS`].
const ROOM: usize = 12;
const WITH_COLUMNS: usize = 4;

/// The context of `poster.html`.
#[derive(Debug, Serialize)]
pub struct PosterPage {
    page: Frame,
    id: String,
    session: Link,
    sheets: Vec<Sheet>,
}

/// A block on one sheet.
#[derive(Debug, Serialize)]
struct Sheet {
    name: String,
    format: Option<String>,
    /// From the session's start to the block's own, and how long its clock runs, in seconds.
    at_s: u32,
    lasts_s: u32,
    from: String,
    to: String,
    crowded: bool,
    /// Whether it has more than one sheet holds at that size: then it goes on over the next.
    overfull: bool,
    lines: Vec<Line>,
}

/// A line of a block: a row of its sheet, and a card at its station.
#[derive(Debug, Serialize)]
struct Line {
    name: String,
    /// `your own rung`.
    whose: Option<String>,
    dose: Option<String>,
    cue: Option<String>,
    /// What it looks like, where there is one way to do it.
    figure: Option<String>,
    columns: Vec<Column>,
}

impl Line {
    fn room(&self) -> usize {
        if self.columns.is_empty() { 1 } else { WITH_COLUMNS }
    }
}

/// One way to do a line.
#[derive(Debug, Serialize)]
struct Column {
    /// `easier`, `usual`, `harder`; nothing for ways of which none is harder.
    level: Option<&'static str>,
    /// The object at hand, or the movement where it decides.
    what: String,
    /// The movement, where the object stands in front.
    name: Option<String>,
    dose: Option<String>,
    cue: Option<String>,
    figure: Option<String>,
}

/// The sheets and cards of `session`.
pub fn poster_page(gym: &Gym, session: &Session) -> PosterPage {
    let maker = Maker::new(gym, &To::Poster(&session.id));
    let title = format!("{} for the wall", session.name.value);
    let description = format!("{}: a sheet a block, and cards for stations.", session.name.value);
    PosterPage {
        page: maker.frame(title, description).telling_to_move(),
        id: session.id.to_string(),
        session: maker.link(session.name.value.clone(), &To::Session(&session.id)),
        sheets: sheets(&maker, session),
    }
}

fn sheets(maker: &Maker<'_>, session: &Session) -> Vec<Sheet> {
    let plan = session_plan(maker.gym, session);
    let times = plan::in_turn(plan.blocks.iter().map(BlockPlan::lasts_s));
    let mut sheets = Vec::new();
    for (block, (at_s, to_s)) in block_rows(maker, session, &plan).into_iter().zip(times) {
        let lines: Vec<Line> = block.items.iter().map(|item| line(maker, item)).collect();
        sheets.push(Sheet {
            at_s,
            lasts_s: to_s - at_s,
            from: plan::clock(at_s),
            to: plan::clock(to_s),
            crowded: lines.len() >= CROWDED,
            overfull: lines.iter().map(Line::room).sum::<usize>() > ROOM,
            name: block.name,
            format: block.format,
            lines,
        });
    }
    sheets
}

fn line(maker: &Maker<'_>, item: &ItemRow) -> Line {
    let columns = match &item.ladder_id {
        Some(id) => on_ladder(maker, item, id),
        None => item.options.iter().map(|option| option_column(maker, option)).collect(),
    };
    let one_of = || "One of these".to_string();
    let named = |link: &Link, setting: &str| match setting.is_empty() {
        true => link.text.clone(),
        false => format!("{}, {setting}", link.text),
    };
    Line {
        name: match (&item.ladder, &item.movement) {
            (Some(ladder), _) => ladder.text.clone(),
            (None, Some(movement)) => named(movement, &item.setting),
            (None, None) => one_of(),
        },
        whose: item.whose.clone(),
        dose: item.dose.clone(),
        cue: item.cue.clone(),
        figure: item.movement_id.as_deref().and_then(|id| movement_figure(maker, &id.into())),
        columns,
    }
}

/// Three rungs of a ladder, as the session's page shows them.
const LEVELS: [&str; 3] = ["easier", "usual", "harder"];

fn on_ladder(maker: &Maker<'_>, item: &ItemRow, id: &str) -> Vec<Column> {
    let Some(ladder) = maker.gym.library.ladders.get(&id.into()) else { return Vec::new() };
    let shown = shown_rungs(ladder, item.below);
    let levels: Vec<Option<&str>> = match shown.len() {
        3 => LEVELS.iter().copied().map(Some).collect(),
        2 => vec![Some(LEVELS[0]), Some(LEVELS[2])],
        _ => vec![None],
    };
    let rungs = shown.iter().zip(levels).zip(&item.rungs);
    rungs.filter_map(|((at, level), row)| rung_column(maker, (ladder, *at), level, row)).collect()
}

fn rung_column(
    maker: &Maker<'_>,
    (ladder, at): (&Ladder, usize),
    level: Option<&'static str>,
    row: &super::standing::RungRow,
) -> Option<Column> {
    let rung = ladder.rungs.get(at)?;
    let movement = maker.gym.library.movements.get(&rung.movement.value)?;
    let figure = rung_figure_file(maker.gym, ladder, at);
    Some(Column {
        level,
        what: on_the_wall(maker.gym, movement, rung),
        name: Some(movement.name.value.clone()),
        dose: row.dose.clone(),
        cue: movement.cues.first().map(|cue| cue.say.value.clone()),
        figure: figure.map(|file| maker.links.to_file(&file)),
    })
}

fn option_column(maker: &Maker<'_>, option: &ItemRow) -> Column {
    let link = option.movement.as_ref().or(option.ladder.as_ref());
    let setting = if option.setting.is_empty() { None } else { Some(option.setting.clone()) };
    Column {
        level: None,
        what: link.map_or(String::new(), |link| link.text.clone()),
        name: setting,
        dose: option.dose.clone(),
        cue: option.cue.clone(),
        figure: option.movement_id.as_deref().and_then(|id| movement_figure(maker, &id.into())),
    }
}

fn movement_figure(maker: &Maker<'_>, id: &MovementId) -> Option<String> {
    maker.gym.posed.get(id)?.figure.as_ref()?;
    Some(maker.links.to_file(&figure_file(id)))
}

//! Parts: what a site is made of, each part made alone from the gym and the theme.
//! Never knows where its files go, nor what another part made.

use super::pages::*;
use super::routes::To;
use super::theme::{Theme, ThemeError};
use super::{feed_address, search_index, session_address};
use crate::figure::style::SHEET;
use crate::gym::Gym;
use crate::library::{
    CautionId, Cycle, CycleId, FaultId, KitId, Ladder, LadderId, Movement, MovementId, PatternId,
    Session, SessionId,
};
use crate::plan::Reminder;
use crate::{plan, swap};
use serde::Serialize;

/// The style that every page has.
const STYLE: &str = "styles/slate.css";
/// The drawing for the tab, the home screen and, where the club has its own, the head of every page.
const ICON: &str = "icon.svg";

/// One part of a site: a page with what its scripts ask for, or a file of data.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Part {
    /// Every word that is looked up.
    Index,
    /// A page that there is once.
    Page(To<'static>),
    /// A cycle: its page, its weeks, its calendar.
    Cycle(CycleId),
    /// A ladder: its page, its data, the pictures of its rungs.
    Ladder(LadderId),
    /// A session: its page, its poster and its steps.
    Session(SessionId),
    /// A movement: its page, card, picture, motion, and its faults drawn.
    Movement(MovementId),
    /// A piece of kit.
    Kit(KitId),
    /// A situation.
    Caution(CautionId),
    /// A fault that movements share: its page and its card.
    Fault(FaultId),
    /// A pattern.
    Pattern(PatternId),
    /// The page at the address that an entry had before: its file.
    Moved(String),
    /// The feed of sessions.
    Feed,
    /// What scripts know by id.
    Data(&'static str),
    /// A style, script or picture of the theme.
    Asset(String),
}

/// A file below the site's folder.
pub type Made = (String, Vec<u8>);

/// Pages that there are once.
const PAGES: [To<'static>; 17] = [
    To::Front,
    To::Today,
    To::Floor,
    To::Home,
    To::Learning,
    To::Picker,
    To::Book,
    To::NotFound,
    To::Movements,
    To::Ladders,
    To::KitList,
    To::Cautions,
    To::Faults,
    To::Muscles,
    To::Sources,
    To::Sessions,
    To::AToZ,
];

/// The style sheet of every figure.
const FIGURE_SHEET: &str = "styles/figure.css";
const INDEX_FILE: &str = "data/search-index.js";
const DATA: [&str; 6] =
    [FIGURE_SHEET, FAULTS_FILE, PLACING_FILE, WORDS_FILE, SIGNS_FILE, STOP_FILE];

impl Part {
    /// Every part, those that take longest first, so that no core waits for them at the end. Where two
    /// make a file of one name, the later one's counts.
    pub fn all(gym: &Gym, theme: &Theme) -> Vec<Part> {
        let library = &gym.library;
        let words = &library.words;
        let mut all = vec![Part::Index];
        all.extend(PAGES.into_iter().map(Part::Page));
        all.extend(library.cycles.keys().cloned().map(Part::Cycle));
        all.extend(library.ladders.keys().cloned().map(Part::Ladder));
        all.extend(library.sessions.keys().cloned().map(Part::Session));
        all.extend(library.movements.keys().cloned().map(Part::Movement));
        all.extend(words.faults.keys().cloned().map(Part::Fault));
        all.extend(words.kit.keys().cloned().map(Part::Kit));
        all.extend(words.cautions.keys().cloned().map(Part::Caution));
        all.extend(words.patterns.keys().cloned().map(Part::Pattern));
        all.extend(moved(gym).map(|(file, _)| Part::Moved(file)));
        all.push(Part::Feed);
        all.extend(DATA.map(Part::Data));
        all.extend(theme.assets().keys().cloned().map(Part::Asset));
        all
    }

    /// The names of every file that it may make; it makes some of them only where there is something
    /// to show.
    pub fn names(&self, gym: &Gym) -> Vec<String> {
        match self {
            Part::Index => vec![INDEX_FILE.to_string()],
            Part::Page(to @ (To::Learning | To::Floor | To::AToZ)) => {
                dealt_files(gym, to).into_iter().chain([to.file()]).collect()
            }
            Part::Page(to) => vec![to.file()],
            Part::Cycle(id) => {
                let calendars = [Reminder::Silent, Reminder::Morning];
                let calendars = calendars.map(|reminder| To::Calendar(id, reminder).file());
                [To::Cycle(id).file(), weeks_file(id)].into_iter().chain(calendars).collect()
            }
            Part::Ladder(id) => {
                let rungs = gym.library.ladders.get(id).map_or(0, |ladder| ladder.rungs.len());
                let figures = (0..rungs).map(|at| rung_file(id, at));
                [To::Ladder(id).file(), ladder_file(id)].into_iter().chain(figures).collect()
            }
            Part::Session(id) => {
                vec![To::Session(id).file(), To::Poster(id).file(), steps_file(id)]
            }
            Part::Movement(id) => {
                let own =
                    [To::Movement(id).file(), card_file(id), figure_file(id), motion_file(id)];
                let faults = gym.library.movements.get(id).into_iter().flat_map(|m| &m.faults);
                let known = faults.filter_map(|fault| fault.of.as_ref());
                own.into_iter().chain(known.map(|fault| wrong_file(id, &fault.value))).collect()
            }
            Part::Kit(id) => vec![To::Kit(id).file()],
            Part::Caution(id) => vec![To::Caution(id).file()],
            Part::Fault(id) => vec![To::KnownFault(id).file(), fault_file(id)],
            Part::Pattern(id) => vec![To::Pattern(id).file()],
            Part::Moved(file) => vec![file.clone()],
            Part::Feed => vec![To::Feed.file()],
            Part::Data(name) => vec![name.to_string()],
            Part::Asset(name) => vec![name.clone()],
        }
    }

    /// Makes its files; none where what it is of is not in the library.
    ///
    /// # Errors
    /// A template that does not fit its page.
    pub fn make(&self, gym: &Gym, theme: &Theme) -> Result<Vec<Made>, ThemeError> {
        let (library, words) = (&gym.library, &gym.library.words);
        Ok(match self {
            Part::Index => vec![(INDEX_FILE.to_string(), search_index(gym)?.into_bytes())],
            Part::Page(To::Learning) => dealt(theme, "learning.html", learning_pages(gym))?,
            Part::Page(To::Floor) => dealt(theme, "floor.html", floor_pages(gym))?,
            Part::Page(To::AToZ) => dealt(theme, "a-to-z.html", a_to_z_pages(gym))?,
            Part::Page(to) => vec![page(to, once(to, gym, theme)?)],
            Part::Cycle(id) => part(library.cycles.get(id), |it| cycle(gym, theme, it))?,
            Part::Ladder(id) => part(library.ladders.get(id), |it| ladder(gym, theme, it))?,
            Part::Session(id) => part(library.sessions.get(id), |it| session(gym, theme, it))?,
            Part::Movement(id) => part(library.movements.get(id), |it| movement(gym, theme, it))?,
            Part::Kit(id) => part(words.kit.get(id), |item| {
                Ok(vec![page(&To::Kit(id), theme.render("kit.html", &kit_page(gym, item))?)])
            })?,
            Part::Caution(id) => part(words.cautions.get(id), |caution| {
                let html = theme.render("caution.html", &caution_page(gym, caution))?;
                Ok(vec![page(&To::Caution(id), html)])
            })?,
            Part::Fault(id) => part(words.faults.get(id), |fault| {
                let html = theme.render("fault.html", &fault_page(gym, fault))?;
                Ok(vec![
                    page(&To::KnownFault(id), html),
                    text(fault_file(id), fault_card(gym, fault)),
                ])
            })?,
            Part::Pattern(id) => part(words.patterns.get(id), |pattern| {
                let html = theme.render("pattern.html", &pattern_page(gym, pattern))?;
                Ok(vec![page(&To::Pattern(id), html)])
            })?,
            Part::Moved(file) => {
                let former = moved(gym).find(|(at, _)| at == file).map(|(_, former)| former);
                part(former.and_then(|former| moved_page(gym, former)), |it| {
                    Ok(vec![text(file.clone(), theme.render("moved.html", &it)?)])
                })?
            }
            Part::Feed => {
                let page_of = |id: &SessionId| session_address(gym, id);
                vec![text(To::Feed.file(), plan::feed(gym, &page_of, feed_address(gym).as_deref()))]
            }
            Part::Data(name) => vec![text(name.to_string(), data(name, gym))],
            Part::Asset(name) => theme
                .assets()
                .get(name)
                .map(|bytes| (name.clone(), in_its_colours(name, bytes, gym)))
                .into_iter()
                .collect(),
        })
    }
}

/// A file of the theme; the style of every page ends with the club's own colours, and the icon is
/// the club's own logo.
fn in_its_colours(name: &str, bytes: &[u8], gym: &Gym) -> Vec<u8> {
    let club = &gym.library.club;
    if let Some(logo) = club.logo_file.filter(|_| name == ICON) {
        return gym.library.sources.text(logo).as_bytes().to_vec();
    }
    let mut bytes = bytes.to_vec();
    if let Some(colours) = club.colours.as_ref().filter(|_| name == STYLE) {
        bytes.extend_from_slice(colours.as_style().as_bytes());
    }
    bytes
}

fn page(to: &To<'_>, html: String) -> Made {
    text(to.file(), html)
}

fn text(name: String, text: String) -> Made {
    (name, text.into_bytes())
}

fn part<T>(
    of: Option<T>,
    make: impl FnOnce(T) -> Result<Vec<Made>, ThemeError>,
) -> Result<Vec<Made>, ThemeError> {
    of.map_or(Ok(Vec::new()), make)
}

/// A list on one page or, of a large library, on several.
fn dealt<P: Serialize>(
    theme: &Theme,
    template: &str,
    pages: Vec<(String, P)>,
) -> Result<Vec<Made>, ThemeError> {
    let made = |(file, page): (String, P)| Ok(text(file, theme.render(template, &page)?));
    pages.into_iter().map(made).collect()
}

/// A page that there is once.
fn once(to: &To<'_>, gym: &Gym, theme: &Theme) -> Result<String, ThemeError> {
    match to {
        To::Front => theme.render("front.html", &front_page(gym)),
        To::Today => theme.render("today.html", &today_page(gym)),
        To::Home => theme.render("home.html", &home_page(gym)),
        To::Picker => theme.render("picker.html", &picker_page(gym)),
        To::Book => theme.render("book.html", &book_page(gym)),
        To::Movements => theme.render("movements.html", &movements_page(gym)),
        To::Ladders => theme.render("ladders.html", &ladders_page(gym)),
        To::KitList => theme.render("kit-list.html", &kit_list_page(gym)),
        To::Cautions => theme.render("cautions.html", &cautions_page(gym)),
        To::Faults => theme.render("faults.html", &faults_page(gym)),
        To::Muscles => theme.render("muscles.html", &muscles_page(gym)),
        To::Sources => theme.render("sources.html", &sources_page(gym)),
        To::Sessions => theme.render("sessions.html", &sessions_page(gym)),
        _ => theme.render("404.html", &not_found_page(gym)),
    }
}

fn data(name: &str, gym: &Gym) -> String {
    match name {
        FAULTS_FILE => fault_words(gym),
        PLACING_FILE => placing_data(),
        WORDS_FILE => words_data(gym),
        SIGNS_FILE => signs_data(gym),
        STOP_FILE => stop_data(gym),
        _ => format!("{SHEET}\n"),
    }
}

fn cycle(gym: &Gym, theme: &Theme, cycle: &Cycle) -> Result<Vec<Made>, ThemeError> {
    let html = theme.render("cycle.html", &cycle_page(gym, cycle))?;
    let mut made = vec![page(&To::Cycle(&cycle.id), html)];
    made.push(text(weeks_file(&cycle.id), weeks_data(gym, cycle)));
    if let Some(first_day) = plan::first_day(cycle) {
        let page_of = |id: &SessionId| session_address(gym, id);
        for reminder in [Reminder::Silent, Reminder::Morning] {
            let calendar = plan::calendar(gym, cycle, (first_day, reminder), &page_of);
            made.push(text(To::Calendar(&cycle.id, reminder).file(), calendar));
        }
    }
    Ok(made)
}

fn ladder(gym: &Gym, theme: &Theme, ladder: &Ladder) -> Result<Vec<Made>, ThemeError> {
    let html = theme.render("ladder.html", &ladder_page(gym, ladder))?;
    let mut made = vec![page(&To::Ladder(&ladder.id), html)];
    made.push(text(ladder_file(&ladder.id), ladder_data(gym, ladder)));
    made.extend(rung_figures(gym, ladder).into_iter().map(|(file, svg)| text(file, svg)));
    Ok(made)
}

fn session(gym: &Gym, theme: &Theme, session: &Session) -> Result<Vec<Made>, ThemeError> {
    let html = theme.render("session.html", &session_page(gym, session))?;
    let poster = theme.render("poster.html", &poster_page(gym, session))?;
    Ok(vec![
        page(&To::Session(&session.id), html),
        page(&To::Poster(&session.id), poster),
        text(steps_file(&session.id), steps(gym, session)),
    ])
}

fn movement(gym: &Gym, theme: &Theme, movement: &Movement) -> Result<Vec<Made>, ThemeError> {
    let id = &movement.id;
    let swaps = swap::ranked(gym, id);
    let html = theme.render("movement.html", &movement_page(gym, movement, &swaps))?;
    let mut made = vec![page(&To::Movement(id), html)];
    made.push(text(card_file(id), card(gym, movement, &swaps)));
    made.extend(motion_script(gym, movement).map(|motion| text(motion_file(id), motion)));
    made.extend(figure(gym, movement).map(|svg| text(figure_file(id), svg)));
    made.extend(wrong_figures(gym, movement).into_iter().map(|(file, svg)| text(file, svg)));
    Ok(made)
}

//! Routes: the one maker of addresses. Every page has a flat file name; every link is relative.
//! Never reads the library: it turns ids into addresses and nothing else.

use crate::library::{
    CautionId, CycleId, FaultId, KitId, LadderId, MovementId, MuscleId, PatternId, SessionId,
    SourceId, TraitId,
};
use crate::plan::Reminder;

/// Where a link goes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum To<'a> {
    /// The front page with its three doors.
    Front,
    /// What happens today.
    Today,
    /// The coach in class.
    Floor,
    /// The member at home.
    Home,
    /// The new coach.
    Learning,
    /// The picker of kit and limits.
    Picker,
    /// The member's own book.
    Book,
    /// Every entry from A to Z.
    AToZ,
    /// The drill of a pattern, its pages from 1, where a library is large.
    LearningOf(&'a PatternId, usize),
    /// The ladders of a pattern on the floor, likewise; of none, those without a pattern.
    FloorOf(Option<&'a PatternId>, usize),
    /// So many lines from A to Z, likewise.
    AToZOf(usize),
    /// The page for an address that does not exist.
    NotFound,
    /// All movements.
    Movements,
    /// One movement.
    Movement(&'a MovementId),
    /// A fault of a movement, from 1.
    Fault(&'a MovementId, usize),
    /// A movement at a rung of a ladder, from 1.
    AtRung(&'a MovementId, &'a LadderId, usize),
    /// A cue of a movement, from 1.
    Cue(&'a MovementId, usize),
    /// All ladders.
    Ladders,
    /// One ladder.
    Ladder(&'a LadderId),
    /// A rung of a ladder, from 1.
    Rung(&'a LadderId, usize),
    /// All kit.
    KitList,
    /// One piece of kit.
    Kit(&'a KitId),
    /// All cautions and traits.
    Cautions,
    /// One caution.
    Caution(&'a CautionId),
    /// A trait, on the page of cautions.
    Trait(&'a TraitId),
    /// The faults that movements share.
    Faults,
    /// One of them, with all its movements.
    KnownFault(&'a FaultId),
    /// One pattern.
    Pattern(&'a PatternId),
    /// All muscles.
    Muscles,
    /// A muscle, on the page of muscles.
    Muscle(&'a MuscleId),
    /// All sources.
    Sources,
    /// A source, on the page of sources.
    Source(&'a SourceId),
    /// Sessions and cycles.
    Sessions,
    /// One session.
    Session(&'a SessionId),
    /// A block of a session, from 1.
    Block(&'a SessionId, usize),
    /// What of a session hangs on the wall or stands at its stations.
    Poster(&'a SessionId),
    /// One cycle.
    Cycle(&'a CycleId),
    /// The calendar of a cycle, silent or with reminders.
    Calendar(&'a CycleId, Reminder),
    /// The feed of sessions.
    Feed,
}

impl To<'_> {
    /// The file of the page, below the site's folder.
    pub fn file(&self) -> String {
        match self {
            To::Front => "index.html".into(),
            To::Today => "today.html".into(),
            To::Floor => "floor.html".into(),
            To::Home => "home.html".into(),
            To::Learning => "learning.html".into(),
            To::Picker => "kit-and-limits.html".into(),
            To::Book => "book.html".into(),
            To::AToZ => "a-to-z.html".into(),
            To::LearningOf(id, at) => numbered(&format!("learning-{id}"), *at),
            To::FloorOf(Some(id), at) => numbered(&format!("floor-{id}"), *at),
            // No id has a sign before it.
            To::FloorOf(None, at) => numbered("floor--other", *at),
            To::AToZOf(at) => format!("a-to-z-{at}.html"),
            To::NotFound => "404.html".into(),
            To::Movements => "movements/index.html".into(),
            To::Movement(id) | To::Fault(id, _) | To::Cue(id, _) | To::AtRung(id, ..) => {
                format!("movements/{id}.html")
            }
            To::Ladders => "ladders/index.html".into(),
            To::Ladder(id) | To::Rung(id, _) => format!("ladders/{id}.html"),
            To::KitList => "kit/index.html".into(),
            To::Kit(id) => format!("kit/{id}.html"),
            To::Cautions | To::Trait(_) => "cautions/index.html".into(),
            To::Caution(id) => format!("cautions/{id}.html"),
            To::Faults => "faults/index.html".into(),
            To::KnownFault(id) => format!("faults/{id}.html"),
            To::Pattern(id) => format!("patterns/{id}.html"),
            To::Muscles | To::Muscle(_) => "muscles.html".into(),
            To::Sources | To::Source(_) => "sources.html".into(),
            To::Sessions => "sessions/index.html".into(),
            To::Session(id) | To::Block(id, _) => format!("sessions/{id}.html"),
            To::Poster(id) => format!("posters/{id}.html"),
            To::Cycle(id) => format!("cycles/{id}.html"),
            To::Calendar(id, Reminder::Silent) => format!("calendars/{id}.ics"),
            To::Calendar(id, Reminder::Morning) => format!("calendars/reminders/{id}.ics"),
            To::Feed => "feed.xml".into(),
        }
    }

    /// The place on the page, if the link goes to one.
    fn fragment(&self) -> Option<String> {
        match self {
            To::Fault(_, number) => Some(format!("fault-{number}")),
            To::Cue(_, number) => Some(format!("cue-{number}")),
            To::Rung(_, number) => Some(format!("rung-{number}")),
            To::AtRung(_, ladder, number) => Some(format!("rung-{ladder}-{number}")),
            To::Block(_, number) => Some(format!("block-{number}")),
            To::Trait(id) => Some(format!("trait-{id}")),
            To::Muscle(id) => Some(id.to_string()),
            To::Source(id) => Some(id.to_string()),
            _ => None,
        }
    }

    /// The address below the site's folder, with its fragment.
    pub fn address(&self) -> String {
        match self.fragment() {
            Some(fragment) => format!("{}#{fragment}", self.file()),
            None => self.file(),
        }
    }
}

/// A page of several: two signs keep its number apart from an id's.
fn numbered(of: &str, at: usize) -> String {
    if at == 1 { format!("{of}.html") } else { format!("{of}--{at}.html") }
}

/// Links from one page: knows the way back to the site's folder.
#[derive(Debug, Clone)]
pub struct Links {
    root: String,
}

impl Links {
    /// Links from the page whose file is `file`.
    pub fn from(file: &str) -> Links {
        Links { root: "../".repeat(file.matches('/').count()) }
    }

    /// Links from a page that may be shown at any address, such as the one for a missing page:
    /// `path` is the path of the club's address, such as `/book/`.
    pub fn from_anywhere(path: &str) -> Links {
        Links { root: path.to_string() }
    }

    /// The way to the site's folder: empty, `../`, or a path.
    pub fn root(&self) -> &str {
        &self.root
    }

    /// A relative link.
    pub fn to(&self, to: &To<'_>) -> String {
        self.to_file(&to.address())
    }

    /// A relative link to a file below the site's folder.
    pub fn to_file(&self, file: &str) -> String {
        format!("{}{file}", self.root)
    }
}

/// What a link in an entry's body names, as the coach writes it: `towel-row`, `ladders/row`,
/// `kit/straps`, `cautions/sore-wrist`. Outside addresses are nothing of ours.
pub fn from_written(written: &str) -> Option<Written> {
    let target = written.split('#').next().unwrap_or_default();
    let written = match target.split_once('/') {
        None => Written::Movement(target.into()),
        Some(("movements", id)) => Written::Movement(id.into()),
        Some(("ladders", id)) => Written::Ladder(id.into()),
        Some(("kit", id)) => Written::Kit(id.into()),
        Some(("cautions", id)) => Written::Caution(id.into()),
        Some(("faults", id)) => Written::Fault(id.into()),
        Some(("patterns", id)) => Written::Pattern(id.into()),
        Some(("muscles", id)) => Written::Muscle(id.into()),
        Some(("sources", id)) => Written::Source(id.into()),
        Some(("sessions", id)) => Written::Session(id.into()),
        Some(("cycles", id)) => Written::Cycle(id.into()),
        _ => return None,
    };
    Some(written)
}

/// The target of a link in a body.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Written {
    Movement(MovementId),
    Ladder(LadderId),
    Kit(KitId),
    Caution(CautionId),
    Fault(FaultId),
    Pattern(PatternId),
    Muscle(MuscleId),
    Source(SourceId),
    Session(SessionId),
    Cycle(CycleId),
}

impl Written {
    /// The route to it.
    pub fn to(&self) -> To<'_> {
        match self {
            Written::Movement(id) => To::Movement(id),
            Written::Ladder(id) => To::Ladder(id),
            Written::Kit(id) => To::Kit(id),
            Written::Caution(id) => To::Caution(id),
            Written::Fault(id) => To::KnownFault(id),
            Written::Pattern(id) => To::Pattern(id),
            Written::Muscle(id) => To::Muscle(id),
            Written::Source(id) => To::Source(id),
            Written::Session(id) => To::Session(id),
            Written::Cycle(id) => To::Cycle(id),
        }
    }
}

//! The frame round every page: title, way home, caution line, stop signs.
//! Never the clock: the same content gives the same frame.

use crate::gym::Gym;
use crate::library::{SourceId, TraitId};
use crate::site::routes::{Links, To};
use serde::Serialize;

/// A link with its words.
#[derive(Debug, Clone, Serialize, PartialEq, Eq)]
pub struct Link {
    /// The words.
    pub text: String,
    /// The relative address.
    pub to: String,
}

/// A source as pages show it, with its weight.
#[derive(Debug, Clone, Serialize)]
pub struct SourceLink {
    /// How to cite it.
    pub cite: String,
    /// Its place on the page of sources.
    pub to: String,
    /// How it was read: `common practice`, `from memory`, or nothing when it was read.
    pub mark: &'static str,
}

/// What every template has under the name `page`.
#[derive(Debug, Clone, Serialize)]
pub struct Frame {
    /// The club's name.
    pub club: String,
    /// Whether the club has a logo, which is then the icon.
    pub logo: bool,
    /// Language of the content.
    pub language: String,
    /// The page's own title.
    pub title: String,
    /// One sentence for search engines and link previews.
    pub description: String,
    /// The way to the site's folder: empty, `../` or a path.
    pub root: String,
    /// The page's file below the site's folder.
    pub file: String,
    /// The page's full address, when the club has one.
    pub canonical: Option<String>,
    /// The line for every page that tells someone to move.
    pub caution_line: String,
    /// When to stop at once.
    pub stop_signs: Vec<String>,
    /// True when the page tells someone to move, and so carries both.
    pub moves: bool,
    /// The feed of sessions, on pages about sessions.
    pub feed: Option<String>,
    /// Schema.org facts as JSON, safe inside a script element.
    pub json_ld: Option<String>,
    /// The main places.
    pub nav: Vec<NavLink>,
}

/// A link of the main menu.
#[derive(Debug, Clone, Serialize)]
pub struct NavLink {
    /// The words.
    pub text: &'static str,
    /// The relative address.
    pub to: String,
    /// True on the page itself.
    pub here: bool,
}

/// Makes frames and links for one page.
pub struct Maker<'g> {
    /// The gym.
    pub gym: &'g Gym,
    /// Links from this page.
    pub links: Links,
    file: String,
}

impl<'g> Maker<'g> {
    /// For the page at `to`.
    pub fn new(gym: &'g Gym, to: &To<'_>) -> Maker<'g> {
        let file = to.file();
        Maker { gym, links: Links::from(&file), file }
    }

    /// For the page of a missing address, whose links start at the club's own path.
    pub fn anywhere(gym: &'g Gym, to: &To<'_>) -> Maker<'g> {
        let address = gym.library.club.address.as_deref();
        let path = address.and_then(|a| a.splitn(4, '/').nth(3)).map(|path| format!("/{path}"));
        let links = match path {
            Some(path) => Links::from_anywhere(&path),
            None => Links::from(""),
        };
        Maker { gym, links, file: to.file() }
    }

    /// A frame; say with [`Frame::telling_to_move`] that the page tells someone to move.
    pub fn frame(&self, title: impl Into<String>, description: impl Into<String>) -> Frame {
        let club = &self.gym.library.club;
        Frame {
            club: club.name.clone(),
            logo: club.logo_file.is_some(),
            language: club.language.clone(),
            title: title.into(),
            description: description.into(),
            root: self.links.root().to_string(),
            canonical: club.address.as_ref().map(|address| format!("{address}{}", self.file)),
            file: self.file.clone(),
            caution_line: club
                .caution_line
                .as_ref()
                .map_or(String::new(), |line| line.value.clone()),
            stop_signs: club.stop_signs.clone(),
            moves: false,
            feed: None,
            json_ld: None,
            nav: self.nav(),
        }
    }

    fn nav(&self) -> Vec<NavLink> {
        let places = [
            ("Today", To::Today),
            ("On the floor", To::Floor),
            ("At home", To::Home),
            ("Learning to coach", To::Learning),
            ("Movements", To::Movements),
            ("Ladders", To::Ladders),
            ("Sessions", To::Sessions),
            ("My book", To::Book),
            ("Kit", To::KitList),
            ("Faults", To::Faults),
            ("Cautions", To::Cautions),
            ("Sources", To::Sources),
        ];
        let link = |(text, to): (&'static str, To<'_>)| NavLink {
            text,
            here: to.file() == self.file,
            to: self.links.to(&to),
        };
        places.into_iter().map(link).collect()
    }

    /// A link with words.
    pub fn link(&self, text: impl Into<String>, to: &To<'_>) -> Link {
        Link { text: text.into(), to: self.links.to(to) }
    }

    /// A link to a movement, by its name.
    pub fn movement(&self, id: &crate::library::MovementId) -> Link {
        let name = self.gym.library.movements.get(id).map_or(id.as_str(), |m| &m.name.value);
        self.link(name, &To::Movement(id))
    }

    /// A link to a ladder, by its name.
    pub fn ladder(&self, id: &crate::library::LadderId) -> Link {
        let name = self.gym.library.ladders.get(id).map_or(id.as_str(), |l| &l.name.value);
        self.link(name, &To::Ladder(id))
    }

    /// A link to a piece of kit, by its name.
    pub fn kit(&self, id: &crate::library::KitId) -> Link {
        let name = self.gym.library.words.kit.get(id).map_or(id.as_str(), |k| &k.name);
        self.link(name, &To::Kit(id))
    }

    /// A link to a trait, by its name.
    pub fn a_trait(&self, id: &TraitId) -> Link {
        self.link(self.trait_name(id), &To::Trait(id))
    }

    /// A trait's name.
    pub fn trait_name(&self, id: &TraitId) -> &'g str {
        self.gym.library.words.traits.get(id).map_or("", |t| &t.name)
    }

    /// A link to a muscle, by its name.
    pub fn muscle(&self, id: &crate::library::MuscleId) -> Link {
        let name = self.gym.library.words.muscles.get(id).map_or(id.as_str(), |m| &m.name);
        self.link(name, &To::Muscle(id))
    }

    /// A link to a fault that movements share, by its name.
    pub fn known_fault(&self, id: &crate::library::FaultId) -> Link {
        let name = self.gym.library.words.faults.get(id).map_or(id.as_str(), |f| &f.name);
        self.link(name, &To::KnownFault(id))
    }

    /// A link to a pattern, by its name.
    pub fn pattern(&self, id: &crate::library::PatternId) -> Link {
        let name = self.gym.library.words.patterns.get(id).map_or(id.as_str(), |p| &p.name);
        self.link(name, &To::Pattern(id))
    }

    /// Sources with their marks, in the order written.
    pub fn sources<'s>(&self, ids: impl IntoIterator<Item = &'s SourceId>) -> Vec<SourceLink> {
        let known = &self.gym.library.words.sources;
        ids.into_iter()
            .filter_map(|id| {
                let source = known.get(id)?;
                let to = self.links.to(&To::Source(id));
                Some(SourceLink { cite: source.cite(), to, mark: mark(source.read) })
            })
            .collect()
    }
}

/// How a source's weight is shown.
pub fn mark(read: crate::library::ReadMark) -> &'static str {
    use crate::library::ReadMark;
    match read {
        ReadMark::Full => "read in full",
        ReadMark::Part => "read in part",
        ReadMark::Abstract => "abstract read",
        ReadMark::Quoted => "read where it is quoted",
        ReadMark::Memory => "from memory",
        ReadMark::Practice => "common practice, no source",
    }
}

impl Frame {
    /// The page tells someone to move: it carries the caution line and the stop signs.
    pub fn telling_to_move(mut self) -> Frame {
        self.moves = true;
        self
    }

    /// The page is about sessions: a reader of feeds finds theirs from it.
    pub fn with_feed(mut self) -> Frame {
        self.feed = Some(format!("{}{}", self.root, To::Feed.file()));
        self
    }

    /// Adds schema.org facts. `<` is escaped so that no text can close the script element.
    pub fn with_facts(mut self, facts: &serde_json::Value) -> Frame {
        self.json_ld = Some(facts.to_string().replace('<', "\\u003c"));
        self
    }
}

//! Showings: what a preview shows at one moment, numbered so that none is missed.
//! Never shows pages of a library that a build would refuse: the last good ones stay.

use super::Wanted;
use crate::check;
use crate::finding::{self, Finding, Paint, Severity, Sources};
use crate::gym::Gym;
use crate::library::reader::{self, NoLibrary};
use crate::site::theme::{Theme, ThemeError};
use crate::site::{self, Files};
use std::fmt::Display;
use std::sync::Arc;

/// How many findings a page can usefully hold.
const MOST_FINDINGS: usize = 50;

/// What is shown after one build.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Showing {
    /// Number of this build, from 1.
    pub build: u64,
    /// Number of the build that made the pages: lower than `build` when the last good pages stay,
    /// 0 when there are none yet.
    pub pages: u64,
    /// The site.
    pub files: Arc<Files>,
    /// What there is to mend, as a terminal shows it; empty for nothing.
    pub findings: String,
    /// The findings in one line; empty for none.
    pub summary: String,
    /// True when there is more than advice.
    pub pressing: bool,
}

/// Makes showings of a library, one after each save.
pub struct Maker {
    wanted: Wanted,
    address: String,
    latest: Arc<Showing>,
}

impl Maker {
    /// For a preview whose front page is at `address`.
    pub fn new(wanted: Wanted, address: String) -> Maker {
        Maker { wanted, address, latest: Arc::default() }
    }

    /// Reads, checks and renders everything anew. Nothing when it all is as it was, so that a file
    /// saved without a change reloads no page.
    pub fn make(&mut self) -> Option<Arc<Showing>> {
        let derived = self.derive();
        let old = &*self.latest;
        let mut new = Showing {
            build: old.build + 1,
            pages: old.pages,
            files: Arc::clone(&old.files),
            pressing: derived.pressing,
            summary: derived.summary,
            findings: derived.findings,
        };
        match derived.files {
            None if old.pages == 0 => new.summary.push_str(". No pages yet."),
            None => new.summary.push_str(". These are the last good pages."),
            Some(files) if old.pages > 0 && files == *old.files => {}
            Some(files) => {
                new.files = Arc::new(files);
                new.pages = new.build;
            }
        }
        if old.build > 0 && new == (Showing { build: new.build, ..old.clone() }) {
            return None;
        }
        self.latest = Arc::new(new);
        Some(Arc::clone(&self.latest))
    }

    fn derive(&self) -> Derived {
        let library = match reader::read(&self.wanted.library) {
            Ok(library) => library,
            Err(gone) => return Derived::of_gone(&gone),
        };
        let mut gym = Gym::open(library);
        let mut derived = Derived::of(check::run(&gym), &gym.library.sources);
        // The page for a missing address links from the club's own; this site stands at ours.
        gym.library.club.address = Some(self.address.clone());
        let has_errors = derived.has_errors;
        let files = Theme::open(self.wanted.theme.as_deref()).and_then(|theme| {
            derived.findings.push_str(&theme.left_out().unwrap_or_default());
            if has_errors { Ok(None) } else { site::render(&gym, &theme, || ()).map(Some) }
        });
        match files {
            Ok(files) => derived.files = files,
            Err(error) => derived.add_theme_trouble(&error),
        }
        derived
    }
}

/// What a build found: pages unless something is in their way, and everything there is to mend.
struct Derived {
    files: Option<Files>,
    findings: String,
    summary: String,
    pressing: bool,
    has_errors: bool,
}

impl Derived {
    /// Errors come first, and advice waits until nothing presses: what was just broken must not
    /// drown in it.
    fn of(mut findings: Vec<Finding>, sources: &Sources) -> Derived {
        let summary = match findings.is_empty() {
            true => String::new(),
            false => finding::summary(&findings),
        };
        findings.sort_by_key(|finding| finding.severity);
        let pressing = findings.iter().filter(|f| f.severity != Severity::Advice).count();
        if pressing > 0 {
            findings.truncate(pressing);
        }
        let shown = &findings[..findings.len().min(MOST_FINDINGS)];
        let mut text = finding::render(shown, sources, Paint::Plain);
        if let more @ 1.. = findings.len() - shown.len() {
            text.push_str(&format!("and {more} more: `rungbook check` shows them all\n"));
        }
        Derived {
            files: None,
            findings: text,
            summary,
            pressing: pressing > 0,
            has_errors: findings.first().is_some_and(|f| f.severity == Severity::Error),
        }
    }

    fn of_gone(gone: &NoLibrary) -> Derived {
        let help = "put the folder back; the preview goes on as soon as it is there";
        Derived {
            files: None,
            findings: trouble(gone, help),
            summary: "The library's folder is gone".to_string(),
            pressing: true,
            has_errors: true,
        }
    }

    fn add_theme_trouble(&mut self, error: &ThemeError) {
        let help = error.help.unwrap_or("mend the template at the place named, and save it");
        self.findings.insert_str(0, &trouble(error, help));
        let also = if self.summary.is_empty() { "" } else { "; " };
        self.summary = format!("The theme cannot be used{also}{}", self.summary);
        self.pressing = true;
    }
}

/// Worded as a terminal shows it when a command cannot run.
fn trouble(sentence: &impl Display, help: &str) -> String {
    format!("error: {}\n  = help: {help}\n\n", sentence.to_string().trim_end())
}

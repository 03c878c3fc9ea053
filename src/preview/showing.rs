//! Showings: what a preview shows at one moment, numbered so that none is missed.
//! Never shows pages of a library that a build would refuse: the last good ones stay.

use super::Wanted;
use super::looked::LookedAt;
use crate::check;
use crate::finding::{self, Finding, Paint, Severity, Sources};
use crate::gym::Gym;
use crate::kept::{Inputs, Kept, Print};
use crate::library::reader::{NoLibrary, Texts};
use crate::site::theme::{Theme, ThemeError, ThemeFiles};
use std::fmt::Display;
use std::sync::Arc;

/// How many findings a page can usefully hold.
const MOST_FINDINGS: usize = 50;

/// What is shown after one build.
#[derive(Clone, Default)]
pub struct Showing {
    /// Number of this build, from 1.
    pub build: u64,
    /// Number of the build that made the pages: lower than `build` when the last good pages stay,
    /// 0 when there are none yet.
    pub pages: u64,
    /// The site; none until there is a good one.
    pub site: Option<Arc<LookedAt>>,
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
    /// Whether the pages of the latest showing are those of the library as it is.
    is_good: bool,
    kept: Arc<Kept>,
}

/// How many builds what nobody asks for is kept.
const TIDIED_EVERY: u64 = 16;

impl Maker {
    /// For a preview whose front page is at `address`.
    pub fn new(wanted: Wanted, address: String) -> Maker {
        let kept = Arc::new(Kept::in_memory());
        Maker { wanted, address, latest: Arc::default(), is_good: false, kept }
    }

    /// Reads everything anew and shows it: the pages as soon as no error is found, then all the
    /// findings. Shows nothing when it all is as it was, so that a file saved without a change reloads
    /// no page.
    pub fn make(&mut self, show: &mut impl FnMut(Arc<Showing>)) {
        let texts = match Texts::read(&self.wanted.library, &self.wanted.library.to_string_lossy())
        {
            Ok(texts) => texts,
            Err(gone) => return self.settle(Derived::of_gone(&gone), show),
        };
        let theme = ThemeFiles::read(self.wanted.theme.as_deref());
        let look = theme.as_ref().map_or_else(|_| Print::default(), ThemeFiles::print);
        let from =
            texts.print().map(|print| Inputs::of("shown").of_print(print).of_print(look).print());
        let was = self.latest.site.as_ref();
        if self.is_good && from.is_some() && from == was.and_then(|site| site.from) {
            return;
        }
        let mut gym = Gym::open_with(texts.library(), Arc::clone(&self.kept));
        // The page for a missing address links from the club's own; this site stands at ours.
        gym.library.club.address = Some(self.address.clone());
        match theme.and_then(Theme::of) {
            Ok(theme) => self.show_site(LookedAt::new(gym, theme, (from, look)), show),
            Err(error) => {
                let mut derived = Derived::of(check::run(&gym), &gym.library.sources);
                derived.add_theme_trouble(&error);
                self.settle(derived, show);
            }
        }
        if self.latest.build.is_multiple_of(TIDIED_EVERY) {
            self.kept.tidy();
        }
    }

    fn show_site(&mut self, site: LookedAt, show: &mut impl FnMut(Arc<Showing>)) {
        let site = Arc::new(site);
        // Our own theme fits every library; a club's that has shown one is taken to fit the next.
        let was = self.latest.site.as_ref().map(|site| site.look);
        let fits = self.wanted.theme.is_none() || was == Some(site.look);
        if fits && self.is_good && !check::has_errors(&site.gym) {
            self.show_early(&site, show);
        }
        let mut derived = Derived::of(check::run(&site.gym), &site.gym.library.sources);
        derived.findings.push_str(&site.theme.left_out().unwrap_or_default());
        if !derived.has_errors {
            match if fits { Ok(()) } else { site.all() } {
                Ok(()) => derived.site = Some(site),
                Err(error) => derived.add_theme_trouble(&error),
            }
        }
        self.settle(derived, show);
    }

    /// The pages before the findings: what was found last stays until then.
    fn show_early(&mut self, site: &Arc<LookedAt>, show: &mut impl FnMut(Arc<Showing>)) {
        let old = &*self.latest;
        let build = old.build + 1;
        let early = Showing { build, pages: build, site: Some(Arc::clone(site)), ..old.clone() };
        self.latest = Arc::new(early);
        show(Arc::clone(&self.latest));
    }

    /// All that was found, with the pages unless something is in their way.
    fn settle(&mut self, derived: Derived, show: &mut impl FnMut(Arc<Showing>)) {
        let old = &*self.latest;
        self.is_good = derived.site.is_some();
        let mut new = Showing {
            build: old.build + 1,
            pages: old.pages,
            site: old.site.clone(),
            pressing: derived.pressing,
            summary: derived.summary,
            findings: derived.findings,
        };
        let from = old.site.as_ref().and_then(|site| site.from);
        match derived.site {
            None if old.pages == 0 => new.summary.push_str(". No pages yet."),
            None => new.summary.push_str(". These are the last good pages."),
            Some(site) if from.is_some() && from == site.from => {}
            Some(site) => (new.site, new.pages) = (Some(site), new.build),
        }
        let is_same = new.pages == old.pages
            && (&new.findings, &new.summary, new.pressing)
                == (&old.findings, &old.summary, old.pressing);
        if old.build == 0 || !is_same {
            self.latest = Arc::new(new);
            show(Arc::clone(&self.latest));
        }
    }
}

/// What a build found: pages unless something is in their way, and everything there is to mend.
struct Derived {
    site: Option<Arc<LookedAt>>,
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
            site: None,
            findings: text,
            summary,
            pressing: pressing > 0,
            has_errors: findings.first().is_some_and(|f| f.severity == Severity::Error),
        }
    }

    fn of_gone(gone: &NoLibrary) -> Derived {
        let help = "put the folder back; the preview goes on as soon as it is there";
        Derived {
            site: None,
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

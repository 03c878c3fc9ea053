//! `rungbook build`: the library becomes a site.
//! Never writes a site from a library with errors.

use super::say::{self, LibraryDir, Outcome, Trouble};
use crate::finding::Severity;
use crate::gym::Gym;
use crate::site::{self, output::Place, theme::Theme};
use indicatif::{ProgressBar, ProgressDrawTarget};
use std::path::PathBuf;

/// Check the library and write it as a site
#[derive(clap::Args)]
#[command(after_help = "Example:\n  rungbook build --out site\n\n\
    A library with errors is not built: the old site stands. \
    Warnings and advice do not stop a build.")]
pub struct Build {
    #[command(flatten)]
    library: LibraryDir,
    #[command(flatten)]
    site: SiteDir,
}

/// Where the site goes and how it looks.
#[derive(Debug, clap::Args)]
pub struct SiteDir {
    /// Folder of the site; only files of an earlier build are replaced or removed
    #[arg(long, value_name = "DIR", default_value = "site")]
    pub out: PathBuf,
    /// Folder of your own templates, styles and scripts, which stand before ours of the same name
    #[arg(long, value_name = "DIR")]
    pub theme: Option<PathBuf>,
}

impl SiteDir {
    /// Takes the turn at the site's folder, and says so when that takes waiting.
    pub fn place(&self) -> Result<Place, Trouble> {
        let waiting = |process: Option<u32>| {
            let who = process.map_or(String::new(), |id| format!(" (process {id})"));
            let out = say::shown(&self.out);
            say::tell(format!("another build{who} is at work on `{out}`: waiting for its end\n"));
        };
        Place::take(&self.out, waiting).map_err(|error| Trouble::new(&error, error.help()))
    }

    /// Opens the theme.
    pub fn theme(&self) -> Result<Theme, Trouble> {
        let theme = Theme::open(self.theme.as_deref()).map_err(|error| {
            let help = "mend the template at the place named, or build without --theme";
            let help = error.help.unwrap_or(help);
            Trouble::new(format!("the theme cannot be used: {error}"), help)
        })?;
        say::tell(theme.left_out().unwrap_or_default());
        Ok(theme)
    }
}

impl Build {
    pub fn run(self) -> Result<Outcome, Trouble> {
        self.library.must_exist()?;
        refuse_inside(&self.library.dir, &self.site.out)?;
        // Our turn before the library is read: who waits then builds what is written by now.
        let place = self.site.place()?;
        let gym = self.library.open()?;
        let findings = crate::check::run(&gym);
        say::findings(&findings, &gym.library.sources);
        if findings.iter().any(|finding| finding.severity == Severity::Error) {
            say::tell("no site was written: mend the errors first\n");
            return Ok(Outcome::Findings);
        }
        let files = render(&gym, &self.site.theme()?)?;
        let written = place.write(&files).map_err(|error| Trouble::new(&error, error.help()))?;
        say::print(format!(
            "{}: {} pages, {} files; {} changed, {} as they were, {} removed\n",
            say::shown(&self.site.out),
            files.keys().filter(|name| name.ends_with(".html")).count(),
            files.len(),
            written.changed,
            written.unchanged,
            written.removed,
        ));
        Ok(say::outcome(&findings))
    }
}

/// A site inside the library would be read as content, and the other way round.
fn refuse_inside(library: &std::path::Path, out: &std::path::Path) -> Result<(), Trouble> {
    let full = |path: &std::path::Path| {
        std::fs::canonicalize(path).or_else(|_| std::path::absolute(path)).unwrap_or_default()
    };
    let (library, out) = (full(library), full(out));
    if out.starts_with(&library) || library.starts_with(&out) {
        let sentence = "the site and the library cannot be one inside the other";
        return Err(Trouble::new(sentence, "choose another folder with --out DIR"));
    }
    Ok(())
}

/// Renders with a progress bar when a terminal watches and the run is long.
fn render(gym: &Gym, theme: &Theme) -> Result<site::Files, Trouble> {
    let pages = site::page_count(gym);
    let bar = ProgressBar::with_draw_target(Some(pages as u64), ProgressDrawTarget::stderr());
    if pages < 500 {
        bar.set_draw_target(ProgressDrawTarget::hidden());
    }
    let files = site::render(gym, theme, || bar.inc(1));
    bar.finish_and_clear();
    files.map_err(|error| {
        let help = "mend the template at the place named, or build without --theme";
        Trouble::new(format!("a page could not be made: {error}"), help)
    })
}

//! `rungbook build`: the library becomes a site.
//! Never writes a site from a library with errors.

use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use crate::finding::{Paint, Severity};
use crate::gym::Gym;
use crate::kept::{Inputs, Print};
use crate::library::reader::Texts;
use crate::site;
use crate::site::output::{MadeFrom, OutputError, Place, Report, Written};
use crate::site::theme::{Theme, ThemeError, ThemeFiles};
use indicatif::{ProgressBar, ProgressDrawTarget};
use std::path::PathBuf;
use std::sync::Arc;

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
    /// Write no site where there is a warning either
    #[arg(long)]
    warnings_fail: bool,
    /// For a person or for a script; findings go to standard error in any case
    #[arg(long, short, value_enum, default_value = "human")]
    format: Format,
}

/// Where the site goes and how it looks.
#[derive(Debug, clap::Args)]
pub struct SiteDir {
    /// Folder of the site; only files of an earlier build are replaced or removed
    #[arg(long, short, value_name = "DIR", default_value = "site")]
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

    /// Reads the theme's files.
    pub fn theme(&self) -> Result<ThemeFiles, ThemeError> {
        ThemeFiles::read(self.theme.as_deref())
    }
}

/// Understands the theme, and says what is left out of it.
fn opened(files: Result<ThemeFiles, ThemeError>) -> Result<Theme, Trouble> {
    let theme = files.and_then(Theme::of).map_err(|error| {
        let help = "mend the template at the place named, or build without --theme";
        let help = error.help.unwrap_or(help);
        Trouble::new(format!("the theme cannot be used: {error}"), help)
    })?;
    say::tell(theme.left_out().unwrap_or_default());
    Ok(theme)
}

impl Build {
    pub fn run(self) -> Result<Outcome, Trouble> {
        self.library.must_exist()?;
        refuse_inside(&self.library.found(), &self.site.out)?;
        // Our turn before the library is read: who waits then builds what is written by now.
        let place = self.site.place()?;
        let texts = self.library.texts()?;
        let theme = self.site.theme();
        let from = theme.as_ref().ok().and_then(|theme| made_from(&texts, theme));
        if let Some((report, written)) = from.and_then(|from| place.unchanged(from)) {
            say::tell(&report.findings);
            if self.warnings_fail && report.pressing {
                return Ok(self.not_written("the warnings"));
            }
            return Ok(self.told(&report, written));
        }
        let kept = Arc::new(place.kept());
        let gym = Gym::open_with(texts.library(), Arc::clone(&kept));
        let findings = crate::check::run(&gym);
        let text = say::findings_as_text(&findings, &gym.library.sources);
        say::tell(&text);
        if findings.iter().any(|finding| finding.severity == Severity::Error) {
            return Ok(self.not_written("the errors"));
        }
        let pressing = say::outcome(&findings) == Outcome::Findings;
        if self.warnings_fail && pressing {
            return Ok(self.not_written("the warnings"));
        }
        let theme = opened(theme)?;
        // What a theme leaves out is said anew each time.
        let print = from.filter(|_| theme.left_out().is_none()).unwrap_or_default();
        let made = MadeFrom { print, report: Report { findings: text, pressing } };
        let written = write(&place, (&gym, &theme), made.clone())?;
        kept.settle();
        Ok(self.told(&made.report, written))
    }

    fn not_written(&self, what: &str) -> Outcome {
        say::tell(format!("no site was written: mend {what} first\n"));
        if self.format == Format::Json {
            say::print(format!("{:#}\n", serde_json::json!({"written": false})));
        }
        Outcome::Findings
    }

    fn told(&self, report: &Report, written: Written) -> Outcome {
        let (out, files) = (say::shown(&self.site.out), written.changed + written.unchanged);
        let text = match self.format {
            Format::Human => format!(
                "{out}: {} pages, {files} files; {} changed, {} as they were, {} removed\n",
                written.pages, written.changed, written.unchanged, written.removed,
            ),
            Format::Json => {
                let all = serde_json::json!({
                    "written": true,
                    "out": out,
                    "pages": written.pages,
                    "files": files,
                    "changed": written.changed,
                    "unchanged": written.unchanged,
                    "removed": written.removed,
                    "to_mend": report.pressing,
                });
                format!("{all:#}\n")
            }
        };
        say::print(text);
        if report.pressing { Outcome::Findings } else { Outcome::Fine }
    }
}

/// The print of everything that a site and what is said of it follow from.
fn made_from(texts: &Texts, theme: &ThemeFiles) -> Option<Print> {
    let colour = say::paint(&std::io::stderr()) == Paint::Colour;
    let inputs = Inputs::of("site").whole(u64::from(colour));
    Some(inputs.of_print(texts.print()?).of_print(theme.print()).print())
}

/// Makes the site, with a progress bar when a terminal watches and the run is long.
fn write(place: &Place, of: (&Gym, &Theme), from: MadeFrom) -> Result<Written, Trouble> {
    let (gym, theme) = of;
    let refused = |error: OutputError| Trouble::new(&error, error.help());
    let writing = place.begin().map_err(refused)?;
    let parts = site::part_count(gym, theme);
    let bar = ProgressBar::with_draw_target(Some(parts as u64), ProgressDrawTarget::stderr());
    if parts < 500 {
        bar.set_draw_target(ProgressDrawTarget::hidden());
    }
    let made = site::render(gym, theme, &|file| writing.put(&file), &|| bar.inc(1));
    bar.finish_and_clear();
    made.map_err(|error| {
        let help = "mend the template at the place named, or build without --theme";
        Trouble::new(format!("a page could not be made: {error}"), help)
    })?;
    place.finish(writing, from).map_err(refused)
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

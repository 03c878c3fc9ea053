//! `rungbook preview`: the site in a browser of this machine, new after every save.
//! Never watches or serves anything itself: the room `preview` does.

use super::say::{self, LibraryDir, Outcome, Trouble};
use crate::door::{Door, USUAL_PORT};
use crate::preview::pose::Key;
use crate::preview::{self, PreviewError, Showing, Wanted};
use clap::ValueEnum;
use std::io::{Error, ErrorKind, IsTerminal};
use std::path::PathBuf;
use std::process::{Command, Stdio};

/// Show the site while you write: open pages follow every save
#[derive(clap::Args)]
#[command(after_help = "Example:\n  rungbook preview --port 0 --open no\n\n\
    Only this machine sees the preview, and it writes no site. While the library has errors the \
    last good pages stay, with what there is to mend on top. Ctrl-C ends it.")]
pub struct Preview {
    #[command(flatten)]
    library: LibraryDir,
    /// Folder of your own templates, styles and scripts, which stand before ours of the same name
    #[arg(long, value_name = "DIR")]
    theme: Option<PathBuf>,
    /// Port to listen on; 0 takes any free one [default: 7864, or a free one when that is taken]
    #[arg(long, value_name = "N")]
    port: Option<u16>,
    /// Open the front page in your browser [default: yes, when a terminal watches]
    #[arg(long, value_name = "ANSWER")]
    open: Option<Open>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Open {
    Yes,
    No,
}

impl Preview {
    pub fn run(self) -> Result<Outcome, Trouble> {
        self.library.must_exist()?;
        if let Some(theme) = self.theme.as_deref().filter(|theme| !theme.is_dir()) {
            let sentence = format!("there is no theme folder `{}`", say::shown(theme));
            return Err(Trouble::new(sentence, "name another with --theme DIR, or leave it out"));
        }
        let door = Door::open(self.port).map_err(|error| self.port_refused(&error))?;
        if self.port.is_none() && door.port() != USUAL_PORT {
            say::print(format!("port {USUAL_PORT} is taken: this preview has another\n"));
        }
        let library = say::shown(&self.library.found());
        say::print(format!("preview of {library}: {} (Ctrl-C ends it)\n", door.address()));
        let key = Key::new().map_err(PreviewError::from)?;
        say::print(format!("poses, to be changed in the page: {}{}\n", door.address(), key.path()));
        if self.opens() {
            open_browser(&door.address());
        }
        let wanted = Wanted { library: self.library.found(), theme: self.theme, key };
        let mut told = String::new();
        preview::run(wanted, door, move |showing| tell(showing, &mut told))?;
        say::print("preview ended\n");
        Ok(Outcome::Fine)
    }

    fn opens(&self) -> bool {
        let watched = if std::io::stdout().is_terminal() { Open::Yes } else { Open::No };
        self.open.unwrap_or(watched) == Open::Yes
    }

    fn port_refused(&self, error: &Error) -> Trouble {
        let port = self.port.unwrap_or(USUAL_PORT);
        let sentence = match error.kind() {
            ErrorKind::AddrInUse => format!("port {port} is taken"),
            ErrorKind::PermissionDenied => format!("port {port} is not for you to open"),
            _ => format!("port {port} cannot be used: {error}"),
        };
        Trouble::new(sentence, "leave --port out, and a free one is found")
    }
}

impl From<PreviewError> for Trouble {
    fn from(error: PreviewError) -> Trouble {
        let help = error.help();
        Trouble::new(error, help)
    }
}

/// One line a build, and what presses when it is something else than last time.
fn tell(showing: &Showing, told: &mut String) {
    if showing.pressing && *told != showing.findings {
        say::tell(&showing.findings);
    }
    told.clone_from(&showing.findings);
    let words = if showing.summary.is_empty() { "nothing to mend" } else { &showing.summary };
    say::print(format!("build {}: {words}\n", showing.build));
}

/// Opens a browser where there is a screen to open it on; without one the address is printed anyway.
fn open_browser(address: &str) {
    let screen = ["DISPLAY", "WAYLAND_DISPLAY"].iter().any(|name| std::env::var_os(name).is_some());
    let mut command = match std::env::consts::OS {
        "macos" => Command::new("open"),
        "windows" => Command::new("explorer"),
        _ if screen => Command::new("xdg-open"),
        _ => return,
    };
    let quiet = command.arg(address).stdin(Stdio::null()).stdout(Stdio::null());
    if quiet.stderr(Stdio::null()).spawn().is_err() {
        say::tell("no browser could be opened: open the address yourself\n");
    }
}

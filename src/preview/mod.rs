//! Preview: the library as a site while it is being written; every open page follows each save.
//! Never answers another machine, never prints, and writes only where the pose editor is told to.

mod looked;
pub mod pose;
mod serve;
mod showing;
mod watch;

pub use showing::Showing;

use crate::door::Door;
use showing::Maker;
use std::fmt;
use std::io;
use std::path::PathBuf;
use std::sync::Arc;
use std::thread;
use tokio::sync::watch::{Receiver, Sender, channel};
use watch::Watch;

/// What is previewed.
#[derive(Debug, Clone)]
pub struct Wanted {
    /// The folder of the library.
    pub library: PathBuf,
    /// The folder of the club's own theme.
    pub theme: Option<PathBuf>,
    /// What opens its pose editor.
    pub key: pose::Key,
}

/// Why a preview could not start or go on.
#[derive(Debug)]
pub enum PreviewError {
    /// The system would not watch the folders.
    Unwatched(notify::Error),
    /// The system would not serve.
    Unserved(io::Error),
    /// The pages no longer follow the files, through a fault of ours.
    Stopped,
}

impl fmt::Display for PreviewError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PreviewError::Unwatched(error) => {
                write!(f, "the folder could not be watched for saves: {error}")
            }
            PreviewError::Unserved(error) => write!(f, "the pages could not be served: {error}"),
            PreviewError::Stopped => f.write_str("the preview stopped following the files"),
        }
    }
}

impl std::error::Error for PreviewError {}

impl From<io::Error> for PreviewError {
    fn from(error: io::Error) -> Self {
        PreviewError::Unserved(error)
    }
}

impl PreviewError {
    /// One next step.
    pub fn help(&self) -> &'static str {
        match self {
            PreviewError::Unwatched(_) => {
                "close programs that watch many files, or use `rungbook build` after each save"
            }
            PreviewError::Unserved(_) => "start the preview again with another --port",
            PreviewError::Stopped => "start the preview again; `rungbook check` says what is wrong",
        }
    }
}

/// Previews until Ctrl-C. `tell` hears of every showing, the first one before a page is served.
///
/// # Errors
/// When the folders cannot be watched or the pages cannot be served.
pub fn run(
    wanted: Wanted,
    door: Door,
    mut tell: impl FnMut(&Showing) + Send + 'static,
) -> Result<(), PreviewError> {
    // Watched before they are read, so that no save falls between.
    let folders = [Some(wanted.library.clone()), wanted.theme.clone()];
    let watch = Watch::over(folders.into_iter().flatten()).map_err(PreviewError::Unwatched)?;
    let library = wanted.library.clone();
    let poses = pose::Wanted { library, key: wanted.key.clone(), guard: door.guard() };
    let mut maker = Maker::new(wanted, door.address());
    let mut first = Arc::default();
    maker.make(&mut |showing| first = showing);
    tell(&first);
    let (sender, showing) = channel(first);
    thread::spawn(move || follow(watch, maker, &sender, tell));
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
    runtime.block_on(until_ended(door, showing, poses))
}

/// Makes a new showing after every save. If it panics the sender goes, and the preview ends aloud:
/// one that silently shows old pages would be worse than none.
fn follow(
    mut watch: Watch,
    mut maker: Maker,
    sender: &Sender<Arc<Showing>>,
    mut tell: impl FnMut(&Showing),
) {
    while !sender.is_closed() {
        watch.wait();
        maker.make(&mut |showing| {
            // Open pages hear of it before anything is printed.
            sender.send_replace(Arc::clone(&showing));
            tell(&showing);
        });
    }
}

async fn until_ended(
    door: Door,
    showing: Receiver<Arc<Showing>>,
    poses: pose::Wanted,
) -> Result<(), PreviewError> {
    let mut followed = showing.clone();
    let stopped = async move { while followed.changed().await.is_ok() {} };
    // Open event streams never end by themselves, so nothing waits for them.
    tokio::select! {
        served = serve::serve(door, showing, poses) => Ok(served?),
        pressed = tokio::signal::ctrl_c() => Ok(pressed?),
        () = stopped => Err(PreviewError::Stopped),
    }
}

//! Live: a board served to a browser of this machine, dealt out anew at every touch.
//! Never writes to disk, never answers without the token, never holds more than a few boards.

mod class;
mod serve;

use crate::board::{Copy, Standing};
use crate::door::Door;
use crate::gym::Gym;
use crate::library::Session;
use std::io;

/// What is served.
pub struct Wanted {
    /// The library.
    pub gym: Gym,
    /// The session.
    pub session: Session,
    /// The board with which class begins.
    pub standing: Standing,
    /// Who reads it.
    pub copy: Copy,
    /// The page that shows it.
    pub page: String,
}

/// Letters of a token: as many as name 128 bits, which nobody guesses.
const TOKEN_BYTES: usize = 16;

/// Serves a board until Ctrl-C. `tell` hears its address once it is open.
///
/// # Errors
/// When the system gives no chance, or does not serve.
pub fn run(wanted: Wanted, door: Door, tell: impl FnOnce(&str)) -> io::Result<()> {
    let token = token()?;
    let address = format!("{}{token}/", door.address());
    let guard = door.guard();
    let app = serve::app(wanted, guard, token);
    // One board is dealt out at a time; a few more threads than that would only wait.
    let mut builder = tokio::runtime::Builder::new_current_thread();
    let runtime = builder.enable_all().max_blocking_threads(4).build()?;
    let ended = runtime.block_on(async {
        tell(&address);
        tokio::select! {
            served = crate::door::serve(door, "board", app) => served,
            pressed = tokio::signal::ctrl_c() => pressed,
        }
    });
    // A board that is being dealt out is waited for by nobody any more.
    runtime.shutdown_background();
    ended
}

/// What nobody else on this machine knows: another user of it, or a program that tries its ports, does not
/// find the board.
fn token() -> io::Result<String> {
    let mut bytes = [0_u8; TOKEN_BYTES];
    getrandom::fill(&mut bytes).map_err(io::Error::other)?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

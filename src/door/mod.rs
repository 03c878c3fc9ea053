//! Door: a port of this machine alone, its guard, and answers that end in time.
//! Never opens to another machine or another site's page, and never knows what is served.

mod guard;
mod serve;

pub use guard::{Door, Guard, USUAL_PORT};
pub use serve::serve;

//! Large: from how many movements on a list is dealt over pages, and how one of them leads to another.
//! Never deals itself; `dealt` does.

use super::frame::Link;
use crate::gym::Gym;
use serde::Serialize;

/// From so many movements on lists are dealt over pages; below it each is one page.
const LARGE: usize = 400;

/// Whether lists are dealt over pages.
pub fn is_large(gym: &Gym) -> bool {
    gym.library.movements.len() >= LARGE
}

/// What some pages have, on the page that leads to them.
#[derive(Debug, Serialize)]
pub struct Dealt {
    /// A pattern, or nothing for what has none.
    pub of: String,
    /// How much there is: `340 to name`.
    pub count: String,
    /// The pages in their order.
    pub pages: Vec<Link>,
}

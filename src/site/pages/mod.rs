//! Pages: for every page a struct that is its template's whole context.
//! Never makes an address or an HTML tag: routes and templates do.

mod block;
mod card;
mod caution;
mod clock;
mod demand;
mod doors;
mod frame;
mod height;
mod kit;
mod ladder;
mod ladder_data;
mod lists;
mod movement;
mod needs;
mod session;
mod standing;

pub use card::{card, card_file};
pub use caution::{caution_page, cautions_page};
pub use doors::{floor_page, front_page, home_page, learning_page, not_found_page, picker_page};
pub use frame::{Frame, Link, Maker};
pub use kit::{kit_list_page, kit_page};
pub use ladder::{ladder_page, ladders_page};
pub use ladder_data::{PLACING_FILE, ladder_data, ladder_file, placing_data};
pub use lists::{a_to_z_page, movements_page, muscles_page, pattern_page, sources_page};
pub use movement::movement_page;
pub use needs::Needs;
pub use session::{cycle_page, session_page, sessions_page, steps, steps_file};

//! Pages: for every page a struct that is its template's whole context.
//! Never makes an address or an HTML tag: routes and templates do.

mod block;
mod book;
mod card;
mod caution;
mod cycle;
mod dealt;
mod demand;
mod doors;
mod drawing;
mod drill;
mod fault;
mod frame;
mod height;
mod kit;
mod ladder;
mod ladder_data;
mod large;
mod lists;
mod motion;
mod moved;
mod movement;
mod needs;
mod poster;
mod session;
mod share;
mod sessions;
mod standing;
mod swaps;
mod today;
mod week;
mod weeks;
mod words;
mod wrong;

pub use book::book_page;
pub use card::{card, card_file, figure, figure_file};
pub use caution::{caution_page, cautions_page};
pub use cycle::cycle_page;
pub use dealt::{a_to_z_pages, dealt_files, floor_pages, learning_pages};
pub use demand::rung_file;
pub use doors::{front_page, home_page, not_found_page, picker_page};
pub use fault::{
    FAULTS_FILE, Told, fault_card, fault_file, fault_page, fault_words, faults_page, told,
};
pub use frame::{Frame, Link, Maker};
pub use kit::{kit_list_page, kit_page};
pub use ladder::{ladder_page, ladders_page, rung_figures};
pub use ladder_data::{PLACING_FILE, ladder_data, ladder_file, placing_data};
pub use lists::{movements_page, muscles_page, pattern_page, sources_page};
pub use motion::{motion_file, motion_script};
pub use moved::{moved, moved_page};
pub use movement::movement_page;
pub use needs::Needs;
pub use poster::poster_page;
pub use session::{session_page, steps, steps_file};
pub use sessions::sessions_page;
pub use today::today_page;
pub use week::{weeks_data, weeks_file};
pub use words::{SIGNS_FILE, STOP_FILE, WORDS_FILE, signs_data, stop_data, words_data};
pub use wrong::{wrong_figures, wrong_file};

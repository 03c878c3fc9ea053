//! The starter library with its poses solved, once for a test program, and a figure of it by its id.

use rungbook::gym::Gym;
use rungbook::library::reader;
use rungbook::mechanics::solve::SolvedFigure;
use std::path::Path;
use std::sync::LazyLock;

/// The starter library.
pub static GYM: LazyLock<Gym> = LazyLock::new(|| {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    Gym::open(reader::read(&content).expect("the starter library is there"))
});

/// The figure of an entry.
pub fn figure(id: &str) -> &'static SolvedFigure {
    let posed = GYM.posed.iter().find(|(own, _)| own.as_str() == id);
    posed.and_then(|(_, p)| p.figure.as_ref()).unwrap_or_else(|| panic!("{id} has no figure"))
}

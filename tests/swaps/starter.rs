//! The starter library, read once.

use rungbook::gym::Gym;
use rungbook::library::{Movement, MovementId, reader};
use std::path::PathBuf;
use std::sync::OnceLock;

pub fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("content")
}

pub fn gym() -> &'static Gym {
    static GYM: OnceLock<Gym> = OnceLock::new();
    GYM.get_or_init(|| Gym::open(reader::read(&folder()).expect("the starter library is there")))
}

pub fn movement(id: &str) -> &'static Movement {
    let found = gym().library.movements.get(&MovementId::from(id));
    found.unwrap_or_else(|| panic!("the starter library has no {id}"))
}

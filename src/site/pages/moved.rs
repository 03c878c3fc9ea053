//! The page at the address that an entry had before: it leads to the entry.
//! Never says anything of the entry itself, so that nothing is read on a page that no filter passed.

use super::frame::{Frame, Link, Maker};
use crate::gym::Gym;
use crate::library::Formerly;
use crate::library::named::Named;
use crate::site::routes::To;
use serde::Serialize;

/// The context of `moved.html`.
#[derive(Debug, Serialize)]
pub struct MovedPage {
    page: Frame,
    to: Link,
}

/// Every old address that leads somewhere: its file, and the entry with the id that it had.
pub fn moved(gym: &Gym) -> impl Iterator<Item = (String, &Formerly)> {
    let library = &gym.library;
    let is_free = |former: &&Formerly| {
        former.of.all(library).iter().all(|(id, _)| *id != former.was.value)
            && crate::library::id::is_well_formed(&former.was.value)
    };
    let former = library.formerly.iter().filter(is_free);
    former.filter_map(|former| Some((at(former.of, &former.was.value, |to| to.file())?, former)))
}

/// The page at an old address.
pub fn moved_page(gym: &Gym, former: &Formerly) -> Option<MovedPage> {
    let all = former.of.all(&gym.library);
    let (_, name) = all.into_iter().find(|(id, _)| *id == former.id)?;
    let maker = at(former.of, &former.was.value, |old| Maker::new(gym, old))?;
    let to = at(former.of, &former.id, |new| maker.links.to(new))?;
    let mut page = maker.frame(name, format!("{name} has another address now."));
    let address = gym.library.club.address.as_deref();
    let file = at(former.of, &former.id, |to| to.file())?;
    page.canonical = address.map(|address| format!("{address}{file}"));
    Some(MovedPage { page, to: Link { text: name.to_string(), to } })
}

/// The page of an entry, where such entries have one.
fn at<T>(of: Named, id: &str, with: impl FnOnce(&To<'_>) -> T) -> Option<T> {
    Some(match of {
        Named::Movement => with(&To::Movement(&id.into())),
        Named::Ladder => with(&To::Ladder(&id.into())),
        Named::Session => with(&To::Session(&id.into())),
        Named::Cycle => with(&To::Cycle(&id.into())),
        Named::Kit => with(&To::Kit(&id.into())),
        Named::Caution => with(&To::Caution(&id.into())),
        Named::Fault => with(&To::KnownFault(&id.into())),
        Named::Change | Named::Source => return None,
    })
}

//! The exchange: a new site into the old one's place, and what a killed build left put in order.
//! Never loses a file that no build of ours wrote: it is moved into the new site first.
//!
//! Three folders may stand beside a site while a build has its turn. `new` is half-made and ours
//! alone. `old` is whole: the new site just before the exchange, the old one just after it. `gone` is
//! an old site out of which everything of somebody else's has been moved. So whenever a build is
//! killed, the names say what is left to do.

use super::{LIST, OutputError};
use crate::turn::beside;
use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::Path;
use walkdir::WalkDir;

/// Puts in order what a killed build left beside `out`: an old site comes back where there is none.
pub fn tidy(out: &Path) -> Result<(), OutputError> {
    for what in ["new", "gone"] {
        remove(&beside(out, what))?;
    }
    let old = beside(out, "old");
    match (is_there(&old), is_there(out)) {
        (false, _) => Ok(()),
        (true, false) => rename(&old, out),
        (true, true) => let_go(&old, out),
    }
}

/// Puts `fresh` in the place of `out` and removes what was there.
pub fn exchange(out: &Path, fresh: &Path) -> Result<(), OutputError> {
    if !is_there(out) {
        return rename(fresh, out);
    }
    let old = beside(out, "old");
    rename(fresh, &old)?;
    if swap_folders(out, &old).is_err() {
        rename(&old, fresh)?;
        in_two_steps(out, fresh, &old)?;
    }
    let_go(&old, out)
}

/// Where the system has no exchange: between the two renames there is no site, and `tidy` puts the
/// old one back.
fn in_two_steps(out: &Path, fresh: &Path, old: &Path) -> Result<(), OutputError> {
    fs::rename(out, old).map_err(|error| OutputError::Disk(out.into(), error))?;
    rename(fresh, out).inspect_err(|_| {
        // If even that fails, the first error is the one to tell.
        let _ = fs::rename(old, out);
    })
}

#[cfg(target_os = "linux")]
fn swap_folders(a: &Path, b: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, a, CWD, b, RenameFlags::EXCHANGE)?)
}

#[cfg(not(target_os = "linux"))]
fn swap_folders(_: &Path, _: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

/// Removes an old site after everything in it that is not ours has been moved into the new one.
fn let_go(old: &Path, new: &Path) -> Result<(), OutputError> {
    rescue_newcomers(old, new)?;
    let gone = beside(new, "gone");
    rename(old, &gone)?;
    // The new site stands; what is left of the old one goes with the next build.
    let _ = fs::remove_dir_all(&gone);
    Ok(())
}

/// A file that somebody put into the old folder while the new one was made moves along.
fn rescue_newcomers(old: &Path, new: &Path) -> Result<(), OutputError> {
    let list = fs::read_to_string(old.join(LIST)).unwrap_or_default();
    let ours: BTreeSet<&str> = list.lines().skip(1).chain([LIST]).collect();
    for entry in WalkDir::new(old).min_depth(1) {
        let entry = entry.map_err(|e| OutputError::Disk(old.into(), e.into()))?;
        let below = entry.path().strip_prefix(old).unwrap_or(entry.path());
        let name = below.to_string_lossy().replace('\\', "/");
        let target = new.join(below);
        if entry.file_type().is_dir() || ours.contains(name.as_str()) || is_there(&target) {
            continue;
        }
        let moved = target.parent().map_or(Ok(()), fs::create_dir_all);
        moved
            .and_then(|()| fs::rename(entry.path(), &target))
            .map_err(|error| OutputError::Left(entry.path().into(), error))?;
    }
    Ok(())
}

/// Whether anything has that name, be it a link that leads nowhere.
fn is_there(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

fn rename(from: &Path, to: &Path) -> Result<(), OutputError> {
    fs::rename(from, to).map_err(|error| OutputError::Disk(to.into(), error))
}

fn remove(folder: &Path) -> Result<(), OutputError> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => {
            Err(OutputError::Disk(folder.into(), error))
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn folder(path: &Path, files: &[(&str, &str)]) {
        for (name, text) in files {
            let file = path.join(name);
            fs::create_dir_all(file.parent().expect("a folder")).expect("made");
            fs::write(file, text).expect("written");
        }
    }

    #[test]
    fn without_an_exchange_a_site_goes_in_two_steps_and_a_coachs_file_goes_along() {
        let place = tempfile::tempdir().expect("a folder");
        let out = place.path().join("site");
        let (fresh, old) = (beside(&out, "new"), beside(&out, "old"));
        let list = "# ours\nindex.html\ngone.html\n";
        let before =
            [(LIST, list), ("index.html", "old"), ("gone.html", "old"), ("a/b.txt", "mine")];
        folder(&out, &before);
        folder(&fresh, &[(LIST, "# ours\nindex.html\n"), ("index.html", "new")]);
        in_two_steps(&out, &fresh, &old).expect("it goes");
        assert!(is_there(&old) && !is_there(&fresh), "the old site stands aside");
        let_go(&old, &out).expect("it goes");
        let read = |name: &str| fs::read_to_string(out.join(name)).ok();
        assert_eq!(read("index.html").as_deref(), Some("new"));
        assert_eq!(read("a/b.txt").as_deref(), Some("mine"));
        assert_eq!(read("gone.html"), None);
        assert_eq!(fs::read_dir(place.path()).expect("the folder").count(), 1);
    }

    #[test]
    fn what_cannot_be_taken_along_is_kept_and_said() {
        let place = tempfile::tempdir().expect("a folder");
        let out = place.path().join("site");
        let old = beside(&out, "old");
        folder(&old, &[(LIST, "# ours\n"), ("photos/hall.txt", "mine")]);
        // A file has the name of the coach's folder.
        folder(&out, &[(LIST, "# ours\nphotos\n"), ("photos", "a page")]);
        for _ in 0..2 {
            let said = tidy(&out).expect_err("it cannot go").to_string();
            assert!(said.contains("photos/hall.txt"), "{said}");
            assert!(old.join("photos/hall.txt").exists());
        }
    }
}

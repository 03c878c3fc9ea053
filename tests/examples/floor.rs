//! The floor of a build: reads a library's files and writes as many files of the same names and lengths
//! as a site has, and nothing else. `floor stat LIBRARY` only asks and reads; `floor copy LIBRARY SITE OUT`
//! writes too. Prints milliseconds. For benchmarks; never part of the program.

use rayon::prelude::*;
use sha2::{Digest, Sha256};
use std::fs;
use std::path::{Path, PathBuf};
use std::time::Instant;
use walkdir::WalkDir;

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let milliseconds = match arguments[..] {
        ["stat", library] => timed(|| read(Path::new(library))),
        ["copy", library, site, out] => {
            let files = listed(Path::new(site));
            timed(|| {
                read(Path::new(library));
                write(&files, Path::new(out));
            })
        }
        _ => {
            eprintln!("write: floor stat LIBRARY, or floor copy LIBRARY SITE OUT");
            std::process::exit(2);
        }
    };
    println!("{milliseconds:.2}");
}

fn timed(act: impl FnOnce()) -> f64 {
    let begun = Instant::now();
    act();
    begun.elapsed().as_secs_f64() * 1000.0
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = WalkDir::new(folder).sort_by_file_name().into_iter().flatten();
    entries.filter(|e| e.file_type().is_file()).map(|e| e.path().to_path_buf()).collect()
}

/// Every file is asked for its facts, read and hashed, one after the other.
fn read(library: &Path) {
    let mut hash = Sha256::new();
    for file in files(library) {
        let length = fs::metadata(&file).expect("its facts").len();
        hash.update(length.to_le_bytes());
        hash.update(fs::read(&file).expect("it reads"));
    }
    assert_eq!(hash.finalize().len(), 32);
}

/// Names and lengths of a site's files.
fn listed(site: &Path) -> Vec<(PathBuf, usize)> {
    let named = |file: PathBuf| {
        let length = fs::metadata(&file).expect("its facts").len() as usize;
        (file.strip_prefix(site).expect("below").to_path_buf(), length)
    };
    files(site).into_iter().map(named).collect()
}

fn write(files: &[(PathBuf, usize)], out: &Path) {
    for (name, _) in files {
        fs::create_dir_all(out.join(name).parent().expect("a folder")).expect("a folder");
    }
    let longest = files.iter().map(|(_, length)| *length).max().unwrap_or(0);
    let bytes = vec![b'x'; longest];
    files.par_iter().for_each(|(name, length)| {
        fs::write(out.join(name), &bytes[..*length]).expect("written");
    });
}

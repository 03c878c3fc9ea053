//! What the program is made from, as one number: results kept on disk belong to exactly one program.
//! Never the clock: the same sources, the same compiler and the same way of building give the same.

use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};

fn main() {
    let house = PathBuf::from(std::env::var_os("CARGO_MANIFEST_DIR").unwrap_or_default());
    let mut sources = vec![house.join("Cargo.toml"), house.join("Cargo.lock")];
    gather(&house.join("src"), &mut sources);
    for input in ["src", "Cargo.toml", "Cargo.lock"] {
        println!("cargo::rerun-if-changed={input}");
    }
    sources.sort();
    let mut hash = Sha256::new();
    for file in sources {
        let text = std::fs::read(&file).unwrap_or_default();
        let name = file.strip_prefix(&house).unwrap_or(&file).to_string_lossy().into_owned();
        for part in [name.as_bytes(), &text] {
            hash.update((part.len() as u64).to_le_bytes());
            hash.update(part);
        }
    }
    for how in
        ["TARGET", "OPT_LEVEL", "DEBUG", "CARGO_CFG_TARGET_FEATURE", "CARGO_ENCODED_RUSTFLAGS"]
    {
        hash.update(std::env::var(how).unwrap_or_default());
        hash.update([0]);
    }
    hash.update(compiler());
    let digest: String =
        hash.finalize().iter().take(16).map(|byte| format!("{byte:02x}")).collect();
    println!("cargo::rustc-env=RUNGBOOK_MADE_FROM={digest}");
}

/// The compiler's own words for what it is.
fn compiler() -> Vec<u8> {
    let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let said = std::process::Command::new(rustc).arg("-vV").output();
    said.map(|output| output.stdout).unwrap_or_default()
}

fn gather(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        match entry.path() {
            path if path.is_dir() => gather(&path, found),
            path => found.push(path),
        }
    }
}

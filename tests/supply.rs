//! Supply: where every package comes from, under which licence, and that our own code holds no unsafe block.
//! Never asks a network: Cargo.lock and what `cargo metadata` knows of packages that are here.
//!
//! `.ci/deny.toml` says the same for cargo-deny, where that is installed; its list of licences is read here.

use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;
use walkdir::WalkDir;

fn house(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(name);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// The licences that `.ci/deny.toml` lets in.
fn allowed() -> BTreeSet<String> {
    let text = house(".ci/deny.toml");
    let list = text.split("allow = [").nth(1).and_then(|rest| rest.split(']').next());
    let words = list.expect("a list of licences").split('"').skip(1).step_by(2);
    words.map(str::to_string).collect()
}

/// Whether an SPDX expression can be met with these licences: OR takes either, AND needs both. Older packages
/// write a slash for OR.
fn can_be_met(expression: &str, allowed: &BTreeSet<String>) -> bool {
    let plain = expression.replace('/', " OR ").replace('(', " ( ").replace(')', " ) ");
    let words: Vec<&str> = plain.split_whitespace().collect();
    let mut at = 0;
    let met = any_of(&words, &mut at, allowed);
    met && at == words.len()
}

fn any_of(words: &[&str], at: &mut usize, allowed: &BTreeSet<String>) -> bool {
    let mut met = all_of(words, at, allowed);
    while words.get(*at) == Some(&"OR") {
        *at += 1;
        // Both sides are read, whichever is met.
        met = all_of(words, at, allowed) || met;
    }
    met
}

fn all_of(words: &[&str], at: &mut usize, allowed: &BTreeSet<String>) -> bool {
    let mut met = one(words, at, allowed);
    while words.get(*at) == Some(&"AND") {
        *at += 1;
        met = one(words, at, allowed) && met;
    }
    met
}

fn one(words: &[&str], at: &mut usize, allowed: &BTreeSet<String>) -> bool {
    let word = words.get(*at).copied().unwrap_or_default();
    *at += 1;
    if word == "(" {
        let met = any_of(words, at, allowed);
        *at += 1;
        return met;
    }
    let mut name = word.to_string();
    if words.get(*at) == Some(&"WITH") {
        name = format!("{word} WITH {}", words.get(*at + 1).copied().unwrap_or_default());
        *at += 2;
    }
    allowed.contains(&name)
}

#[test]
fn expressions_are_read_as_licences_mean_them() {
    let allowed =
        BTreeSet::from(["MIT", "ISC", "Apache-2.0 WITH LLVM-exception"].map(String::from));
    for met in [
        "MIT",
        "MIT OR GPL-3.0",
        "GPL-3.0/MIT",
        "(GPL-3.0 OR MIT) AND ISC",
        "Apache-2.0 WITH LLVM-exception OR X",
    ] {
        assert!(can_be_met(met, &allowed), "{met}");
    }
    for not in ["GPL-3.0", "MIT AND GPL-3.0", "(MIT OR X) AND Y", "Apache-2.0", "", "MIT ISC"] {
        assert!(!can_be_met(not, &allowed), "{not}");
    }
}

#[test]
fn every_package_has_a_licence_that_is_let_in() {
    let asked = ["metadata", "--format-version", "1", "--locked", "--offline"];
    let version = Command::new("rustc").arg("-vV").output().expect("rustc");
    let version = String::from_utf8(version.stdout).expect("text");
    let host = version.lines().find_map(|line| line.strip_prefix("host: ")).expect("a host");
    let told = Command::new(env!("CARGO"))
        .args(asked)
        .args(["--filter-platform", host])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo");
    let told: Value = serde_json::from_slice(&told.stdout).expect("what cargo knows");
    let packages = told["packages"].as_array().expect("packages");
    assert!(packages.len() > 100, "{}", packages.len());
    let allowed = allowed();
    for package in packages {
        let licence = package["license"].as_str().unwrap_or_default();
        assert!(can_be_met(licence, &allowed), "{}: {licence:?}", package["name"]);
    }
}

/// One registry, and every package with its print: nothing from a folder or a repository.
#[test]
fn every_package_comes_from_the_registry_with_its_print() {
    let lock = house("Cargo.lock");
    let packages: Vec<&str> = lock.split("[[package]]").skip(1).collect();
    let line = |package: &str, key: &str| package.lines().any(|line| line.starts_with(key));
    let others: Vec<&&str> = packages
        .iter()
        .filter(|package| {
            let from = "source = \"registry+https://github.com/rust-lang/crates.io-index\"";
            !(line(package, from) && line(package, "checksum = \""))
        })
        .collect();
    assert_eq!(others.len(), 1, "{others:?}");
    assert!(others[0].contains("name = \"rungbook\""));
}

#[test]
fn nothing_of_ours_is_unsafe() {
    for root in ["src/lib.rs", "src/main.rs"] {
        assert!(house(root).contains("#![forbid(unsafe_code)]"), "{root}");
    }
    // A crate of its own would not be under that line.
    let roots = ["build.rs", "tests/benches", "tests/examples"];
    for root in roots {
        let below = Path::new(env!("CARGO_MANIFEST_DIR")).join(root);
        for entry in WalkDir::new(below).into_iter().flatten() {
            if entry.path().extension().is_some_and(|ending| ending == "rs") {
                let text = fs::read_to_string(entry.path()).expect("it reads");
                let unsafely = concat!("unsafe", " {");
                assert!(!text.contains(unsafely), "{}", entry.path().display());
            }
        }
    }
}

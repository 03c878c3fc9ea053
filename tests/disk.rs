//! What a disk does at the wrong moment: it is full where words go, or a folder is a disk of its own.
//! Never a private function: the real program, and devices of the system.
#![cfg(target_os = "linux")]

use rungbook::site::output::OutputError;
use std::fs::File;
use std::io::{Error, ErrorKind};
use std::path::Path;
use std::process::Command;

const TINY: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/libraries/tiny");

/// Whoever reads on would take half a report, or none, for everything.
#[test]
fn what_could_not_be_printed_is_said_and_is_no_success() {
    for asked in [
        &["check", "--format", "json"][..],
        &["check", "--format", "sarif"],
        &["find", "row", "--format", "json"],
        &["explain", "--all"],
        &["man"],
        &["completions", "bash"],
        &["--help"],
    ] {
        let full = File::options().write(true).open("/dev/full").expect("a full device");
        let mut command = Command::new(env!("CARGO_BIN_EXE_rungbook"));
        command.args(asked).stdout(full);
        if ["check", "find"].contains(&asked[0]) {
            command.args(["--library", TINY]);
        }
        let done = command.output().expect("the program runs");
        let said = String::from_utf8_lossy(&done.stderr);
        assert_eq!(done.status.code(), Some(2), "{asked:?}: {said}");
        assert!(
            said.contains("could not be written") && said.contains("= help: free the disk"),
            "{said}"
        );
    }
}

/// The folder by which a disk is reached cannot change places: no room would help.
#[test]
fn a_site_at_the_root_of_a_disk_is_told_to_go_inside_it() {
    for kind in [ErrorKind::ResourceBusy, ErrorKind::CrossesDevices] {
        let error = OutputError::Disk("site".into(), Error::from(kind));
        assert!(error.help().starts_with("choose a folder inside that disk"), "{}", error.help());
    }
    let error = OutputError::Disk("site".into(), Error::from(ErrorKind::StorageFull));
    assert!(error.help().starts_with("free the disk"), "{}", error.help());
    on_a_disk_of_its_own();
}

/// The same with a real one, where this machine lets a test have a disk for itself.
fn on_a_disk_of_its_own() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::create_dir(folder.path().join("site")).expect("a folder");
    let asked = format!(
        "mount -t tmpfs none site 2>/dev/null || exit 77; {} build --library {TINY} --out site",
        env!("CARGO_BIN_EXE_rungbook"),
    );
    let run = |folder: &Path| {
        Command::new("unshare").args(["-m", "sh", "-c", &asked]).current_dir(folder).output()
    };
    match run(folder.path()) {
        Ok(done) if done.status.code() == Some(2) => {
            let said = String::from_utf8_lossy(&done.stderr);
            assert!(said.contains("choose a folder inside that disk"), "{said}");
        }
        Ok(done) if done.status.code() == Some(0) => panic!("it built where it cannot"),
        _ => println!("this machine gives a test no disk of its own"),
    }
}

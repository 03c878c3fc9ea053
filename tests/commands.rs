//! Transcripts of commands: what is typed, what is said, how it ends. One file a command or theme.
//! Never in colour and never with a path of this machine. `TRYCMD=overwrite` writes what is said
//! now; read it as a coach would before committing.

#[test]
fn commands_say_what_their_transcripts_say() {
    trycmd::TestCases::new().case("tests/commands/*.trycmd").env("NO_COLOR", "1");
}

/// What a terminal is shown: `script` (util-linux) gives the program a terminal of its own.
fn at_a_terminal(no_color: Option<&str>, term: &str) -> String {
    let broken = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/commands/build.in/broken");
    let typed = format!("{} build --library {broken}", env!("CARGO_BIN_EXE_rungbook"));
    let folder = tempfile::tempdir().expect("a folder");
    let mut script = std::process::Command::new("script");
    script.args(["-q", "-c", &typed, "/dev/null"]).env("TERM", term).current_dir(folder.path());
    match no_color {
        Some(value) => script.env("NO_COLOR", value),
        None => script.env_remove("NO_COLOR"),
    };
    let output = script.stdin(std::process::Stdio::null()).output().expect("script runs");
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(text.contains("unknown-key"), "{text}");
    text
}

#[cfg(target_os = "linux")]
#[test]
fn colour_is_for_a_terminal_that_wants_it() {
    // no-color.org: any value but an empty one switches colour off.
    assert!(at_a_terminal(None, "xterm").contains("\u{1b}["));
    assert!(at_a_terminal(Some(""), "xterm").contains("\u{1b}["));
    assert!(!at_a_terminal(Some("1"), "xterm").contains("\u{1b}["));
    assert!(!at_a_terminal(None, "dumb").contains("\u{1b}["));
}

//! The `rungbook` command: parse, run, exit code.
//! Never more than that: each command has a file in `cli`.
#![forbid(unsafe_code)]

fn main() -> std::process::ExitCode {
    rungbook::cli::run(std::env::args_os())
}

//! Writes a generated library: `cargo run --example generated -- DIR ENTRIES`. For benchmarks of
//! pages; never part of the program.

#[path = "../benches/generate.rs"]
mod generate;

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let (Some(dir), Some(Ok(entries))) = (arguments.first(), arguments.get(1).map(|n| n.parse()))
    else {
        eprintln!("write: cargo run --example generated -- DIR ENTRIES");
        std::process::exit(2);
    };
    generate::library(std::path::Path::new(dir), entries);
}

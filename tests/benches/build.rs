//! Build time against the number of entries: read, check, render, write, write again unchanged.
//! A benchmark, not a test: look at the ratios in one run. `cargo bench --bench build`.

#[path = "generate.rs"]
mod generate;

use rungbook::gym::Gym;
use rungbook::library::reader;
use rungbook::site::{self, output, theme::Theme};
use rungbook::{check, search};
use std::time::{Duration, Instant};

fn main() {
    let theme = Theme::open(None).expect("our theme");
    println!("entries   read  check  index render  write  again  (ms)   site kB  index B/entry");
    for entries in [125, 250, 500, 1000, 2000] {
        let dir = tempfile::tempdir().expect("a folder");
        generate::library(&dir.path().join("content"), entries);
        let (gym, reading) =
            timed(|| Gym::open(reader::read(&dir.path().join("content")).expect("read")));
        let (findings, checking) = timed(|| check::run(&gym));
        let errors = findings.iter().filter(|f| f.severity == rungbook::finding::Severity::Error);
        assert_eq!(errors.count(), 0, "the generated library has errors");
        let (index, indexing) = timed(|| search::Index::build(&gym).expect("index"));
        let bytes = index.export(site::search_address).expect("an index").len();
        let (files, rendering) = timed(|| site::render(&gym, &theme, || {}).expect("pages"));
        let out = dir.path().join("site");
        let place = output::Place::take(&out, |_| ()).expect("our turn");
        let (_, writing) = timed(|| place.write(&files).expect("write"));
        let (_, again) = timed(|| place.write(&files).expect("write"));
        let weight: usize = files.values().map(Vec::len).sum();
        let ms = |time: Duration| time.as_secs_f64() * 1000.0;
        println!(
            "{entries:7} {:6.0} {:6.0} {:6.0} {:6.0} {:6.0} {:6.0}       {:8.0} {:8.1}",
            ms(reading),
            ms(checking),
            ms(indexing),
            ms(rendering),
            ms(writing),
            ms(again),
            weight as f64 / 1000.0,
            bytes as f64 / entries as f64,
        );
    }
}

fn timed<T>(act: impl FnOnce() -> T) -> (T, Duration) {
    let start = Instant::now();
    let result = act();
    (result, start.elapsed())
}

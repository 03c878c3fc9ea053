//! From a save to the new page: write, event, page, over a real preview. A save waits 40 ms for
//! quiet, then everything is read, checked and rendered anew.
//! A benchmark, not a test: it judges nothing. `cargo bench --bench preview`.

#[path = "generate.rs"]
mod generate;
#[path = "../preview/running.rs"]
#[allow(dead_code, reason = "the stories use the rest of it")]
mod running;

use running::Place;
use std::time::Instant;

const SAVES: usize = 20;

fn main() {
    println!("library              median  slowest  (ms, {SAVES} saves)");
    measure("starter", &Place::with_starter());
    let large = Place::empty();
    generate::library(&large.path("content"), 2000);
    measure("2000 entries", &large);
}

fn measure(name: &str, place: &Place) {
    let (entry, file) = an_entry(place);
    let before = place.read(&file);
    let preview = place.preview(&["--port", "0"]);
    let mut events = preview.events();
    let mut pages = events.next().pages;
    assert!(pages > 0, "the library has errors");
    let mut times: Vec<u128> = (1..=SAVES)
        .map(|number| {
            let words = format!("Saved {number} times.");
            let start = Instant::now();
            place.save(&file, &format!("{before}\n{words}\n"));
            pages = events.until(|news| news.pages > pages).pages;
            let page = preview.get(&format!("/movements/{entry}.html"));
            let time = start.elapsed().as_millis();
            assert!(page.body.contains(&words), "the page is not the one that was saved");
            time
        })
        .collect();
    times.sort_unstable();
    println!("{name:20} {:6} {:8}", times[SAVES / 2], times[SAVES - 1]);
}

/// The id and the file of any movement.
fn an_entry(place: &Place) -> (String, String) {
    let folder = "content/movements/brace";
    let mut files = std::fs::read_dir(place.path(folder)).expect("a folder");
    let file = files.next().expect("an entry").expect("an entry").file_name();
    let file = file.to_string_lossy();
    (file.trim_end_matches(".md").to_string(), format!("{folder}/{file}"))
}

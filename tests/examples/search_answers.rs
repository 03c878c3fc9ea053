//! The command's side of the search tests: reads a library, writes the exported index as the script that a page
//! fetches and, for each
//! question on standard input (one a line), the answers as JSON.
//! `cargo run --example search_answers -- LIBRARY INDEX ANSWERS < QUESTIONS`

use rungbook::gym::Gym;
use rungbook::library::reader;
use rungbook::search::{Hit, HitPart, Index};
use rungbook::site::search_script;
use serde_json::{Value, json};
use std::error::Error;
use std::io::Read;
use std::path::Path;

/// Enough to see the order far below what a person looks at.
const LIMIT: usize = 30;

fn main() -> Result<(), Box<dyn Error>> {
    let [library, index_file, answers_file] = paths()?;
    let library = reader::read(Path::new(&library))?;
    let index = Index::build(&Gym::open(library))?;
    std::fs::write(index_file, search_script(index.export(address)?))?;
    let mut questions = String::new();
    std::io::stdin().read_to_string(&mut questions)?;
    let answers = questions.lines().map(|question| {
        let hits = index.find(question, LIMIT);
        let heard = index.heard(question);
        let hits: Vec<Value> = hits.iter().map(hit).collect();
        json!({"ask": question, "hits": hits, "unknown": heard.unknown, "near": heard.near})
    });
    std::fs::write(answers_file, Value::Array(answers.collect()).to_string())?;
    Ok(())
}

fn paths() -> Result<[String; 3], String> {
    let given: Vec<String> = std::env::args().skip(1).collect();
    given.try_into().map_err(|_| "three paths are needed: library, index, answers".to_string())
}

/// Addresses that follow no single rule, so that written-out ones are tested too.
fn address(hit: &Hit) -> String {
    let page = match hit.id.as_str() {
        "plank" => "elsewhere/the-plank.html".to_string(),
        id => format!("{}s/{id}.html", hit.kind.word()),
    };
    match hit.part {
        HitPart::Page => page,
        HitPart::Fault(number) => format!("{page}#fault-{number}"),
        HitPart::Cue(number) => format!("{page}#cue-{number}"),
        HitPart::Rung(number) => format!("{page}#rung-{number}"),
    }
}

fn hit(hit: &Hit) -> Value {
    let (part, number) = match hit.part {
        HitPart::Page => ("page", 0),
        HitPart::Fault(number) => ("fault", number),
        HitPart::Cue(number) => ("cue", number),
        HitPart::Rung(number) => ("rung", number),
    };
    json!({
        "kind": hit.kind.word(), "id": hit.id, "name": hit.name, "part": part, "number": number,
        "matched": hit.matched, "address": address(hit), "score": hit.score,
    })
}

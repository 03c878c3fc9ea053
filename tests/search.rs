//! Search over the starter library: labelled questions, the two readers, and the same bytes twice.

use rungbook::gym::Gym;
use rungbook::library::reader;
use rungbook::search::{Hit, HitKind, HitPart, Index};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::path::Path;

fn starter() -> Index {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let library = reader::read(&content).expect("the starter library is there");
    Index::build(&Gym::open(library)).expect("it can be indexed")
}

#[derive(Deserialize)]
struct Labelled {
    ask: String,
    find: Vec<String>,
    part: Option<String>,
}

fn labelled() -> BTreeMap<String, Vec<Labelled>> {
    serde_yaml::from_str(include_str!("queries.yaml")).expect("queries.yaml reads")
}

/// `movement/plank`, as the labels write it.
fn label(hit: &Hit) -> String {
    format!("{:?}/{}", hit.kind, hit.id).to_lowercase()
}

fn answers(hit: &Hit, labelled: &Labelled) -> bool {
    let part = match hit.part {
        // The page of a fault is a fault, wherever on it the words are.
        HitPart::Page if hit.kind == HitKind::Fault => "fault",
        HitPart::Page => "page",
        HitPart::Fault(_) => "fault",
        HitPart::Cue(_) => "cue",
        HitPart::Rung(_) => "rung",
    };
    labelled.find.contains(&label(hit)) && labelled.part.as_deref().is_none_or(|p| p == part)
}

#[derive(Default, Clone, Copy)]
struct Tally {
    asked: f64,
    first: f64,
    in_five: f64,
    reciprocal: f64,
}

impl Tally {
    fn add(&mut self, rank: Option<usize>) {
        self.asked += 1.0;
        self.first += f64::from(rank == Some(1));
        self.in_five += f64::from(rank.is_some_and(|rank| rank <= 5));
        self.reciprocal += rank.map_or(0.0, |rank| 1.0 / rank as f64);
    }

    fn row(&self, name: &str) -> String {
        let share = |part: f64| part / self.asked;
        format!(
            "{name:<12} {:>4} {:>6.3} {:>6.3} {:>6.3}",
            self.asked,
            share(self.first),
            share(self.in_five),
            share(self.reciprocal)
        )
    }
}

/// The issue asks for 0.90 at 1 and 0.99 at 5. `cargo test --test search -- --nocapture labelled`
/// prints the table.
#[test]
fn labelled_questions_find_their_entries() {
    let index = starter();
    let mut halves = [Tally::default(); 2];
    println!("{:<12} {:>4} {:>6} {:>6} {:>6}", "kind", "n", "at 1", "at 5", "mrr");
    for (kind, questions) in labelled() {
        let mut of_kind = [Tally::default(); 2];
        for (at, question) in questions.iter().enumerate() {
            let hits = index.find(&question.ask, 20);
            let rank = hits.iter().position(|hit| answers(hit, question)).map(|at| at + 1);
            halves[at % 2].add(rank);
            of_kind[at % 2].add(rank);
            if at % 2 == 0 && rank != Some(1) {
                let seen: Vec<String> = hits
                    .iter()
                    .take(5)
                    .map(|h| format!("{} {:?} {:.1}", label(h), h.part, h.score))
                    .collect();
                println!("  {} -> {rank:?}: {}", question.ask, seen.join(", "));
            }
        }
        println!("{}\n{}", of_kind[0].row(&kind), of_kind[1].row("  held back"));
    }
    println!("{}\n{}", halves[0].row("all, tuned"), halves[1].row("all, held"));
    for half in halves {
        assert!(half.first / half.asked >= 0.90, "first answers");
        assert!(half.in_five / half.asked >= 0.99, "in the first five");
    }
}

#[test]
fn the_export_is_the_same_twice() {
    let address = |hit: &Hit| format!("{:?}/{}.html", hit.kind, hit.id);
    let once = starter().export(address).expect("an index");
    assert!(once.starts_with("RUNG5"));
    assert_eq!(once, starter().export(address).expect("an index"));
}

#[test]
fn nothing_typed_finds_nothing() {
    let index = starter();
    assert!(index.find("", 10).is_empty() && index.find(" the ", 10).is_empty());
}

#[test]
fn no_bar_rules_out_what_hangs_from_one() {
    let index = starter();
    let ids = |words| index.find(words, 30).into_iter().map(|hit| label(&hit)).collect::<Vec<_>>();
    assert!(ids("pull").contains(&"movement/pull-up".to_string()));
    let without = ids("pull no bar");
    assert!(!without.is_empty());
    assert!(!without.contains(&"movement/pull-up".to_string()), "{without:?}");
}

#[test]
fn an_answer_lands_on_the_fault() {
    let hits = starter().find("hips sag in plank", 1);
    assert_eq!(hits[0].matched, "fault: Hips sag");
    assert!(matches!(hits[0].part, HitPart::Fault(_)));
}

/// The fault itself, then the movements that have it: none that merely has a word of it comes
/// between, and one that says just the fault comes before one that says more.
#[test]
fn a_fault_comes_before_its_movements() {
    let index = starter();
    let with = |id: &str, words: &str| {
        let hits: Vec<String> = index.find(words, 9).iter().map(label).collect();
        assert_eq!(hits[0], format!("fault/{id}"), "{words}: {hits:?}");
        hits
    };
    let hits = with("hips-sag", "hips sag");
    let place = |id: &str| hits.iter().position(|hit| hit == &format!("movement/{id}"));
    for first in ["plank", "push-up"] {
        let at = place(first).expect("it is among the first");
        assert!(place("bar-row").is_none_or(|row| at < row), "{first}: {hits:?}");
    }
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let library = reader::read(&content).expect("the starter library is there");
    let asked = [("knees-fall-in", "knees cave in"), ("elbows-flare", "elbows flare out")];
    for (id, words) in asked {
        for hit in &with(id, words)[1..5] {
            let movement = hit.strip_prefix("movement/");
            let movement = movement.unwrap_or_else(|| panic!("{words}: {hit} comes between"));
            let faults = &library.movements[&movement.into()].faults;
            let has =
                faults.iter().any(|fault| fault.of.as_ref().is_some_and(|of| of.as_str() == id));
            assert!(has, "{words}: {hit}");
        }
    }
}

/// Equal answers stand in the order of their names, whatever their ids are.
#[test]
fn ids_decide_no_order_that_a_person_sees() {
    let hits = starter().find("chicken wings", 12);
    let equal = hits.windows(2).filter(|two| {
        (two[0].score - two[1].score).abs() < 0.01
            && two[0].kind == two[1].kind
            && two[0].matched == two[1].matched
    });
    let equal: Vec<_> = equal.collect();
    assert!(!equal.is_empty(), "nothing to compare");
    for two in equal {
        assert!(two[0].name.to_lowercase() < two[1].name.to_lowercase(), "{two:?}");
    }
}

#[test]
fn a_movement_that_is_called_exactly_what_was_typed_stands_first() {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let library = reader::read(&content).expect("the starter library is there");
    let index = starter();
    for movement in library.movements.values() {
        let hits = index.find(&movement.name.value, 10);
        let first = hits.first().expect("an answer");
        assert_eq!((first.kind, first.id.as_str()), (HitKind::Movement, movement.id.as_str()));
    }
}

#[test]
fn what_says_a_stop_sign_and_what_does_not() {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let gym = Gym::open(reader::read(&content).expect("the starter library is there"));
    for typed in [
        "dizzy today",
        "dizzy",
        "dizz",
        "dizy",
        "faint",
        "lightheaded",
        "pain in my chest",
        "Can\u{2019}t breathe",
        "can't feel my legs",
        "cannot move his arm",
        "her legs went numb",
        "slurred speech",
        "collapsed",
        "he colapsed",
    ] {
        assert!(rungbook::search::says_stop(&gym, typed), "{typed}");
    }
    for typed in [
        "",
        "chest press",
        "chest",
        "pain",
        "wrist pain",
        "breathe out",
        "diz",
        "heart disease",
        "knees collapse",
        "arch collapses",
    ] {
        assert!(!rungbook::search::says_stop(&gym, typed), "{typed}");
    }
    for sign in &gym.library.club.stop_signs {
        assert!(rungbook::search::says_stop(&gym, sign), "{sign}");
    }
}

#[test]
fn below_a_stop_sign_nothing_is_offered_that_somebody_could_train_on() {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let gym = Gym::open(reader::read(&content).expect("the starter library is there"));
    let index = Index::build(&gym).expect("the index is made");
    for typed in ["chest pain", "dizzy", "can't feel my legs", "dizzy in the plank"] {
        let hits = index.find_after_stop(typed, 10);
        assert!(hits.len() <= 3, "{typed}");
        for hit in hits {
            assert_eq!(hit.kind, HitKind::Caution, "{typed}: {}", hit.name);
        }
        // Without the rule there would be something to keep back.
        let all = index.find(typed, 10);
        assert!(all.iter().any(|hit| hit.kind != HitKind::Caution), "{typed}");
    }
    let heart = index.find_after_stop("chest pain", 10);
    assert!(heart.iter().any(|hit| hit.id == "heart-disease"));
}

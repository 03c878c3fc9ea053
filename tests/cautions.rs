//! Cautions of the starter library: what each rests on, guideline by guideline.
//! Never medical advice: a row here says what a body or a study was read to say, or that we say it.

mod laid;
#[path = "site/club.rs"]
mod club;
mod cautions {
    pub mod changes;
    pub mod rows;
    pub mod signs;
}

use rungbook::gym::Gym;
use rungbook::library::{Caution, CautionId, ReadMark, Source, SourceId, reader};
use std::path::Path;
use std::sync::OnceLock;

fn gym() -> &'static Gym {
    static GYM: OnceLock<Gym> = OnceLock::new();
    GYM.get_or_init(|| {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
        Gym::open(reader::read(&folder).expect("the starter library"))
    })
}

fn cautions() -> impl Iterator<Item = &'static Caution> {
    gym().library.words.cautions.values()
}

fn caution(id: &str) -> &'static Caution {
    let known = gym().library.words.cautions.get(&CautionId::from(id));
    known.unwrap_or_else(|| panic!("there is no caution {id}"))
}

fn source(id: &SourceId) -> &'static Source {
    let known = gym().library.words.sources.get(id);
    known.unwrap_or_else(|| panic!("there is no source {id}"))
}

/// Who says so can be asked of every row and every sign, and the answer is on the page of sources.
#[test]
fn every_row_and_every_sign_names_a_source_that_exists() {
    for caution in cautions() {
        let id = &caution.id.value;
        assert!(!caution.sources.is_empty(), "{id}");
        caution.all_sources().for_each(|named| {
            source(&named.value);
        });
        for row in caution.precautions() {
            let about = &row.about.value;
            assert!(row.source.is_some(), "{id}: {about} rests on nothing");
            assert!(row.because.is_some(), "{id}: {about} does not say why");
        }
        for sign in &caution.emergency {
            assert!(sign.source.is_some(), "{id}: {} rests on nothing", sign.sign);
        }
    }
}

/// Said once: the list under the page holds what its rows and signs rest on, except what is only
/// remembered, which each sign says of itself.
#[test]
fn a_caution_lists_what_its_rows_rest_on() {
    for caution in cautions() {
        let listed: Vec<_> = caution.sources.iter().map(|id| &id.value).collect();
        let used = caution.all_sources().map(|id| &id.value);
        let lacking: Vec<_> =
            used.filter(|id| id.as_str() != "recalled" && !listed.contains(id)).collect();
        assert!(lacking.is_empty(), "{}: {lacking:?}", caution.id.value);
    }
}

/// Nobody gives up more than they must: every situation says what stays and whom to ask.
#[test]
fn every_caution_says_what_stays_and_whom_to_ask() {
    for caution in cautions() {
        let id = &caution.id.value;
        assert!(caution.keeps.is_some(), "{id} does not say what stays");
        assert!(caution.clinician.is_some(), "{id} does not say whom to ask");
        assert!(caution.change.iter().all(|row| row.how.is_some()), "{id} changes, and not how");
        let strong = caution.leave_out.iter().filter(|row| row.from == 1);
        let bare: Vec<_> = strong.map(|row| row.about.value.as_str()).collect();
        // Left out altogether: only where a guideline or a surgeon leaves it out altogether.
        let all_of_it = ["impact", "head-below-heart", "end-range-rotation"];
        assert!(bare.iter().all(|about| all_of_it.contains(about)), "{id}: {bare:?}");
    }
}

/// A citation is complete, or says that it is from memory; and what is from memory carries a row
/// only where the row says so.
#[test]
fn a_row_that_rests_on_memory_says_so() {
    for caution in cautions() {
        for row in caution.precautions() {
            let Some(named) = &row.source else { continue };
            let weak = source(&named.value).read == ReadMark::Memory;
            let because = row.because.as_deref().unwrap_or_default();
            let says = because.contains("memory");
            assert!(!weak || says, "{}: {}", caution.id.value, row.about.value);
        }
    }
}

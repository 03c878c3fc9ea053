//! The same thing seen, written again where the catalogue could say it once.
//! Never compares causes or cues: those may well be particular.

use crate::check::Rule;
use crate::finding::{Code, Finding, Placed, Severity, Span};
use crate::gym::Gym;
use crate::library::{Fault, Library, Movement, MovementId};
use std::collections::BTreeMap;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("fault-written-again"),
    severity: Severity::Advice,
    what: "Two movements write the same `see`, or one writes what words/faults.yaml says already.",
    why: "A search for the fault brings up one of several texts, and a better cue reaches only \
          the movement where it is written.",
    example: r#"
plank.md:   faults: [{see: Hips sag, ...}]
push-up.md: faults: [{see: Hips sag, ...}]
"#,
    next: "Write it once in words/faults.yaml and refer to it: `fault: hips-sag`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    let known = in_catalogue(library);
    let mut first_by: BTreeMap<String, (&MovementId, Span)> = BTreeMap::new();
    let mut findings = Vec::new();
    for movement in library.movements.values() {
        for see in movement.faults.iter().filter(|fault| fault.of.is_none()).map(|f| &f.see) {
            let words = plain(see);
            if let Some((id, span)) = known.get(&words) {
                findings.push(again(see, *span, &format!("refer to it: `fault: {id}`")));
            } else if let Some((id, span)) = first_by.get(&words) {
                if **id != movement.id {
                    let help = "write it once in words/faults.yaml and refer to it with `fault`";
                    findings.push(again(see, *span, help));
                }
            } else {
                first_by.insert(words, (&movement.id, see.span));
            }
        }
        let needless =
            movement.faults.iter().filter_map(|fault| needless(fault, movement, library));
        findings.extend(needless);
    }
    findings
}

/// What the catalogue says is seen, its names and what else people say: each with its id and place.
fn in_catalogue(library: &Library) -> BTreeMap<String, (&str, Span)> {
    let mut known = BTreeMap::new();
    for fault in library.words.faults.values() {
        let sees = fault.all().filter_map(|within| within.see.as_ref()).map(|see| &see.value);
        let names = std::iter::once(&fault.name).chain(&fault.also_said);
        for words in sees.chain(names) {
            known.entry(plain(words)).or_insert((fault.id.value.as_str(), fault.id.span));
        }
    }
    known
}

/// A reference that repeats what it refers to.
fn needless(fault: &Fault, movement: &Movement, library: &Library) -> Option<Finding> {
    let known = library.words.faults.get(&fault.of.as_ref()?.value)?;
    let within = known.within(&movement.pattern.value).see;
    let there = within.as_ref().map_or(&known.name, |see| &see.value);
    let same = fault.is_own(fault.see.span) && plain(&fault.see.value) == plain(there);
    same.then(|| again(&fault.see, known.id.span, "leave `see` out: the catalogue says it"))
}

fn again(see: &Placed<String>, first: Span, help: &str) -> Finding {
    RULE.finding(format!("`{}` is written again", see.value), see.span)
        .label("again here")
        .also(first, "first here")
        .help(help)
}

/// Capital letters and marks do not make another fault.
fn plain(text: &str) -> String {
    let letters = text.to_lowercase();
    let words = letters.split(|letter: char| !letter.is_alphanumeric()).filter(|w| !w.is_empty());
    words.collect::<Vec<_>>().join(" ")
}

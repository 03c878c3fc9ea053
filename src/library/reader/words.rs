//! Reading `words/`: kit, traits, cautions, faults, patterns, muscles, synonyms and sources.
//! Never asks whether the ids they name exist.

use super::fields::{Fields, Reading};
use super::node::{Kind, Node};
use super::{add, check_id, codes, fault, traits, yaml_file};
use crate::finding::{FileId, Finding, Placed, Severity, Span, did_you_mean};
use crate::library::keys;
use crate::library::named::Named;
use crate::library::{
    Caution, CautionId, Emergency, KitId, KitItem, KitKind, Library, Muscle, MuscleId, NeverUse,
    Pattern, PatternId, Precaution, ReadMark, Source, SourceId, StartLowest, Trait, TraitId, Words,
};

/// Reads one file of `words/` into the library.
pub fn read(name: &str, file: FileId, text: &str, library: &mut Library, reading: &mut Reading) {
    let known = [
        "kit", "traits", "changes", "cautions", "faults", "patterns", "muscles", "synonyms",
        "sources",
    ];
    let stem = name.trim_end_matches(".yaml");
    if !known.contains(&stem) {
        let headline = format!("nothing reads `words/{name}`");
        let help = did_you_mean(stem, known, &format!("known here: {}", known.join(", ")));
        let span = Span::whole(file);
        let finding = Finding::new(codes::STRAY_FILE, Severity::Warning, headline, span);
        reading.findings.push(finding.help(help));
        return;
    }
    let Some(root) = yaml_file(&format!("words-{stem}"), file, text, reading) else { return };
    let words = &mut library.words;
    if stem == "synonyms" {
        synonyms(&root, words, reading);
        return;
    }
    let Some(table) = table_of(stem) else { return };
    let Kind::Map(entries) = &root.kind else {
        reading.wrong_shape(&root, "this file", "ids, each with its keys");
        return;
    };
    for (id, node) in entries {
        check_id(&id.value, id.span, reading);
        let Some(mut fields) = reading.fields_of(node, table) else { continue };
        word(stem, id, &mut fields, words, reading);
        reading.no_more(&fields);
    }
}

/// The keys of an entry in a file of `words/`.
fn table_of(stem: &str) -> Option<&'static keys::Table> {
    let path = format!("words/{stem}.yaml");
    let kind = keys::FILE_KINDS.iter().find(|kind| kind.home == path)?;
    keys::tables_of(kind).into_iter().next()
}

fn word(
    stem: &str,
    id: &Placed<String>,
    fields: &mut Fields<'_>,
    words: &mut Words,
    reading: &mut Reading,
) {
    let span = id.span;
    let placed = |text: &str| Placed::new(text.to_string(), span);
    if let Some(kind) = Named::from_word(stem).filter(|kind| kind.has_page()) {
        reading.formerly(fields, kind, &id.value);
    }
    match stem {
        "kit" => {
            let item = kit_item(placed(&id.value), fields, reading);
            add(&mut words.kit, item.id.value.clone(), item, span, |e| e.id.span, reading);
        }
        "traits" => {
            let item = trait_(placed(&id.value), fields, reading);
            add(&mut words.traits, item.id.value.clone(), item, span, |e| e.id.span, reading);
        }
        "changes" => {
            let item = traits::change(placed(&id.value), fields, reading);
            add(&mut words.changes, item.id.value.clone(), item, span, |e| e.id.span, reading);
        }
        "cautions" => {
            let item = caution(placed(&id.value), fields, reading);
            add(&mut words.cautions, item.id.value.clone(), item, span, |e| e.id.span, reading);
        }
        "faults" => {
            let item = fault::known(placed(&id.value), fields, reading);
            add(&mut words.faults, item.id.value.clone(), item, span, |e| e.id.span, reading);
        }
        "patterns" => {
            let item = pattern(placed(&id.value), fields, reading);
            add(&mut words.patterns, item.id.value.clone(), item, span, |e| e.id.span, reading);
        }
        "muscles" => {
            let item = muscle(placed(&id.value), fields, reading);
            add(&mut words.muscles, item.id.value.clone(), item, span, |e| e.id.span, reading);
        }
        _ => {
            let item = source(placed(&id.value), fields, reading);
            add(&mut words.sources, item.id.value.clone(), item, span, |e| e.id.span, reading);
        }
    }
}

/// The name shown, or the id where none is written.
pub(super) fn name_of(
    id: &Placed<String>,
    fields: &mut Fields<'_>,
    reading: &mut Reading,
) -> String {
    reading.words_of(fields, "name").unwrap_or_else(|| id.value.clone())
}

fn kit_item(id: Placed<String>, fields: &mut Fields<'_>, reading: &mut Reading) -> KitItem {
    KitItem {
        name: name_of(&id, fields, reading),
        kind: reading
            .word_of(fields, "kind", KitKind::from_word, KitKind::WORDS)
            .map_or(KitKind::Hall, |kind| kind.value),
        about: reading.words_of(fields, "about"),
        check: reading.words_of(fields, "check"),
        quick: reading.words_of(fields, "quick"),
        hazards: reading.strings_of(fields, "hazards"),
        never: never(fields, reading),
        aliases: reading.strings_of(fields, "aliases"),
        sources: reading.ids_of(fields, "sources"),
        id: Placed::new(KitId(id.value), id.span),
    }
}

fn never(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<NeverUse> {
    let items = reading.list_of(fields, "never");
    items
        .iter()
        .filter_map(|item| {
            let mut fields = reading.fields_of(item, &keys::NEVER)?;
            reading.required(&mut fields, "what", "what it is never used for");
            let what = reading.words_of(&mut fields, "what");
            let because = reading.words_of(&mut fields, "because").unwrap_or_default();
            reading.no_more(&fields);
            what.map(|what| NeverUse { what, because })
        })
        .collect()
}

fn trait_(id: Placed<String>, fields: &mut Fields<'_>, reading: &mut Reading) -> Trait {
    Trait {
        name: name_of(&id, fields, reading),
        plain: reading.words_of(fields, "plain"),
        avoid: reading.words_of(fields, "avoid"),
        about: reading.words_of(fields, "about"),
        effort: reading.word_of(fields, "effort", one_or_two, &["1", "2"]).map(|one| one.value),
        also_said: reading.strings_of(fields, "also-said"),
        sources: reading.ids_of(fields, "sources"),
        id: Placed::new(TraitId(id.value), id.span),
    }
}

fn caution(id: Placed<String>, fields: &mut Fields<'_>, reading: &mut Reading) -> Caution {
    Caution {
        name: name_of(&id, fields, reading),
        also_said: reading.strings_of(fields, "also-said"),
        keeps: reading.words_of(fields, "keeps"),
        start: fields.take("start").map(|node| start_lowest(node, reading)),
        leave_out: precautions("leave-out", fields, reading),
        change: precautions("change", fields, reading),
        says: reading.words_of(fields, "says"),
        clinician: reading.words_of(fields, "clinician"),
        emergency: emergency(fields, reading),
        stop: reading.strings_of(fields, "stop"),
        sources: reading.ids_of(fields, "sources"),
        id: Placed::new(CautionId(id.value), id.span),
    }
}

/// `start: lowest`, or `start: {rung: lowest, source: ..., because: ...}`. Whatever is written there
/// counts as the lowest: a slip must not start anybody in the middle.
fn start_lowest(node: &Node, reading: &mut Reading) -> StartLowest {
    if !matches!(node.kind, Kind::Map(_)) {
        lowest(reading.text(node, "`start`"), "start", reading);
        return StartLowest::default();
    }
    let Some(mut fields) = reading.fields_of(node, &keys::START) else {
        return StartLowest::default();
    };
    let rung = reading.required(&mut fields, "rung", "this start");
    lowest(rung.and_then(|node| reading.text(node, "`rung`")), "rung", reading);
    let because = reading.words_of(&mut fields, "because");
    let source = reading.id_of(&mut fields, "source");
    reading.no_more(&fields);
    StartLowest { because, source }
}

fn lowest(word: Option<Placed<String>>, key: &str, reading: &mut Reading) {
    if let Some(word) = word.filter(|word| word.value != "lowest") {
        let headline = format!("`{}` is not a word for `{key}`", word.value);
        let help = "write `lowest`, or take it away: without it people start in the middle";
        reading.error(codes::UNKNOWN_WORD, headline, word.span, help);
    }
}

fn precautions(
    key: &'static str,
    fields: &mut Fields<'_>,
    reading: &mut Reading,
) -> Vec<Precaution> {
    let items = reading.list_of(fields, key);
    items.iter().filter_map(|item| precaution(item, reading)).collect()
}

fn one_or_two(word: &str) -> Option<u8> {
    match word {
        "1" => Some(1),
        "2" => Some(2),
        _ => None,
    }
}

fn precaution(item: &Node, reading: &mut Reading) -> Option<Precaution> {
    let mut fields = reading.fields_of(item, &keys::PRECAUTION)?;
    let about = reading.required(&mut fields, "trait", "this precaution");
    let about = about.and_then(|node| reading.text(node, "`trait`"));
    let from = reading.word_of(&mut fields, "from", one_or_two, &["1", "2"]);
    let how = reading.words_of(&mut fields, "how");
    let because = reading.words_of(&mut fields, "because");
    let source = reading.id_of(&mut fields, "source");
    reading.no_more(&fields);
    let about = about?;
    Some(Precaution {
        about: Placed::new(TraitId(about.value), about.span),
        from: from.map_or(1, |from| from.value),
        how,
        because,
        source,
    })
}

/// `emergency: [{sign: ..., do: ...}]`: a sign without what to do now helps nobody.
fn emergency(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<Emergency> {
    let items = reading.list_of(fields, "emergency");
    let one = |item: &Node| {
        let mut fields = reading.fields_of(item, &keys::EMERGENCY)?;
        let sign = reading.required(&mut fields, "sign", "this emergency");
        let sign = sign.and_then(|node| reading.text(node, "`sign`"));
        let act = reading.required(&mut fields, "do", "this emergency sign");
        let act = act.and_then(|node| reading.text(node, "`do`"));
        let source = reading.id_of(&mut fields, "source");
        reading.no_more(&fields);
        Some(Emergency { sign: sign?.value, act: act?.value, source })
    };
    items.iter().filter_map(one).collect()
}

fn pattern(id: Placed<String>, fields: &mut Fields<'_>, reading: &mut Reading) -> Pattern {
    Pattern {
        name: name_of(&id, fields, reading),
        about: reading.words_of(fields, "about"),
        prime: reading.ids_of(fields, "prime"),
        near: near(fields, reading),
        id: Placed::new(PatternId(id.value), id.span),
    }
}

/// `near: {single-leg: 0.6}`: the share of the same work, kept in hundredths.
fn near(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<(Placed<PatternId>, u8)> {
    reading
        .map_of(fields, "near", "patterns and shares, such as `{single-leg: 0.6}`")
        .iter()
        .filter_map(|(name, node)| {
            let share = reading.text(node, "a share of the same work")?;
            match share.value.parse::<f64>() {
                Ok(number) if (0.0..=1.0).contains(&number) => {
                    let hundredths = (number * 100.0).round() as u8;
                    Some((Placed::new(PatternId(name.value.clone()), name.span), hundredths))
                }
                _ => {
                    let headline = format!("`{}` is not a share between 0 and 1", share.value);
                    let help = "write a number such as `0.6`";
                    reading.error(codes::BAD_QUANTITY, headline, share.span, help);
                    None
                }
            }
        })
        .collect()
}

fn muscle(id: Placed<String>, fields: &mut Fields<'_>, reading: &mut Reading) -> Muscle {
    Muscle {
        name: name_of(&id, fields, reading),
        plain: reading.words_of(fields, "plain"),
        where_found: reading.words_of(fields, "where"),
        also_said: reading.strings_of(fields, "also-said"),
        id: Placed::new(MuscleId(id.value), id.span),
    }
}

fn source(id: Placed<String>, fields: &mut Fields<'_>, reading: &mut Reading) -> Source {
    let title = reading.words_of(fields, "title");
    Source {
        authors: reading.words_of(fields, "authors"),
        titled: title.is_some(),
        title: title.unwrap_or_else(|| id.value.clone()),
        body: reading.words_of(fields, "body"),
        year: reading.words_of(fields, "year"),
        at: reading.words_of(fields, "at"),
        doi: reading.words_of(fields, "doi"),
        number: reading.words_of(fields, "number"),
        read: reading
            .word_of(fields, "read", ReadMark::from_word, ReadMark::WORDS)
            .map_or(ReadMark::Memory, |mark| mark.value),
        supports: reading.words_of(fields, "supports"),
        doubts: reading.words_of(fields, "doubts"),
        id: Placed::new(SourceId(id.value), id.span),
    }
}

fn synonyms(root: &Node, words: &mut Words, reading: &mut Reading) {
    let Some(mut fields) = reading.fields_of(root, &keys::SYNONYMS) else { return };
    for group in reading.list_of(&mut fields, "same") {
        let items = reading.list(group, "a group of words that mean the same");
        words.same.push(items.iter().filter_map(|item| reading.text(item, "a word")).collect());
    }
    reading.no_more(&fields);
}

//! Reading `club.yaml`.
//! Never asks whether the kit it counts exists.

use super::fields::{Fields, Reading};
use super::node::Node;
use super::{codes, yaml_file};
use crate::finding::{FileId, Finding, Placed, Severity, Span};
use crate::library::colour::{Colour, Colours};
use crate::library::keys;
use crate::library::{AcrossRungs, Club, FORMAT, KitId, Library, Silenced};

/// Reads the club's facts into the library.
pub fn read(file: FileId, text: &str, library: &mut Library, reading: &mut Reading) {
    let Some(root) = yaml_file("club", file, text, reading) else { return };
    let Some(mut fields) = reading.fields_of(&root, &keys::CLUB) else { return };
    form(&mut fields, reading);
    let name = reading.required(&mut fields, "name", "the club");
    let (hall_kit, hall_room) = hall(&mut fields, reading);
    library.club = Club {
        file: Some(Span::whole(file)),
        name: name
            .and_then(|node| reading.text(node, "`name`"))
            .map_or_else(|| "Our club".to_string(), |text| text.value),
        about: reading.words_of(&mut fields, "about"),
        language: language(&mut fields, reading),
        logo: reading.text_of(&mut fields, "logo"),
        logo_file: None,
        colours: colours(&mut fields, reading),
        address: address(&mut fields, reading),
        caution_line: reading.text_of(&mut fields, "caution-line"),
        stop_signs: reading.strings_of(&mut fields, "stop-signs"),
        stop_signs_said: reading.strings_of(&mut fields, "stop-signs-also-said"),
        hall_kit,
        hall_room,
        quick_limits: reading.texts_of(&mut fields, "quick-limits"),
        usual_kits: usual_kits(&mut fields, reading),
        silenced: silenced(&mut fields, reading),
        across_rungs: across_rungs(&mut fields, reading),
    };
    reading.no_more(&fields);
}

/// In which form the library is written; one that says none is of the first. Of a newer one than is known
/// here something would be misunderstood without a word.
fn form(fields: &mut Fields<'_>, reading: &mut Reading) {
    let Some(form) = reading.whole_of(fields, "format") else { return };
    if (1..=FORMAT).contains(&form.value) {
        return;
    }
    let headline =
        format!("this library is of format {}, and this program reads format {FORMAT}", form.value);
    let help = "read it with the newer program that wrote it; `rungbook --version` says which format \
                a program reads";
    reading.error(codes::UNKNOWN_WORD, headline, form.span, help);
}

/// Whether a word is a BCP 47 tag, as far as its form goes.
fn is_tag(word: &str) -> bool {
    let mut parts = word.split('-');
    let first = parts.next().unwrap_or_default();
    let letters = first.chars().all(|c| c.is_ascii_lowercase());
    let rest = |part: &str| {
        (2..=8).contains(&part.len()) && part.chars().all(|c| c.is_ascii_alphanumeric())
    };
    letters && (2..=3).contains(&first.len()) && parts.all(rest)
}

/// A language as a BCP 47 tag; of languages by their names the commonest are known.
fn language(fields: &mut Fields<'_>, reading: &mut Reading) -> String {
    let Some(text) = reading.text_of(fields, "language") else { return "en".to_string() };
    if is_tag(&text.value) {
        return text.value;
    }
    let hyphens = text.value.replace('_', "-");
    let headline = format!("`{}` is not the tag of a language", text.value);
    let by_name = LANGUAGES.iter().find(|(name, _)| *name == text.value.to_lowercase());
    let known = by_name.map(|(_, tag)| *tag).or(Some(hyphens.as_str()).filter(|tag| is_tag(tag)));
    let help = match known {
        Some(tag) => format!("write `{tag}`"),
        None => "write a tag such as `en`, `en-GB` or `de`".to_string(),
    };
    let finding =
        Finding::new(codes::UNKNOWN_WORD, Severity::Error, headline, text.span).help(help);
    reading.findings.push(match known {
        Some(tag) => finding.mend(text.span, tag),
        None => finding,
    });
    "en".to_string()
}

const LANGUAGES: [(&str, &str); 14] = [
    ("english", "en"),
    ("german", "de"),
    ("deutsch", "de"),
    ("french", "fr"),
    ("français", "fr"),
    ("spanish", "es"),
    ("español", "es"),
    ("italian", "it"),
    ("italiano", "it"),
    ("dutch", "nl"),
    ("nederlands", "nl"),
    ("polish", "pl"),
    ("welsh", "cy"),
    ("cymraeg", "cy"),
];

/// `colours: {light: "#1f4e79", dark: "#8ab4e8"}`.
fn colours(fields: &mut Fields<'_>, reading: &mut Reading) -> Option<Colours> {
    let node = fields.take("colours")?;
    let mut own = reading.fields_of(node, &keys::COLOURS)?;
    let mut colour = |key| {
        let node = reading.required(&mut own, key, "`colours`")?;
        let text = reading.text(node, key)?;
        let colour = Colour::read(&text.value);
        if colour.is_none() {
            let headline = format!("`{}` is not a colour", text.value);
            let help = "write six hexadecimal digits in quotes, such as `\"#1f4e79\"`";
            reading.error(codes::UNKNOWN_WORD, headline, text.span, help);
        }
        colour.map(|colour| Placed::new(colour, text.span))
    };
    let (light, dark) = (colour("light"), colour("dark"));
    reading.no_more(&own);
    Some(Colours { light: light?, dark: dark? })
}

fn address(fields: &mut Fields<'_>, reading: &mut Reading) -> Option<String> {
    let text = reading.text_of(fields, "address")?;
    if !is_address(&text.value) {
        let headline = format!("`{}` is not the address of a site", text.value);
        let help = "write it like `https://club.example/book/`";
        reading.error(codes::UNKNOWN_WORD, headline, text.span, help);
        return None;
    }
    Some(format!("{}/", text.value.trim_end_matches('/')))
}

/// The most pieces of one kind of kit that are counted. Our own end.
const MOST_THINGS: u32 = 1_000;

type HallKit = Vec<(Placed<KitId>, u32)>;

fn hall(fields: &mut Fields<'_>, reading: &mut Reading) -> (HallKit, Option<String>) {
    let Some(node) = fields.take("hall") else { return (Vec::new(), None) };
    let Some(mut hall) = reading.fields_of(node, &keys::HALL) else { return (Vec::new(), None) };
    let room = reading.words_of(&mut hall, "room");
    let entries = reading.map_of(&mut hall, "kit", "kit and how many, such as `{straps: 4}`");
    let kit = entries.iter().filter_map(|(name, node)| counted(name, node, reading)).collect();
    reading.no_more(&hall);
    (kit, room)
}

fn counted(
    name: &Placed<String>,
    node: &Node,
    reading: &mut Reading,
) -> Option<(Placed<KitId>, u32)> {
    let count = reading.text(node, "a number of things")?;
    let Some(count) = count.value.parse().ok().filter(|number| *number <= MOST_THINGS) else {
        let headline = format!("`{}` is not a whole number up to {MOST_THINGS}", count.value);
        reading.error(codes::BAD_QUANTITY, headline, count.span, "write how many there are");
        return None;
    };
    Some((Placed::new(KitId(name.value.clone()), name.span), count))
}

/// A host and a path in plain letters. The path is put before every link of the page for a missing
/// page: one that begins with `//` would lead to another host, and a line break ends a line of the
/// calendar.
fn is_address(text: &str) -> bool {
    let rest = text.strip_prefix("https://").or_else(|| text.strip_prefix("http://"));
    let Some(rest) = rest else { return false };
    let (host, path) = rest.split_once('/').unwrap_or((rest, ""));
    let plain =
        |part: &str, signs: &str| part.chars().all(|c| c.is_alphanumeric() || signs.contains(c));
    let is_step = |part: &str| !["", ".", ".."].contains(&part) && plain(part, "-._~%");
    let path = path.strip_suffix('/').unwrap_or(path);
    !host.is_empty() && plain(host, "-.:[]") && (path.is_empty() || path.split('/').all(is_step))
}

type UsualKits = Vec<(Placed<String>, Vec<Placed<KitId>>)>;

/// `usual-kits: {nothing: [], chair and stairs: [chair, stairs]}`.
fn usual_kits(fields: &mut Fields<'_>, reading: &mut Reading) -> UsualKits {
    let wanted = "kits by name, such as `{chair and stairs: [chair, stairs]}`";
    let entries = reading.map_of(fields, "usual-kits", wanted);
    let kit = |text: Placed<String>| Placed::new(KitId(text.value), text.span);
    entries
        .iter()
        .map(|(name, node)| {
            let items = reading.list(node, "a usual kit").iter();
            let ids = items.filter_map(|item| reading.text(item, "a piece of kit")).map(kit);
            (name.clone(), ids.collect())
        })
        .collect()
}

fn silenced(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<Silenced> {
    let Some(node) = fields.take("findings") else { return Vec::new() };
    let Some(mut findings) = reading.fields_of(node, &keys::FINDINGS) else { return Vec::new() };
    let items = reading.list_of(&mut findings, "off");
    let off = items
        .iter()
        .filter_map(|item| {
            let mut fields = reading.fields_of(item, &keys::OFF)?;
            let code = reading.required(&mut fields, "code", "this line");
            let code = code.and_then(|node| reading.text(node, "`code`"));
            let because = reading.words_of(&mut fields, "because");
            reading.no_more(&fields);
            code.map(|code| Silenced { code, because })
        })
        .collect();
    reading.no_more(&findings);
    off
}

/// `repetitions-across-rungs: {factor: 0.74, give-or-take: 0.21}`.
fn across_rungs(fields: &mut Fields<'_>, reading: &mut Reading) -> Option<AcrossRungs> {
    let node = fields.take("repetitions-across-rungs")?;
    let mut own = reading.fields_of(node, &keys::ACROSS_RUNGS)?;
    let mut number = |key, (least, most): (f64, f64)| {
        let node = reading.required(&mut own, key, "`repetitions-across-rungs`")?;
        let text = reading.text(node, key)?;
        let fits = text.value.parse().ok().filter(|number| (least..=most).contains(number));
        if fits.is_none() {
            let headline = format!("`{}` is no number from {least} to {most}", text.value);
            let help = "take the line that `rungbook roster relate` prints, or leave it out";
            reading.error(codes::BAD_QUANTITY, headline, text.span, help);
        }
        fits
    };
    // A factor without its doubt would be a point without a band.
    let (factor, band) = (number("factor", (0.1, 2.0)), number("give-or-take", (0.05, 1.0)));
    reading.no_more(&own);
    Some(AcrossRungs { factor: factor?, band: band? })
}

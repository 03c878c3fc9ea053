//! Reading what can hurt someone and how it is changed: `traits`, `changes`, and the kit they need.
//! Never asks whether the ids it names exist.

use super::codes;
use super::fields::{Fields, Reading};
use super::node::{Kind, Node};
use crate::finding::{Placed, did_you_mean};
use crate::library::keys;
use crate::library::{
    ChangeId, ChangeOf, End, KitId, KitNeed, LevelAt, Quantity, Setting, SettingName, TraitChange,
    TraitId, TraitOf, Unit,
};

/// The settings of the movement that is read, so that an end such as `up to 45 cm` has its unit.
type Settings<'a> = &'a [(Placed<SettingName>, Setting)];

/// Traits of a movement, nothing where the key is not written; and whether something there could
/// not be read.
pub fn traits(
    fields: &mut Fields<'_>,
    settings: Settings<'_>,
    reading: &mut Reading,
) -> (Option<Vec<TraitOf>>, bool) {
    let Some(node) = fields.take("traits") else { return (None, false) };
    let Kind::Map(entries) = &node.kind else {
        let wanted = "traits and how much of each, such as `{strong-grip: 1}`; `{}` for none";
        reading.wrong_shape(node, "`traits`", wanted);
        return (None, true);
    };
    let before = reading.findings.len();
    // Asks for a map again, so that a trait written twice is said.
    reading.fields(node, "`traits`");
    let one = |(name, node): &(Placed<String>, Node)| {
        let id = Placed::new(TraitId(name.value.clone()), name.span);
        if matches!(node.kind, Kind::Empty) {
            let headline = format!("nothing says how much of `{}` there is", name.value);
            let help =
                format!("write `{}: 1` for some or `{}: 2` for a lot", name.value, name.value);
            reading.error(codes::UNKNOWN_WORD, headline, name.span, help);
            return None;
        }
        let (levels, because) = levels(node, settings, reading)?;
        Some(TraitOf { id, levels, because })
    };
    let traits: Vec<TraitOf> = entries.iter().filter_map(one).collect();
    let unread = traits.len() < entries.len() || reading.findings.len() > before;
    (Some(traits), unread)
}

/// `2`, `{level: 1, because: ...}`, or a list of levels each with the reach of a setting.
fn levels(
    node: &Node,
    settings: Settings<'_>,
    reading: &mut Reading,
) -> Option<(Vec<LevelAt>, Option<String>)> {
    match &node.kind {
        Kind::Map(_) => {
            let (at, because) = level_at(node, settings, reading)?;
            Some((vec![at], because))
        }
        Kind::List(items) => {
            if items.is_empty() {
                let headline = "this trait says no level".to_string();
                let help =
                    "write 0, 1 or 2, or a list of levels such as `[{level: 1, box: up to 45 cm}]`";
                reading.error(codes::UNKNOWN_WORD, headline, node.span, help);
                return None;
            }
            let read: Vec<_> =
                items.iter().filter_map(|item| level_at(item, settings, reading)).collect();
            let because = read.iter().find_map(|(_, because)| because.clone());
            Some((read.into_iter().map(|(at, _)| at).collect(), because))
        }
        _ => {
            let level = level(node, reading)?;
            Some((vec![LevelAt { level, ends: Vec::new(), span: node.span }], None))
        }
    }
}

/// `{level: 2, box: up to 45 cm}`, with `because` where the drawn pose shows more.
fn level_at(
    node: &Node,
    settings: Settings<'_>,
    reading: &mut Reading,
) -> Option<(LevelAt, Option<String>)> {
    let mut fields = reading.fields_of(node, &keys::TRAIT_LEVEL)?;
    let written = reading.required(&mut fields, "level", "this trait");
    let level = written.and_then(|node| level(node, reading));
    // An empty reason overrules nothing.
    let because = reading.words_of(&mut fields, "because").filter(|why| !why.trim().is_empty());
    let ends: Vec<_> = fields.rest().collect();
    let ends = ends.into_iter().filter_map(|(name, node)| end(name, node, settings, reading));
    let ends = ends.collect();
    Some((LevelAt { level: level?, ends, span: node.span }, because))
}

fn level(node: &Node, reading: &mut Reading) -> Option<u8> {
    let text = reading.text(node, "a trait's level")?;
    if let Ok(level @ 0..=2) = text.value.parse::<u8>() {
        return Some(level);
    }
    let headline = format!("`{}` is not a level of a trait", text.value);
    reading.error(codes::UNKNOWN_WORD, headline, text.span, "write 0, 1 or 2");
    None
}

fn end(
    name: &Placed<String>,
    node: &Node,
    settings: Settings<'_>,
    reading: &mut Reading,
) -> Option<(Placed<SettingName>, End)> {
    let Some((_, setting)) = settings.iter().find(|(known, _)| known.as_str() == name.value) else {
        let headline = format!("`{}` is not a setting of this movement", name.value);
        let names = settings.iter().map(|(known, _)| known.as_str());
        let help = match settings.is_empty() {
            true => "this movement has no settings; write the level alone".to_string(),
            false => {
                let all: Vec<&str> = names.clone().collect();
                did_you_mean(&name.value, names, &format!("its settings: {}", all.join(", ")))
            }
        };
        reading.error(codes::UNKNOWN_KEY, headline, name.span, help);
        return None;
    };
    let text = reading.text(node, &format!("`{}`", name.value))?;
    let Some(end) = read_end(&text.value, setting.unit) else {
        let headline = format!("`{}` does not say where the level holds", text.value);
        let unit = setting.unit.symbol();
        let help = format!("write `up to 45 {unit}` or `from 45 {unit}`");
        reading.error(codes::BAD_QUANTITY, headline, text.span, help);
        return None;
    };
    if !reaches(setting, &end) {
        let headline =
            format!("this level holds nowhere: `{}` lies outside the setting", text.value);
        let (from, to) = (setting.from, setting.to);
        let help = format!("`{}` goes from {from} to {to}; write an end between them", name.value);
        reading.error(codes::BAD_QUANTITY, headline, text.span, help);
    }
    Some((Placed::new(SettingName(name.value.clone()), name.span), end))
}

/// Whether some value of a setting lies on that side of the end.
fn reaches(setting: &Setting, end: &End) -> bool {
    match end {
        End::UpTo(most) => *most >= setting.from,
        End::From(least) => *least <= setting.to,
    }
}

fn read_end(text: &str, unit: Unit) -> Option<End> {
    let text = text.trim();
    let value = |text: &str| Quantity::read(text, unit).ok();
    match (text.strip_prefix("up to "), text.strip_prefix("from ")) {
        (Some(most), _) => value(most).map(End::UpTo),
        (_, Some(least)) => value(least).map(End::From),
        _ => None,
    }
}

/// What a movement allows to be changed: ids, or an id under `use` with what is particular here.
pub fn changes(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<ChangeOf> {
    let items = reading.list_of(fields, "changes");
    items.iter().filter_map(|item| change_of(item, reading)).collect()
}

fn change_of(item: &Node, reading: &mut Reading) -> Option<ChangeOf> {
    let id = |text: Placed<String>| Placed::new(ChangeId(text.value), text.span);
    if !matches!(item.kind, Kind::Map(_)) {
        let id = id(reading.text(item, "an item of `changes`")?);
        return Some(ChangeOf {
            id,
            how: None,
            leaves: None,
            eases: None,
            brings: None,
            takes: None,
            kit: None,
        });
    }
    let mut fields = reading.fields_of(item, &keys::CHANGE_HERE)?;
    let used = reading.required(&mut fields, "use", "this change");
    let used = used.and_then(|node| reading.text(node, "`use`"));
    let change = ChangeOf {
        id: id(used?),
        how: reading.words_of(&mut fields, "how"),
        leaves: plain_levels(&mut fields, "leaves", reading),
        eases: fields.has("eases").then(|| reading.ids_of(&mut fields, "eases")),
        brings: plain_levels(&mut fields, "brings", reading),
        takes: fields.has("takes").then(|| reading.ids_of(&mut fields, "takes")),
        kit: fields.take("kit").map(|node| kit_in(node, reading)),
    };
    reading.no_more(&fields);
    Some(change)
}

/// A change of `words/changes.yaml`.
pub fn change(id: Placed<String>, fields: &mut Fields<'_>, reading: &mut Reading) -> TraitChange {
    TraitChange {
        name: reading.words_of(fields, "name").unwrap_or_else(|| id.value.clone()),
        how: reading.words_of(fields, "how"),
        part: reading.text_of(fields, "part"),
        leaves: plain_levels(fields, "leaves", reading).unwrap_or_default(),
        eases: reading.ids_of(fields, "eases"),
        brings: plain_levels(fields, "brings", reading).unwrap_or_default(),
        takes: reading.ids_of(fields, "takes"),
        kit: kit(fields, reading),
        with: reading.ids_of(fields, "with"),
        sources: reading.ids_of(fields, "sources"),
        id: Placed::new(ChangeId(id.value), id.span),
    }
}

/// `{loaded-wrist-extension: 0}`; nothing where the key is not written.
fn plain_levels(
    fields: &mut Fields<'_>,
    key: &'static str,
    reading: &mut Reading,
) -> Option<Vec<(Placed<TraitId>, u8)>> {
    let written = fields.has(key);
    let entries = reading.map_of(fields, key, "traits and levels, such as `{strong-grip: 1}`");
    let one = |(name, node): &(Placed<String>, Node)| {
        let level = level(node, reading)?;
        Some((Placed::new(TraitId(name.value.clone()), name.span), level))
    };
    let levels = entries.iter().filter_map(one).collect();
    written.then_some(levels)
}

/// Kit: each item is one thing, or a list of things any of which serves.
pub fn kit(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<KitNeed> {
    let items = reading.list_of(fields, "kit");
    items.iter().filter_map(|item| kit_need(item, reading)).collect()
}

fn kit_in(node: &Node, reading: &mut Reading) -> Vec<KitNeed> {
    let items = reading.list(node, "`kit`");
    items.iter().filter_map(|item| kit_need(item, reading)).collect()
}

fn kit_need(item: &Node, reading: &mut Reading) -> Option<KitNeed> {
    let id = |text: Placed<String>| Placed::new(KitId(text.value), text.span);
    match &item.kind {
        Kind::List(any) => {
            let any = any.iter().filter_map(|one| reading.text(one, "an item of `kit`"));
            Some(KitNeed(any.map(id).collect()))
        }
        _ => reading.text(item, "an item of `kit`").map(|text| KitNeed(vec![id(text)])),
    }
}

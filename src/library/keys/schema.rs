//! A JSON Schema (draft 2020-12) of each kind of file, for editors that mark mistakes as one types.
//! Never knows what ids there are: that is for `rungbook check`.

use super::{FILE_KINDS, FileKind, Key, ROSTER, Shape, Table};
use crate::library::Unit;
use serde_json::{Map, Value, json};

/// The schema of a kind of file, as it is written to disk.
pub fn text(kind: &FileKind) -> String {
    format!("{:#}\n", schema(kind))
}

/// The schema of a kind of file.
pub fn schema(kind: &FileKind) -> Value {
    let tables = super::tables_of(kind);
    let each: Map<String, Value> =
        tables.iter().map(|table| (key_of(table.name), of_table(table))).collect();
    let mut schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": format!("Rungbook: {}", kind.home),
        "$defs": each,
    });
    if let (Some(whole), Value::Object(shape)) = (schema.as_object_mut(), of(&kind.shape)) {
        whole.extend(shape);
    }
    schema
}

/// The file's name of a kind's schema.
pub fn file_name(kind: &FileKind) -> String {
    format!("{}.schema.json", kind.name)
}

/// The kind of a name, such as `ladder` or `words-kit`; the roster is one too, though of no library.
pub fn kind_named(name: &str) -> Option<&'static FileKind> {
    FILE_KINDS.iter().chain([&ROSTER]).find(|kind| kind.name == name)
}

fn key_of(name: &str) -> String {
    name.replace(' ', "-")
}

fn of_table(table: &Table) -> Value {
    let keys: Map<String, Value> =
        table.keys.iter().map(|key| (key.name.to_string(), of_key(key))).collect();
    let must: Vec<&str> = table.keys.iter().filter(|key| key.must).map(|key| key.name).collect();
    let others = table.others.map_or(json!(false), |others| of(&others.shape));
    let mut schema = json!({
        "type": "object",
        "properties": keys,
        "required": must,
        "additionalProperties": others,
    });
    if !table.needs.is_empty() {
        let one = |name: &&str| json!({"required": [name]});
        let how = if table.only_one { "oneOf" } else { "anyOf" };
        schema[how] = table.needs.iter().map(one).collect();
    }
    schema
}

fn of_key(key: &Key) -> Value {
    let mut schema = of(&key.shape);
    if let Some(object) = schema.as_object_mut() {
        let example = format!("{} Such as: {}", key.what, key.example);
        object.insert("description".into(), example.into());
    }
    schema
}

fn of(shape: &Shape) -> Value {
    match shape {
        // A year or a yes is read as the text it is.
        Shape::Text => json!({"type": ["string", "number", "boolean"]}),
        Shape::Address => json!({"type": "string", "pattern": "^https?://[^ \"<>?#]+$"}),
        Shape::Language => {
            json!({"type": "string", "pattern": "^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$"})
        }
        Shape::Colour => json!({"type": "string", "pattern": "^#[0-9A-Fa-f]{6}$"}),
        Shape::Id(what) => {
            json!({"type": "string", "pattern": "^[A-Za-z0-9-]+$", "title": format!("id of a {what}")})
        }
        Shape::Word(words) => json!({"enum": words}),
        Shape::Whole(from, to) => json!({"type": "integer", "minimum": from, "maximum": to}),
        Shape::Number(from, to) => json!({"type": "number", "minimum": from, "maximum": to}),
        Shape::Truth => json!({"enum": [true, false, "yes", "no"]}),
        Shape::Quantity(unit) => with_unit(&[*unit], ""),
        Shape::AnyQuantity => with_unit(&Unit::ALL, ""),
        Shape::OfSetting => json!({"anyOf": [{"type": "number"}, with_unit(&Unit::ALL, "")]}),
        Shape::Reach => with_unit(&Unit::ALL, "(up to|from) "),
        Shape::Count(unit) => count(unit),
        Shape::DoseInWords => {
            let pattern = "^\\d+(-\\d+)? [x×] \\d+(-\\d+)?( ?(s|m))?(,? each side)?$";
            json!({"type": "string", "pattern": pattern})
        }
        Shape::Day => json!({"type": "string", "pattern": "^\\d{4}-\\d{2}-\\d{2}$"}),
        Shape::Pose => json!({"type": "object", "required": ["start"]}),
        Shape::List(each) => json!({"type": "array", "items": of(each)}),
        Shape::Map(table) => json!({"$ref": format!("#/$defs/{}", key_of(table.name))}),
        Shape::Same(name) => json!({"$ref": format!("#/$defs/{}", key_of(name))}),
        Shape::Each(_, each) => json!({"type": "object", "additionalProperties": of(each)}),
        Shape::Nothing => json!({"type": "null"}),
        Shape::Any(shapes) => json!({"anyOf": shapes.iter().map(of).collect::<Vec<_>>()}),
    }
}

/// `3 s`, `1.5 min`: a number and a unit in which such a thing is measured.
fn with_unit(units: &[Unit], before: &str) -> Value {
    let mut words: Vec<&str> = units.iter().flat_map(|unit| unit.symbols()).copied().collect();
    words.sort_unstable();
    words.dedup();
    let pattern = format!("^{before}[-+]?[0-9]*\\.?[0-9]+ *({})$", words.join("|"));
    json!({"type": "string", "pattern": pattern})
}

fn count(unit: &str) -> Value {
    let unit = if unit.is_empty() { String::new() } else { format!("( ?{unit})?") };
    let pattern = format!("^\\d+( ?(-|–|to) ?\\d+)?{unit}$");
    json!({"anyOf": [
        {"type": "integer", "minimum": 0},
        {"type": "string", "pattern": pattern},
    ]})
}

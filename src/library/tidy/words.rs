//! A text as YAML reads it back: plain where that is safe, else in quotes.
//! Never changes a letter of it.

/// Words that are something else than a text.
const NO_TEXTS: [&str; 10] = ["true", "false", "yes", "no", "on", "off", "null", "y", "n", "~"];

/// A text behind a key of its own line.
pub fn in_block(text: &str) -> String {
    let cut_off = text.contains(": ") || text.contains(" #") || text.ends_with(':');
    let starts = text.starts_with(|c: char| c.is_alphanumeric());
    let is_text = !NO_TEXTS.contains(&text.to_lowercase().as_str()) && text.parse::<f64>().is_err();
    let plain = starts && is_text && !cut_off && text == text.trim();
    match plain && !text.contains(char::is_control) {
        true => text.to_string(),
        false => serde_json::Value::from(text).to_string(),
    }
}

/// A text between brackets, where a comma ends it too.
pub fn in_brackets(text: &str) -> String {
    match text.contains(['[', ']', '{', '}', ',', ':', '#']) {
        true => serde_json::Value::from(text).to_string(),
        false => in_block(text),
    }
}

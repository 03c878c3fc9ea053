//! The theme: templates, styles and scripts, embedded in the binary and open to a club's own.
//! Never knows what a page is about; a club's file of the same name stands before ours.
//! Never brings anything else of a folder into the site: what it takes stands in one list.

mod own;

use crate::kept::{Inputs, Print};
use rust_embed::Embed;
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::fmt;
use std::path::Path;
use tera::Tera;

/// The theme that the binary brings. Its templates are also known as `slate/<name>`, so that a
/// club's `movement.html` can say `{% extends "slate/movement.html" %}` and override one block.
#[derive(Embed)]
#[folder = "themes/slate"]
struct Slate;

const OWN_PREFIX: &str = "slate/";

/// Templates ready to render, and the files that every site carries.
pub struct Theme {
    tera: Tera,
    assets: BTreeMap<String, Vec<u8>>,
    left_out: Vec<String>,
    misspelt: Vec<(String, String)>,
}

/// Why a theme cannot be used: a sentence, and where.
#[derive(Debug)]
pub struct ThemeError {
    /// What is wrong, with the template's name, line and column where they are known.
    pub sentence: String,
    /// One next step, where it is another one than to mend the place named.
    pub help: Option<&'static str>,
}

impl ThemeError {
    /// A fault that is mended at the place that `sentence` names.
    pub fn of(sentence: String) -> ThemeError {
        ThemeError { sentence, help: None }
    }
}

impl fmt::Display for ThemeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence)
    }
}

impl std::error::Error for ThemeError {}

impl From<tera::Error> for ThemeError {
    fn from(error: tera::Error) -> Self {
        // Whoever shows it says that it is an error.
        let said = error.to_string();
        ThemeError::of(said.strip_prefix("error: ").unwrap_or(&said).to_string())
    }
}

/// The files of a theme, read and not yet understood.
pub struct ThemeFiles {
    ours: Vec<(String, Vec<u8>)>,
    own: own::Own,
}

impl ThemeFiles {
    /// Our theme's, and those of the folder `own`.
    ///
    /// # Errors
    /// A folder that cannot be read, or that holds what is not for a site.
    pub fn read(own: Option<&Path>) -> Result<ThemeFiles, ThemeError> {
        let read = |name: Cow<'static, str>| {
            let bytes = Slate::get(&name)?.data.into_owned();
            Some((name.into_owned(), bytes))
        };
        let ours = Slate::iter().filter_map(read).collect();
        let mut own = own.map(|dir| own::files(dir, &is_ours)).transpose()?.unwrap_or_default();
        let names: Vec<Cow<'static, str>> = Slate::iter().collect();
        own.find_misspelt(&names);
        Ok(ThemeFiles { ours, own })
    }

    /// The print of everything that a site takes from them, and of what is said of the rest.
    pub fn print(&self) -> Print {
        let files = self.ours.iter().chain(&self.own.taken);
        let inputs = Inputs::of("theme").whole(self.ours.len() as u64);
        let inputs = files.fold(inputs, |inputs, (name, bytes)| inputs.text(name).bytes(bytes));
        inputs.text(&own::words(&self.own.left_out).unwrap_or_default()).print()
    }
}

impl Theme {
    /// Our theme, with the files of `own` before ours where they have the same name.
    ///
    /// # Errors
    /// A template that cannot be understood, or a folder that cannot be read.
    pub fn open(own: Option<&Path>) -> Result<Theme, ThemeError> {
        Theme::of(ThemeFiles::read(own)?)
    }

    /// The theme that some files make, a club's own before ours where they have the same name.
    ///
    /// # Errors
    /// A template that cannot be understood.
    pub fn of(files: ThemeFiles) -> Result<Theme, ThemeError> {
        let ThemeFiles { ours, own } = files;
        let mut templates: Vec<(String, String)> = Vec::new();
        let mut assets = BTreeMap::new();
        for (name, bytes) in ours {
            let bytes = if name.ends_with(".js") { without_notes(bytes) } else { bytes };
            sort_in(&name, bytes, OWN_PREFIX, &mut templates, &mut assets)?;
        }
        for (name, bytes) in own.taken {
            sort_in(&name, bytes, "", &mut templates, &mut assets)?;
        }
        let mut tera = Tera::default();
        tera.set_fallback_prefixes([OWN_PREFIX])?;
        tera.autoescape_on(vec![".html", ".xml"]);
        tera.add_raw_templates(templates)?;
        Ok(Theme { tera, assets, left_out: own.left_out, misspelt: own.misspelt })
    }

    /// Renders a template with a page's context.
    ///
    /// # Errors
    /// A name that the context does not have, or a filter misused; with the place.
    pub fn render<T: serde::Serialize>(
        &self,
        template: &str,
        page: &T,
    ) -> Result<String, ThemeError> {
        let context = tera::Context::from_serialize(page)?;
        Ok(self.tera.render(template, &context)?)
    }

    /// Styles, scripts and pictures, by their names below the site's folder.
    pub fn assets(&self) -> &BTreeMap<String, Vec<u8>> {
        &self.assets
    }

    /// What of the club's own folder is not taken, or seems meant to stand before ours and does not,
    /// with one next step; nothing when all is well.
    pub fn left_out(&self) -> Option<String> {
        let left_out = own::words(&self.left_out).unwrap_or_default();
        let misspelt: String = self.misspelt.iter().map(own::misspelt_words).collect();
        Some(left_out + &misspelt).filter(|said| !said.is_empty())
    }
}

/// One of our scripts without the lines that are nothing but a comment, a quarter of its bytes on the
/// way: a phone needs no types. A club's own scripts stay as they are.
fn without_notes(bytes: Vec<u8>) -> Vec<u8> {
    let Ok(text) = std::str::from_utf8(&bytes) else { return bytes };
    let mut kept = Vec::with_capacity(bytes.len());
    let mut in_note = false;
    for line in text.split_inclusive('\n') {
        let plain = line.trim();
        let is_note = in_note || plain.starts_with("//") || plain.starts_with("/**");
        in_note = is_note && (in_note || plain.starts_with("/**")) && !plain.contains("*/");
        // What follows a comment on its line is no comment.
        if !is_note || (plain.contains("*/") && !plain.ends_with("*/")) {
            kept.extend_from_slice(line.as_bytes());
        }
    }
    kept
}

/// Templates to one side, everything else to the other.
fn sort_in(
    name: &str,
    bytes: Vec<u8>,
    prefix: &str,
    templates: &mut Vec<(String, String)>,
    assets: &mut BTreeMap<String, Vec<u8>>,
) -> Result<(), ThemeError> {
    let Some(template) = name.strip_prefix("templates/") else {
        assets.insert(name.to_string(), bytes);
        return Ok(());
    };
    let text = String::from_utf8(bytes)
        .map_err(|_| ThemeError::of(format!("the template `{name}` is not UTF-8 text")))?;
    templates.push((format!("{prefix}{template}"), text));
    Ok(())
}

/// Whether our theme has a file of that name, for a club's own to stand before.
fn is_ours(name: &str) -> bool {
    Slate::get(name).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_whole_lines_of_comment_are_left_out() {
        let script = "// What it is.\n\"use strict\";\n/**\n * @param {string} a\n */\nlet a = 1; // one\n  /** @type {number} */\n  let b = \"//\";\n/** @type {A} */ (b).c();\n";
        let kept = without_notes(script.as_bytes().to_vec());
        let expected =
            "\"use strict\";\nlet a = 1; // one\n  let b = \"//\";\n/** @type {A} */ (b).c();\n";
        assert_eq!(String::from_utf8_lossy(&kept), expected);
    }
}

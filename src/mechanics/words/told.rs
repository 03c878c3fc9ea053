//! The pose language told to a coach: every word, its zero, its sign, its range and an example.
//! Only tells; the words are read in `keypose`, `recipe`, `contact` and `props`, whose own lists
//! stand here, so that none can be forgotten.

use super::contact::ANCHORS;
use super::glossary::{FIGURE, POSE, PoseWord};
use super::keypose::joint_of;
use super::props::{ITEMS, PLACES_HELD};
use super::recipe::{ARROWS, SHAPES, VIEWS};
use super::said::{ARM_SHAPES, LANDMARKS};
use super::surface::{SURFACES, default_height, usual_height};
use crate::mechanics::joints::Joint;
use crate::mechanics::skeleton::joint_range;
use std::fmt::Write;

/// Everything that a name says of poses: `pose` all of it, else one word.
pub fn explained(name: &str) -> Option<String> {
    if ["pose", "figure", "poses"].contains(&name) {
        return Some(all());
    }
    let word = POSE.iter().chain(FIGURE).find(|word| word.names.contains(&name))?;
    Some(format!("{name} (a word of poses)\n{}\nFor example: {}\n", line(word), word.example))
}

/// Every name that `explained` knows.
pub fn names() -> impl Iterator<Item = &'static str> {
    let words = POSE.iter().chain(FIGURE).flat_map(|word| word.names.iter().copied());
    words.chain(["pose"])
}

/// What a word says, with its range where it is a joint's.
pub fn line(word: &PoseWord) -> String {
    let range = word.names.first().and_then(|name| range(name)).unwrap_or_default();
    format!("{}{range}", word.what)
}

fn range(name: &str) -> Option<String> {
    let joint = joint_of(name)?;
    // The whole body may stand any way round.
    if matches!(joint, Joint::Pitch | Joint::Roll | Joint::Yaw) {
        return None;
    }
    let range = joint_range(joint);
    Some(format!(" It goes from {} to {} deg.", range.from, range.to))
}

/// How a pose is written, before its words.
pub const OPENING: &str = "\
A pose says what touches what and a few angles; the rest is solved. `start` is the first key pose,
`end` the last, `between` one or more on the way:

  figure:
    start: {feet: floor, hands: \"box 45, under shoulders\", body: straight}
    end: {chest: 50}

`end` keeps every contact of `start` unless it gives that part another or takes it away:
`lift: back`, `lift: far foot`. The figure looks to the right: its right side is the near one. Words
for one side stand in a block: `near: {knee: 90}`.

Numbers: heights and distances in cm for somebody 172 cm tall (others in proportion), angles in
degrees, weights in kg. The name of a setting may stand for a number, with `+`, `-` and `* 0.5`:
`box hands`, `chest: hands + 9`. A value with a comma or a space before `#` wants quotes.
";

/// The whole language, for `rungbook explain pose`.
pub fn all() -> String {
    let mut text = OPENING.to_string();
    let mut group = "";
    for word in POSE.iter().chain(FIGURE) {
        if word.group != group {
            group = word.group;
            let _ = write!(text, "\n{group}\n");
        }
        let _ = write!(
            text,
            "  {}\n      {}\n      {}\n",
            word.names.join(", "),
            line(word),
            word.example
        );
    }
    text.push_str(&lists());
    text
}

/// The words that may stand behind others.
pub fn lists() -> String {
    let first = |words: &[&str]| words.join(", ");
    let surfaces: Vec<String> = SURFACES
        .iter()
        .map(|(word, surface)| match default_height(*surface) {
            Some(_) => (*word).to_string(),
            None if *word == "wall" => (*word).to_string(),
            None => format!("{word} {}", usual_height(*surface)),
        })
        .collect();
    format!(
        "\nThings to stand on, hold on to or lean against, with a usual height in cm\n  {}\n\n\
         Where on it, after a comma\n  under shoulders, under hips +5, 70 behind near foot, \
         20 ahead of hips, 90 beside far foot, 30 apart, at 40, anchor over heels +20\n  \
         placed by: {}\n\n\
         Shapes of the arms\n  {}\n\nLandmarks for `hands-at`\n  {}\n\nThings for `holds`\n  {}\n  \
         held: {}\n\nViews\n  {}\n\nShapes\n  {}\n\nWhat an arrow follows\n  {}\n",
        surfaces.join(", "),
        first(&ANCHORS.map(|(word, _)| word)),
        first(&ARM_SHAPES.map(|(word, _)| word)),
        first(&LANDMARKS.map(|(word, _)| word)),
        first(&ITEMS.map(|(word, ..)| word)),
        first(&PLACES_HELD),
        first(&VIEWS.map(|(word, _)| word)),
        first(&SHAPES.map(|(word, _)| word)),
        first(&ARROWS),
    )
}

/// The whole language as Markdown, for the reference.
pub fn reference() -> String {
    let mut text = String::new();
    let mut group = "";
    for word in POSE.iter().chain(FIGURE) {
        if word.group != group {
            group = word.group;
            let _ = write!(
                text,
                "\n**{group}**\n\n| word | what it says | for example |\n|---|---|---|\n"
            );
        }
        let names: Vec<String> = word.names.iter().map(|name| format!("`{name}`")).collect();
        let _ = writeln!(text, "| {} | {} | `{}` |", names.join(", "), line(word), word.example);
    }
    format!("```\n{OPENING}```\n{text}\n```\n{}```\n", lists().trim_start())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::node::PoseNode;
    use crate::mechanics::words::keypose::known_keys;
    use crate::mechanics::words::number::Settings;
    use crate::mechanics::words::recipe::{KEYS, read};
    use std::collections::BTreeSet;

    #[test]
    fn every_word_that_is_read_is_told_and_the_other_way() {
        let told = |words: &[PoseWord]| -> BTreeSet<&str> {
            words.iter().flat_map(|word| word.names.iter().copied()).collect()
        };
        assert_eq!(told(POSE), known_keys().into_iter().collect());
        assert_eq!(told(FIGURE), KEYS.into_iter().collect());
    }

    /// `{knee: 90, near: {hip: 20}}` as a tree, enough for the examples.
    fn tree(text: &str) -> PoseNode {
        let yaml: serde_json::Value = serde_yaml::from_str(text).unwrap();
        fn node(value: &serde_json::Value) -> PoseNode {
            match value {
                serde_json::Value::Object(map) => PoseNode::Map(
                    map.iter().map(|(key, value)| (key.clone(), 0, node(value), 0)).collect(),
                ),
                serde_json::Value::Array(list) => {
                    PoseNode::List(list.iter().map(|one| (node(one), 0)).collect())
                }
                serde_json::Value::String(text) => PoseNode::Text(text.clone()),
                other => PoseNode::Text(other.to_string()),
            }
        }
        node(&yaml)
    }

    #[test]
    fn every_example_reads() {
        let settings = Settings { values: &[], scale: 1.0 };
        for (words, wrap) in [(POSE, "{start: {HERE}}"), (FIGURE, "{start: {feet: floor}, HERE}")] {
            for word in words {
                let text = match word.example.starts_with("start:") {
                    true => format!("{{{}}}", word.example),
                    false => wrap.replace("HERE", word.example),
                };
                let (recipe, problems) = read(&tree(&text), 0, settings);
                assert!(recipe.is_some() && problems.is_empty(), "{text}: {problems:?}");
            }
        }
    }

    #[test]
    fn a_joint_is_told_with_the_range_that_holds_for_it() {
        assert!(explained("knee").unwrap().contains("from 0 to 150 deg"));
        assert!(explained("waist").unwrap().contains("from -30 to 50 deg"));
    }
}

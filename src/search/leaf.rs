//! Leaves: an entry as tokens, field by field, as both readers of the index see it.
//! Never scores.

use super::HitPart;
use super::entry::Entry;
use super::vocabulary::{Token, Vocabulary};
use std::collections::BTreeSet;

/// A field and how much a word in it counts.
pub struct FieldFacts {
    /// Its name.
    pub name: &'static str,
    /// How much a word in it counts. Rules of thumb, tuned on one half of the labelled questions.
    pub boost: f32,
    /// Whether a word counts for less in a longer text.
    pub norms: bool,
    /// Whether it holds names.
    pub is_name: bool,
    /// Whether an entry is about the words in it, and does not merely mention them.
    pub is_head: bool,
    /// The tokens of the field.
    pub tokens: fn(&Leaf) -> Vec<Token>,
}

/// Every field that counts, in the order in which both readers add up.
pub const FIELDS: [FieldFacts; 6] = [
    FieldFacts {
        name: "name",
        boost: 6.0,
        norms: true,
        is_name: true,
        is_head: true,
        tokens: |leaf| leaf.name.clone(),
    },
    FieldFacts {
        name: "also",
        boost: 4.0,
        norms: true,
        is_name: true,
        is_head: true,
        tokens: |leaf| leaf.also.concat(),
    },
    FieldFacts {
        name: "parts",
        boost: 2.0,
        norms: false,
        is_name: false,
        is_head: true,
        tokens: |leaf| leaf.in_parts().into_iter().collect(),
    },
    FieldFacts {
        name: "about",
        boost: 1.5,
        norms: false,
        is_name: false,
        is_head: true,
        tokens: |leaf| leaf.about.iter().copied().collect(),
    },
    FieldFacts {
        name: "same",
        boost: 4.0,
        norms: false,
        is_name: true,
        is_head: true,
        tokens: |leaf| leaf.same.iter().copied().collect(),
    },
    FieldFacts {
        name: "text",
        boost: 0.5,
        norms: false,
        is_name: false,
        is_head: false,
        tokens: |leaf| leaf.text.iter().copied().collect(),
    },
];

/// An entry as tokens.
#[derive(Debug, Clone, Default)]
pub struct Leaf {
    /// Its name.
    pub name: Vec<Token>,
    /// Each of its other names.
    pub also: Vec<Vec<Token>>,
    /// Each of its parts.
    pub parts: Vec<Vec<Token>>,
    /// How many of the parts, the first ones, say something of their own; a rung only repeats the
    /// name of a movement, which has a page.
    pub own_parts: usize,
    /// Words that many entries share.
    pub about: BTreeSet<Token>,
    /// Meanings said in any of these.
    pub same: BTreeSet<Token>,
    /// Those of them that its names and parts say; the rest are said elsewhere.
    pub same_in_phrases: BTreeSet<Token>,
    /// Every word and meaning of the page.
    pub text: BTreeSet<Token>,
    /// The meanings that rule it out.
    pub needs: BTreeSet<Token>,
}

/// Two stems side by side in a phrase, the smaller first: order is free.
pub type Pair = (Token, Token);

/// How much two words count for standing side by side; a rule of thumb, tuned on one half of the
/// labelled questions.
pub const PAIR_BOOST: f32 = 4.0;

/// The pair of two stems.
pub fn pair(one: Token, other: Token) -> Pair {
    (one.min(other), one.max(other))
}

impl Leaf {
    /// The tokens of an entry.
    pub fn of(vocabulary: &Vocabulary, entry: &Entry) -> Leaf {
        let stems = |text: &str| vocabulary.stems_in(text);
        let by_line = |text: &str| text.lines().map(stems).collect::<Vec<_>>();
        let (about, text) = (by_line(&entry.about), by_line(&entry.text));
        let mut leaf = Leaf {
            name: stems(&entry.name),
            also: entry.also.iter().map(|also| stems(also)).collect(),
            parts: entry.parts.iter().map(|(_, part)| stems(part)).collect(),
            own_parts: entry.parts.iter().filter(|(p, _)| !matches!(p, HitPart::Rung(_))).count(),
            about: about.concat().into_iter().collect(),
            needs: entry.needs.iter().filter_map(|what| vocabulary.without(what)).collect(),
            ..Leaf::default()
        };
        let meanings = |phrase: &Vec<Token>| vocabulary.meanings_in(phrase);
        leaf.same_in_phrases = leaf.phrases().flat_map(meanings).collect();
        leaf.same = about.iter().flat_map(meanings).chain(leaf.same_in_phrases.clone()).collect();
        // Of all the pages that say "no bar", the page of the bar itself is the first answer.
        let answers: Vec<Token> =
            entry.answers.iter().filter_map(|what| vocabulary.without(what)).collect();
        leaf.same.extend(&answers);
        leaf.about.extend(&answers);
        leaf.text = text.iter().flat_map(|line| vocabulary.meanings_in(line)).collect();
        leaf.text.extend(text.concat());
        leaf.text.extend(leaf.name.iter().chain(leaf.also.iter().flatten()));
        leaf.text.extend(leaf.parts.iter().flatten());
        leaf.text.extend(leaf.about.iter().chain(&leaf.same));
        leaf
    }

    /// The tokens of the parts that say something of their own.
    pub fn in_parts(&self) -> BTreeSet<Token> {
        self.parts[..self.own_parts].iter().flatten().copied().collect()
    }

    /// The stems of its names and of all its parts.
    pub fn in_phrases(&self) -> BTreeSet<Token> {
        let phrases = [&self.name].into_iter().chain(&self.also).chain(&self.parts);
        phrases.flatten().copied().collect()
    }

    /// Every pair in its names and parts.
    pub fn pairs(&self) -> BTreeSet<Pair> {
        let pairs = self.phrases().flat_map(|phrase| phrase.windows(2));
        pairs.map(|two| pair(two[0], two[1])).collect()
    }

    /// The phrases that the entry is about.
    fn phrases(&self) -> impl Iterator<Item = &Vec<Token>> {
        [&self.name].into_iter().chain(&self.also).chain(&self.parts[..self.own_parts])
    }
}

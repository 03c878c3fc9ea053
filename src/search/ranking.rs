//! Ranking: tantivy's own index and scores over the tokens of every entry.
//! Never understands a question and never says where on a page the words are.

use super::SearchError;
use super::leaf::{FIELDS, Leaf, PAIR_BOOST, Pair};
use super::question::{Choice, Question, Unit};
use super::vocabulary::Token;
use tantivy::collector::TopDocs;
use tantivy::indexer::NoMergePolicy;
use tantivy::query::{BooleanQuery, BoostQuery, DisjunctionMaxQuery, Occur, Query, TermQuery};
use tantivy::schema::{Field, IndexRecordOption, Schema, TextFieldIndexing, TextOptions};
use tantivy::{Index, IndexWriter, ReloadPolicy, Searcher, TantivyDocument, Term};

/// Memory that tantivy's one writer may use before it starts a second segment, in bytes; two
/// thousand entries take about a tenth of it.
const WRITER_BYTES: usize = 100_000_000;

/// What an entry gains that is about all of a question of two words or more, as a share of its score.
/// A rule of thumb, tuned on one half of the labelled questions.
pub const ALL: f32 = 1.0;

/// Scores nearer to each other than one part in this many count as equal, and the order of the
/// entries decides: the browser's arithmetic may differ in the last bit.
pub const STEPS: f32 = 4096.0;

/// Up to so many equals the one whose phrase says least beside the question comes first; among more
/// of them the order of the entries decides, as looking at each phrase would hold up typing.
pub const EQUALS: usize = 48;

/// The step of a score: what is on one step is equal.
pub fn step(score: f32) -> i64 {
    (score * STEPS).round() as i64
}

/// A tantivy index in memory.
pub struct Ranking {
    searcher: Searcher,
    fields: Vec<Field>,
    pairs: Field,
    needs: Field,
}

impl Ranking {
    /// Indexes the leaves; the number of a leaf is the number of its document.
    pub fn of(leaves: &[Leaf]) -> Result<Ranking, SearchError> {
        let mut schema = Schema::builder();
        let mut add = |name: &str, norms: bool| {
            let indexing = TextFieldIndexing::default()
                .set_tokenizer("whitespace")
                .set_index_option(IndexRecordOption::Basic)
                .set_fieldnorms(norms);
            schema.add_text_field(name, TextOptions::default().set_indexing_options(indexing))
        };
        let fields: Vec<Field> = FIELDS.iter().map(|facts| add(facts.name, facts.norms)).collect();
        let pairs = add("pairs", false);
        let needs = add("needs", false);
        let index = Index::create_in_ram(schema.build());
        let mut writer: IndexWriter = index.writer_with_num_threads(1, WRITER_BYTES)?;
        writer.set_merge_policy(Box::new(NoMergePolicy));
        for leaf in leaves {
            let mut document = TantivyDocument::default();
            for (field, facts) in fields.iter().zip(&FIELDS) {
                document.add_text(*field, tokens((facts.tokens)(leaf)));
            }
            let side_by_side: Vec<String> = leaf.pairs().into_iter().map(pair_words).collect();
            document.add_text(pairs, side_by_side.join(" "));
            document.add_text(needs, tokens(leaf.needs.iter().copied().collect()));
            writer.add_document(document)?;
        }
        writer.commit()?;
        let reader = index.reader_builder().reload_policy(ReloadPolicy::Manual).try_into()?;
        let searcher = reader.searcher();
        if searcher.segment_readers().len() > 1 {
            return Err(SearchError::new("the library is too large for one index segment"));
        }
        Ok(Ranking { searcher, fields, pairs, needs })
    }

    /// The numbers of the leaves that answer, best first, with tantivy's scores.
    pub fn rank(&self, question: &Question) -> Result<Vec<(usize, f32)>, SearchError> {
        let everything = (self.searcher.num_docs() as usize).max(1);
        let top = TopDocs::with_limit(everything).order_by_score();
        let found = self.searcher.search(&self.query(question), &top)?;
        let mut ranked: Vec<(usize, f32)> =
            found.into_iter().map(|(score, at)| (at.doc_id as usize, score)).collect();
        ranked.sort_by_key(|(doc, score)| (std::cmp::Reverse(step(*score)), *doc));
        Ok(ranked)
    }

    /// The mean number of tokens in each field and, last, of pairs, as tantivy takes it.
    pub fn averages(&self) -> Result<Vec<f32>, SearchError> {
        let Some(segment) = self.searcher.segment_readers().first() else {
            return Ok(vec![0.0; self.fields.len() + 1]);
        };
        let documents = segment.max_doc() as f32;
        let mean = |field: &Field| {
            Ok(segment.inverted_index(*field)?.total_num_tokens() as f32 / documents)
        };
        self.fields.iter().chain([&self.pairs]).map(mean).collect()
    }

    fn query(&self, question: &Question) -> BooleanQuery {
        let any = question.units.iter().map(|unit| (Occur::Should, self.unit(unit, false)));
        let pairs = question.pairs.iter().map(|pairs| (Occur::Should, self.best_pair(pairs)));
        let several = question.units.iter().map(|unit| unit.words.len().max(1)).sum::<usize>() > 1;
        let all = several.then(|| {
            let all = question.units.iter().map(|unit| (Occur::Must, self.unit(unit, true)));
            let all: Box<dyn Query> = Box::new(BooleanQuery::new(all.collect()));
            let all: Box<dyn Query> = Box::new(BoostQuery::new(all, ALL));
            (Occur::Should, all)
        });
        let without = question.without.iter().map(|token| {
            let term = Term::from_field_text(self.needs, &token.to_string());
            let needs: Box<dyn Query> = Box::new(TermQuery::new(term, IndexRecordOption::Basic));
            (Occur::MustNot, needs)
        });
        BooleanQuery::new(any.chain(pairs).chain(all).chain(without).collect())
    }

    fn best_pair(&self, pairs: &[(Pair, f32)]) -> Box<dyn Query> {
        let pairs = pairs.iter().map(|(pair, sure)| {
            let term = Term::from_field_text(self.pairs, &pair_words(*pair));
            let term = Box::new(TermQuery::new(term, IndexRecordOption::Basic));
            let pair: Box<dyn Query> = Box::new(BoostQuery::new(term, PAIR_BOOST * sure));
            pair
        });
        Box::new(DisjunctionMaxQuery::new(pairs.collect()))
    }

    /// The best of: all words together as one, or each by itself. What is about a unit is about each.
    fn unit(&self, unit: &Unit, heads: bool) -> Box<dyn Query> {
        let words = unit.words.iter();
        let occur = if heads { Occur::Must } else { Occur::Should };
        let words = words.map(|choices| (occur, self.best_of(choices, heads)));
        let words: Box<dyn Query> = Box::new(BooleanQuery::new(words.collect()));
        let whole = unit.whole.iter().map(|choice| self.token(choice, heads));
        Box::new(DisjunctionMaxQuery::new(std::iter::once(words).chain(whole).collect()))
    }

    fn best_of(&self, choices: &[Choice], heads: bool) -> Box<dyn Query> {
        let choices = choices.iter().map(|choice| self.token(choice, heads));
        Box::new(DisjunctionMaxQuery::new(choices.collect()))
    }

    /// A token wherever it stands, weighted by field.
    fn token(&self, choice: &Choice, heads: bool) -> Box<dyn Query> {
        let fields = self.fields.iter().zip(&FIELDS);
        let fields = fields.filter(|(_, facts)| facts.is_name || !choice.names_only);
        let fields = fields.filter(|(_, facts)| facts.is_head || !heads);
        let terms = fields.map(|(field, facts)| {
            let term = Term::from_field_text(*field, &choice.token.to_string());
            let term = Box::new(TermQuery::new(term, IndexRecordOption::Basic));
            let boosted: Box<dyn Query> =
                Box::new(BoostQuery::new(term, facts.boost * choice.sure));
            (Occur::Should, boosted)
        });
        Box::new(BooleanQuery::new(terms.collect()))
    }
}

/// Tokens as the text that tantivy cuts at the spaces.
fn tokens(tokens: Vec<Token>) -> String {
    tokens.iter().map(Token::to_string).collect::<Vec<_>>().join(" ")
}

fn pair_words((one, other): Pair) -> String {
    format!("{one}+{other}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// Three leaves: token 1 in two names of unlike length, and in one text.
    fn leaves() -> Vec<Leaf> {
        let leaf = |name: &[Token], text: &[Token]| Leaf {
            name: name.to_vec(),
            text: name.iter().chain(text).copied().collect(),
            ..Leaf::default()
        };
        vec![leaf(&[1], &[]), leaf(&[1, 2, 3], &[]), leaf(&[4], &[1])]
    }

    fn asking(token: Token) -> Question {
        let choice = Choice { token, sure: 1.0, names_only: false };
        let unit = Unit { words: vec![vec![choice]], whole: Vec::new() };
        Question { units: vec![unit], ..Question::default() }
    }

    /// BM25 with k1 1.2 and b 0.75 for a word that stands once (Robertson and Zaragoza 2009, with
    /// the logarithm of one plus the odds, as tantivy has it).
    fn bm25(with: f64, all: f64, length: f64, mean: f64) -> f64 {
        let rare = (1.0 + (all - with + 0.5) / (with + 0.5)).ln();
        rare * 2.2 / (1.0 + 1.2 * (0.25 + 0.75 * length / mean))
    }

    #[test]
    fn scores_are_those_of_the_published_formula() {
        let ranking = Ranking::of(&leaves()).expect("three leaves are indexed");
        let ranked = ranking.rank(&asking(1)).expect("the index answers");
        let (name, text) = (f64::from(FIELDS[0].boost), f64::from(FIELDS[5].boost));
        // A text's length does not count: one stands for it. Texts have 1, 3 and 2 tokens.
        let in_text = text * bm25(3.0, 3.0, 1.0, 2.0);
        let in_name = |length| name * bm25(2.0, 3.0, length, 5.0 / 3.0);
        let expected = [(0, in_name(1.0) + in_text), (1, in_name(3.0) + in_text), (2, in_text)];
        assert_eq!(ranked.len(), expected.len());
        for ((leaf, score), (expected_leaf, expected_score)) in ranked.iter().zip(expected) {
            assert_eq!(*leaf, expected_leaf);
            let apart = (f64::from(*score) - expected_score).abs() / expected_score;
            assert!(apart < 1e-6, "{score} and {expected_score}");
        }
    }

    #[test]
    fn what_is_ruled_out_is_no_answer() {
        let mut leaves = leaves();
        leaves[0].needs = BTreeSet::from([9]);
        let ranking = Ranking::of(&leaves).expect("three leaves are indexed");
        let question = Question { without: vec![9], ..asking(1) };
        let ranked = ranking.rank(&question).expect("the index answers");
        assert_eq!(ranked.iter().map(|(leaf, _)| *leaf).collect::<Vec<_>>(), [1, 2]);
    }
}

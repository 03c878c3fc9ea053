//! Published test norms: context beside one's own history.
//! Never a verdict, and never for a test done another way than the table's protocol.

use serde::Serialize;

mod tables;
pub use tables::{PROTOCOLS, ROWS};

/// A test that has a published table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum NormTest {
    /// Push-ups without a time limit: men from the toes, women from the knees.
    PushUp,
    /// Stands from a chair in 30 seconds.
    ChairStand,
    /// Stands from a chair in a minute.
    SitToStand,
    /// Forearm plank, in seconds.
    ForearmPlank,
    /// Partial curl-ups to a beat, 25 at most.
    CurlUp,
}

/// The tables know women and men only.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sex {
    /// The tables' women.
    Female,
    /// The tables' men.
    Male,
}

/// How a test is run, and where its table was published.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Protocol {
    /// The test.
    pub test: NormTest,
    /// How it is run, for the tables to say anything.
    pub how: &'static str,
    /// Where the table was published.
    pub source: &'static str,
    /// True when the numbers were recalled and not read.
    pub from_memory: bool,
}

/// One line of a table: people of one sex and age span.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Row {
    /// The test.
    pub test: NormTest,
    /// The sex.
    pub sex: Sex,
    /// The youngest and the oldest, both included.
    pub ages: [u32; 2],
    /// Where the people of the table stand.
    pub edges: Edges,
}

/// The edges of a row.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(tag = "kind", content = "at", rename_all = "kebab-case")]
pub enum Edges {
    /// The first number of each category above the lowest.
    Steps(&'static [(u32, &'static str)]),
    /// The quartiles between which the middle half of people lies, both included.
    MiddleHalf([f64; 2]),
}

/// What a table calls the lowest category.
pub const LOWEST: &str = "Needs improvement";
/// Where a number stands to the middle half of people: below, in it, above.
pub const HALVES: [&str; 3] = [
    "Below the middle half of people",
    "In the middle half of people",
    "Above the middle half of people",
];

/// Where a number stands among the people of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Context {
    /// The table's own word for it.
    pub category: &'static str,
    /// Where the table was published.
    pub source: &'static str,
    /// How the test is run; compare nothing that was run another way.
    pub protocol: &'static str,
    /// True when the numbers were recalled and not read; say "from memory" with them.
    pub from_memory: bool,
}

/// Where `value` repetitions or seconds stand among people of that `sex` and `age` in years; `None`
/// where no table was published for them.
pub fn norms(test: NormTest, sex: Sex, age: u32, value: u32) -> Option<Context> {
    let fits = |row: &&Row| {
        row.test == test && row.sex == sex && (row.ages[0]..=row.ages[1]).contains(&age)
    };
    let row = ROWS.iter().find(fits)?;
    let protocol = PROTOCOLS.iter().find(|protocol| protocol.test == test)?;
    Some(Context {
        category: category(row.edges, value),
        source: protocol.source,
        protocol: protocol.how,
        from_memory: protocol.from_memory,
    })
}

fn category(edges: Edges, value: u32) -> &'static str {
    match edges {
        Edges::Steps(steps) => {
            steps.iter().rfind(|(from, _)| value >= *from).map_or(LOWEST, |(_, word)| *word)
        }
        Edges::MiddleHalf([low, high]) => match f64::from(value) {
            value if value < low => HALVES[0],
            value if value > high => HALVES[2],
            _ => HALVES[1],
        },
    }
}

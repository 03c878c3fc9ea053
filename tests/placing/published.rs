//! Against figures that others published; each table in tests/facts names its source.

use super::{carries, kg, reps, sheet};
use rungbook::placing::norms::{NormTest, Sex, norms};
use rungbook::placing::{CHART, RELATIONS, Relation, chart_percent, place_on};

/// The rows of a table under its source line and its heading.
fn table(text: &str) -> Vec<Vec<&str>> {
    let rows: Vec<Vec<&str>> = text.lines().skip(2).map(|line| line.split(',').collect()).collect();
    assert!(rows.len() > 5 && text.starts_with("# "), "a table with its source");
    rows
}

fn number<T: std::str::FromStr>(text: &str) -> T {
    text.parse().unwrap_or_else(|_| panic!("not a number: {text}"))
}

fn named(name: &str) -> &'static Relation {
    RELATIONS.iter().find(|relation| relation.name == name).expect("a relation of that name")
}

fn maximum(relation: &Relation, reps: u32) -> f64 {
    relation.maximum(f64::from(reps)).expect("within the relation's range")
}

/// Worked values of each relation as published, to 0.01 % (tests/facts/repetition-relations.csv).
#[test]
fn relations_give_their_published_values() {
    let rows = table(include_str!("../facts/repetition-relations.csv"));
    for row in &rows {
        let (relation, reps, kilograms) = (named(row[0]), number(row[1]), number::<f64>(row[2]));
        let ours = 100.0 * maximum(relation, reps);
        assert!((ours / kilograms - 1.0).abs() <= 1e-4, "{row:?}: {ours}");
    }
    assert!(RELATIONS.iter().all(|known| rows.iter().any(|row| row[0] == known.name)));
}

/// At one repetition most relations do not return the weight itself: Brzycki and Lombardi do
/// (same table, rows of one repetition).
#[test]
fn most_relations_do_not_return_the_weight_at_one_repetition() {
    let mut returning = Vec::new();
    for row in table(include_str!("../facts/repetition-relations.csv")) {
        if row[1] == "1" {
            let ours = maximum(named(row[0]), 1);
            assert_eq!((ours - 1.0).abs() < 1e-9, row[2] == "100.0", "{row:?}: {ours}");
            returning.extend((row[2] == "100.0").then_some(row[0]));
        }
    }
    assert_eq!(returning, ["Brzycki", "Brzycki (decimal)", "Lombardi"]);
    assert!(maximum(named("Mayhew"), 1) > 1.08);
}

/// Epley 1985 and Brzycki 1993 meet at ten repetitions, and only there.
#[test]
fn epley_and_brzycki_meet_at_ten() {
    let apart = |reps| maximum(named("Epley"), reps) - maximum(named("Brzycki"), reps);
    assert!(apart(10).abs() < 1e-12);
    assert!(apart(9) > 1e-4 && apart(11) < -1e-4);
}

#[test]
fn repetitions_undo_the_maximum() {
    for relation in &RELATIONS {
        for reps in 1..=30 {
            let back = relation.reps(maximum(relation, reps));
            assert!((back - f64::from(reps)).abs() < 1e-8, "{} at {reps}: {back}", relation.name);
        }
    }
    assert_eq!(named("Brzycki").maximum(37.0), None);
}

/// The NSCA chart exactly (tests/facts/nsca-chart.csv); no row is invented between or after.
#[test]
fn the_chart_is_the_published_one() {
    let rows = table(include_str!("../facts/nsca-chart.csv"));
    for row in &rows {
        assert_eq!(chart_percent(number(row[0])), Some(number(row[1])), "{row:?}");
    }
    assert_eq!(CHART.len(), rows.len());
    assert_eq!([chart_percent(0), chart_percent(12), chart_percent(16)], [None; 3]);
}

/// The NSCA chart lies inside the spread of the relations once people's scatter is counted in
/// (10.5 %, Mayhew 2008, doi 10.1519/JSC.0b013e31817b02ad), and not without it.
#[test]
fn the_chart_lies_inside_the_band() {
    let (mut outside_formulas, scatter) = (0, 0.105);
    for (reps, percent) in CHART {
        let fractions = RELATIONS.iter().map(|relation| 1.0 / maximum(relation, reps));
        let low = fractions.clone().fold(f64::INFINITY, f64::min);
        let high = fractions.fold(0.0, f64::max);
        let charted = f64::from(percent) / 100.0;
        assert!(low / (1.0 + scatter) <= charted && charted <= high / (1.0 - scatter), "{reps}");
        outside_formulas += u32::from(charted < low || charted > high);
    }
    assert!(outside_formulas > 0, "the scatter is needed");
}

/// Vanderburgh PM, Edmonds T. J Strength Cond Res 1997;11(4): pull-ups go with the total mass to
/// the power -7.91, so a tenth of body mass more about halves them. The pull-up's share of body
/// mass, 95.6 %, is that of Winter 2009, table 4.1.
#[test]
fn a_tenth_more_mass_about_halves_pull_ups_within_the_band() {
    let demand = |weight_kg| Some(carries(0.956, 0.0, weight_kg));
    let demands = [demand(0.0), demand(7.0)];
    for counted in 4..=20 {
        let result = rungbook::placing::TestResult { body_mass: kg(70.0), ..reps(1, counted) };
        let placement = place_on(&sheet(2), &demands, &result).expect("a placement");
        let band = placement.predicted[1].band().expect("a band");
        let published = f64::from(counted) * 1.1_f64.powf(-7.91);
        let inside = f64::from(band.low) <= published && published <= f64::from(band.high);
        assert!(inside, "{counted}: {published} in {band:?}");
        assert!(band.point < counted, "more weight, fewer repetitions");
    }
}

fn sex(text: &str) -> Sex {
    if text == "m" { Sex::Male } else { Sex::Female }
}

/// Every printed edge (tests/facts/push-up-norms.csv), at the youngest and oldest of each span.
#[test]
fn push_up_categories_are_exact_to_their_edges() {
    let rows = table(include_str!("../facts/push-up-norms.csv"));
    assert_eq!(rows.len(), 59, "sixty categories less the one on which sheets disagree");
    for row in rows {
        for age in [number(row[1]), number(row[2])] {
            // The top category has no printed upper edge.
            let most = if row[5].is_empty() { row[4] } else { row[5] };
            for value in [number(row[4]), number(most)] {
                let context = norms(NormTest::PushUp, sex(row[0]), age, value).expect("a row");
                assert_eq!((context.category, context.from_memory), (row[3], false), "{row:?}");
            }
        }
    }
    for age in [14, 70] {
        assert_eq!(norms(NormTest::PushUp, Sex::Female, age, 20), None, "no table at {age}");
    }
}

/// Quartiles as published (tests/facts/quartiles.csv), and the lower edge of the chair stand again
/// from a second source (tests/facts/chair-stand-below.csv).
#[test]
fn quartiles_are_exact_to_their_edges() {
    let side = |test, row: &[&str], value| {
        let context = norms(test, sex(row[0]), number(row[1]), value).expect("a row");
        assert_eq!(norms(test, sex(row[0]), number(row[2]), value), Some(context));
        context.category.split(' ').next().expect("a word")
    };
    for row in table(include_str!("../facts/quartiles.csv")) {
        let test = match row[0] {
            "chair-stand" => NormTest::ChairStand,
            "sit-to-stand" => NormTest::SitToStand,
            _ => NormTest::ForearmPlank,
        };
        let (lower, upper) = (number::<f64>(row[4]), number::<f64>(row[5]));
        let at = |edge: f64| side(test, &row[1..], edge as u32);
        assert_eq!([at(lower - 1.0), at(lower)], ["Below", "In"], "{row:?}");
        assert_eq!([at(upper.floor()), at(upper.floor() + 1.0)], ["In", "Above"], "{row:?}");
    }
    for row in table(include_str!("../facts/chair-stand-below.csv")) {
        let fewer_than: u32 = number(row[3]);
        assert_eq!(side(NormTest::ChairStand, &row, fewer_than - 1), "Below", "{row:?}");
        assert_eq!(side(NormTest::ChairStand, &row, fewer_than), "In", "{row:?}");
    }
    assert_eq!(norms(NormTest::SitToStand, Sex::Male, 40, 30), None, "no table between the ages");
}

#[test]
fn what_was_recalled_says_so() {
    let context = norms(NormTest::CurlUp, Sex::Female, 33, 12).expect("a row");
    assert!(context.from_memory);
}

//! Weeks drawn: bars and stairs hold to their numbers, any number of weeks, any words.
//! Never a look at a picture's shade: positions are read from the SVG and measured.

use rungbook::figure::weeks::{Asks, Bars, Stair, Step, Week, bars, stair};

fn week<T>(number: u32, word: &str, drawn: T) -> Week<T> {
    Week { number, word: word.to_string(), lighter: word == "lighter", drawn }
}

/// The numbers in the paths of a class: `M62 6H205v14H62z` gives 62, 6, 205, 14, 62.
fn paths(svg: &str, class: &str) -> Vec<Vec<f64>> {
    let marker = format!("<path class=\"{class}\" d=\"");
    let found = svg.split(&marker).skip(1).filter_map(|rest| rest.split('"').next());
    let numbers = |d: &str| {
        let words = d.split(|c: char| c.is_alphabetic() || c == ' ').filter(|w| !w.is_empty());
        words.map(|word| word.parse().expect("a number")).collect()
    };
    found.map(numbers).collect()
}

/// From where to where a bar reaches.
fn length(path: &[f64]) -> f64 {
    path[2] - path[0]
}

#[test]
fn a_bar_is_as_long_as_its_sets_and_its_band_as_the_difference() {
    let drawn = Bars {
        title: "Sets".to_string(),
        names: ["pulling".to_string(), "pushing".to_string()],
        weeks: vec![
            week(1, "build", [(20, 30), (10, 10)]),
            week(2, "lighter", [(10, 15), (5, 5)]),
            week(3, "", [(0, 0), (0, 0)]),
        ],
    };
    let svg = bars(&drawn, "sets");
    let (pulling, pushing) = (paths(&svg, "w0"), paths(&svg, "w1"));
    assert_eq!((pulling.len(), pushing.len()), (3, 3));
    let one_set = length(&pulling[0]) / 20.0;
    let wanted = [20.0, 10.0, 0.0];
    for (bar, sets) in pulling.iter().zip(wanted) {
        assert!((length(bar) - one_set * sets).abs() < 0.2, "{bar:?}");
    }
    assert!((length(&pushing[0]) - one_set * 10.0).abs() < 0.2);
    // A band where the sets are one, and none where they are one number.
    let bands = paths(&svg, "wb");
    assert_eq!(bands.len(), 2);
    assert!((length(&bands[0]) - one_set * 10.0).abs() < 0.2);
    assert_eq!(paths(&svg, "we").len(), 1, "one week is lighter");
    assert!(svg.contains("<desc id=\"sets-d\">Week 1, build: pulling 20-30, pushing 10. Week 2,"));
}

fn climbing(weeks: u32) -> Stair {
    let drawn = |n: u32| {
        let value = f64::from(n) * 10.0;
        let asks = Asks { value, band: 5.0, words: format!("{value} %") };
        Step { rung: format!("Rung {n}"), asks: Some(asks) }
    };
    let word = |n: u32| if n == 2 { "lighter" } else { "build" };
    Stair {
        title: "A & <b>".to_string(),
        axis: "Share".to_string(),
        ticks: vec![(0.0, "0 %".to_string()), (100.0, "100 %".to_string())],
        weeks: (1..=weeks).map(|n| week(n, word(n), drawn(n))).collect(),
    }
}

#[test]
fn a_step_stands_at_its_value_with_its_band_round_it() {
    let mut drawn = climbing(4);
    drawn.weeks[2].drawn.asks = None;
    let svg = stair(&drawn, "x");
    let ticks = paths(&svg, "wt");
    let (zero, hundred) = (ticks[0][1], ticks[1][1]);
    let at = |value: f64| zero - (zero - hundred) * value / 100.0;
    let treads: Vec<_> = [paths(&svg, "wg"), paths(&svg, "wg half")].concat();
    let heights: Vec<f64> = treads.iter().map(|tread| tread[1]).collect();
    for (height, value) in heights.iter().zip([10.0, 40.0, 20.0]) {
        assert!((height - at(value)).abs() < 0.2, "{heights:?}");
    }
    for (band, value) in paths(&svg, "wb").iter().zip([10.0, 20.0, 40.0]) {
        assert!((band[1] - at(value + 5.0)).abs() < 0.2, "{band:?}");
        assert!((band[3] - at(value - 5.0)).abs() < 0.2, "{band:?}");
    }
    // A week without a number is a dashed mark, and no riser leads to or from it.
    assert_eq!((paths(&svg, "wu").len(), paths(&svg, "wl").len()), (1, 1));
    assert!(svg.contains("Week 3, build: Rung 3, no number.") && svg.contains("A &amp; &lt;b&gt;"));
}

/// More weeks than fit a phone side by side keep their size and scroll; they are never squeezed.
#[test]
fn many_weeks_are_not_squeezed() {
    let width = |weeks: u32| -> f64 {
        let svg = stair(&climbing(weeks), "x");
        assert_eq!(svg.contains("class=\"chart stair long\""), weeks > 7, "{weeks}");
        let width = svg.split("width=\"").nth(1).and_then(|rest| rest.split('"').next());
        width.and_then(|width| width.parse().ok()).expect("a width")
    };
    let a_week = width(6) - width(5);
    assert!(a_week >= 40.0 && (width(20) - width(6) - 14.0 * a_week).abs() < 0.5);
    assert!(stair(&climbing(0), "x").starts_with("<svg"));
}

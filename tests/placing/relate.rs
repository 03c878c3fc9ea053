//! `rungbook roster relate`: the club's factor from its own results, stated, shrunk, and never
//! written; and placing reads the line that it prints.

use super::{carries, reps, shares};
use rungbook::gym::Gym;
use rungbook::library::reader;
use rungbook::placing::relate::{FEWEST_PAIRS, FEWEST_PEOPLE, Pair, TooFew, fit, pair, relate};
use rungbook::placing::{PUBLISHED, RELATIONS, demands_of};
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

const ROOT: &str = env!("CARGO_MANIFEST_DIR");

/// The middle of the voting relations, written apart from the room.
fn middle(of: impl Fn(&rungbook::placing::Relation) -> f64) -> f64 {
    let mut all: Vec<f64> = RELATIONS.iter().filter(|one| one.votes).map(of).collect();
    all.sort_by(f64::total_cmp);
    all[all.len() / 2]
}

/// What somebody counts on a rung that carries `ratio` times less, in a club of that factor.
fn counts(reps: u32, ratio: f64, factor: f64) -> u32 {
    let maximum = middle(|one| one.maximum(f64::from(reps)).expect("within range"));
    middle(|one| one.reps(maximum * ratio.powf(factor))).round() as u32
}

/// By hand: ten points x = 0.2, y = 0.12 of five people: xx 0.4, xy 0.24; no scatter, so the least,
/// 0.03; pull (0.03 / (0.5 / 1.645))^2 = 0.00974; (0.00974 + 0.24) / 0.40974 = 0.61. Doubt of the
/// model: 1.645 * 0.03 / sqrt(0.40974) = 0.08; of the people, whose errors all lean alike: each two
/// times 0.2 * (0.12 - 0.122) = -0.00077, so less.
#[test]
fn the_factor_as_by_hand() {
    let points: Vec<(usize, f64, f64)> = (0..10).map(|n| (n / 2, 0.2, 0.12)).collect();
    let found = fit(&points);
    assert_eq!((found.factor, found.band, found.own), (0.61, 0.08, true));
    // Ten points that say 0.6 with much scatter are drawn further: y = 0.12 +- 0.3, plain slope 0.6,
    // scatter 0.316, pull 1.08, (1.08 + 0.24) / 1.48 = 0.89.
    let scattered: Vec<(usize, f64, f64)> = points
        .iter()
        .enumerate()
        .map(|(n, (p, x, y))| (*p, *x, y + 0.3 * (-1.0_f64).powi(n as i32)))
        .collect();
    assert_eq!(fit(&scattered).factor, 0.89);
    assert!(fit(&scattered).band > 0.3, "{:?}", fit(&scattered));
}

/// Five people of two pairs each who differ among themselves doubt more than ten who do not.
#[test]
fn pairs_of_one_person_count_as_leaning_alike() {
    let lean = |person: usize| [0.10, -0.10][person % 2];
    let grouped: Vec<_> = (0..10).map(|n| (n / 2, 0.2, 0.14 + lean(n / 2))).collect();
    let apart: Vec<_> = (0..10).map(|n| (n, 0.2, 0.14 + lean(n / 2))).collect();
    assert!(fit(&grouped).band > fit(&apart).band, "{:?} {:?}", fit(&grouped), fit(&apart));
}

fn pairs_of(people: usize, each: usize, factor: f64) -> Vec<Pair> {
    let demands = shares(&[0.50, 0.62]);
    let one = |person: usize, nth: usize| {
        let first = 8 + (3 * person + 2 * nth) as u32 % 12;
        let second = counts(first, 0.50 / 0.62, factor).max(1);
        pair(person, &demands, (&reps(1, first), &reps(2, second))).expect("a pair")
    };
    (0..people).flat_map(|person| (0..each).map(move |nth| one(person, nth))).collect()
}

#[test]
fn too_few_pairs_or_people_say_nothing() {
    let refused = |people, each| relate(&pairs_of(people, each, 0.6)).expect_err("too few");
    assert_eq!(refused(9, 1), TooFew { pairs: 9, people: 9 });
    assert_eq!(refused(4, 5), TooFew { pairs: 20, people: 4 });
    assert_eq!((FEWEST_PAIRS, FEWEST_PEOPLE), (10, 5));
    assert!(relate(&pairs_of(5, 2, 0.6)).is_ok());
}

#[test]
fn a_club_of_another_factor_is_found_and_predicted_better() {
    for factor in [0.5, 0.7, 1.3] {
        let found = relate(&pairs_of(6, 2, factor)).expect("enough");
        let across = found.across;
        assert!((across.factor - factor).abs() <= across.band, "{factor}: {across:?}");
        assert!((across.factor - 1.0).abs() < (factor - 1.0_f64).abs() + 0.05, "never past it");
        assert!(found.after.reps < found.before.reps, "{found:?}");
        assert!(across.band < PUBLISHED.band);
    }
    let found = relate(&pairs_of(6, 2, 1.0)).expect("enough");
    assert!((found.across.factor - 1.0).abs() < 0.06, "{found:?}");
}

/// One member with many pairs of their own leads the factor away; who is predicted from the others
/// alone gains nothing by it, and the club is told so.
#[test]
fn nobody_is_predicted_from_their_own_results() {
    let usual = pairs_of(5, 1, 1.0);
    let mut one = pairs_of(1, 12, 0.3);
    one.iter_mut().for_each(|pair| pair.person = 9);
    let found = relate(&usual.into_iter().chain(one).collect::<Vec<_>>()).expect("enough");
    assert!(found.across.factor < 0.7, "the one member leads: {found:?}");
    assert!(found.after.reps >= 0.95 * found.before.reps, "{found:?}");
}

#[test]
fn what_does_not_compare_is_no_pair() {
    let demands = [Some(carries(0.5, 0.0, 0.0)), Some(carries(0.505, 0.0, 0.0)), None];
    let is_pair = |a, b| pair(0, &demands, (&reps(a, 8), &reps(b, 8))).is_some();
    assert!(!is_pair(1, 2), "too near");
    assert!(!is_pair(1, 3) && !is_pair(3, 1), "no number");
    let far = shares(&[0.5, 0.7]);
    let counted = |n, m| pair(0, &far, (&reps(1, n), &reps(2, m))).is_some();
    assert!(counted(8, 1) && counted(30, 8));
    assert!(!counted(8, 0) && !counted(31, 8), "none, and beyond the relations");
}

fn rungbook(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_rungbook"));
    command.args(arguments).current_dir(folder).output().expect("the program runs")
}

fn copied(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("a folder").flatten() {
        let there = to.join(entry.file_name());
        match entry.path().is_dir() {
            true => copied(&entry.path(), &there),
            false => drop(fs::copy(entry.path(), there).expect("a copy")),
        }
    }
}

/// Six members on two rungs each time, a week apart, of a club whose factor is 0.6.
fn handed_over(gym: &Gym) -> String {
    let ladder = &gym.library.ladders[&"push-up".into()];
    let demands = demands_of(gym, ladder, None);
    let share = |rung: usize| demands[rung - 1].and_then(|d| d.end).expect("a number").share;
    let names = ["wren", "robin", "dunnock", "siskin", "linnet", "plover"];
    let lines = names.iter().enumerate().flat_map(|(n, name)| {
        let (first, second) = (8 + 2 * n as u32, 5 + n % 2);
        let there = counts(first, share(3) / share(second), 0.6).clamp(1, 30);
        let again = counts(there, share(second) / share(3), 0.6).clamp(1, 30);
        [(3, first, "05"), (second, there, "09"), (3, again, "16"), (3, 30, "28")].map(
            |(rung, reps, day)| format!("{name} push-up rung {rung} {reps} reps 2026-11-{day}\n"),
        )
    });
    lines.collect()
}

#[test]
fn the_command_prints_a_line_that_placing_reads_and_writes_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let library = folder.path().join("content");
    copied(&Path::new(ROOT).join("content"), &library);
    let gym = Gym::open(reader::read(&library).expect("the starter library"));
    fs::write(folder.path().join("results.txt"), handed_over(&gym)).expect("a text");
    assert_eq!(rungbook(folder.path(), &["roster", "add", "results.txt"]).status.code(), Some(0));
    let club = || fs::read_to_string(library.join("club.yaml")).expect("the club");
    let roster = || fs::read_to_string(folder.path().join("roster.yaml")).expect("the roster");
    let before = (club(), roster());
    let told = rungbook(folder.path(), &["roster", "relate"]);
    let told = String::from_utf8(told.stdout).expect("text");
    assert_eq!((club(), roster()), before, "nothing is written");
    assert!(told.starts_with("12 pairs of 6 people"), "{told}");
    let line = told.lines().find(|line| line.starts_with("repetitions-across-rungs:"));
    let line = line.unwrap_or_else(|| panic!("no line in\n{told}"));
    let json = rungbook(folder.path(), &["roster", "relate", "--format", "json"]).stdout;
    let json: serde_json::Value = serde_json::from_slice(&json).expect("JSON");
    assert_eq!(json["line"], line);
    assert!(json["after"]["reps"].as_f64() < json["before"]["reps"].as_f64(), "{json}");
    let asked = ["place", "push-up", "--rung", "4", "--reps", "12"];
    let say = || String::from_utf8(rungbook(folder.path(), &asked).stdout).expect("text");
    let published = say();
    fs::write(library.join("club.yaml"), format!("{}{line}\n", club())).expect("the club");
    let own = say();
    let factor = json["factor"].as_f64().expect("a factor");
    assert!(own.contains(&format!("results: {factor}, give or take")), "{own}");
    assert!(published.contains("nobody has tested") && !own.contains("nobody has tested"));
    let number = |text: &str| {
        let line =
            text.lines().find(|line| line.contains("hands 45 cm")).expect("a rung").to_string();
        let words = line.split(": ").nth(1).expect("a number").to_string();
        words.split(' ').next().and_then(|word| word.parse::<u32>().ok()).expect("a number")
    };
    assert!(number(&own) > number(&published), "{own}\n{published}");
}

#[test]
fn a_line_that_cannot_be_is_a_finding_at_its_word() {
    let folder = tempfile::tempdir().expect("a folder");
    let library = folder.path().join("content");
    copied(&Path::new(ROOT).join("tests/libraries/hall"), &library);
    let club = fs::read_to_string(library.join("club.yaml")).expect("the club");
    let says = |line: &str| {
        let text = format!("{}\nrepetitions-across-rungs: {line}\n", club.trim_end());
        fs::write(library.join("club.yaml"), text).expect("the club");
        let Output { stdout, stderr, .. } = rungbook(folder.path(), &["check"]);
        String::from_utf8([stdout, stderr].concat()).expect("text")
    };
    for (line, said) in [
        ("{factor: 0, give-or-take: 0.2}", "`0` is no number from 0.1 to 2"),
        ("{factor: 0.7, give-or-take: 0}", "`0` is no number from 0.05 to 1"),
        ("{factor: 0.7}", "give-or-take"),
    ] {
        let words = says(line);
        assert!(words.contains(said) && words.contains("club.yaml"), "{words}");
    }
    let fine = says("{factor: 0.7, give-or-take: 0.2}");
    assert!(!fine.contains("across-rungs") && !fine.contains("no number from"), "{fine}");
}

#[test]
fn too_few_results_get_a_sentence_and_a_next_step() {
    let folder = tempfile::tempdir().expect("a folder");
    let roster = "wren:\n  results:\n    - {ladder: push-up, rung: 4, reps: 12, day: 2026-11-25}\n";
    fs::write(folder.path().join("roster.yaml"), roster).expect("a roster");
    let content = Path::new(ROOT).join("content");
    let content = content.to_str().expect("a path");
    let told = rungbook(folder.path(), &["roster", "relate", "--library", content]);
    let said = String::from_utf8_lossy(&told.stderr).into_owned();
    assert_eq!(told.status.code(), Some(2));
    assert!(said.contains("0 pairs of 0 people say too little"), "{said}");
    assert!(said.contains("two rungs of one ladder within 14 days"), "{said}");
}

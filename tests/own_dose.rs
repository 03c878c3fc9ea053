//! As much of a swap: the session page's script and the command's rule agree on 2,000 random doses of
//! the starter library's movements, and both say them in the same words. The script's side runs in
//! node.

mod dice;

use dice::Dice;
use rungbook::finding::{Placed, Span};
use rungbook::library::{Amount, Count, Dose, Movement, Sides, reader};
use rungbook::swap::converted_dose;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;

const DOSES: usize = 2_000;

fn work(movement: &Movement) -> Value {
    let pace = movement.pace.map(|pace| pace.number());
    json!({"counts": movement.counts.word(), "sides": movement.sides.word(), "pace_s": pace})
}

fn placed<T>(value: T) -> Placed<T> {
    Placed::new(value, Span::default())
}

fn dose(dice: &mut Dice) -> Dose {
    let from = 1 + dice.roll(40) as u32;
    let count = Count { from, to: from + dice.roll(8) as u32 };
    let amount = match dice.roll(5) {
        0 | 1 => Amount::Reps(count),
        2 => Amount::Seconds(count),
        3 => Amount::Metres(count),
        _ => Amount::Contacts(count),
    };
    let per_side = (dice.roll(2) == 0).then(|| placed(true));
    let sets = (dice.roll(2) == 0).then_some(Count { from: 3, to: 3 });
    Dose { sets, amount: Some(placed(amount)), rest: None, per_side }
}

/// A dose as the script takes it to say it.
fn said(dose: &Dose) -> Value {
    let amount = dose.amount.as_ref().expect("an amount").value;
    asked(amount, dose.sets, dose.per_side.is_some())
}

fn asked(amount: Amount, sets: Option<Count>, each_side: bool) -> Value {
    let (Amount::Reps(n) | Amount::Seconds(n) | Amount::Metres(n) | Amount::Contacts(n)) = amount;
    let sets = sets.map(|sets| [sets.from, sets.to]);
    json!({"counts": amount.counts(), "from": n.from, "to": n.to, "sets": sets,
           "each_side": each_side})
}

#[test]
fn the_page_and_the_command_say_as_much_of_a_swap() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let library = reader::read(&root.join("content")).expect("the starter library");
    let movements: Vec<&Movement> = library.movements.values().collect();
    let mut dice = Dice(5);
    let mut cases = Vec::new();
    for _ in 0..DOSES {
        let (from, to) =
            (movements[dice.roll(movements.len())], movements[dice.roll(movements.len())]);
        let dose = dose(&mut dice);
        let planned = dose.amount.as_ref().expect("an amount").value;
        let each = dose.per_side.is_some() || from.sides == Sides::Each;
        let found = converted_dose(from, to, &dose, None).dose;
        let expected = found.amount.map(|amount| {
            asked(amount.value, found.sets, found.per_side.is_some_and(|side| side.value))
        });
        let asked = asked(planned, dose.sets, each);
        let named = format!("{} to {}", from.id, to.id);
        cases.push(json!({"named": named, "from": work(from), "to": work(to), "asked": asked,
                          "expected": expected, "words": dose.to_string(),
                          "said": said(&dose)}));
    }
    // Nobody is left without a dose, and each kind of counting is asked of each.
    assert!(cases.iter().all(|case| case["expected"]["from"].as_u64() >= Some(1)));
    let counts = |case: &Value, of: &str| case[of]["counts"].as_str().unwrap_or("").to_string();
    let kinds: BTreeSet<_> =
        cases.iter().map(|case| (counts(case, "asked"), counts(case, "to"))).collect();
    assert!(kinds.len() >= 12, "{kinds:?}");
    let dir = tempfile::tempdir().expect("a folder");
    let file = dir.path().join("cases.json");
    std::fs::write(&file, serde_json::to_string(&cases).expect("JSON")).expect("the cases");
    let output = Command::new("node")
        .arg(root.join("tests/browser/own-dose.mjs"))
        .arg(root.join("themes/slate/scripts"))
        .arg(&file)
        .output()
        .expect("node runs");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(said.trim(), format!("{DOSES} doses agree"));
}

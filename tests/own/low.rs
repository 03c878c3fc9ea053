//! Who starts low: on the lowest rung of every line, or on their own where it is known.
//! Never a situation by name: every one of the library that says so.

use super::*;

/// A situation that says so starts whoever has no result on the lowest rung, tests too, and on the
/// lowest option; everybody else starts in the middle, and who has a rung of their own stands there.
#[test]
fn nobody_starts_in_the_middle_when_their_situation_says_otherwise() {
    let mut low = 0;
    for caution in GYM.library.words.cautions.values() {
        let starts_low = caution.start.is_some();
        for line in all_lines(&GYM) {
            let own = of_line(&GYM, &line, &only(caution));
            let first = own.why.first().cloned().unwrap_or_default();
            match &line.work {
                Work::Ladder(ladder, _) => {
                    assert_eq!(first.ends_with("its lowest rung."), starts_low, "{own:?}");
                    let here = own.rung.as_ref().is_some_and(|(id, _)| *id == ladder.id);
                    if starts_low && here {
                        low += 1;
                        assert!(own.rung.as_ref().is_some_and(|(_, rung)| *rung == 1), "{own:?}");
                    }
                    let mut known = only(caution);
                    known.rungs.insert(ladder.id.clone(), (2, then(ladder, 2)));
                    let own = of_line(&GYM, &line, &known);
                    assert!(own.why[0].starts_with("Your rung is 2"), "{own:?}");
                }
                Work::Options(options) if starts_low => {
                    let lowest = of_line(&GYM, &options[0], &only(caution));
                    assert_eq!(own.movement, lowest.movement, "{own:?}");
                }
                _ => {}
            }
        }
    }
    assert!(low > 50, "{low} lines on a lowest rung");
}

/// Who starts low does a line that names one movement no higher than they would do its ladder: on the
/// lowest rung, or their own where it is known; everybody else does what the line says.
#[test]
fn a_line_that_names_a_movement_puts_nobody_in_the_middle_of_its_ladder() {
    let plank = LadderId::from("plank");
    let ladder = &GYM.library.ladders[&plank];
    let lines = all_lines(&GYM);
    let named = |line: &&Line<'_>| match &line.work {
        Work::Options(options) => matches!(&options[0].work, Work::Movement(one, rung)
            if one.id.as_str() == "raised-plank" && rung.said() == "hands 60 cm"),
        _ => false,
    };
    let line = lines.iter().find(named).expect("a line whose first option is the raised plank");
    let mut low = 0;
    for caution in GYM.library.words.cautions.values() {
        let own = of_line(&GYM, line, &only(caution));
        let on = own.rung.clone().filter(|(id, _)| *id == plank).map(|(_, rung)| rung);
        if caution.start.is_none() || own.kind == Kind::Ask {
            assert_eq!(on.filter(|_| own.kind != Kind::Swap), None, "{own:?}");
            continue;
        }
        let fits = fit(&GYM, &only(caution).person, &RungOf::on(&GYM, &plank, 0).expect("rung 1"));
        if fits.is_in() {
            low += 1;
            assert_eq!((on, own.setting.as_str()), (Some(1), "hands 90 cm"), "{own:?}");
            assert_eq!(own.dose, "30 s");
            let mut known = only(caution);
            known.rungs.insert(plank.clone(), (2, then(ladder, 2)));
            let own = of_line(&GYM, line, &known);
            assert!(own.rung.is_none_or(|(id, rung)| id != plank || rung <= 2), "{:?}", own.why);
            known.rungs.insert(plank.clone(), (4, then(ladder, 4)));
            let own = of_line(&GYM, line, &known);
            assert!(own.rung.is_none() || own.kind == Kind::Swap, "as the line says it: {own:?}");
        }
    }
    assert!(low > 5, "{low} situations");
}

/// Of somebody of whom nothing is known a line below the own rung asks as far below the middle of the
/// ladder as it says, and of two rungs the lower one.
#[test]
fn nothing_known_is_the_middle_and_as_far_below_it_as_the_line_asks() {
    let mut below_the_middle = 0;
    for line in all_lines(&GYM) {
        let Work::Ladder(ladder, _) = &line.work else { continue };
        if line.tests {
            continue;
        }
        let own = of_line(&GYM, &line, &Member::default());
        let middle = ladder.rungs.len().div_ceil(2);
        let asked = middle.saturating_sub(line.below as usize).max(1);
        assert_eq!(own.rung, Some((ladder.id.clone(), asked as u32)), "{own:?}");
        let said = format!("No result on the {} ladder yet: its middle rung", ladder.name.value);
        assert!(own.why[0].starts_with(&said), "{own:?}");
        below_the_middle += usize::from(line.below > 0);
    }
    assert!(below_the_middle > 2, "{below_the_middle} lines below the own rung");
}

/// Whoever starts low and has neither seat nor kit still has something to do for the squat.
#[test]
fn who_starts_low_without_a_seat_has_a_squat() {
    let squat = LadderId::from("squat");
    let lines = all_lines(&GYM);
    let is_squat =
        |line: &&Line<'_>| matches!(&line.work, Work::Ladder(ladder, _) if ladder.id == squat);
    let low = GYM.library.words.cautions.values().filter(|one| one.start.is_some());
    for (caution, line) in low.flat_map(|one| lines.iter().filter(is_squat).map(move |l| (one, l)))
    {
        let mut member = only(caution);
        member.person.kit = Some(Default::default());
        let own = of_line(&GYM, line, &member);
        assert_ne!(own.kind, Kind::Ask, "{}: {own:?}", caution.name);
    }
}

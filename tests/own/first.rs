//! First: the first of a person's versions of a line is their own version of it.
//! Never another rung or movement on the board than `rungbook own` says.

use crate::{GYM, line_and_own, person};
use rungbook::own::{Kind, Work, versions};

#[test]
fn the_first_version_is_the_own_version() {
    let (mut held, mut all) = (0, 0);
    for seed in 0..400 {
        let member = person(seed);
        let (line, own) = line_and_own(&GYM, (seed * 7) as usize, &member);
        let first = versions(&GYM, &line, &member).next();
        if own.kind == Kind::Ask {
            assert!(first.is_none(), "{seed}: {own:?}, and {first:?}");
            continue;
        }
        let first = first.unwrap_or_else(|| panic!("{seed}: no version, and {own:?}")).own;
        let said = |one: &rungbook::own::Own| {
            (
                one.kind,
                one.movement.clone(),
                one.rung.clone(),
                one.setting.clone(),
                one.dose.clone(),
            )
        };
        assert_eq!(said(&first), said(&own), "{seed}");
        assert_eq!(first.change, own.change, "{seed}");
        all += 1;
        // A line that names a movement, done on a rung of its ladder: by whoever starts low.
        held += usize::from(matches!(line.work, Work::Movement(..)) && own.rung.is_some());
    }
    assert!(all > 200 && held > 10, "{all} {held}");
}

//! Clocked: what the clock allows: time over, and who can change over with it.
//! Never a dose of another rung than the one that was asked.

use crate::drawn::{GYM, TODAY};
use crate::{class_of, demo};
use rungbook::board::{self, Class, Offer, Person};
use rungbook::library::{Counts, Format, Sides, Spread};
use rungbook::own::{self, Kind, Line, Work};
use rungbook::placing::Target;
use rungbook::plan::Day;

/// A set that stands for another takes as long as what was asked, wherever its own ladder has it.
#[test]
fn time_over_is_reckoned_from_the_rung_that_was_asked() {
    let (mut held, mut other) = (0, 0);
    for seed in 500..580 {
        let (session, roster) = class_of(seed, 8);
        let people = board::class(&GYM, &roster, Day::read(TODAY));
        let class = Class::of(&GYM, &session, people);
        for (at, block) in class.blocks.iter().enumerate() {
            for (item, offers) in block.offers.iter().enumerate() {
                let line = own::line_of(&GYM, &session, at, &session.blocks[at].items[item]);
                let longest = block.plan.items[item].ways.iter().map(|way| way.set.most).max();
                for offers in offers {
                    let (n, differ) = over_of_swaps(&line, longest, offers);
                    held += n;
                    other += differ;
                }
            }
        }
    }
    assert!(held > 100 && other > 0, "{held} swaps, {other} whose own place says something else");
}

/// Checks the swaps of one person for one line; how many, and how many the wrong rung's dose would
/// have made longer or shorter.
fn over_of_swaps(line: &Line<'_>, longest: Option<u32>, offers: &[Offer]) -> (usize, usize) {
    let first = offers.first().filter(|one| one.own.kind != Kind::Swap && one.misfit.below == 0);
    let ladder = first.and_then(|one| one.own.rung.as_ref());
    let (Some((_, rung)), Some(longest), Work::Ladder(..)) = (ladder, longest, &line.work) else {
        return (0, 0);
    };
    let Some(asked) = line.asks(*rung as usize - 1) else { return (0, 0) };
    let (mut n, mut differ) = (0, 0);
    for offer in offers.iter().filter(|one| one.own.kind == Kind::Swap) {
        let movement = &GYM.library.movements[&offer.own.movement];
        let pace = movement.pace.map_or(3.0, |pace| pace.number());
        let sides = if movement.sides == Sides::Each { 2 } else { 1 };
        let seconds = |target: Target| match target.counts {
            Counts::Reps => (f64::from(target.to) * pace).ceil() as u32 * sides,
            _ => longest,
        };
        if movement.counts != Counts::Reps || asked.counts != Counts::Reps || asked.each_side {
            continue;
        }
        let over = seconds(asked).saturating_sub(longest) * 100 / 30;
        assert_eq!(offer.misfit.over, over, "{} for {asked}", movement.id);
        n += 1;
        let own_place = offer.own.rung.as_ref().and_then(|(_, at)| line.asks(*at as usize - 1));
        let own_place = own_place.or(line.asks(0)).map(seconds);
        differ +=
            usize::from(own_place.map(|s| s.saturating_sub(longest) * 100 / 30) != Some(over));
    }
    (n, differ)
}

/// Counting down and against the clock nobody can wait for the other half; by the minute all can.
#[test]
fn no_halves_are_proposed_where_each_goes_at_their_own_pace() {
    let mut seen = 0;
    for session in GYM.library.sessions.values() {
        // All of them in the hall, so that little kit speaks for halves.
        let people = board::class(&GYM, &demo(), None).into_iter();
        let people = people.map(|one| Person { at_home: false, ..one }).collect();
        let Ok(board) = board::board(Class::of(&GYM, session, people)) else { continue };
        for (block, rota) in session.blocks.iter().zip(&board.rotas) {
            let format = block.format.as_ref().map(|format| format.value);
            if block.spread.is_none()
                && matches!(format, Some(Format::Descending | Format::ForTime))
            {
                assert_eq!(rota.spread, Spread::Together, "{}", block.name.value);
                seen += 1;
            }
        }
    }
    assert!(seen > 0);
}

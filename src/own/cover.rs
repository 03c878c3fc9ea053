//! Cover of a session: for usual kits and every limit, which lines have a version that fits and which
//! have none. Counted as the library's own cover is: never a caution's general sentence as an answer.

use super::answer::of_line;
use super::line::{Line, line_of};
use super::member::Member;
use super::versions::versions;
use crate::finding::Span;
use crate::gym::Gym;
use crate::library::Session;
use crate::plan::block_plan;
use crate::swap::Person;
use crate::swap::cover::{Answered, Tally, UsualKit, UsualLimit};
use rayon::prelude::*;

/// A line of a session, and how it is answered.
#[derive(Debug, Clone)]
pub struct LineCover {
    /// Its block, from 0.
    pub block: usize,
    /// Its place in the block, from 0.
    pub line: usize,
    /// The name shown.
    pub name: String,
    /// Where it is written.
    pub span: Span,
    /// The answers, every kit with every limit; limits run faster.
    pub answers: Vec<Answered>,
}

impl LineCover {
    /// The counts of some answers, by the places of kit and limit among those that were asked.
    pub fn tally(&self, limits: usize, is_asked: impl Fn(usize, usize) -> bool) -> Tally {
        let each = limits.max(1);
        let asked =
            self.answers.iter().enumerate().filter(|(at, _)| is_asked(at / each, at % each));
        let mut tally = Tally::default();
        asked.for_each(|(_, answered)| tally.add(answered));
        tally
    }

    /// The counts of one limit among so many: what the limit does, so only of the kits that serve the line
    /// for somebody; of all kits where one of them leaves somebody with nothing.
    pub fn of_limit(&self, limits: usize, limit: usize) -> Tally {
        let all = self.tally(limits, |_, one| one == limit);
        let serving: Vec<bool> = self
            .answers
            .chunks(limits.max(1))
            .map(|of_kit| {
                of_kit.iter().any(|one| matches!(one, Answered::Fine | Answered::Changed))
            })
            .collect();
        if all.nothing > 0 || !serving.contains(&true) {
            return all;
        }
        self.tally(limits, |kit, one| one == limit && serving.get(kit) == Some(&true))
    }

    /// The counts of all answers.
    pub fn all(&self) -> Tally {
        self.tally(1, |_, _| true)
    }
}

/// How every line of a session is answered for each kit with each limit.
pub fn cover(
    gym: &Gym,
    session: &Session,
    (kits, limits): (&[UsualKit], &[UsualLimit]),
) -> Vec<LineCover> {
    let people: Vec<Member> =
        kits.iter().flat_map(|kit| limits.iter().map(|limit| usual(kit, limit))).collect();
    let of_block = |block: usize| {
        let names = block_plan(gym, &session.blocks[block]).items;
        let lines = session.blocks[block].items.iter().zip(names).enumerate();
        let of = |(line, (item, plan)): (usize, (_, crate::plan::ItemPlan))| {
            let item: &crate::library::Item = item;
            let asked = line_of(gym, session, block, item);
            let answers = people.par_iter().map(|one| answered(gym, &asked, one)).collect();
            LineCover { block, line, name: plan.name, span: item.span, answers }
        };
        lines.map(of).collect::<Vec<_>>()
    };
    (0..session.blocks.len()).flat_map(of_block).collect()
}

/// Nobody in particular, with a kit and a limit.
fn usual(kit: &UsualKit, limit: &UsualLimit) -> Member {
    let person = Person {
        kit: Some(kit.kit.clone()),
        limits: limit.limits.levels.clone(),
        situations: limit.limits.situations.clone(),
        // A coach reads it.
        front: true,
        ..Person::default()
    };
    Member { person, ..Member::default() }
}

fn answered(gym: &Gym, line: &Line<'_>, member: &Member) -> Answered {
    match versions(gym, line, member).next() {
        None => Answered::Nothing(of_line(gym, line, member).why.join(" ")),
        Some(version) if version.alike.is_some() => Answered::Swapped,
        Some(version) if version.below > 0 => Answered::Below,
        Some(version) if version.changes > 0 => Answered::Changed,
        Some(_) => Answered::Fine,
    }
}

//! Effort: how hard each muscle of a movement works, and how much of that two movements share.
//! Never measures anything: it goes by the order of an entry's lists.

use super::weights::{ASSIST, PRIME};
use crate::library::Muscles;

/// How hard each muscle of a movement works, by its place in the entry's lists.
pub struct Effort<'m> {
    muscles: Vec<(&'m str, u32)>,
    sum: u32,
}

impl<'m> Effort<'m> {
    /// The effort that an entry's lists describe.
    pub fn of(muscles: &'m Muscles) -> Effort<'m> {
        let muscles: Vec<(&str, u32)> = efforts(muscles).collect();
        Effort { sum: muscles.iter().map(|(_, effort)| effort).sum(), muscles }
    }

    /// Twice the work shared, over the work of both: 1000 when the lists are the same, in order.
    /// Nothing when either entry names no muscle.
    pub fn shared_with(&self, to: &Muscles) -> Option<u32> {
        let (mut shared, mut sum) = (0, 0);
        for (muscle, b) in efforts(to) {
            let a = self.muscles.iter().find(|(other, _)| *other == muscle);
            shared += a.map_or(0, |(_, a)| *a.min(&b));
            sum += b;
        }
        (self.sum > 0 && sum > 0).then(|| 2000 * shared / (self.sum + sum))
    }
}

fn efforts(muscles: &Muscles) -> impl Iterator<Item = (&str, u32)> {
    let by_place = |at: usize| PRIME[at.min(PRIME.len() - 1)];
    let prime = muscles.prime.iter().enumerate();
    let prime = prime.map(move |(at, id)| (id.value.as_str(), by_place(at)));
    prime.chain(muscles.assist.iter().map(|id| (id.value.as_str(), ASSIST)))
}

//! View: a board as it is shown: by block and line who does what, what to fetch, and for the coach why.
//! Never a why among what others see: reasons are made on their own, and only where they are asked for.

use super::offers::Offer;
use super::share::Shared;
use super::{Board, Rota};
use crate::gym::Gym;
use crate::library::{KitId, MovementId, Session, Spread};
use crate::own::Kind;
use crate::placing::set_up::set_up_at;
use crate::plan::{Day, clock, format_words, in_turn};
use crate::swap::{RungOf, kit_name};
use std::collections::{BTreeMap, BTreeSet};

/// A board to show.
#[derive(Debug, Clone)]
pub struct View {
    /// The session's name, with its week where a cycle asks for it.
    pub session: String,
    /// The day that it is for, where it is known.
    pub day: Option<String>,
    /// Everybody's nickname and whether they are at home.
    pub people: Vec<(String, bool)>,
    /// Its blocks.
    pub blocks: Vec<BlockView>,
    /// What the hall is to have ready: how many, of what.
    pub hall_kit: Vec<(u32, String)>,
    /// Heights and distances that the hall is to set up, each once: `hands 45 and 60 cm`.
    pub set_up: Vec<String>,
    /// What each at home is to have ready.
    pub home_kit: Vec<(String, Vec<String>)>,
}

/// A block of it.
#[derive(Debug, Clone)]
pub struct BlockView {
    /// Its name.
    pub name: String,
    /// From when to when, minutes of the class.
    pub from: String,
    /// Its end likewise.
    pub to: String,
    /// What its clock counts: `3 rounds, 40 s work, 20 s rest`.
    pub format: Option<String>,
    /// How the class goes through it, in a sentence.
    pub how: String,
    /// Whether it was the board that chose so: for the coach, who may say otherwise.
    pub is_proposed: bool,
    /// Groups by their letters; none where all are together.
    pub groups: Vec<(char, Vec<String>)>,
    /// Its lines.
    pub lines: Vec<LineView>,
}

/// A line of a block.
#[derive(Debug, Clone)]
pub struct LineView {
    /// Its name.
    pub name: String,
    /// Everything that somebody does for it.
    pub doing: Vec<Doing>,
}

/// What some people do in the same way.
#[derive(Debug, Clone)]
pub struct Doing {
    /// The movement; nothing where the coach decides.
    pub movement: Option<MovementId>,
    /// Its rung, where it stands on a ladder: for the picture.
    pub rung: Option<RungOf>,
    /// Its name.
    pub what: String,
    /// Its setting.
    pub setting: String,
    /// How it is changed, in a few words.
    pub change: String,
    /// Whether it is changed, named or not: then no picture of it is right.
    pub is_changed: bool,
    /// What to say.
    pub cue: String,
    /// Who does it: dose, and the places of those who do so much.
    pub who: Vec<(String, Vec<usize>)>,
}

impl Doing {
    /// `Strap row, lean 45 deg, on fists`.
    pub fn said(&self) -> String {
        let parts = [&self.what, &self.setting, &self.change];
        let parts: Vec<&str> =
            parts.into_iter().map(String::as_str).filter(|part| !part.is_empty()).collect();
        parts.join(", ")
    }
}

/// What is said of somebody for whom nothing fits.
const ASK: &str = "Ask your coach";

impl View {
    /// A board to show.
    pub fn of(gym: &Gym, session: &Session, board: &Board, day: Option<Day>) -> View {
        let people = &board.class.people;
        let lasts = board.class.blocks.iter().map(|asked| asked.plan.lasts_s());
        let times = in_turn(lasts).into_iter().enumerate();
        let blocks = times.map(|(block, time)| BlockView {
            format: format_words(&session.blocks[block]),
            ..block_view(gym, board, block, time)
        });
        let blocks: Vec<BlockView> = blocks.collect();
        View {
            set_up: set_up(board, &blocks),
            session: session.title(),
            day: day.map(Day::in_words),
            people: people.iter().map(|one| (one.name.clone(), one.at_home)).collect(),
            blocks,
            hall_kit: hall_kit(gym, board),
            home_kit: home_kit(gym, board),
        }
    }

    /// What somebody does not get from here, as nothing fits: `Row: pipit`.
    pub fn left_to_the_coach(&self) -> Vec<String> {
        let lines = self.blocks.iter().flat_map(|block| &block.lines);
        let left = lines.flat_map(|line| {
            let asks = line.doing.iter().filter(|doing| doing.movement.is_none());
            let who = asks.flat_map(|doing| &doing.who);
            who.map(|(_, who)| format!("{}: {}", line.name, self.names(who)))
        });
        left.collect()
    }

    /// Nicknames of some places.
    pub fn names(&self, who: &[usize]) -> String {
        let names: Vec<&str> = who.iter().map(|at| self.people[*at].0.as_str()).collect();
        names.join(", ")
    }
}

fn block_view(gym: &Gym, board: &Board, block: usize, (from_s, to_s): (u32, u32)) -> BlockView {
    let (asked, rota) = (&board.class.blocks[block], &board.rotas[block]);
    let name = |who: &usize| board.class.people[*who].name.clone();
    let groups = rota.groups.iter().zip('A'..);
    let groups = groups.map(|(group, letter)| (letter, group.iter().map(name).collect()));
    let lines = (0..asked.offers.len()).map(|line| LineView {
        name: asked.plan.items[line].name.clone(),
        doing: doing(gym, board, block, line),
    });
    BlockView {
        name: asked.name.clone(),
        from: clock(from_s),
        to: clock(to_s),
        format: None,
        how: how(rota),
        is_proposed: asked.spread.is_none() && rota.spread != Spread::Together,
        groups: if rota.groups.len() > 1 { groups.collect() } else { Vec::new() },
        lines: lines.collect(),
    }
}

/// That the board chose how a block is gone through.
pub(super) const PROPOSED: &str = "Chosen here: the session leaves it open.";

/// With whom those at home go where the hall is in groups: the clock is one for all.
pub(super) const AT_HOME: &str = "and who is at home";

/// How a block is gone through.
fn how(rota: &Rota) -> String {
    let stay = rota.stretches.first().map_or(0, |first| first.to_s - first.from_s);
    match rota.spread {
        Spread::Together => "All together.".to_string(),
        Spread::Halves if rota.lines > 1 => {
            "Two halves at different lines, which change over.".to_string()
        }
        Spread::Halves => format!("Two halves in turn, {} each.", clock(stay)),
        Spread::Stations => {
            format!("{} stations, move on every {}.", rota.lines, clock(stay))
        }
    }
}

fn doing(gym: &Gym, board: &Board, block: usize, line: usize) -> Vec<Doing> {
    let mut found: Vec<Doing> = Vec::new();
    for who in 0..board.class.people.len() {
        let one = of_offer(gym, board.offer(block, line, who));
        let dose = dose_of(gym, board.offer(block, line, who));
        let same = |other: &&mut Doing| {
            other.said() == one.said() && other.cue == one.cue && other.is_changed == one.is_changed
        };
        match found.iter_mut().find(same) {
            Some(known) => match known.who.iter_mut().find(|(other, _)| *other == dose) {
                Some((_, people)) => people.push(who),
                None => known.who.push((dose, vec![who])),
            },
            None => found.push(Doing { who: vec![(dose, vec![who])], ..one }),
        }
    }
    // The hall reads it: what somebody there does stands first, then what most do; of as many what an
    // earlier nickname does.
    found.sort_by_key(|doing| {
        let who = || doing.who.iter().flat_map(|(_, who)| who);
        let is_home = who().all(|who| board.class.people[*who].at_home);
        (is_home, std::cmp::Reverse(who().count()))
    });
    found
}

/// How much, and with which thing where it is not the usual one: `4 x 6-10, with rings`.
pub(super) fn dose_of(gym: &Gym, offer: &Offer) -> String {
    let kit: Vec<String> = offer.instead.iter().map(|id| kit_name(gym, id)).collect();
    let with = if kit.is_empty() { None } else { Some(format!("with {}", kit.join(" and "))) };
    let parts = [Some(offer.own.dose.clone()).filter(|dose| !dose.is_empty()), with];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

pub(super) fn of_offer(gym: &Gym, offer: &Offer) -> Doing {
    let own = &offer.own;
    if own.kind == Kind::Ask {
        let nothing = String::new;
        let (what, who) = (ASK.to_string(), Vec::new());
        let (setting, change, cue) = (nothing(), nothing(), nothing());
        let is_changed = false;
        return Doing { movement: None, rung: None, what, setting, change, is_changed, cue, who };
    }
    let movement = gym.library.movements.get(&own.movement);
    let at = |(ladder, rung): &(_, u32)| RungOf::on(gym, ladder, (*rung as usize).checked_sub(1)?);
    Doing {
        movement: Some(own.movement.clone()),
        rung: own.rung.as_ref().and_then(at),
        what: movement.map_or(own.movement.to_string(), |movement| movement.name.value.clone()),
        setting: setting(gym, offer),
        change: own.change_brief.clone(),
        is_changed: !own.change.is_empty() || !own.change_brief.is_empty(),
        cue: own.cue.clone(),
        who: Vec::new(),
    }
}

/// The setting as it is done; a lean also as heels so far from the anchor or the wall, as elsewhere.
fn setting(gym: &Gym, offer: &Offer) -> String {
    let said = &offer.own.setting;
    let heels = || {
        let movement = gym.library.movements.get(&offer.own.movement)?;
        let (lean, heels) = set_up_at(gym, movement, &offer.rung.as_ref()?.key.settings)?;
        // A change may have taken the lean away.
        said.split(", ")
            .any(|part| part == lean)
            .then(|| said.replacen(&lean, &format!("{lean}, {heels}"), 1))
    };
    heels().unwrap_or_else(|| said.clone())
}

/// The most of each thing that is in use at once.
fn hall_kit(gym: &Gym, board: &Board) -> Vec<(u32, String)> {
    let rotas: Vec<(usize, &Rota)> = board.rotas.iter().enumerate().collect();
    let shared = Shared::of(&board.class, &rotas);
    let used = shared.puzzle.used(&board.solved.picked);
    let mut most: BTreeMap<&KitId, u32> = BTreeMap::new();
    for ((_, id), n) in shared.things.iter().zip(used) {
        let known = most.entry(id).or_insert(0);
        *known = (*known).max(n);
    }
    let named = most.into_iter().filter(|(_, n)| *n > 0);
    named.map(|(id, n)| (n, kit_name(gym, id))).collect()
}

/// Every setting in centimetres of somebody in the hall, a word's together and rising: `hands 30, 45 and
/// 110 cm`.
fn set_up(board: &Board, blocks: &[BlockView]) -> Vec<String> {
    let in_hall = |doing: &&Doing| {
        let mut who = doing.who.iter().flat_map(|(_, who)| who);
        who.any(|who| !board.class.people[*who].at_home)
    };
    let doing = blocks.iter().flat_map(|block| &block.lines).flat_map(|line| &line.doing);
    let parts = doing.filter(in_hall).flat_map(|doing| doing.setting.split(", "));
    let mut heights: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for (word, height) in parts.filter_map(|part| part.strip_suffix(" cm")?.rsplit_once(' ')) {
        heights.entry(word).or_default().insert(height);
    }
    let said = |(word, all): (&str, BTreeSet<&str>)| {
        let mut all: Vec<&str> = all.into_iter().collect();
        let number = |height: &&str| height.parse().unwrap_or(f64::INFINITY);
        all.sort_by(|a, b| number(a).total_cmp(&number(b)));
        let (last, rest) = all.split_last()?;
        Some(match rest {
            [] => format!("{word} {last} cm"),
            rest => format!("{word} {} and {last} cm", rest.join(", ")),
        })
    };
    heights.into_iter().filter_map(said).collect()
}

fn home_kit(gym: &Gym, board: &Board) -> Vec<(String, Vec<String>)> {
    let people = board.class.people.iter().enumerate().filter(|(_, person)| person.at_home);
    let of = |(who, person): (usize, &super::Person)| {
        let mut most: BTreeMap<String, usize> = BTreeMap::new();
        for (block, lines) in board.taken.iter().enumerate() {
            for line in 0..lines.len() {
                let kit = &board.offer(block, line, who).kit;
                for id in kit {
                    let n = kit.iter().filter(|other| *other == id).count();
                    let known = most.entry(kit_name(gym, id)).or_insert(0);
                    *known = (*known).max(n);
                }
            }
        }
        let said = |(name, n): (String, usize)| if n > 1 { format!("{n} × {name}") } else { name };
        (person.name.clone(), most.into_iter().map(said).collect())
    };
    people.map(of).collect()
}

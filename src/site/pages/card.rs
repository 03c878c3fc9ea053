//! Cards: a movement in class view, as data for the floor's script, one small file each.
//! Never asks the network: a card is a script file, so that it opens from disk too.

use super::drawing::{self, caption};
use super::fault::{FaultRow, fault_rows};
use super::frame::Maker;
use super::needs::Needs;
use super::standing::RungRow;
use crate::figure::telling::in_plain_words;
use crate::gym::Gym;
use crate::library::{LadderId, Movement, MovementId};
use crate::site::routes::To;
use crate::swap::{self, Candidate, Compared, RungOf};
use serde::Serialize;

#[derive(Serialize)]
struct Card {
    id: String,
    name: String,
    page: String,
    cues: Vec<String>,
    standard: String,
    caution: String,
    needs: Needs,
    work: Work,
    figure: Option<FigureLine>,
    faults: Vec<FaultRow>,
    rungs: Vec<OwnRung>,
    swaps: Vec<SwapLine>,
}

/// How a movement is counted, so that a dose of one becomes a dose of another.
#[derive(Debug, Serialize)]
pub struct Work {
    counts: &'static str,
    sides: &'static str,
    /// Seconds a repetition takes, where the entry says it.
    pace_s: Option<f64>,
}

impl Work {
    /// How `movement` is counted.
    pub fn of(movement: &Movement) -> Work {
        Work {
            counts: movement.counts.word(),
            sides: movement.sides.word(),
            pace_s: movement.pace.map(|pace| pace.number()),
        }
    }
}

/// The file of a movement's picture and what it shows in words.
#[derive(Serialize)]
struct FigureLine {
    file: String,
    words: String,
}

/// A rung of the movement with its neighbours.
#[derive(Serialize)]
struct OwnRung {
    ladder: String,
    name: String,
    number: usize,
    setting: String,
    /// How it is set up with what is at hand.
    at_hand: Option<String>,
    /// Its own traits; all else that it needs is the movement's.
    traits: String,
    /// Its kit where its height takes other things than the usual one.
    #[serde(skip_serializing_if = "Option::is_none")]
    kit: Option<String>,
    below: Option<Neighbour>,
    above: Option<Neighbour>,
}

#[derive(Serialize)]
struct Neighbour {
    id: String,
    name: String,
    number: usize,
    setting: String,
    step: String,
    needs: Needs,
}

/// A movement that does like work. Its rungs share all needs but traits and, at another height, kit.
#[derive(Serialize)]
struct SwapLine {
    id: String,
    name: String,
    reason: String,
    work: Work,
    needs: Needs,
    rungs: Vec<SwapRung>,
}

/// A rung of a swap; on no ladder it has neither ladder nor number.
#[derive(Serialize)]
struct SwapRung {
    #[serde(skip_serializing_if = "Option::is_none")]
    ladder: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    number: Option<usize>,
    #[serde(skip_serializing_if = "String::is_empty")]
    setting: String,
    traits: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    kit: Option<String>,
    /// Whether it stands above the middle of its ladder, where nobody starts.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    high: bool,
    /// The card's own rungs, by their place in its list, than which this asks more.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    harder: Vec<usize>,
}

/// The file of a movement's card below the site's folder.
pub fn card_file(id: &MovementId) -> String {
    format!("cards/{id}.js")
}

/// The picture of a movement below the site's folder, for scripts that show it on request.
pub fn figure_file(id: &MovementId) -> String {
    format!("figures/movements/{id}.svg")
}

/// Its key poses side by side, in colours of its own.
pub fn figure(gym: &Gym, movement: &Movement) -> Option<String> {
    drawing::strip(gym, movement)
}

/// What the picture shows, in words.
fn figure_line(gym: &Gym, movement: &Movement) -> Option<FigureLine> {
    let solved = gym.posed.get(&movement.id)?.figure.as_ref()?;
    let words = in_plain_words(solved, caption(movement).standard);
    Some(FigureLine { file: figure_file(&movement.id), words })
}

/// The card of `movement` as a script that hands it to `rungbookCard`.
pub fn card(gym: &Gym, movement: &Movement, candidates: &[Candidate]) -> String {
    let maker = Maker::new(gym, &To::Floor);
    let text = |text: &Option<crate::finding::Placed<String>>| {
        text.as_ref().map_or(String::new(), |text| text.value.clone())
    };
    let card = Card {
        id: movement.id.to_string(),
        name: movement.name.value.clone(),
        page: To::Movement(&movement.id).file(),
        cues: movement.cues.iter().map(|cue| cue.say.value.clone()).collect(),
        standard: text(&movement.standard),
        caution: text(&movement.caution),
        needs: Needs::of(gym, movement),
        work: Work::of(movement),
        figure: figure_line(gym, movement),
        faults: fault_rows(&maker, movement),
        rungs: own_rungs(&maker, movement),
        swaps: swap_lines(gym, movement, candidates),
    };
    // Strings, numbers and lists of them always serialise.
    format!("rungbookCard({});\n", serde_json::to_string(&card).unwrap_or_default())
}

fn own_rungs(maker: &Maker<'_>, movement: &Movement) -> Vec<OwnRung> {
    let graph = &maker.gym.ladders;
    let mut rungs = Vec::new();
    for index in graph.rungs_of(&movement.id) {
        for place in graph.places(index) {
            rungs.extend(own_rung(maker, &place.ladder, place.at));
        }
    }
    rungs.sort_by(|a: &OwnRung, b| (&a.ladder, a.number).cmp(&(&b.ladder, b.number)));
    rungs
}

fn own_rung(maker: &Maker<'_>, id: &LadderId, at: usize) -> Option<OwnRung> {
    let ladder = maker.gym.library.ladders.get(id)?;
    let neighbour = |at: usize| {
        let row = maker.rung_row(ladder, at)?;
        Some(neighbour(row, ladder.rungs.get(at)?.movement.value.to_string()))
    };
    let rung = ladder.rungs.get(at)?;
    let movement = maker.gym.library.movements.get(&rung.movement.value)?;
    let (usual, needs) = (Needs::of(maker.gym, movement), maker.rung_row(ladder, at)?.needs);
    Some(OwnRung {
        ladder: id.to_string(),
        name: ladder.name.value.clone(),
        number: at + 1,
        setting: super::standing::setting_words(ladder.rungs.get(at)?),
        at_hand: crate::placing::at_hand(maker.gym, ladder, at),
        traits: needs.traits,
        kit: kit_of_its_own(&usual, needs.kit),
        below: at.checked_sub(1).and_then(neighbour),
        above: neighbour(at + 1),
    })
}

fn neighbour(row: RungRow, id: String) -> Neighbour {
    Neighbour {
        id,
        name: row.movement.text,
        number: row.number,
        setting: row.setting,
        step: row.step.unwrap_or_default(),
        needs: row.needs,
    }
}

/// Every swap, best first; the script leaves out what does not fit the person.
fn swap_lines(gym: &Gym, from: &Movement, candidates: &[Candidate]) -> Vec<SwapLine> {
    let asked = swap::rungs_of(gym, from);
    let line = |candidate: &Candidate| {
        let to = gym.library.movements.get(&candidate.to)?;
        let rungs = swap::rungs_of(gym, to);
        let needs = Needs::of(gym, to);
        let rungs = rungs.iter().map(|rung| swap_rung(gym, &asked, (to, &needs), rung)).collect();
        Some(SwapLine {
            id: to.id.to_string(),
            name: to.name.value.clone(),
            reason: candidate.reason.clone(),
            work: Work::of(to),
            needs,
            rungs,
        })
    };
    candidates.iter().filter_map(line).collect()
}

fn swap_rung(
    gym: &Gym,
    asked: &[RungOf],
    (to, usual): (&Movement, &Needs),
    rung: &RungOf,
) -> SwapRung {
    let harder = |asked: &RungOf| swap::compared(gym, asked, rung) == Compared::Harder;
    let place = rung.place.as_ref();
    let needs = Needs::at(gym, to, &rung.settings());
    SwapRung {
        ladder: place.map(|(ladder, _)| ladder.to_string()),
        number: place.map(|(_, at)| at + 1),
        setting: rung.said(),
        traits: needs.traits,
        kit: kit_of_its_own(usual, needs.kit),
        high: swap::is_high(gym, rung),
        harder: (0..asked.len()).filter(|at| harder(&asked[*at])).collect(),
    }
}

/// The kit of a rung where it is not the movement's at its usual height.
fn kit_of_its_own(usual: &Needs, kit: String) -> Option<String> {
    (kit != usual.kit).then_some(kit)
}

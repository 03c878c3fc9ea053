//! The page of one movement: standard, cues, faults, rungs, swaps, cautions, sources.
//! Never computes a swap or a rung; it lays out what other rooms found.

use super::demand::{DemandRow, demand_row};
use super::drawing;
use super::fault::{FaultRow, fault_rows};
use super::frame::{Frame, Link, Maker, SourceLink};
use super::height::{HeightRow, height_row};
use super::motion::{MotionRow, motion_row};
use super::needs::{Needs, kit_words};
use super::standing::Standing;
use super::swaps::{SwapRow, swaps};
use crate::gym::Gym;
use crate::library::{Counts, Harder, Movement, Noise, Precaution, Setting, Sides};
use crate::site::body;
use crate::site::routes::To;
use crate::swap::{self, Candidate};
use serde::Serialize;
use serde_json::json;

/// The context of `movement.html`.
#[derive(Debug, Serialize)]
pub struct MovementPage {
    page: Frame,
    id: String,
    name: String,
    aliases: Vec<String>,
    pattern: Link,
    facts: Vec<Fact>,
    standard: Option<String>,
    caution: Option<String>,
    cues: Vec<CueRow>,
    faults: Vec<FaultRow>,
    prime: Vec<Link>,
    assist: Vec<Link>,
    kit: Vec<Vec<Link>>,
    kit_checks: Vec<KitCheck>,
    settings: Vec<SettingRow>,
    traits: Vec<TraitRow>,
    /// Situations whose cautions leave out something of it, and those that only change something.
    leave_out: Vec<Link>,
    change: Vec<Link>,
    changes: Vec<ChangeRow>,
    standings: Vec<Standing>,
    beside: Vec<BesideRow>,
    swaps: Vec<SwapRow>,
    needs: Needs,
    /// What the entry says of its changes in its own words, as JSON for the page's script.
    how: Option<String>,
    figure: Option<FigureRow>,
    no_figure: Option<String>,
    demand: Option<DemandRow>,
    height: Option<HeightRow>,
    body: String,
    sources: Vec<SourceLink>,
}

/// A drawn figure: its key poses, the first with the words of all, and its motion.
#[derive(Debug, Serialize)]
struct FigureRow {
    svg: String,
    motion: Option<MotionRow>,
}

#[derive(Debug, Serialize)]
struct Fact {
    what: &'static str,
    value: String,
}

#[derive(Debug, Serialize)]
struct CueRow {
    say: String,
    when: Option<String>,
}

#[derive(Debug, Serialize)]
struct KitCheck {
    kit: Link,
    check: String,
}

#[derive(Debug, Serialize)]
struct SettingRow {
    name: String,
    means: String,
    range: String,
    usual: Option<String>,
    harder: Option<&'static str>,
}

#[derive(Debug, Serialize)]
struct TraitRow {
    link: Link,
    level: &'static str,
}

/// A change that the entry allows, as anybody may read it.
#[derive(Debug, Serialize)]
struct ChangeRow {
    name: String,
    how: String,
}

#[derive(Debug, Serialize)]
struct BesideRow {
    link: Link,
    because: Option<String>,
    needs: Needs,
}

/// The page of `movement`.
pub fn movement_page(gym: &Gym, movement: &Movement, candidates: &[Candidate]) -> MovementPage {
    let maker = Maker::new(gym, &To::Movement(&movement.id));
    let description = movement.standard.as_ref().map_or_else(
        || format!("{}: cues, faults, rungs and swaps.", movement.name.value),
        |standard| format!("{}: {}", movement.name.value, standard.value),
    );
    let frame = maker.frame(movement.name.value.clone(), description);
    let needs = Needs::of(gym, movement);
    MovementPage {
        page: frame.telling_to_move().with_facts(&facts_for_machines(gym, movement)),
        id: movement.id.to_string(),
        name: movement.name.value.clone(),
        aliases: movement.aliases.iter().map(|alias| alias.value.clone()).collect(),
        pattern: maker.pattern(&movement.pattern.value),
        facts: facts(movement),
        standard: movement.standard.as_ref().map(|text| text.value.clone()),
        caution: movement.caution.as_ref().map(|text| text.value.clone()),
        cues: cues(movement),
        faults: fault_rows(&maker, movement),
        prime: movement.muscles.prime.iter().map(|id| maker.muscle(&id.value)).collect(),
        assist: movement.muscles.assist.iter().map(|id| maker.muscle(&id.value)).collect(),
        kit: kit(&maker, movement),
        kit_checks: kit_checks(&maker, movement),
        settings: movement.settings.iter().map(|(name, s)| setting_row(&name.value.0, s)).collect(),
        traits: movement
            .traits_at(&[])
            .into_iter()
            .map(|(id, level)| TraitRow {
                link: maker.a_trait(&id.value),
                level: level_words(level),
            })
            .collect(),
        leave_out: situations(&maker, movement, true),
        change: situations(&maker, movement, false),
        changes: changes(gym, movement),
        standings: maker.standings(&movement.id),
        beside: beside(&maker, movement),
        swaps: swaps(&maker, movement, candidates),
        how: needs.how_as_json(),
        needs,
        figure: figure_row(&maker, movement),
        demand: demand_row(&maker, movement),
        height: height_row(&maker, movement),
        no_figure: movement.no_figure.as_ref().map(|why| why.value.clone()),
        body: body::to_html(&movement.body.markdown, &maker.links),
        sources: maker.sources(movement.sources.iter().map(|id| &id.value)),
    }
}

fn figure_row(maker: &Maker<'_>, movement: &Movement) -> Option<FigureRow> {
    let svg = drawing::key_poses(maker.gym, movement)?;
    Some(FigureRow { svg, motion: motion_row(maker.gym, movement) })
}

fn facts(movement: &Movement) -> Vec<Fact> {
    let mut facts = Vec::new();
    let mut add = |what, value: String| facts.push(Fact { what, value });
    if let Some(purpose) = movement.purpose {
        add("For", purpose.word().to_string());
    }
    let counts = match movement.counts {
        Counts::Reps => "repetitions",
        Counts::Seconds => "seconds",
        Counts::Metres => "metres",
        Counts::Contacts => "foot contacts",
    };
    add("Counted in", counts.to_string());
    let sides = match movement.sides {
        Sides::Together => "both together",
        Sides::Each => "one, then the other: plan twice the time",
        Sides::Alternating => "turn about",
    };
    add("Sides", sides.to_string());
    if let Some(pace) = movement.pace {
        add("Pace", format!("{pace} a repetition"));
    }
    if let Some(room) = room_words(movement) {
        add("Room", room);
    }
    let noise = match movement.room.noise {
        Some(Noise::Quiet) | None => "quiet",
        Some(Noise::Some) => "some noise",
        Some(Noise::Loud) => "loud",
    };
    add("Noise", noise.to_string());
    facts
}

fn room_words(movement: &Movement) -> Option<String> {
    let room = &movement.room;
    match (room.length, room.width) {
        (Some(length), Some(width)) => Some(format!("{length} by {width}")),
        (Some(only), None) | (None, Some(only)) => Some(only.to_string()),
        (None, None) => None,
    }
}

fn cues(movement: &Movement) -> Vec<CueRow> {
    let row =
        |cue: &crate::library::Cue| CueRow { say: cue.say.value.clone(), when: cue.when.clone() };
    movement.cues.iter().map(row).collect()
}

fn kit(maker: &Maker<'_>, movement: &Movement) -> Vec<Vec<Link>> {
    let need = |need: &crate::library::KitNeed| {
        need.0.iter().map(|id| maker.kit(&id.value)).collect::<Vec<_>>()
    };
    movement.kit.iter().map(need).collect()
}

fn kit_checks(maker: &Maker<'_>, movement: &Movement) -> Vec<KitCheck> {
    let ids = movement.kit.iter().flat_map(|need| &need.0);
    ids.filter_map(|id| {
        let item = maker.gym.library.words.kit.get(&id.value)?;
        Some(KitCheck { kit: maker.kit(&id.value), check: item.check.clone()? })
    })
    .collect()
}

fn setting_row(name: &str, setting: &Setting) -> SettingRow {
    let harder = match setting.harder {
        Some(Harder::More) => Some("more asks more"),
        Some(Harder::Less) => Some("less asks more"),
        None => None,
    };
    SettingRow {
        name: name.to_string(),
        means: setting.said(),
        range: format!("{} to {}", setting.from, setting.to),
        usual: setting.usual.as_ref().map(|usual| usual.value.to_string()),
        harder,
    }
}

fn level_words(level: u8) -> &'static str {
    if level >= 2 { "a lot" } else { "some" }
}

/// The situations that say something about a trait of this movement at any of its rungs: those that
/// leave something out, or those that only change something.
fn situations(maker: &Maker<'_>, movement: &Movement, leave_out: bool) -> Vec<Link> {
    let met = |list: &[Precaution]| list.iter().any(|p| movement.most_of(&p.about.value) >= p.from);
    let cautions = maker.gym.library.words.cautions.values();
    let ours = cautions.filter(|caution| match leave_out {
        true => met(&caution.leave_out),
        false => met(&caution.change) && !met(&caution.leave_out),
    });
    ours.map(|c| maker.link(c.name.clone(), &To::Caution(&c.id.value))).collect()
}

fn changes(gym: &Gym, movement: &Movement) -> Vec<ChangeRow> {
    let row = |change: &swap::Change<'_>| ChangeRow {
        name: change.name().to_string(),
        how: change.how().to_string(),
    };
    swap::changes_of(gym, movement).iter().map(row).collect()
}

fn beside(maker: &Maker<'_>, movement: &Movement) -> Vec<BesideRow> {
    let movements = &maker.gym.library.movements;
    let row = |beside: &crate::library::Beside| {
        let other = movements.get(&beside.to.value)?;
        Some(BesideRow {
            link: maker.movement(&beside.to.value),
            because: beside.because.clone(),
            needs: Needs::of(maker.gym, other),
        })
    };
    movement.beside.iter().filter_map(row).collect()
}

/// The movement in schema.org terms: a `HowTo` with its tools and steps.
fn facts_for_machines(gym: &Gym, movement: &Movement) -> serde_json::Value {
    let steps: Vec<_> = movement
        .standard
        .iter()
        .map(|standard| json!({"@type": "HowToStep", "name": "Standard", "text": standard.value}))
        .chain(movement.cues.iter().map(|cue| json!({"@type": "HowToTip", "text": cue.say.value})))
        .collect();
    let mut facts = json!({
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": movement.name.value,
        "inLanguage": gym.library.club.language,
        "step": steps,
    });
    if !movement.aliases.is_empty() {
        let names: Vec<_> = movement.aliases.iter().map(|alias| &alias.value).collect();
        facts["alternateName"] = json!(names);
    }
    if !movement.kit.is_empty() {
        let tool = json!({"@type": "HowToTool", "name": kit_words(gym, &movement.kit)});
        facts["tool"] = json!([tool]);
    }
    facts
}

//! `rungbook place`: from a test result to a rung, a dose for today and a verdict on moving up.
//! Never judges a result itself: the room `placing` does.

use super::called;
use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use super::whom::{self, Sex, Whom};
use crate::gym::Gym;
use crate::library::{Ladder, Quantity};
use crate::own;
use crate::placing::{self, Build, Counted, NotThere, Placement, Stand, TestResult, There, set_up};
use std::fmt::Write;

/// Say which rung and dose a test result leads to, and whether to move up
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook place push-up --rung 4 --reps 12\n  \
    rungbook place plank --rung 3 --seconds 45\n  \
    rungbook place pull-up --rung 7 --reps 5 --added '5 kg' --body-mass '70 kg'\n  \
    rungbook place push-up --set hands=92cm --reps 12 --stature '168 cm'\n  \
    rungbook place row --set heels=60cm --stature '168 cm' --handles '90 cm'\n  \
    rungbook place home-pulldown --set stretch=150cm\n\n\
    Repetitions or seconds are those of one set to the standard. \
    Computed numbers carry a band and are no promise.")]
pub struct Place {
    /// The ladder: its id or its name
    #[arg(required = true, value_name = "LADDER")]
    ladder: Vec<String>,
    /// The rung that was tested, from 1 at the bottom
    #[arg(long, value_name = "N", required_unless_present = "set")]
    rung: Option<u32>,
    /// A height or lean of your own, such as `hands=92cm` for the kitchen counter, or `heels=60cm`
    /// from under the anchor or from the wall, or `stretch=150cm` for a band's length at the end; without
    /// --rung the rung with the nearest one is meant, and without a count only that is said
    #[arg(long, value_name = "SETTING=VALUE")]
    set: Option<String>,
    /// Repetitions counted
    #[arg(long, value_name = "N", required_unless_present_any = ["seconds", "set"],
        conflicts_with = "seconds",
        value_parser = whom::reps)]
    reps: Option<u32>,
    /// Seconds held
    #[arg(long, value_name = "N", value_parser = whom::seconds)]
    seconds: Option<u32>,
    /// Stature, such as '168 cm': raised hands ask more of a tall person
    #[arg(long, value_name = "LENGTH", value_parser = whom::stature)]
    stature: Option<Quantity>,
    /// Body segments of women or of men; left out: the one person that pages are made for
    #[arg(long, value_enum)]
    sex: Option<Sex>,
    /// For `heels`: how high the straps are fixed, such as '225 cm', which is taken where nothing is said
    #[arg(long, value_name = "LENGTH", value_parser = whom::anchor)]
    anchor: Option<Quantity>,
    /// For `heels`: how high over the floor the handles hang, such as '95 cm', likewise
    #[arg(long, value_name = "LENGTH", value_parser = whom::height)]
    handles: Option<Quantity>,
    /// Body mass, such as '62 kg'; needed where a weight is added
    #[arg(long, value_name = "WEIGHT", value_parser = whom::body_mass)]
    body_mass: Option<Quantity>,
    /// Weight added in the test beyond what the rung says, such as '5 kg'
    #[arg(long, value_name = "WEIGHT", value_parser = whom::added)]
    added: Option<Quantity>,
    #[command(flatten)]
    whom: Whom,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person or for a script
    #[arg(long, short, value_enum, default_value = "human")]
    format: Format,
}

impl Place {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let ladder = named(&gym, &called::joined(&self.ladder))?;
        let person = self.whom.person(&gym)?;
        let segments = self.sex.map(Sex::segments);
        let build = Build { stature: self.stature, segments };
        let demands = placing::demands_of(&gym, ladder, build);
        let there = self.there(&gym, ladder)?;
        let counted = match (self.reps, self.seconds, &there) {
            (Some(reps), ..) => Counted::Reps(reps),
            (None, Some(seconds), _) => Counted::Seconds(seconds),
            (None, None, there) => return Ok(self.only_where(there.as_ref())),
        };
        let rung = there.as_ref().map(|there| there.rung).or(self.rung).unwrap_or_default();
        let own = there.as_ref().map(|there| there.demand);
        let Place { body_mass, added, .. } = self;
        let result = TestResult { rung, counted, body_mass, added, own };
        let mut placement = placing::place(ladder, &demands, &result).map_err(|why| {
            Trouble::new(why, "look at the ladder's page for its rungs and what each counts")
        })?;
        placement.notes.extend(segments.map(placing::segments_note));
        placement.notes.extend(placing::stature_note(self.stature));
        let at = (placement.today.rung as usize).saturating_sub(1);
        let (say, as_placed) = own::placed(&gym, (ladder, at), &placement.today.say, &person);
        placement.today.say = say;
        if !as_placed {
            // What is said of moving up, and of one's own height, is of a rung that they do not do.
            placement.own = None;
            placement.move_up.say.clear();
        }
        say::print(match self.format {
            // Plain strings and numbers always serialise.
            Format::Json => serde_json::to_string_pretty(&placement).unwrap_or_default() + "\n",
            Format::Human => {
                // The page takes heights and leans as the rung writes them; heels are told apart.
                let there = there.filter(|there| there.by_heels);
                let there = there.map_or(String::new(), |there| format!("{}\n", there.say));
                there + &for_a_person(&gym, ladder, &placement)
            }
        });
        Ok(Outcome::Fine)
    }

    /// Nothing was counted: only what the setting is on this ladder.
    fn only_where(&self, there: Option<&There>) -> Outcome {
        let (rung, say) = there.map_or((None, ""), |there| (Some(there.rung), there.say.as_str()));
        say::print(match self.format {
            Format::Json => format!("{}\n", serde_json::json!({"rung": rung, "say": say})),
            Format::Human => format!("{say}\n"),
        });
        Outcome::Fine
    }
}

impl Place {
    /// What was tested, where that was at a height, a lean or a place for the heels of one's own.
    fn there(&self, gym: &Gym, ladder: &Ladder) -> Result<Option<There>, Trouble> {
        let Some(set) = &self.set else { return Ok(None) };
        let (name, text) = set.split_once('=').ok_or_else(|| {
            let help = "write the rung's own setting, such as `--set hands=92cm`";
            Trouble::new(format!("`{set}` sets nothing"), help)
        })?;
        let (name, text) = (name.trim(), text.trim());
        let or = |said: Option<Quantity>, usual: f64| said.map_or(usual, Quantity::number);
        let stand = Stand {
            stature: self.stature,
            segments: self.sex.map(Sex::segments),
            anchor: or(self.anchor, set_up::ANCHOR),
            handles: or(self.handles, set_up::HANDLES),
        };
        let found = placing::there(gym, (ladder, self.rung), (name, text), &stand);
        found.map(Some).map_err(|why| not_there(why, (name, text)))
    }
}

fn not_there(why: NotThere, (name, text): (&str, &str)) -> Trouble {
    match why {
        NotThere::NoSuchSetting(known) if known.is_empty() => Trouble::new(
            format!("no rung asked about has a number for `{name}`"),
            "on this ladder no height or lean has one: give --rung and leave --set out",
        ),
        NotThere::NoSuchSetting(known) if known.iter().any(|own| own == name) => Trouble::new(
            format!("the rung asked about has no number for another `{name}`"),
            "other rungs of this ladder have one: leave --rung out, or --set",
        ),
        NotThere::NoSuchSetting(known) => Trouble::new(
            format!("no rung asked about has a number for `{name}`"),
            format!("on this ladder these have one: {}", known.join(", ")),
        ),
        NotThere::Unreadable(unit) => Trouble::new(
            format!("`{text}` is no number for `{name}`"),
            format!("write a number and its unit, one of {}", unit.accepted()),
        ),
        NotThere::Outside(range) => Trouble::new("that is outside what was computed", range),
    }
}

/// The ladder of that id or name.
fn named<'g>(gym: &'g Gym, word: &str) -> Result<&'g Ladder, Trouble> {
    let ladders = gym.library.ladders.values();
    called::called("ladder", word, ladders.map(|one| (one.id.as_str(), one.name.as_str(), one)))
}

fn for_a_person(gym: &Gym, ladder: &Ladder, placement: &Placement) -> String {
    let own = placement.own.as_ref().map_or(String::new(), |own| format!("{own}\n"));
    let up = &placement.move_up.say;
    let up = if up.is_empty() { String::new() } else { format!("{up}\n") };
    let mut text = format!("{}\n{own}{up}\n", placement.today.say);
    for (at, known) in placement.predicted.iter().enumerate() {
        let here = if at + 1 == placement.today.rung as usize { '>' } else { ' ' };
        let rung = rung_words(gym, ladder, at);
        let _ = writeln!(text, "{here}{:>3}  {rung}: {}", at + 1, known.said());
    }
    for note in &placement.notes {
        let _ = write!(text, "\n{note}");
    }
    text + "\n"
}

fn rung_words(gym: &Gym, ladder: &Ladder, at: usize) -> String {
    let Some(rung) = ladder.rungs.get(at) else { return String::new() };
    let movement = gym.library.movements.get(&rung.movement.value);
    let name = movement.map_or(rung.movement.value.as_str(), |movement| &movement.name.value);
    let settings = rung.settings_said();
    let said = std::iter::once(name.to_string()).chain(settings).collect::<Vec<_>>().join(", ");
    let at_hand = placing::at_hand(gym, ladder, at);
    at_hand.map_or(said.clone(), |at_hand| format!("{said} ({at_hand})"))
}

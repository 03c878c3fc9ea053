//! A fault whose `then` names nothing that exists.
//! Never looks at settings; `setting-unknown` does.

use crate::check::Rule;
use crate::check::then::{self, Found, Then};
use crate::check::unknown::{Known, something_is_unread};
use crate::finding::{Code, Finding, Severity, near};
use crate::gym::Gym;
use crate::library::{Movement, MovementId};
use std::collections::BTreeMap;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("then-names-nothing"),
    severity: Severity::Error,
    what: "A fault's `then` names nothing that exists.",
    why: "The cue has failed and the coach needs the next thing at once; this one is not \
          there.",
    example: r#"
faults:
  - {see: Hips sag, say: Move like a plank, then: lower rung}
"#,
    next: "Begin with `rung below`, `stop`, a movement, or a setting and `less`, `more` or a \
           value.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    let known = Known::files(library, "movement", "movements");
    let rungs = Rungs::of(gym);
    let all_is_read = !something_is_unread(library);
    let findings = then::all(gym).into_iter().filter_map(|found| match found.then {
        Then::RungBelow if all_is_read => rungs.nothing_below(&found),
        Then::Words(words) if !known.has(words) => Some(names_nothing(&found, &known)),
        _ => None,
    });
    findings.chain(in_catalogue(gym, &known)).collect()
}

/// A fault of the catalogue holds for many movements, whose settings differ: of a setting only the
/// movement that takes it over can say whether it is there.
fn in_catalogue<'l>(gym: &'l Gym, known: &'l Known<'l>) -> impl Iterator<Item = Finding> + 'l {
    let library = &gym.library;
    let thens = library.words.faults.values().flat_map(|fault| fault.all());
    thens.filter_map(|within| within.then.as_ref()).filter_map(|then| {
        let words = then.value.names.as_str();
        let nothing = matches!(then::read(words), Then::Words(words) if !known.has(words));
        let headline = format!("`{words}` names nothing to do next");
        let help = match near(words, ["rung below", "stop"].into_iter().chain(known.ids())) {
            Some(meant) => format!("did you mean `{meant}`?"),
            None => "begin with `rung below`, `stop` or a movement".to_string(),
        };
        let span = library.sources.part(then.span, words);
        nothing.then(|| RULE.finding(headline, span).help(help))
    })
}

fn names_nothing(found: &Found<'_>, known: &Known<'_>) -> Finding {
    let near_settings: Vec<String> = settings_of(found.movement);
    let fixed = ["rung below", "stop"].into_iter();
    let words = fixed.chain(near_settings.iter().map(String::as_str)).chain(known.ids());
    let help = match near(found.words, words) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => format!("begin with `rung below`, {}", other_ways(found.movement)),
    };
    RULE.finding(format!("`{}` names nothing to do next", found.words), found.span).help(help)
}

/// What may stand there beside `rung below`.
fn other_ways(movement: &Movement) -> String {
    match movement.settings.first() {
        Some((name, _)) => {
            format!("`stop`, a movement, or a setting such as `{} less`", name.value)
        }
        None => "`stop` or a movement".to_string(),
    }
}

fn settings_of(movement: &Movement) -> Vec<String> {
    let names = movement.settings.iter().map(|(name, _)| &name.value);
    names.flat_map(|name| [format!("{name} less"), format!("{name} more")]).collect()
}

/// Movements that some ladder has, and whether they stand above another rung.
struct Rungs<'g>(BTreeMap<&'g MovementId, bool>);

impl<'g> Rungs<'g> {
    fn of(gym: &'g Gym) -> Rungs<'g> {
        let mut above_one: BTreeMap<&MovementId, bool> = BTreeMap::new();
        let ladders = gym.library.ladders.values();
        for (at, rung) in ladders.flat_map(|ladder| ladder.rungs.iter().enumerate()) {
            *above_one.entry(&rung.movement.value).or_default() |= at > 0;
        }
        Rungs(above_one)
    }

    fn nothing_below(&self, found: &Found<'_>) -> Option<Finding> {
        let id = &found.movement.id;
        let why = match self.0.get(id) {
            Some(true) => return None,
            Some(false) => "is the lowest rung of its ladder",
            None => "is on no ladder",
        };
        let headline = format!("there is no rung below: `{id}` {why}");
        let help = format!("name {}", other_ways(found.movement));
        Some(RULE.finding(headline, found.span).help(help))
    }
}

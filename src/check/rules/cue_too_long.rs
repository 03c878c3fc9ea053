//! A cue of more than six words.
//! Never shortens it.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("cue-too-long"),
    severity: Severity::Advice,
    what: "A cue has more than six words.",
    why: "In the middle of a set nobody hears the seventh (one cue, six words or fewer: common \
          practice).",
    example: r#"
cues:
  - {say: Pull your elbows all the way back to your pockets, when: pulling}
"#,
    next: "Say it in six words or fewer; put the rest into the text.",
    run: Some(run),
};

/// Common practice, no source.
const MOST_WORDS: usize = 6;

fn run(gym: &Gym) -> Vec<Finding> {
    let said = gym.library.movements.values().flat_map(|movement| {
        let cues = movement.cues.iter().map(|cue| &cue.say);
        let faults = movement.faults.iter();
        // What is taken over from the catalogue is judged there, once.
        let says = faults.filter_map(|f| f.say.as_ref().filter(|say| f.is_own(say.span)));
        cues.chain(says)
    });
    let known = gym.library.words.faults.values().flat_map(|fault| fault.all());
    let said = said.chain(known.filter_map(|within| within.say.as_ref()));
    said.filter_map(|say| {
        let words = say.split_whitespace().count();
        let headline = format!("this cue has {words} words");
        (words > MOST_WORDS)
            .then(|| RULE.finding(headline, say.span).help("say it in six words or fewer"))
    })
    .collect()
}

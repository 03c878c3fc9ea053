//! Advice switched off by a code that no finding has.
//! Never switches anything off.

use crate::check::Rule;
use crate::check::rules;
use crate::finding::{Code, Finding, Severity, did_you_mean};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("silenced-unknown"),
    severity: Severity::Warning,
    what: "`club.yaml` switches off a code that no finding has.",
    why: "The advice that was meant goes on, and the line looks as if it worked.",
    example: r#"
findings: {off: [{code: cue-to-long, because: our cues rhyme}]}
"#,
    next: "Correct the code, or remove the line.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let known = || rules().iter().map(|rule| rule.code.0);
    let off = gym.library.club.silenced.iter().map(|off| &off.code);
    off.filter(|code| known().all(|one| one != code.value))
        .map(|code| {
            let help = did_you_mean(
                &code.value,
                known(),
                "remove the line, or take the code from a finding",
            );
            RULE.finding(format!("no finding is called `{}`", code.value), code.span).help(help)
        })
        .collect()
}

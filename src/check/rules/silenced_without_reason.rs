//! Advice switched off without a reason.
//! Never switches it off without one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("silenced-without-reason"),
    severity: Severity::Warning,
    what: "`club.yaml` switches advice off and does not say why.",
    why: "The next coach cannot tell a decision from an oversight; the advice stays on until \
          there is a reason.",
    example: r#"
findings: {off: [{code: cue-too-long}]}
"#,
    next: "Add `because: ...` to the line.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let off = gym.library.club.silenced.iter().filter(|off| off.because.is_none());
    off.map(|off| {
        let headline =
            format!("`{}` is switched off without a reason, so it stays on", off.code.value);
        RULE.finding(headline, off.code.span).help("add `because: ...` to this line")
    })
    .collect()
}

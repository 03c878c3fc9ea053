//! A logo that is not there or that no page should carry.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::LOGO_REFUSED,
    severity: Severity::Error,
    what: "The logo that `club.yaml` names is not there, is too big, or holds more than a drawing.",
    why: "It stands on every page: a script in it would run there, and a picture fetched from \
          elsewhere would tell somebody who looks at what.",
    example: r#"
logo: logo.svg             (and no file logo.svg beside club.yaml)
"#,
    next: "Save it as plain SVG beside club.yaml, under 32 kB, with everything in it.",
    run: None,
};

//! A sign that nobody sees.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::UNSEEN_SIGN,
    severity: Severity::Error,
    what: "A control character, or a sign that turns the direction of a line, stands in a text.",
    why: "Such a sign breaks a picture or a calendar, or lets a line be read in another order than \
           it is written.",
    example: "\nname: \"Strap\\u0007 row\"\n",
    next: "Delete it, or type the text anew: it often comes with what is copied.",
    run: None,
};

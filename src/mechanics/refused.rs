//! Refused: why balance gives no number, in a coach's words.
//! Only the reasons; `statics` finds them.

use super::words::contact::Part;
use serde::{Deserialize, Serialize};

/// Why balance gives no number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Refused {
    /// A part that can only push would have to pull.
    Pulls(Part),
    /// A part would have to bear far more than the body weighs.
    TooMuch(Part),
    /// The weight is not over what carries it: in full swing.
    Falls,
    /// More supports than balance can share the weight between.
    TooMany,
    /// A band is stretched further than anybody published.
    TooFar,
}

impl Refused {
    /// Why, in a coach's words.
    pub fn words(self) -> &'static str {
        match self {
            Refused::Pulls(_) => {
                "no number: what can only push would have to pull there, so balance does not decide"
            }
            Refused::TooMuch(_) => {
                "no number: too near upright there for balance to say what the arms bear"
            }
            Refused::Falls => "no number: the body is in full swing there",
            Refused::TooFar => {
                "no number: the band is stretched to over three times its length, and nothing that \
                 was read says what it pulls there"
            }
            Refused::TooMany => {
                "no number: several supports share the weight, and balance alone does not say how"
            }
        }
    }
}

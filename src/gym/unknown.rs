//! Unknown: why a rung has no number, as a sentence of its own.
//! Never a shrug: each reason is one, and none stands for another.

use crate::mechanics::statics::Refused;

/// Why a rung has no number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unknown {
    /// No pose, or one that does not solve.
    NoPose,
    /// A hold among repetitions, or the other way round.
    Held,
    /// A hand or the feet take what they like.
    Helped,
    /// A band pulls as its make and its stretch will have it.
    Banded,
    /// The arms bear no body weight, only what they hold.
    HoldsOnly,
    /// Lying or sitting: what is under the body bears what balance does not decide.
    Lies,
    /// The pose moves in the frontal plane, and moments are of the sagittal one.
    Sideways,
    /// A carry without a weight.
    NothingCarried,
    /// The leg that leads does not carry most of the body yet.
    BackFoot,
    /// What a movement of this pattern asks is not seen in a still pose.
    NoAxis,
    /// Hands higher than the feet: the answer depends on which way they press.
    EitherWay,
    /// A band that is longer at rest than the way from end to end.
    Slack,
    /// What the other rungs of the ladder are measured by is not asked here.
    OtherAxis,
    /// Balance does not decide it.
    Undecided(Refused),
    /// The hand that bears is not the one that works.
    IdleHand,
    /// Feet that slide and are pulled back in.
    Slides,
    /// Other parts bear the body at the end than at the start.
    OtherParts,
    /// The doubts are greater than the number.
    TooRough,
    /// The pattern has no axis, or the pose does not carry it.
    NotComputed,
}

impl Unknown {
    /// Why, in a coach's words.
    pub fn words(self) -> &'static str {
        match self {
            Unknown::NoPose => "no pose, no number",
            Unknown::Held => "a hold among repetitions: no number",
            Unknown::Helped => {
                "no number: helping hands or feet take as much as the person lets them"
            }
            Unknown::Banded => {
                "no number: how hard a band pulls depends on its make and its stretch, and even two \
                 of one colour were 8 to 19 % apart (McMaster, Cronin and McGuigan 2010)"
            }
            Unknown::HoldsOnly => {
                "no number: the arms bear no body weight here, only what they hold or press against"
            }
            Unknown::Lies => {
                "no number: lying or sitting, what is under the body bears what balance does not say"
            }
            Unknown::Sideways => {
                "no number: the work goes sideways, and hip and knee are reckoned from the side only"
            }
            Unknown::NothingCarried => "no number: there is no weight to carry here",
            Unknown::BackFoot => {
                "no number: the pose shows the start, where the back foot still carries most, and \
                 nothing measured says how much it pushes from then on"
            }
            Unknown::NoAxis => {
                "no number: what a movement of this kind asks does not show in a body that holds still"
            }
            Unknown::EitherWay => {
                "no number: hands higher than the feet may press down or back along the arms"
            }
            Unknown::Slack => "no number: the band hangs slack there",
            Unknown::OtherAxis => {
                "no number here: a band or a pulley pulls in kilograms, the other rungs carry a share of \
                 the body"
            }
            Unknown::Undecided(refused) => refused.words(),
            Unknown::IdleHand => "no number: the hand that holds on is not the one that works",
            Unknown::Slides => {
                "no number: the feet slide and have to be pulled back in, and a still pose does not \
                 say how hard that is"
            }
            Unknown::OtherParts => {
                "no number: other parts bear the body on the way up than on the way down, and one number \
                 cannot say what both ask"
            }
            Unknown::TooRough => "no number: the doubts are greater than the number itself",
            Unknown::NotComputed => {
                "no number: the pose asks next to nothing of what is measured here"
            }
        }
    }

    /// The same beside a drawn rung, where there is room for a few words only.
    pub fn brief(self) -> &'static str {
        match self {
            Unknown::NoPose | Unknown::Held => self.words(),
            Unknown::Helped => "helped: no number",
            _ => "no number",
        }
    }
}

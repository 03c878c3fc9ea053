//! Thresholds of the witness: from how much on a pose shows a trait, each with its reason.
//! Only numbers; nothing here is fitted to the labels or to the traits that the entries say.
//!
//! Level 1 is some, level 2 a lot, as in `words/traits.yaml`. Ranges of joints are those of
//! `mechanics::skeleton` (AAOS; CDC Normal Joint ROM Study, Soucie 2011; Macedo & Magee 2008).
//! "Common practice" means: no source; a coach's measure, written down so that it can be argued.

/// A drawn angle may miss what was written by seven degrees before anybody sees it
/// (`mechanics::solve`); "past a right angle" therefore begins this much away from it.
pub const SEEN: f64 = 7.0;

// Hands.

/// A wrist bends back about 86 degrees when free (Macedo & Magee, `skeleton::limb_range`), and a
/// flat palm under an upright forearm asks for 90. From four fifths of the free range on it is
/// near its end: level 2. With the forearm upright at the bottom of a push-up the bend is 90.
pub const WRIST_NEAR_END: f64 = 70.0;
/// Less bend than half the free range is no loaded extension. Common practice.
pub const WRIST_BENT: f64 = 43.0;
/// One flat hand with this share of body mass is a lot, per cent: a knee push-up (49 % on two,
/// Ebben 2011) is above it, hands on 61 cm (41 % on two) are below.
pub const HAND_CARRIES_MUCH: f64 = 22.0;
/// One flat hand with less than this, per cent, only steadies. Common practice; a wall push-up at
/// 10 degrees presses with 6.
pub const HAND_CARRIES: f64 = 5.0;
/// And so does a hand on a counter beside somebody who stands: all arms together with less than a
/// tenth of body mass, per cent. Common practice.
pub const HANDS_CARRY: f64 = 10.0;
/// Half of the body in two gripping hands, so a quarter in each, per cent, is a strong grip.
/// Common practice.
pub const GRIP_MUCH: f64 = 25.0;
/// Less than this in one gripping hand, per cent, only steadies. Common practice.
pub const GRIP_SOME: f64 = 6.0;
/// A weight that hangs from the fingers, kilograms in one hand: a lot. A laden shopping bag is
/// about so heavy. Common practice.
pub const HANGS_HEAVY: f64 = 6.0;
/// A weight that is held at all, kilograms in one hand. Common practice: below, a bottle.
pub const HELD: f64 = 2.0;

// Arms.

/// The elbow this far over the shoulder, metres, is above shoulder height beyond doubt; 90
/// degrees of lifting is level with it.
pub const ELBOW_ABOVE: f64 = 0.10;
/// Lying or upside down there is no "above": there the arm is overhead from this angle to the
/// trunk on, degrees. 90 is a plank; a fifth of the way from there to the ear counts.
pub const ARM_PAST_SHOULDER: f64 = 110.0;
/// From this angle on an arm that bears is a lot, degrees: two thirds of 180 (AAOS).
pub const ARM_HIGH: f64 = 120.0;
/// Share of body mass on one arm, per cent, that makes an overhead arm a bearing one. Common
/// practice: a pike push-up at its top.
pub const ARM_BEARS: f64 = 20.0;
/// An arm raised this far, degrees, has its upper arm out and turned back: lifting ends that way.
/// Common anatomy, from memory.
pub const ARM_TO_THE_END: f64 = 150.0;
/// An elbow folded this far, degrees, with the arm up brings the hand behind the neck: beyond
/// four fifths of 150 (CDC). Common practice.
pub const ELBOW_FOLDED: f64 = 120.0;
/// The upper arm is away from the side from here on, degrees: two thirds of the way to level.
pub const ARM_ASIDE: f64 = 60.0;
/// A forearm within 60 degrees of where the chest looks is not turned back. Common practice.
pub const FOREARM_AHEAD: f64 = 0.5;
/// An elbow behind the trunk: more than half of 60 degrees of extension (AAOS). Hands on the hips
/// (21) and arms along the floor in a bridge (30) are not meant.
pub const ARM_BEHIND: f64 = 32.0;
/// With weight on the arms two thirds of 60 are a lot.
pub const ARM_FAR_BEHIND: f64 = 40.0;
/// Per cent of body mass on one arm from which on it bears behind the trunk. Common practice.
pub const ARM_BEHIND_BEARS: f64 = 10.0;

// Trunk.

/// The front faces up or down from this far beyond upright on: the sine of 40 degrees. Half-sitting is
/// commonly 45 degrees. Common practice.
pub const FACES: f64 = 0.64;
/// Lying rather than leaning, degrees from upright: within 30 of level.
pub const LEVEL_TRUNK: f64 = 60.0;
/// Hips this low, metres, lie: half the depth of the pelvis and a little. Drawing measure.
pub const LIES: f64 = 0.15;
/// Hands on something higher than this, metres, bring the trunk up: the belly is clear of the
/// floor and one is no more face down than in any bend. A low step. Common practice.
pub const FACE_DOWN_HANDS: f64 = 0.35;
/// A back or seat lower than a chair's seat (43 to 48 cm, `gym::heights`), metres: one gets
/// there from the floor.
pub const LOWER_THAN_A_CHAIR: f64 = 0.48;
/// The head lower than the heart by this, metres: more than the head's own nod. Common practice.
pub const HEAD_LOWER: f64 = 0.03;
/// By this it is a lot, metres: half a head. Common practice.
pub const HEAD_MUCH_LOWER: f64 = 0.12;
/// The trunk slopes down to the head, degrees from upright: level and what is seen.
pub const SLOPES_DOWN: f64 = 90.0 + SEEN;
/// Lower and upper back bent forward together, degrees: a third of 80 (AAOS).
pub const ROUNDED: f64 = 26.0;
/// Bent backward together, degrees: about half of 35 (Magee).
pub const ARCHED: f64 = 16.0;
/// Nine tenths of 35.
pub const ARCHED_TO_THE_END: f64 = 31.0;
/// Chest against pelvis, degrees: two thirds of 45 (AAOS).
pub const TWISTED: f64 = 30.0;
/// Nine tenths of 45.
pub const TWISTED_TO_THE_END: f64 = 40.5;
/// A trunk leaning forward this far, degrees from upright, lets a weight bend it: at 45 seven
/// tenths of the weight act across the spine (sine of 45).
pub const BOWED: f64 = 45.0;

// Legs.

/// "About a right angle" at the knee begins here, degrees; a deadlift's 79 is short of it.
pub const KNEE_RIGHT_ANGLE: f64 = 90.0 - SEEN - 1.0;
/// Well past it: a squat with level thighs draws 117. Stress behind the kneecap climbs with the
/// bend (Powers 2014).
pub const KNEE_DEEP: f64 = 110.0;
/// Past it on one leg that carries most of the body.
pub const KNEE_DEEP_ALONE: f64 = 95.0;
/// One leg carries, per cent of body mass. Common practice: below, it is a prop.
pub const LEG_CARRIES: f64 = 12.0;
/// One of two legs under a squat, per cent.
pub const LEG_CARRIES_ITS_HALF: f64 = 30.0;
/// One leg alone, per cent: three fifths and more.
pub const LEG_CARRIES_MOST: f64 = 60.0;
/// One kneecap with this share of body mass is a lot, per cent; on all fours each has a quarter.
pub const KNEE_PRESSED: f64 = 35.0;
/// Trunk and thigh closer than a right angle: the line that some hips must not pass after an
/// operation (Leeds Teaching Hospitals, hip replacement guide), and what is seen.
pub const HIP_PAST_RIGHT_ANGLE: f64 = 90.0 + SEEN + 1.0;
/// Nine tenths of the free range of 134 (CDC, 20 to 44 years).
pub const HIP_DEEP: f64 = 120.0;

// Base.

/// A hand with less than this, per cent of body mass, steadies and does not hold. Common practice.
pub const STEADIES: f64 = 5.0;
/// Something is raised from this height on, metres: a stair's least riser is 15 cm.
pub const RAISED: f64 = 0.10;
/// Feet that come down this far at once, metres, land hard: half a chair. Common practice.
pub const DROPS_FAR: f64 = 0.25;
/// A trunk bowed to level or beyond over the feet may tip, degrees from upright. Common practice.
pub const BOWED_TO_LEVEL: f64 = 90.0;
/// A foot has moved, metres: more than its own width.
pub const STEPPED: f64 = 0.10;

// Weight.

/// Weight on the spine, kilograms altogether: some. Common practice, about a twentieth of 70 kg.
pub const SPINE_CARRIES: f64 = 4.0;
/// Weight on the spine, kilograms altogether: a lot, beyond a quarter of 70 kg. Common practice.
pub const SPINE_CARRIES_MUCH: f64 = 20.0;
/// Weight held by a trunk that is bowed and held up by nothing, kilograms: a lot. Bent and
/// unsupported rows load the spine most (Fenwick 2009); the number is common practice.
pub const BOWED_CARRIES: f64 = 8.0;

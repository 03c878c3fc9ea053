//! The words of poses, each in a coach's words with an example.
//! Only words; that none is missing or made up is held by a test in `told`.

/// A word of poses.
#[derive(Debug)]
pub struct PoseWord {
    /// What kind of word it is.
    pub group: &'static str,
    /// The word, and others that mean the same.
    pub names: &'static [&'static str],
    /// What it says: its zero and its sign where it is a number.
    pub what: &'static str,
    /// How it is written.
    pub example: &'static str,
}

const fn word(
    group: &'static str,
    names: &'static [&'static str],
    what: &'static str,
    example: &'static str,
) -> PoseWord {
    PoseWord { group, names, what, example }
}

const TOUCH: &str = "What touches what";
const LIMBS: &str = "Joints of arms and legs, in degrees; 0 is standing straight";
const TRUNK: &str = "Trunk and head, in degrees; 0 is upright and straight";
const SLOPES: &str = "Against the vertical, in degrees, whatever the joints do";
const WHOLE: &str = "The whole body";
const HEIGHTS: &str = "Heights over the floor, in cm";

/// Words of a key pose.
pub static POSE: &[PoseWord] = &[
    word(TOUCH, &["feet", "foot"], "The whole foot is on something.", "feet: \"floor, 30 apart\""),
    word(TOUCH, &["toes", "toe"], "Ball of the foot and toes are, the heel is up.", "toes: floor"),
    word(TOUCH, &["heels", "heel"], "Only the heel is.", "heels: floor"),
    word(TOUCH, &["knees"], "The knee is; for one side `knee: floor`.", "knees: floor"),
    word(TOUCH, &["hands", "hand"], "Palm or grip is.", "hands: \"box 45, under shoulders\""),
    word(
        TOUCH,
        &["forearms"],
        "Elbow to wrist is; for one side `forearm: floor`.",
        "forearms: floor",
    ),
    word(TOUCH, &["seat"], "The seat is.", "seat: chair 45"),
    word(TOUCH, &["back"], "The upper back is.", "back: floor"),
    word(TOUCH, &["side"], "The outside of the hip is, lying on the side.", "side: floor"),
    word(
        TOUCH,
        &["lift"],
        "These parts leave what they touched in the key pose before.",
        "lift: far foot",
    ),
    word(
        LIMBS,
        &["hip"],
        "Thigh against the trunk: 0 in line, positive towards the chest, negative behind.",
        "hip: 90",
    ),
    word(
        LIMBS,
        &["knee"],
        "Bend of the knee: 0 straight, positive heel towards the seat.",
        "knee: 90",
    ),
    word(LIMBS, &["leg-out"], "Leg away from the midline: positive outward.", "leg-out: 30"),
    word(LIMBS, &["leg-turn"], "Leg turned: positive toes out.", "leg-turn: 15"),
    word(
        LIMBS,
        &["ankle"],
        "Foot against the shin: 0 square, positive toes up to the shin, negative pointed.",
        "ankle: -40",
    ),
    word(
        LIMBS,
        &["shoulder"],
        "Arm against the trunk: 0 hangs along it, 90 straight ahead, 180 overhead, negative behind.",
        "shoulder: 90",
    ),
    word(
        LIMBS,
        &["arm-out"],
        "Arm away from the midline: positive outward, 90 level.",
        "arm-out: 45",
    ),
    word(
        LIMBS,
        &["arm-turn"],
        "Upper arm turned about its length: positive outward.",
        "arm-turn: 30",
    ),
    word(
        LIMBS,
        &["elbow"],
        "Bend of the elbow: 0 straight, positive hand to shoulder.",
        "elbow: 90",
    ),
    word(
        LIMBS,
        &["wrist"],
        "Hand against the forearm: 0 straight, positive bent back.",
        "wrist: 60",
    ),
    word(
        LIMBS,
        &["hand-turn"],
        "Turn of the hanging hand: 0 palm back, 90 thumb ahead.",
        "hand-turn: 90",
    ),
    word(LIMBS, &["shrug"], "Shoulder lifted: positive towards the ear.", "shrug: 10"),
    word(
        TRUNK,
        &["waist"],
        "Bend of the lower back: positive rounds forward, negative hollows.",
        "waist: 20",
    ),
    word(
        TRUNK,
        &["upper-back"],
        "Bend of the upper back: positive rounds forward.",
        "upper-back: 15",
    ),
    word(TRUNK, &["side-bend"], "Bend sideways: positive towards the near side.", "side-bend: 20"),
    word(
        TRUNK,
        &["twist"],
        "Chest turned against the hips: positive towards the near side.",
        "twist: 30",
    ),
    word(TRUNK, &["neck"], "Bend of the neck: positive chin to chest.", "neck: 10"),
    word(TRUNK, &["look"], "Face turned: positive towards the near side.", "look: 40"),
    word(TRUNK, &["bow"], "The hips with all above them leaned: positive forward.", "bow: 45"),
    word(TRUNK, &["tilt"], "The hips leaned sideways: positive towards the near side.", "tilt: 90"),
    word(TRUNK, &["turn"], "The whole body turned about the vertical.", "turn: 90"),
    word(
        SLOPES,
        &["trunk"],
        "Hips to shoulders: 0 or `upright`, positive leaning forward, `horizontal` is 90.",
        "trunk: 45",
    ),
    word(
        SLOPES,
        &["thigh"],
        "Knee to hip: 0 or `vertical`; negative where the knee is ahead of the hip; `horizontal` is \
         -90, knee ahead.",
        "thigh: horizontal",
    ),
    word(
        SLOPES,
        &["shin"],
        "Ankle to knee: 0 upright, positive where the knee is ahead.",
        "shin: 20",
    ),
    word(
        SLOPES,
        &["upper-arm"],
        "Elbow to shoulder: 0 hangs or stands upright, negative where the elbow is ahead.",
        "upper-arm: -80",
    ),
    word(
        SLOPES,
        &["forearm"],
        "Wrist to elbow: 0 upright, positive where the elbow is ahead of the wrist.",
        "forearm: vertical",
    ),
    word(
        SLOPES,
        &["foot-angle"],
        "Heel to ball of the foot: 90 is flat and pointing ahead, 0 on end with the ball on top.",
        "foot-angle: 90",
    ),
    word(
        WHOLE,
        &["body"],
        "`straight`: hips and knees in line. `lean N`: ankles to shoulders so far from upright, \
         positive forward. Both with a comma.",
        "body: \"straight, lean 20\"",
    ),
    word(
        WHOLE,
        &["arms"],
        "The arms in a shape that has a name; see the list below.",
        "arms: overhead",
    ),
    word(
        WHOLE,
        &["balance"],
        "What the weight stays over: `feet`, `near foot`, `far foot`, `hands`, `60% near foot`, or \
         `free` where something else holds it.",
        "balance: near foot",
    ),
    word(
        WHOLE,
        &["hands-at"],
        "The hands go to a place on the body, perhaps so many cm `ahead`, `behind`, `above` or \
         `below` of it.",
        "hands-at: \"chest, 5 ahead\"",
    ),
    word(
        WHOLE,
        &["near", "right"],
        "A block of words for the near side alone, the figure's right.",
        "near: {knee: 90}",
    ),
    word(
        WHOLE,
        &["far", "left"],
        "A block of words for the far side alone, the figure's left.",
        "far: {knee: 90}",
    ),
    word(HEIGHTS, &["chest"], "Skin of the chest.", "chest: 9"),
    word(HEIGHTS, &["hips"], "Middle of the hips.", "hips: 40"),
    word(
        HEIGHTS,
        &["head"],
        "Lowest point of the head; with a thing behind it, the head rests on it.",
        "head: 4",
    ),
    word(HEIGHTS, &["chin"], "Chin; `over bar` puts it over the bar.", "chin: over bar"),
    word(HEIGHTS, &["knee-height"], "Underside of the knee.", "knee-height: 5"),
    word(HEIGHTS, &["foot-height"], "Underside of the foot, at the ball.", "foot-height: 20"),
    word(HEIGHTS, &["hand-height"], "Hand, at the grip.", "hand-height: 60"),
];

const KEYPOSES: &str = "Key poses of a figure";
const LOOKS: &str = "How the figure is seen";
const THINGS: &str = "Things in the figure";

/// Words of a figure, around its key poses.
pub static FIGURE: &[PoseWord] = &[
    word(KEYPOSES, &["start"], "The first key pose; it must be there.", "start: {feet: floor}"),
    word(
        KEYPOSES,
        &["between"],
        "One key pose or a list of them on the way, where start and end do not tell the story.",
        "between: [{knee: 40}]",
    ),
    word(
        KEYPOSES,
        &["end"],
        "The last key pose. It keeps what the one before touched and was balanced over, and nothing else of it.",
        "end: {knee: 100}",
    ),
    word(LOOKS, &["view"], "From where it is seen; `side` if left out.", "view: front corner"),
    word(
        LOOKS,
        &["balanced"],
        "`side` or `front`: weighed as seen from there, where the view shows it better from elsewhere.",
        "balanced: front",
    ),
    word(
        LOOKS,
        &["shape"],
        "Roughly how the body lies or stands, where what touches does not tell.",
        "shape: all fours",
    ),
    word(
        LOOKS,
        &["arrow"],
        "What the arrow of movement follows; `none` for no arrow.",
        "arrow: near knee",
    ),
    word(
        LOOKS,
        &["ghost"],
        "`start`: the last key pose stands before a pale shape of the first.",
        "ghost: start",
    ),
    word(LOOKS, &["pause"], "`end`: the last key pose is held for a moment.", "pause: end"),
    word(
        LOOKS,
        &["leads"],
        "The leg that works, where neither feet nor balance tell.",
        "leads: near leg",
    ),
    word(
        LOOKS,
        &["note"],
        "A word to whoever edits the file; nobody else sees it.",
        "note: elbows wide",
    ),
    word(
        THINGS,
        &["holds"],
        "What is held, with its weight in kg, and where.",
        "holds: \"kettlebell 12, near hand\"",
    ),
    word(
        THINGS,
        &["band"],
        "A band from one end to the other: hands, feet, near knee, bar, back, or an anchor at a \
         height with how far ahead (of the hips, or `ahead of heels`). With `60 at rest` and `4 at \
         twice`, its length at rest in cm and its pull in kg at twice that, what it pulls is computed.",
        "band: \"hands to anchor 110, 120 ahead of heels, 60 at rest, 4 at twice\"",
    ),
    word(THINGS, &["towel"], "The same with a towel.", "towel: near hand to near foot"),
    word(
        THINGS,
        &["pulley"],
        "A strap over a pulley at a height, and the kg that hang from it.",
        "pulley: \"hands to anchor 160, 110 ahead, weighs 20\"",
    ),
    word(
        THINGS,
        &["scene"],
        "Things that stand about and that nobody touches.",
        "scene: [mat, wall 30 behind]",
    ),
];

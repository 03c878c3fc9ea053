//! The sentences of placing, each once, with holes in braces.
//! Never chooses one. The browser's script fills the same sentences, out of `tables()`.

use crate::library::Counts;

/// A sentence and the name by which the script knows it.
pub type Words = (&'static str, &'static str);

macro_rules! sentences {
    ($($name:ident = $key:literal, $text:literal;)*) => {
        $(pub(super) const $name: Words = ($key, $text);)*
        /// Every sentence, for the script.
        pub const ALL: &[Words] = &[$($name),*];
    };
}

sentences! {
    ONE_REP = "one-rep", "1 repetition";
    REPS = "reps", "{n} repetitions";
    SECONDS = "seconds", "{n} s";
    COUNTS_REPS = "counts-reps", "repetitions";
    COUNTS_SECONDS = "counts-seconds", "seconds";
    COUNTS_METRES = "counts-metres", "metres";
    COUNTS_CONTACTS = "counts-contacts", "contacts";
    RESERVE_REPS = "reserve-reps", "1 to 3 repetitions left in reserve";
    RESERVE_HOLD = "reserve-seconds", "a fifth to a third of your best hold left (common practice)";
    WITHIN = "within", "Rung {rung} today: {dose}, with {reserve}.";
    ESTIMATED = "estimated", "Rung {rung} today: {dose}, with {reserve}. That is an estimate; the first set decides.";
    TOP = "top", "Rung {rung} is the top of this ladder, and {dose} leaves plenty in reserve. Ask your coach for an added weight or a new goal.";
    TOP_ESTIMATED = "top-estimated", "Rung {rung} today: {dose}, at the top of this ladder. By the estimate that leaves plenty in reserve; the first set decides.";
    GAP = "gap", "Rung {rung} today: {dose}. That leaves plenty in reserve, and the dose of rung {next} is likely still too much. Ask your coach for something between them, until the rule for moving up is met.";
    GAP_ESTIMATED = "gap-estimated", "Rung {rung} today: {dose}. By the estimate that leaves plenty in reserve, and the dose of rung {next} is likely still too much; the first set decides. Ask your coach for something between them.";
    BY_RULE = "by-rule", "Rung {rung} today: {dose}, until your coach has seen that the rule for moving up is met. The estimate for rung {next} says less, and what you counted stands above it.";
    TRY_UP = "try-up", "Rung {rung} today: {dose}, with {reserve}. What you can do there is not known; less than {from} in the first set means back to rung {back}.";
    TRY_DOWN = "try-down", "Rung {rung} today: {dose}, with {reserve}. What you can do there is not known; the first set tells.";
    UNDER = "under", "Rung {rung} is the bottom of this ladder, and today it is {dose}, less than its full dose. Keep {reserve} and ask your coach for a version below it.";
    TOO_MUCH = "too-much", "Rung {rung} is the bottom of this ladder and too much for today. Ask your coach for a version below it.";
    NO_DOSE = "no-dose", "The ladder writes no dose for rung {rung}, so there is none for today. Ask your coach.";

    OWN_WITHIN = "own-within", "At the height or lean of the test: {dose} today, with {reserve}.";
    OWN_ABOVE = "own-above", "At the height or lean of the test the whole dose leaves plenty in reserve: take a harder one.";
    OWN_BELOW = "own-below", "At the height or lean of the test the dose is too much for today: take an easier one.";

    UP_ELSEWHERE = "up-elsewhere", "The rule for moving up counts on rung {rung} as it is written, and this was another height or lean. The rule: {rule}.";
    UP_PLACED = "up-placed", "The rule for moving up counts from your first session on rung {rung}: {rule}.";
    UP_NO_RULE = "up-no-rule", "This ladder has no rule for moving up. Ask your coach.";
    UP_COACH = "up-coach", "The rule for moving up is more than one count: {rule}. Ask your coach.";
    UP_TOP = "up-top", "Rung {rung} is the top of this ladder; there is no rung to move up to.";
    UP_NOT_YET = "up-not-yet", "Not yet. The rule for moving up: {rule}. Here that is {target}; you counted {count}.";
    UP_COUNTS = "up-counts", "This counts as session {so_far} of {sessions}. The rule for moving up: {rule}.";
    UP_READY = "up-ready", "Ready for rung {next}, once your coach has seen it. The rule for moving up: {rule}.";

    LEFT_OUT = "left-out", "Rung {rung} by the test, and not for {whom}: {why}.";
    LEFT_OUT_BELOW = "left-out-below", "The nearest below that fits is rung {below}: {name}; begin with its own dose.";
    LEFT_OUT_NONE = "left-out-none", "No rung below it fits either: {ask}.";
    ASK_AGAIN = "ask-again", "{what} {value} {unit} cannot be. Ask again, and write {least} to {most} {unit}.";

    BY_HEELS = "by-heels", "Heels at {cm} cm are a lean of {lean} degrees, give or take {band}";
    THERE = "there", "{place}: about {share} % {bears}, give or take {points} points; the nearest is rung {rung}, {written}.";
    FOR_THE_LEAN = "for-the-lean", "For a lean of {lean} degrees: {heels}, give or take {band} cm, {granted}.";
    ABOUT = "about", "about a {thing}";
    GRANTED = "granted", "Where the heels go is reckoned {granted}; for another body or other straps it may be {band} cm off. Mark the place with tape once it is right.";
    THING = "thing", "Commonly so high: {thing}.";
    STRETCHED = "stretched", "band {times} times its length";
    BAND_THERE = "band-there", "{setting} {away} cm: the band is stretched to {length} cm at the end, {times} times its {rest} cm at rest, give or take {give}, {granted}; about {pull} on both hands together, give or take {band}; the nearest is rung {rung}, {written}.";
    BAND_FOR = "band-for", "Stretched to {length} cm at the end, {times} times its {rest} cm at rest, give or take {give}: heels about {away} cm from under the anchor, give or take {off} cm, {granted}; about {pull} on both hands together, give or take {band}; the nearest is rung {rung}, {written}.";
    BAND_GRANTED = "band-granted", "How far a band is stretched is reckoned {granted} and a band of {rest} cm at rest that pulls {kg} kg at twice that length: measure yours once, with a tape and a luggage scale, and mark the place of the heels.";

    NO_COUNT = "no-count", "The ladder writes no dose for rung {rung}, so what it counts is not known.";
    NEEDS_DEMAND = "needs-demand", "Nothing tells how a count carries over to or from rung {rung}: its demand is not known, or it is no guide to a count (legs, help, slow or held ways).";
    OTHER_COUNT = "other-count", "Rung {rung} counts {counts} and the test counted {tested}; neither says anything about the other.";
    NEEDS_BODY_MASS = "needs-body-mass", "A weight is added, so this needs your body mass.";
    OTHER_WORK = "other-work", "Rung {rung} differs from rung {tested} in more than what is carried, so no number is given.";
    OVER_RELATIONS = "over-relations", "More than {most} repetitions say little about strength. Test on a higher rung.";
    NONE_COUNTED = "none-counted", "Nothing was counted, so there is nothing to compute from. Test on a lower rung.";

    KNOWN_MEASURED = "known-measured", "{point} counted ({low} to {high}{more}, by the noise of counting)";
    KNOWN_COMPUTED = "known-computed", "{point} computed ({low} to {high}{more})";
    KNOWN_OVER = "known-over", "{point} or more computed ({low} or more)";
    OR_MORE = "or-more", " or more";

    NOTE_COUNTED = "note-counted", "Only what was counted speaks here; each other rung says why it has no number.";
    NOTE_ESTIMATE = "note-estimate", "Computed numbers are estimates, never promises, and nobody has tested how repetitions carry over from rung to rung. Where it is known, what two rungs ask is compared at the bottom of a push and at the top of a pull, where a set ends. Eight published relations for weights differ, people scatter about 10 % around them, and far more above ten repetitions (Mayhew 2008). The band is meant for nine people in ten; the first set decides.";
    NOTE_CLUB = "note-club", "Computed numbers are estimates, never promises. How much of the difference between two rungs shows in repetitions comes from this club's own results: {factor}, give or take {band}, where 1 is what published relations for weights say. The band is meant for nine people in ten; the first set decides.";
    NOTE_HOLD = "note-hold", "Computed holds are a rule of thumb from memory (Frey Law and Avin 2010): twice the demand, about a quarter of the time. The first hold decides.";
    NOTE_PLACED = "note-placed", "Placing starts you on rung {rung}; from there the rule for moving up decides.";
    NOTE_OWN = "note-own", "The test was at a height or lean of your own; what rung {rung} asks as it is written is computed from it.";
    NOTE_SEGMENTS = "note-segments", "Shares are reckoned with published body segments ({table}), not with those of the one person that pages are made for.";
    NOTE_STATURE = "note-stature", "Shares are reckoned for {taken} cm: {asked} cm lies outside what was computed, {least} to {most} cm.";
    NOTE_ADDED = "note-added", "The count was made with {added} kg added; the rule for moving up is meant without it.";
    NOTE_ADDED_DOSE = "note-added-dose", "Today's dose is with the same added weight.";

    RULE_REPS = "rule-reps", "Raters who judged push-ups twice repeated their own verdict on 42 to 85 % of repetitions (quoted; the paper is not named in our notes). At the middle of that, about a third could go the other way, up or down by chance. What counts as noise follows by a rule of our own: twice the square root of those of both counts, since each wanders for itself, and never less than two repetitions.";
    RULE_HOLD = "rule-seconds", "A fifth of the longer hold counts as noise between two holds: common practice, no source.";
    RULE_CONVERTED = "rule-converted", "The second result is held against what the first one predicts for its rung. Nobody has tested such predictions, so only the same test twice shows a change.";
    REAL = "real", "Likely real: {first}, then {second}; up to {noise} either way is noise.";
    NOISE = "noise", "Within noise: {first}, then {second}; up to {noise} either way is noise.";
    BEYOND_ESTIMATE = "beyond-estimate", "Not the same test ({differs}): the first result predicts {low} to {high}{more} here, and {second} were counted. Either there is a change or the estimate is off for this person; the same test again tells which.";
    NOISE_CONVERTED = "noise-converted", "No change that shows: not the same test ({differs}), and the first result predicts {low} to {high}{more} here, where {second} were counted.";
    SAME_SESSION = "same-session", "The same day: one session, so no retest.";
    NOT_SAME = "not-same", "Not the same test: {differs}. Test again as the first time.";
    DIFFERS_RUNG = "differs-rung", "rung {first}, then rung {second}";
    DIFFERS_OWN = "differs-own", "another height or lean";
    DIFFERS_COUNT = "differs-count", "{first}, then {second}";
    DIFFERS_ADDED = "differs-added", "{first} kg added, then {second} kg";
}

/// What is counted, as a coach says it.
pub(super) fn counts_words(counts: Counts) -> &'static str {
    match counts {
        Counts::Reps => COUNTS_REPS.1,
        Counts::Seconds => COUNTS_SECONDS.1,
        Counts::Metres => COUNTS_METRES.1,
        Counts::Contacts => COUNTS_CONTACTS.1,
    }
}

/// Fills the holes of a sentence.
pub(super) fn fill(words: Words, holes: &[(&str, &dyn std::fmt::Display)]) -> String {
    holes.iter().fold(words.1.to_string(), |text, (name, value)| {
        text.replace(&format!("{{{name}}}"), &value.to_string())
    })
}

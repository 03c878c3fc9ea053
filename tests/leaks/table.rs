//! The rows of `tests/leaks.rs`: a command with its words, and what of the private words it may show.
//! Never more than it needs: what a coach asks for by name shows that, and nobody else's.

/// What of the private words a command may show.
#[derive(Debug, Clone, Copy)]
pub enum Shows {
    /// None of them.
    Nothing,
    /// What stands in the library too: the situation and the trait, and whose they are not.
    Library,
    /// Who is in class, and nothing about them.
    Names,
    /// What is of this member.
    OneOf(&'static str),
    /// The coach's own eyes.
    Everything,
}

/// A command and how it may end.
#[derive(Debug, Clone, Copy)]
pub struct Row {
    pub words: &'static [&'static str],
    pub shows: Shows,
    pub codes: &'static [i32],
}

/// It may end with findings, and must have run.
const RAN: &[i32] = &[0, 1];
/// The small library has no numbers for it: what it says then is looked at too.
const ANY: &[i32] = &[0, 1, 2];

macro_rules! rows {
    ($shows:expr, $codes:expr, $([$($word:literal),*]),* $(,)?) => {
        vec![$(Row { words: &[$($word),*], shows: $shows, codes: $codes }),*]
    };
}

/// Every row that ends by itself.
pub fn rows() -> Vec<Row> {
    [of_the_library(), of_one_person(), of_the_class(), of_the_roster()].concat()
}

fn of_the_library() -> Vec<Row> {
    let library = rows!(
        Shows::Library,
        RAN,
        ["build"],
        ["build", "--library", "content", "--out", "site", "--theme", "look"],
        ["check"],
        ["check", "--library", "content", "--quiet", "--fail-on", "error"],
        ["check", "--format", "human", "--fail-on", "warning"],
        ["check", "--format", "json", "--fail-on", "advice"],
        ["check", "--format", "sarif"],
        ["check", "content/words/cautions.yaml"],
        ["check", "-", "--as", "ladders/row.yaml"],
        ["explain", "situationcanary", "--library", "content"],
        ["find", "a", "state", "--limit", "3", "--library", "content", "--format", "human"],
        ["find", "a", "state", "--format", "json"],
        ["find", "quail"],
        ["cover", "--library", "content", "--format", "human"],
        ["cover", "--nothing", "--format", "json"],
        ["cover", "--kit", "none", "--avoid", "situationcanary"],
        ["cover", "monday"],
        ["completions", "--ids", "caution", "--library", "content"],
        ["completions", "--ids", "trait"],
        ["completions", "--ids", "any"],
        ["build", "--format", "human", "--warnings-fail"],
        ["build", "--format", "json"],
        ["csv", "out", "--library", "content"],
        ["tidy", "--check", "--quiet", "--library", "content"],
        [
            "add",
            "movement",
            "Get-up",
            "--pattern",
            "pull-vertical",
            "--id",
            "get-up",
            "--library",
            "content"
        ],
        ["add", "movement", "Hold", "--like", "wall-push-up"],
        ["check", "--mend"],
    );
    let plain = rows!(
        Shows::Nothing,
        RAN,
        ["explain", "ladder-loop", "--format", "human"],
        ["explain", "--all", "--format", "json"],
        ["explain", "--keys"],
        ["explain", "pose", "--drawn", "words-of-poses.html"],
        ["explain", "--schema", "roster"],
        ["completions", "--ids", "movement"],
        ["completions", "--ids", "ladder"],
        ["completions", "--ids", "session"],
        ["completions", "--ids", "cycle"],
        ["completions", "--ids", "kit"],
        ["completions", "--ids", "own"],
        ["completions", "--ids", "word"],
        ["completions", "bash"],
        ["completions", "fish"],
        ["man"],
        ["new", "other", "--name", "Thornmere Barn"],
        ["new", "words-alone", "--empty"],
        ["plan", "spring", "--library", "content", "--format", "human"],
        ["plan", "spring", "--start", "2027-01-04", "--rung", "row=2", "--format", "json"],
        ["plan", "spring", "--format", "ics", "--remind"],
        ["demand", "push-up", "--library", "content", "--format", "human", "--stature", "170 cm"],
    );
    let unsure = rows!(
        Shows::Library,
        ANY,
        ["demand", "push-up", "--set", "hands=45cm", "--sex", "woman", "--body-mass", "62 kg"],
        ["demand", "push-up", "--sex", "man", "--format", "json"],
        ["demand", "push-up", "--at", "start"],
        ["demand", "push-up", "--at", "peak"],
        ["demand", "push-up", "--at", "end"],
        ["place", "row", "--rung", "2", "--reps", "9", "--library", "content", "--format", "human"],
        ["place", "row", "--rung", "2", "--seconds", "30", "--format", "json"],
        ["place", "row", "--set", "heels=60cm", "--anchor", "225 cm", "--handles", "95 cm"],
        ["place", "row", "--rung", "2", "--reps", "9", "--stature", "168 cm", "--sex", "woman"],
        ["place", "row", "--rung", "2", "--reps", "9", "--body-mass", "62 kg", "--added", "5 kg"],
        ["place", "row", "--rung", "2", "--reps", "9", "--sex", "man", "--kit", "none"],
        ["place", "row", "--rung", "2", "--reps", "9", "--avoid", "situationcanary"],
        ["place", "row", "--rung", "2", "--reps", "9", "--noise", "quiet", "--room", "2 m x 3 m"],
    );
    [library, plain, unsure].concat()
}

/// Asked for somebody whom the roster does not know: what is said follows from the words alone.
fn of_one_person() -> Vec<Row> {
    rows!(
        Shows::Library,
        ANY,
        ["swap", "push-up", "--kit", "none", "--avoid", "situationcanary", "--library", "content"],
        ["swap", "push-up", "--noise", "quiet", "--room", "2 m x 3 m", "--format", "human"],
        ["swap", "push-up", "--harder", "--parts", "--format", "json"],
        ["plan", "spring", "--kit", "none", "--avoid", "situationcanary"],
        ["plan", "spring", "--noise", "quiet", "--room", "2 m x 3 m"],
        ["own", "monday", "--avoid", "situationcanary", "--kit", "straps", "--library", "content"],
        ["own", "monday", "--noise", "quiet", "--room", "2 m x 3 m", "--format", "human"],
        ["own", "monday", "--week", "1", "--cycle", "spring", "--format", "json"],
        ["own", "monday", "--as-written", "--stature", "168 cm", "--height", "counter=92cm"],
        ["own", "row", "--rung", "2", "--result", "row rung 1 9 reps"],
        ["own", "monday", "--today", "2027-01-04"],
    )
}

fn of_the_class() -> Vec<Row> {
    let names = rows!(
        Shows::Names,
        RAN,
        ["board", "monday", "--roster", "roster.yaml", "--today", "2027-01-04"],
        ["board", "monday", "--library", "content", "--week", "1", "--cycle", "spring"],
        ["board", "monday", "--as-written", "--away", "swiftcanary"],
        ["board", "monday", "--csv", "--today", "2027-01-04"],
        ["board", "monday", "--out", "wall.html", "--today", "2027-01-04"],
        ["board", "monday", "--out", "wall.html", "--guests", "2", "--today", "2027-01-04"],
    );
    let coach = rows!(
        Shows::Everything,
        RAN,
        ["board", "monday", "--why"],
        ["board", "monday", "--why", "--csv"],
        ["board", "monday", "--why", "--out", "coach.html"],
    );
    [names, coach].concat()
}

fn of_the_roster() -> Vec<Row> {
    let renamed = rows!(
        Shows::Library,
        ANY,
        [
            "rename",
            "wall-push-up",
            "standing-push-up",
            "--kind",
            "movement",
            "--roster",
            "roster.yaml"
        ],
        ["rename", "wall-push-up", "standing-push-up", "--dry-run", "--library", "content"],
        ["csv", "in", "handed.txt", "--dry-run", "--library", "content"],
    );
    let names = rows!(
        Shows::Names,
        RAN,
        ["roster", "show"],
        ["roster", "show", "--format", "human"],
        ["roster", "show", "--format", "json"],
        [
            "roster",
            "show",
            "--roster",
            "roster.yaml",
            "--library",
            "content",
            "--today",
            "2027-01-04"
        ],
        ["roster", "done", "monday", "--today", "2027-01-04", "--away", "swiftcanary"],
        [
            "roster",
            "done",
            "monday",
            "--roster",
            "roster.yaml",
            "--library",
            "content",
            "--week",
            "1"
        ],
        ["roster", "done", "monday", "--cycle", "spring", "--today", "2027-01-04"],
        ["roster", "done", "monday", "--as-written", "--today", "2027-01-04"],
        ["roster", "done", "monday", "--undo", "--today", "2027-01-04"],
        ["roster", "done", "monday", "--from", "monday-done.json", "--today", "2027-01-04"],
    );
    let one = rows!(
        Shows::OneOf("swiftcanary"),
        RAN,
        ["roster", "show", "swiftcanary"],
        ["roster", "add", "handed.txt", "--today", "2026-12-01", "--roster", "roster.yaml"],
        ["roster", "add", "handed.txt", "--library", "content", "--today", "2026-12-01"],
        ["own", "monday", "--member", "swiftcanary", "--roster", "roster.yaml"],
        ["own", "push-up", "--member", "swiftcanary", "--format", "json"],
    );
    let other = rows!(
        Shows::OneOf("quailcanary"),
        RAN,
        ["roster", "show", "quailcanary"],
        ["own", "monday", "--member", "quailcanary"],
    );
    let nobody = rows!(
        Shows::Nothing,
        ANY,
        ["roster", "relate", "--roster", "roster.yaml", "--library", "content"],
        ["roster", "relate", "--format", "human"],
        ["roster", "relate", "--format", "json"],
    );
    // What each rung was is said beside the name that has it.
    let kept = rows!(
        Shows::Names,
        ANY,
        ["roster", "keep", "--roster", "roster.yaml", "--library", "content"],
    );
    [renamed, names, one, other, nobody, kept].concat()
}

/// What goes on until it is ended, and what is asked of it; `ROOT` is what its address ends in.
pub const SERVED: &[(Row, &[&str])] = &[
    (
        Row {
            words: &[
                "preview",
                "--open",
                "no",
                "--port",
                "0",
                "--library",
                "content",
                "--theme",
                "look",
            ],
            shows: Shows::Library,
            codes: RAN,
        },
        &[
            "/",
            "/floor.html",
            "/sessions/monday.html",
            "/data/words.js",
            "/data/search-index.js",
            "/sources.html",
            "/roster.yaml",
            "/../roster.yaml",
            "/%2e%2e/roster.yaml",
            "/.env",
            "/look/people.yaml",
            "/people.yaml",
            "/../handed.txt",
            "/preview/words-of-poses.html",
            "/pose/",
        ],
    ),
    (
        Row {
            words: &["board", "monday", "--live", "--port", "0", "--today", "2027-01-04"],
            shows: Shows::Names,
            codes: RAN,
        },
        &["ROOT", "ROOTnow", "ROOT../roster.yaml", "/roster.yaml", "ROOT.env"],
    ),
    (
        Row {
            words: &["board", "monday", "--live", "--why", "--today", "2027-01-04"],
            shows: Shows::Everything,
            codes: RAN,
        },
        &["ROOT", "ROOTnow"],
    ),
];

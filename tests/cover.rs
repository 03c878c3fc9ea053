//! Who is left with nothing on the starter library, and what the common limits leave: counted over
//! every rung, usual kit, situation and trait. The bounds are the project's own promise; the
//! guideline behind each caution stands in tests/cautions.rs.

use rungbook::finding::Span;
use rungbook::gym::Gym;
use rungbook::library::{LadderId, Purpose, SessionId, reader};
use rungbook::own::{self, Kind, LineCover, Member};
use rungbook::swap::cover::{
    Answered, Tally, UsualKit, UsualLimit, cover, usual_kits, usual_limits,
};
use rungbook::swap::{Fit, Person, RungOf, fit, limits_from, rungs_of};
use std::path::Path;
use std::sync::OnceLock;

fn gym() -> &'static Gym {
    static GYM: OnceLock<Gym> = OnceLock::new();
    GYM.get_or_init(|| {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
        Gym::open(reader::read(&folder).expect("the starter library"))
    })
}

/// Somebody with one limit and nothing but what everybody has, or with all kit there is.
fn person(limit: &str, all_kit: bool) -> Person {
    let limits = limits_from(gym(), &[limit.to_string()]).expect("a limit that is known");
    let kit = all_kit.then(|| gym().library.words.kit.keys().cloned().collect());
    Person {
        kit: Some(kit.unwrap_or_default()),
        limits: limits.levels,
        situations: limits.situations,
        ..Person::default()
    }
}

#[test]
fn under_two_in_a_hundred_are_left_with_nothing() {
    let (kits, limits) = (usual_kits(gym()), usual_limits(gym()));
    assert_eq!(
        kits.len(),
        8,
        "nothing, chair and stairs, bands, one kettlebell, a pair of dumbbells, straps, bar, full hall"
    );
    let cells = cover(gym(), &kits, &limits);
    let sum = |kit: Option<usize>| {
        let chosen = cells.iter().filter(|cell| kit.is_none_or(|kit| cell.kit == kit));
        chosen.fold(Tally::default(), |sum, cell| sum.and(cell.tally))
    };
    let share = |tally: Tally| 100.0 * tally.nothing as f64 / tally.all() as f64;
    for (at, kit) in kits.iter().enumerate() {
        println!("{}: {:.2} % with nothing", kit.name, share(sum(Some(at))));
        assert!(share(sum(Some(at))) < 2.0, "{}", kit.name);
    }
    let rungs: usize = gym().library.movements.values().map(|m| rungs_of(gym(), m).len()).sum();
    assert_eq!(sum(None).all(), rungs * kits.len() * limits.len(), "every rung is counted once");
}

/// A plain sore wrist on the push-up ladder: fists or handles first, on every rung.
#[test]
fn a_sore_wrist_does_push_ups_on_fists() {
    let person = person("sore-wrist", true);
    let ladder = LadderId::from("push-up");
    let rungs = gym().library.ladders[&ladder].rungs.len();
    for at in 0..rungs {
        let rung = RungOf::on(gym(), &ladder, at).expect("a rung");
        match fit(gym(), &person, &rung) {
            Fit::Fine => {}
            Fit::Changed(made) => {
                let first = made[0].id().as_str();
                assert!(["fists", "handles"].contains(&first), "{rung:?}: {first}");
            }
            Fit::Out(why) => panic!("{rung:?}: {why:?}"),
        }
    }
}

/// Pregnancy, high blood pressure and osteoporosis keep most strength work, in a changed form where
/// it must be: what the guidelines behind their cautions ask for (tests/cautions.rs names them).
#[test]
fn most_strength_work_stays() {
    for limit in ["pregnancy", "high-blood-pressure", "osteoporosis"] {
        let person = person(limit, true);
        let strength = gym().library.movements.values();
        let strength = strength.filter(|movement| movement.purpose == Some(Purpose::Strength));
        let rungs: Vec<RungOf> = strength.flat_map(|movement| rungs_of(gym(), movement)).collect();
        let kept = rungs.iter().filter(|rung| fit(gym(), &person, rung).is_in()).count();
        println!("{limit}: {kept} of {} rungs of strength work", rungs.len());
        assert!(3 * kept > 2 * rungs.len(), "{limit}: {kept} of {}", rungs.len());
    }
}

/// The general sentence of a caution is no answer: a library whose entries allow no change counts
/// none, whatever its cautions say.
#[test]
fn a_general_sentence_counts_as_nothing() {
    let mut bare = gym().clone();
    bare.library.movements.values_mut().for_each(|movement| movement.changes.clear());
    let limits: Vec<UsualLimit> = usual_limits(&bare).into_iter().take(3).collect();
    let cells = cover(&bare, &usual_kits(&bare)[..1], &limits);
    assert!(cells.iter().all(|cell| cell.tally.changed == 0));
    assert!(cells.iter().any(|cell| cell.tally.fine > 0 && cell.tally.swapped > 0));
}

/// A person as the cover of a session asks for, put together here from the words alone.
fn usual(kit: &UsualKit, limit: &UsualLimit) -> Member {
    let mut person = Person { kit: Some(kit.kit.clone()), front: true, ..Person::default() };
    person.limits = limit.limits.levels.clone();
    person.situations = limit.limits.situations.clone();
    Member { person, ..Member::default() }
}

/// The cover of a session says of every line what the own version of such a person is.
#[test]
fn the_cover_of_a_session_is_what_each_would_be_told() {
    // No usual limit leaves anybody with nothing in this session; whoever leaves out all of them has it.
    let (kits, mut limits) = (usual_kits(gym()), usual_limits(gym()));
    let everything: Vec<String> =
        gym().library.words.traits.keys().map(|id| id.to_string()).collect();
    let all = limits_from(gym(), &everything).expect("every trait is known");
    limits.push(UsualLimit { name: "everything".to_string(), limits: all });
    let session = &gym().library.sessions[&SessionId::from("legs-and-trunk")];
    let lines = own::cover(gym(), session, (&kits, &limits));
    assert_eq!(lines.len(), session.blocks.iter().map(|block| block.items.len()).sum::<usize>());
    let (mut asked, mut nothing) = (0, 0);
    for line in &lines {
        assert_eq!(line.answers.len(), kits.len() * limits.len(), "{}", line.name);
        let item = &session.blocks[line.block].items[line.line];
        let written = own::line_of(gym(), session, line.block, item);
        // Every eleventh meets every kit and every limit of some line.
        for (at, answer) in line.answers.iter().enumerate().step_by(11) {
            let (kit, limit) = (&kits[at / limits.len()], &limits[at % limits.len()]);
            let told = own::of_line(gym(), &written, &usual(kit, limit));
            let is_right = match answer {
                Answered::Nothing(why) => told.kind == Kind::Ask && *why == told.why.join(" "),
                Answered::Swapped => told.kind == Kind::Swap,
                Answered::Changed => told.kind == Kind::Changed,
                Answered::Fine => told.kind == Kind::Fine,
                Answered::Below => matches!(told.kind, Kind::Fine | Kind::Changed),
            };
            assert!(is_right, "{}, {}, {}: {answer:?}, {told:?}", line.name, kit.name, limit.name);
            asked += 1;
            nothing += usize::from(told.kind == Kind::Ask);
        }
    }
    assert!(asked > 500 && nothing > 0, "{asked} asked, {nothing} with nothing");
}

/// What is counted of a column is what stands in it: one limit that leaves a line out is seen under that
/// limit and under every kit, and under no other limit.
#[test]
fn a_limit_is_counted_where_it_stands() {
    let words = |name: &str| UsualLimit {
        name: name.to_string(),
        limits: limits_from(gym(), &[name.to_string()]).expect("a limit"),
    };
    let limits = [UsualLimit::nothing(), words("overhead"), words("older-falls")];
    let kits: Vec<_> =
        usual_kits(gym()).into_iter().filter(|kit| kit.name == "full hall").collect();
    let session = &gym().library.sessions[&SessionId::from("push-and-pull")];
    let lines = own::cover(gym(), session, (&kits, &limits));
    let press = lines.iter().find(|line| line.block == 2 && line.line == 0).expect("the pulldown");
    assert_eq!(press.answers[0], Answered::Fine, "{press:?}");
    assert_ne!(press.answers[1], Answered::Fine, "arms above the head are left out: {press:?}");
    let of = |limit: usize| press.tally(limits.len(), |_, at| at == limit);
    assert_eq!((of(0).fine, of(1).fine, press.all().all()), (1, 0, 3));
}

/// What a kit lacks is no limit's doing: under a limit count the kits that serve the line, and all of them
/// where somebody is left with nothing.
#[test]
fn a_limit_is_not_counted_with_kits_that_lack_what_the_line_needs() {
    let line = |answers: &[Answered]| LineCover {
        block: 0,
        line: 0,
        name: "Row".to_string(),
        span: Span::default(),
        answers: answers.to_vec(),
    };
    use Answered::{Below, Changed, Fine, Nothing, Swapped};
    // Two limits; the first kit has nothing for a row, the second straps.
    let rows = line(&[Swapped, Swapped, Fine, Changed]);
    let of = |line: &LineCover, limit: usize| {
        let tally = line.of_limit(2, limit);
        (tally.all(), tally.swapped, tally.nothing)
    };
    assert_eq!((of(&rows, 0), of(&rows, 1)), ((1, 0, 0), (1, 0, 0)));
    let left_out = line(&[Swapped, Nothing("ask".to_string()), Fine, Changed]);
    assert_eq!((of(&left_out, 0), of(&left_out, 1)), ((1, 0, 0), (2, 0, 1)));
    let unserved = line(&[Swapped, Swapped, Below, Swapped]);
    assert_eq!(of(&unserved, 1), (2, 2, 0));
}

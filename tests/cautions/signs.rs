//! Signs that cannot wait: each says what to do now, rests on something better than habit, and
//! stands above everything else on its page.

use crate::club::Club;
use crate::laid::Laid;
use crate::{caution, cautions, source};
use rungbook::library::{CautionId, ReadMark};

const EMERGENCY: &str = "Ring the emergency number now.";
const DEPARTMENT: &str = "Go to the emergency department now";
const MATERNITY: &str = "Ring maternity now, day or night.";

/// How soon: the words by which a sign's urgency is told.
const SOON: &[&str] = &[
    " now",
    "at once",
    "today",
    "the same day",
    "this week",
    "urgently",
    "before the next session",
    "Stop",
    "time it",
];

#[test]
fn every_sign_says_what_to_do_and_how_soon() {
    for caution in cautions() {
        assert!(!caution.emergency.is_empty(), "{} has no emergency signs", caution.id.value);
        for sign in &caution.emergency {
            let soon = SOON.iter().any(|word| sign.act.contains(word));
            assert!(soon, "{}: {} -> {}", caution.id.value, sign.sign, sign.act);
            assert!(sign.act.ends_with('.') && !sign.sign.ends_with('.'), "{}", sign.sign);
        }
    }
}

/// Trade habit never carries an emergency sign: it was read, or it says that it is remembered.
#[test]
fn no_sign_rests_on_common_practice() {
    for caution in cautions() {
        for sign in &caution.emergency {
            let named = sign.source.as_ref().expect("a source");
            assert_ne!(source(&named.value).read, ReadMark::Practice, "{}", sign.sign);
        }
    }
}

/// Signs that a page was read for, by that page; and those that any first-aid course teaches.
#[test]
fn the_worst_signs_send_people_to_help_at_once() {
    let signs = [
        // A maternity unit's own list, 2022.
        ("pregnancy", "Heavy bleeding", EMERGENCY, "nhs-maternity"),
        ("pregnancy", "Any bleeding", MATERNITY, "nhs-maternity"),
        ("pregnancy", "severe headache", MATERNITY, "nhs-maternity"),
        ("pregnancy", "baby moves less", MATERNITY, "nhs-maternity"),
        // A hospital's leaflet on cauda equina.
        ("low-back", "between the legs", DEPARTMENT, "nhs-cauda-equina"),
        ("low-back", "holding water", DEPARTMENT, "nhs-cauda-equina"),
        ("low-back", "both legs", DEPARTMENT, "nhs-cauda-equina"),
        // A health board's referral page on hernia.
        ("hernia", "will not go back", DEPARTMENT, "nhs-hernia"),
        ("hernia", "vomiting", DEPARTMENT, "nhs-hernia"),
        // Bodies' pages on eyes.
        ("glaucoma", "loss or dimming of sight", "Go to an eye hospital", "eye-emergency"),
        ("diabetes-eyes", "curtain", "Go to an eye hospital", "eye-emergency"),
        // Public pages on heart attack and stroke.
        (
            "heart-disease",
            "pain in the chest",
            "Stop and ring the emergency number now",
            "nhs-heart",
        ),
        ("stroke", "even if it passes", EMERGENCY, "nhs-stroke"),
        ("high-blood-pressure", "face, arm or speech", EMERGENCY, "nhs-stroke"),
        // An ambulance trust on low sugar.
        ("diabetes-low-sugar", "unconscious", EMERGENCY, "nhs-hypo"),
        // NICE CG109: a blackout during exertion.
        ("fainting", "during exercise", EMERGENCY, "nice-cg109"),
        ("asthma", "too breathless to speak", "Sit up and ring", "nhs-asthma"),
        // Remembered, and said to be.
        ("pregnancy", "calf", MATERNITY, "recalled"),
        ("blood-thinners", "blow to the head", DEPARTMENT, "recalled"),
        ("epilepsy", "five minutes", EMERGENCY, "recalled"),
        ("high-blood-pressure", "very bad headache", EMERGENCY, "recalled"),
    ];
    for (id, seen, act, from) in signs {
        let found = caution(id).emergency.iter().filter(|sign| sign.sign.contains(seen));
        let found: Vec<_> = found.filter(|sign| sign.act.starts_with(act)).collect();
        assert_eq!(found.len(), 1, "{id}: {seen} -> {act}");
        let source = found[0].source.as_ref().map(|id| id.as_str());
        assert_eq!(source, Some(from), "{id}: {seen}");
    }
}

/// First on the page, before anything about training; then what stays, what changes, what is left
/// out. Nobody scrolls past a list of movements to learn whom to ring.
#[test]
fn the_page_puts_what_cannot_wait_first() {
    let club = Club::starter();
    club.build();
    let site = club.site();
    for caution in cautions() {
        let name = format!("cautions/{}.html", caution.id.value);
        let page = String::from_utf8(site[&name].clone()).expect("UTF-8").replace("&#39;", "'");
        let article = &page[page.find("<article").expect("an article")..];
        let at = |words: &str| article.find(&format!("{words}</h2>"));
        let order: Vec<usize> =
            ["Get help at once", "What stays", "Change", "Leave out unless cleared"]
                .iter()
                .filter_map(|words| at(words))
                .collect();
        assert!(order.is_sorted() && at("Get help at once").is_some(), "{name}: {order:?}");
        let first = &article[..at("What stays").expect("what stays")];
        for sign in &caution.emergency {
            assert!(first.contains(&format!("<h3>{}</h3>", sign.act)), "{name}: {}", sign.act);
        }
        for row in caution.precautions() {
            let named = row.source.as_ref().expect("a source");
            assert!(article.contains(&format!("sources.html#{}\"", named.value)), "{name}");
        }
    }
}

/// A sign without what to do now helps nobody: the reader says so, at the sign.
#[test]
fn a_sign_without_what_to_do_is_an_error() {
    let page = "```add words/cautions.yaml\n\
        faint: {name: Faint, keeps: All, emergency: [{sign: A blackout}]}\n```";
    let library = Laid::on("tiny", page).read();
    let said: Vec<_> = library.findings.iter().map(|one| one.headline.as_str()).collect();
    assert_eq!(said, ["this emergency sign has no `do`"]);
    assert!(library.words.cautions[&CautionId::from("faint")].emergency.is_empty());
}

/// A sign that calls for help now is not said again as one that only ends the session; a milder one,
/// which an emergency sign speaks of with more words, stays.
#[test]
fn each_sign_is_said_once() {
    let besides = |id: &str| caution(id).stop_besides();
    assert_eq!(besides("high-blood-pressure"), ["Headache", "Dizziness", "Blurred sight"]);
    assert!(caution("high-blood-pressure").stop.iter().any(|sign| sign == "Chest pain"));
    assert_eq!(besides("heart-disease"), ["Palpitations", "Dizziness"]);
    assert_eq!(besides("diabetes-low-sugar"), ["Confusion", "A reading that falls"]);
    let club = Club::starter();
    club.build();
    let page = String::from_utf8(club.site()["cautions/high-blood-pressure.html"].clone());
    let page = page.expect("UTF-8");
    let end = &page[page.find("End the session at these</h2>").expect("a list of signs")..];
    assert!(!end[..end.find("</section>").expect("its end")].contains("Chest pain"));
}

//! The rows of guidelines: from which level on a situation leaves a trait out or changes it.
//! `confirmed` rows were read in the source named beside them, or where it is quoted; what is common
//! practice or from memory says so.

use crate::{caution, cautions};
use rungbook::swap::limits_of_situation;
use std::collections::BTreeMap;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Says {
    LeaveOut,
    Change,
}
use Says::{Change, LeaveOut};

/// A situation, what it says of a trait from which level on, and the source it rests on.
const ROWS: &[(&str, Says, &str, u8, &str)] = &[
    // Canadian guideline 2019 (summary read): change position if unwell on the back.
    ("pregnancy", Change, "supine", 1, "canada-pregnancy-2019"),
    // ACOG opinion 804 and a notice of the body: nothing that could end in a fall or a blow.
    ("pregnancy", LeaveOut, "balance", 2, "acog-804"),
    ("pregnancy", Change, "balance", 1, "acog-804"),
    // Common practice: no big landings, and every landing and pressure in the belly changed.
    ("pregnancy", LeaveOut, "impact", 2, "common-practice"),
    ("pregnancy", Change, "impact", 1, "common-practice"),
    ("pregnancy", Change, "abdominal-pressure", 1, "common-practice"),
    // Goom 2019: no running before three months; all impact is our caution.
    ("after-birth", LeaveOut, "impact", 1, "goom-2019"),
    // Canadian guideline 2025: step by step, led by symptoms.
    ("after-birth", Change, "abdominal-pressure", 1, "canada-postpartum-2025"),
    ("after-birth", LeaveOut, "abdominal-pressure", 2, "common-practice"),
    // American Diabetes Association 2016, Table 5: no breath-holding, training encouraged.
    ("high-blood-pressure", LeaveOut, "breath-hold", 2, "ada-2016"),
    ("high-blood-pressure", Change, "breath-hold", 1, "ada-2016"),
    // Meta-analyses 2023 and 2024: holds below the limit lower resting pressure.
    ("high-blood-pressure", LeaveOut, "maximal-hold", 2, "edwards-2024"),
    ("high-blood-pressure", Change, "maximal-hold", 1, "edwards-2023"),
    // UK consensus 2022 and Too Fit To Fracture 2015: guidance before bans, deep bending left out.
    ("osteoporosis", LeaveOut, "loaded-spinal-flexion", 2, "uk-osteoporosis-2022"),
    ("osteoporosis", Change, "loaded-spinal-flexion", 1, "giangregorio-2015"),
    ("osteoporosis", LeaveOut, "end-range-rotation", 2, "giangregorio-2015"),
    ("osteoporosis", Change, "end-range-rotation", 1, "giangregorio-2015"),
    ("osteoporosis", Change, "impact", 2, "uk-osteoporosis-2022"),
    ("osteoporosis", Change, "balance", 2, "uk-osteoporosis-2022"),
    // Case-control study 2014: raises above 90 degrees, an association.
    ("painful-shoulder", Change, "overhead", 1, "kolber-2014"),
    ("painful-shoulder", LeaveOut, "shoulder-abducted-rotated", 2, "kolber-2014"),
    // Practice article 2010: the arm out and turned back.
    ("unstable-shoulder", LeaveOut, "shoulder-abducted-rotated", 2, "corrao-2010"),
    ("unstable-shoulder", Change, "shoulder-abducted-rotated", 1, "corrao-2010"),
    ("unstable-shoulder", Change, "arm-behind-body", 1, "common-practice"),
    // Rows compared in 2009: the unsupported bent-over row asked most.
    ("low-back", Change, "axial-load", 2, "fenwick-2009"),
    // Powers 2014: least stress behind the kneecap from straight to 45 degrees.
    ("sore-knee", Change, "deep-knee-flexion", 1, "powers-2014"),
    // List of 2003: hard strength training with a large or troublesome hernia.
    ("hernia", LeaveOut, "abdominal-pressure", 2, "willey-singh-2003"),
    ("hernia", LeaveOut, "breath-hold", 2, "willey-singh-2003"),
    // Jasien 2015 (head down, forward folds too) and Vieira 2006 (breath held).
    ("glaucoma", LeaveOut, "head-below-heart", 2, "jasien-2015"),
    ("glaucoma", Change, "head-below-heart", 1, "jasien-2015"),
    ("glaucoma", Change, "breath-hold", 1, "vieira-2006"),
    ("glaucoma", Change, "maximal-hold", 1, "vieira-2006"),
    // Table 4 of a review of 2014.
    ("diabetes-eyes", LeaveOut, "impact", 1, "diabetes-review-2014"),
    ("diabetes-eyes", LeaveOut, "head-below-heart", 1, "diabetes-review-2014"),
    ("diabetes-eyes", LeaveOut, "breath-hold", 2, "diabetes-review-2014"),
    ("diabetes-nerves", Change, "impact", 1, "diabetes-review-2014"),
    ("diabetes-nerves", Change, "balance", 1, "diabetes-review-2014"),
    // World falls guideline 2022; floor and base are our practice.
    ("older-falls", Change, "balance", 1, "world-falls-2022"),
    ("older-falls", Change, "floor-transfer", 1, "common-practice"),
    // BMJ 2021, after covid-19 only.
    ("after-illness", LeaveOut, "breath-hold", 2, "salman-2021"),
    ("after-illness", LeaveOut, "raised-pulse", 2, "salman-2021"),
    // American Heart Association 2007 and 2023, American Diabetes Association 2016.
    ("heart-disease", LeaveOut, "breath-hold", 2, "aha-2007"),
    ("heart-disease", Change, "breath-hold", 1, "aha-2023"),
    ("heart-disease", LeaveOut, "raised-pulse", 2, "ada-2016"),
    // Hospital page 2023: talk and effort, no pulse target.
    ("beta-blockers", Change, "raised-pulse", 2, "mayo-beta-blockers"),
    // AHA/ASA 2014: made for the one person, low to moderate.
    ("stroke", Change, "balance", 1, "billinger-2014"),
    ("stroke", LeaveOut, "breath-hold", 2, "ada-2016"),
    // NICE NG226 2022: tailored exercise for worn joints.
    ("hip-pain", Change, "deep-hip-bend", 1, "nice-ng226"),
    // Hospital guide, Leeds: where rules are given.
    ("hip-replacement", Change, "deep-hip-bend", 1, "hip-precautions-leeds"),
    ("hip-replacement", LeaveOut, "end-range-rotation", 1, "hip-precautions-leeds"),
    // Wylde 2019: kneeling is hard, and no clinical reason against it.
    ("knee-replacement", Change, "kneeling", 1, "wylde-2019"),
    ("knee-replacement", LeaveOut, "impact", 1, "common-practice"),
    // Silbernagel 2020: step by step.
    ("sore-heel-cord", Change, "heel-cord", 2, "silbernagel-2020"),
    // ILAE 2016: what would happen if a seizure came.
    ("epilepsy", LeaveOut, "overhead", 2, "ilae-2016"),
    ("epilepsy", LeaveOut, "balance", 2, "ilae-2016"),
    // Bo & Nygaard 2020: symptoms set the level.
    ("pelvic-floor", Change, "abdominal-pressure", 1, "bo-nygaard-2020"),
    ("pelvic-floor", LeaveOut, "impact", 2, "common-practice"),
    // Surgeons asked in 2022.
    ("recent-surgery", LeaveOut, "abdominal-pressure", 2, "schaaf-2022"),
    // American Academy of Pediatrics 2020 and the consensus of 2014.
    ("young-people", LeaveOut, "breath-hold", 2, "stricker-2020"),
    ("young-people", Change, "axial-load", 2, "lloyd-2014"),
];

#[test]
fn the_rows_are_those_of_the_guidelines() {
    for (id, says, about, from, source) in ROWS {
        let rows = match says {
            LeaveOut => &caution(id).leave_out,
            Change => &caution(id).change,
        };
        let found: Vec<(u8, &str)> = rows
            .iter()
            .filter(|row| row.about.as_str() == *about)
            .filter_map(|row| Some((row.from, row.source.as_ref()?.as_str())))
            .collect();
        assert_eq!(found, [(*from, *source)], "{id} {says:?} {about}");
    }
}

/// Situations in which nobody of whom nothing is known starts in the middle of a ladder, and what that
/// rests on.
const STARTS_LOWEST: &[(&str, &str)] = &[
    ("after-birth", "canada-postpartum-2025"),
    ("after-illness", "salman-2021"),
    ("copd", "common-practice"),
    ("diabetes-eyes", "common-practice"),
    ("heart-disease", "ada-2016"),
    ("hernia", "common-practice"),
    ("high-blood-pressure", "common-practice"),
    ("hip-replacement", "common-practice"),
    ("knee-replacement", "common-practice"),
    ("older-falls", "common-practice"),
    ("osteoporosis", "common-practice"),
    ("pelvic-floor", "common-practice"),
    ("pregnancy", "common-practice"),
    ("recent-surgery", "common-practice"),
    ("stroke", "ada-2016"),
    ("young-people", "stricker-2020"),
];

#[test]
fn these_start_on_the_lowest_rung() {
    let said: Vec<(&str, &str)> = cautions()
        .filter_map(|caution| {
            let start = caution.start.as_ref()?;
            assert!(start.because.is_some(), "{} says no reason", caution.id.value);
            Some((caution.id.as_str(), start.source.as_ref().map_or("", |id| id.as_str())))
        })
        .collect();
    assert_eq!(said, STARTS_LOWEST);
}

/// What a person who ticks the situation avoids, and from which level on: all of it.
fn limits(id: &str) -> BTreeMap<String, u8> {
    let levels = limits_of_situation(caution(id)).levels;
    levels.into_iter().map(|(id, from)| (id.0, from)).collect()
}

fn levels(list: &[(&str, u8)]) -> BTreeMap<String, u8> {
    list.iter().map(|(id, from)| (id.to_string(), *from)).collect()
}

/// Canadian guideline 2019, ACOG 2020, AHA 2023, UK consensus 2022: most strength work stays. What a
/// caution does not name stays as it is, so the whole list is held here, too much as well as too
/// little.
#[test]
fn pregnancy_blood_pressure_bones_and_eyes_leave_out_this_and_no_more() {
    let pregnancy = [
        ("abdominal-pressure", 1),
        ("axial-load", 2),
        ("balance", 1),
        ("breath-hold", 1),
        ("impact", 1),
        ("prone", 2),
        ("raised-pulse", 2),
        ("supine", 1),
    ];
    assert_eq!(limits("pregnancy"), levels(&pregnancy));
    let pressure = [("breath-hold", 1), ("head-below-heart", 2), ("maximal-hold", 1)];
    assert_eq!(limits("high-blood-pressure"), levels(&pressure));
    let bones =
        [("balance", 2), ("end-range-rotation", 1), ("impact", 2), ("loaded-spinal-flexion", 1)];
    assert_eq!(limits("osteoporosis"), levels(&bones));
    let eyes = [("breath-hold", 1), ("head-below-heart", 1), ("maximal-hold", 1)];
    assert_eq!(limits("glaucoma"), levels(&eyes));
    // EASD and ISPAD 2020: diabetes without complications leaves nothing out.
    assert_eq!(limits("diabetes-low-sugar"), levels(&[]));
}

/// Where a caution leaves out a lot of a trait and changes some of it, both are said, and some is
/// less than a lot; no row stands twice.
#[test]
fn a_trait_is_changed_below_where_it_is_left_out() {
    for caution in cautions() {
        for out in &caution.leave_out {
            let about = &out.about.value;
            let twice = caution.leave_out.iter().filter(|row| row.about.value == *about).count();
            assert_eq!(twice, 1, "{}: {about}", caution.id.value);
            let changed = caution.change.iter().filter(|row| row.about.value == *about);
            assert!(
                changed.clone().all(|row| row.from < out.from),
                "{}: {about}",
                caution.id.value
            );
            assert!(changed.count() <= 1, "{}: {about}", caution.id.value);
        }
    }
}

/// The line of 180/110 was read in a table of a review of 2024; the position of 2016, where it was
/// once said to stand, does not have it.
#[test]
fn the_line_for_blood_pressure_is_said_with_its_source() {
    let caution = caution("high-blood-pressure");
    let says = caution.says.as_deref().expect("words");
    assert!(says.starts_with("No strength training while a reading at rest is above 180/110."));
    let lines = caution.emergency.iter().filter(|sign| sign.sign.contains("180/110"));
    let lines: Vec<_> = lines.map(|sign| (&*sign.act, sign.source.as_ref())).collect();
    let read = lines.iter().find(|(act, _)| act.starts_with("Do not train."));
    let (_, source) = read.expect("what to do at such a reading");
    assert_eq!(source.map(|id| id.as_str()), Some("contra-review-2024"));
    let ill = lines.iter().find(|(act, _)| *act == "Ring the emergency number now.");
    assert!(ill.is_some(), "such a reading with symptoms is an emergency");
}

/// NSCA 2019 recommends quick lifting for older people: it is not among what is changed.
#[test]
fn older_members_are_not_told_to_be_slow_for_good() {
    let says = caution("older-falls").says.as_deref().expect("words");
    assert!(says.contains("Quick on the way up"), "{says}");
    assert!(!limits("older-falls").contains_key("raised-pulse"));
}

//! Corrections that are certain, made in the files; everything else is left to its author.

use super::club::Club;

const STRAP: &str = "movements/pull-horizontal/strap-row.md";
const STANDARD: &str = "standard: Arms straight, then hands to ribs.";

/// A file, what is spoilt in it, and what it reads afterwards; with `=` as it was before.
const CERTAIN: &[(&str, &str, &str, &str)] = &[
    (STRAP, STANDARD, "standard Arms straight, then hands to ribs.", "="),
    (STRAP, STANDARD, "standard:Arms straight, then hands to ribs.", "="),
    (STRAP, "pace: 3 s", "pace = 3 s", "="),
    (STRAP, STANDARD, "  standard: Arms straight, then hands to ribs.", "="),
    (
        STRAP,
        STANDARD,
        "standard: Arms straight: then hands",
        "standard: \"Arms straight: then hands\"",
    ),
    (STRAP, STANDARD, "standard: %Arms straight", "standard: \"%Arms straight\""),
    (STRAP, "cues:\n", "cues\n", "="),
    (STRAP, "  lean: {unit", "  lean {unit", "="),
    (STRAP, "  - {say: Elbows", "\t- {say: Elbows", "="),
    (STRAP, "{say: Elbows", "{say:Elbows", "="),
    (STRAP, "pace: 3 s", "pace: 1,5 s", "pace: 1.5 s"),
    (STRAP, "kit: [straps]", "kit: straps", "="),
    (STRAP, "kit: [straps]", "kit: no", "kit: []"),
    (STRAP, "kit: [straps]", "equipment: [straps]", "="),
    (STRAP, "(towel-row)", "(../pull-horizontal/towel-row.md)", "="),
    (
        "ladders/row.yaml",
        "  - {movement: strap-row, lean: 60",
        "    - {movement: strap-row, lean: 60",
        "=",
    ),
    (
        "ladders/row.yaml",
        "  - {movement: strap-row, lean: 60",
        "  -{movement: strap-row, lean: 60",
        "=",
    ),
    (
        "cycles/spring.yaml",
        "focus: [row]",
        "starts: 29.11.2026\nfocus: [row]",
        "starts: 2026-11-29\nfocus: [row]",
    ),
    ("club.yaml", "language: en-GB", "language: Deutsch", "language: de"),
];

/// Mistakes for which more than one correction could be meant.
const UNCERTAIN: &[(&str, &str, &str)] = &[
    (STRAP, STANDARD, "standard: Arms straight # then hands to ribs."),
    (STRAP, STANDARD, "standard: \"Arms straight, then hands to ribs."),
    (STRAP, STANDARD, "standard: Arms straight,\nthen hands to ribs."),
    (STRAP, "pace: 3 s", "pace: 3"),
    (STRAP, "name: Strap row", "nmae: Strap row"),
    (STRAP, "kit: [straps]", "kit: [straps]\nequipment: [towel]"),
    (STRAP, "prime: [lats", "prime: [latissimus"),
    (STRAP, "{say: Elbows to back pockets, when", "{say: Elbows to, back pockets, when"),
    ("ladders/row.yaml", "movement: one-arm-row", "movement: one-arm-rwo"),
    ("ladders/row.yaml", "sources: [common-practice]", "sources: [common-practice"),
];

#[test]
fn what_is_certain_is_mended_and_said() {
    for (file, right, wrong, after) in CERTAIN {
        let club = Club::tiny();
        let good = club.read(file);
        club.spoil(file, right, wrong);
        let (code, _, _) = club.run(&["check", "--quiet"]);
        assert_eq!(code, 1, "{wrong:?} is a mistake");
        let (_, said, why) = club.run(&["check", "--mend", "--quiet"]);
        let wanted = match *after {
            "=" => good,
            after => good.replacen(right, after, 1),
        };
        assert_eq!(club.read(file), wanted, "{wrong:?}\n{said}{why}");
        assert!(said.starts_with(&format!("{file}:")), "{said}");
    }
}

#[test]
fn nothing_is_guessed() {
    for (file, right, wrong) in UNCERTAIN {
        let club = Club::tiny();
        club.spoil(file, right, wrong);
        let before = club.all();
        let (code, said, _) = club.run(&["check", "--mend", "--quiet"]);
        assert_eq!(code, 1, "{wrong:?} is still a mistake\n{said}");
        assert_eq!(club.all(), before, "{wrong:?}");
    }
}

#[test]
fn several_mistakes_of_one_file_are_mended_one_after_the_other() {
    let club = Club::tiny();
    let good = club.read(STRAP);
    club.spoil(STRAP, STANDARD, "standard:Arms straight, then hands to ribs.");
    club.spoil(STRAP, "pace: 3 s", "pace = 3 s");
    club.spoil(STRAP, "kit: [straps]", "equipment: straps");
    let (code, said, why) = club.run(&["check", "--mend", "--quiet"]);
    assert_eq!((code, club.read(STRAP)), (0, good), "{said}{why}");
    // Only the files that are named.
    club.spoil(STRAP, "pace: 3 s", "pace = 3 s");
    let before = club.all();
    club.run(&["check", "--mend", "content/ladders/row.yaml"]);
    assert_eq!(club.all(), before);
    let (code, _, why) = club.run_in("", &["check", "-", "--as", STRAP, "--mend"], "x");
    assert!(code == 2 && why.contains("cannot be mended"), "{why}");
}

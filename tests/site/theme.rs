//! A club's own theme: it changes the look, and brings nothing else into the site.
//! Never trusts a list of names: words that must not be published are looked for in every file.

use super::club::{Club, difference};
use std::fs;

/// A word that stands in everything that must not be published.
const CANARY: &str = "zaunkoenig";
const PAGE: &str = "movements/strap-row.html";

#[test]
fn a_theme_overrides_one_block_without_copying_the_page() {
    let club = Club::starter();
    club.write(
        "ours/templates/movement.html",
        "{% extends \"slate/movement.html\" %}{% block cues %}<p id=\"ours\">{{ cues[0].say }}, said our way</p>{% endblock %}",
    );
    club.write("ours/styles/club.css", "main { max-width: 60rem }\n");
    let said = club.run(&["build", "--theme", "ours"]);
    assert!(said.out.starts_with("site: "), "{}", said.err);
    let main = club.main_part(PAGE);
    assert!(main.contains("Elbows to back pockets, said our way"), "{main}");
    assert!(main.contains("<h2>Faults</h2>"), "the rest of the page stays");
    assert!(!main.contains("<section class=\"cues\">"), "our own block stands in its place");
    assert!(club.at("site/styles/club.css").exists());
    assert!(club.at("site/styles/slate.css").exists());

    club.write("ours/templates/movement.html", "{{ no_such_name }}");
    let said = club.run(&["build", "--theme", "ours"]);
    assert_eq!(said.code, Some(2));
    assert!(said.err.contains("movement.html") && said.err.contains("help:"), "{}", said.err);
    assert!(club.main_part(PAGE).contains("said our way"), "the old site stands");
}

#[test]
fn a_name_that_is_nearly_one_of_ours_is_said() {
    let club = Club::starter();
    club.write("ours/templates/movment.html", "x");
    club.write("ours/styles/club-look.css", "main { max-width: 60rem }\n");
    let said = club.run(&["build", "--theme", "ours"]);
    assert!(
        said.err.contains("`templates/movment.html` stands before no file of ours"),
        "{}",
        said.err
    );
    assert!(said.err.contains("did you mean `templates/movement.html`?"), "{}", said.err);
    assert!(
        !said.err.contains("club-look"),
        "a file of another name is the club's own: {}",
        said.err
    );
}

const LOGO: &str =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 8 8\"><path d=\"M0 0h8v8z\"/></svg>\n";

#[test]
fn a_club_has_its_own_colours_and_logo_on_every_page() {
    let club = Club::starter();
    let said = club.run(&["build"]);
    assert!(said.out.starts_with("site: "), "{}", said.err);
    let plain = club.site();
    assert!(
        !String::from_utf8_lossy(&plain[PAGE]).contains("icon.svg\" alt"),
        "no logo, no picture"
    );
    let text = fs::read_to_string(club.at("content/club.yaml")).expect("the club");
    let colours = "logo: our-logo.svg\ncolours: {light: \"#1f4e79\", dark: \"#8ab4e8\"}\n";
    club.write("content/club.yaml", format!("{text}{colours}"));
    club.write("content/our-logo.svg", LOGO);
    let said = club.run(&["build"]);
    assert!(said.out.starts_with("site: "), "{}", said.err);
    let site = club.site();
    assert_eq!(String::from_utf8_lossy(&site["icon.svg"]), LOGO);
    let style = String::from_utf8_lossy(&site["styles/slate.css"]).into_owned();
    let own = style
        .strip_prefix(&*String::from_utf8_lossy(&plain["styles/slate.css"]))
        .expect("ours first");
    assert!(
        own.contains("--accent: #1f4e79; --on-accent: #fffdf8; --chalk-accent: #8ab4e8"),
        "{own}"
    );
    assert!(own.contains(
        "(prefers-color-scheme: dark) { :root { --accent: #8ab4e8; --on-accent: #1b2126"
    ));
    let page = String::from_utf8_lossy(&site[PAGE]).into_owned();
    assert!(
        page.contains("<img src=\"../icon.svg\" alt=\"\" width=\"36\" height=\"36\">"),
        "{page}"
    );
    // The grounds that contrast is reckoned against are those of the page.
    for ground in rungbook::library::colour::LIGHT_GROUNDS
        .iter()
        .chain(&rungbook::library::colour::DARK_GROUNDS)
    {
        assert!(style.contains(&ground.to_string()), "{ground} is a ground of the page");
    }
    club.write("content/our-logo.svg", LOGO.replace("<path", "<script>1</script><path"));
    let said = club.run(&["build"]);
    assert_eq!(said.code, Some(1), "{}", said.err);
    assert!(said.err.contains("logo-refused"), "{}", said.err);
    assert_eq!(club.site(), site, "the old site stands");
}

/// Names of files of the site that hold the canary or are called by it.
fn canaries(club: &Club) -> Vec<String> {
    let site = club.site();
    assert!(site.len() > 30, "{} files", site.len());
    let told = site.into_iter().filter(|(name, bytes)| {
        name.contains(CANARY) || String::from_utf8_lossy(bytes).contains(CANARY)
    });
    told.map(|(name, _)| name).collect()
}

#[test]
fn a_theme_that_holds_a_roster_or_the_library_is_refused() {
    let roster = format!("{CANARY}:\n  limits: {{impact: 1}}\n");
    for (theme, holds) in [
        (".", "roster.yaml"),
        (".", "Roster.YML"),
        ("ours", "ours/roster.yaml"),
        ("ours", "ours/styles/roster.yaml"),
        ("ours", "ours/scripts/deep/roster.yaml"),
        ("content", "notes.txt"),
        (".", "notes.txt"),
    ] {
        let club = Club::tiny();
        club.build();
        let before = club.site();
        club.write("ours/styles/club.css", "main { max-width: 60rem }\n");
        club.write(holds, &roster);
        let said = club.run(&["build", "--theme", theme]);
        assert_eq!(said.code, Some(2), "{theme}, {holds}: {}{}", said.out, said.err);
        let what = if holds == "notes.txt" { "holds the library" } else { "holds a roster" };
        assert!(said.err.contains(what), "{theme}, {holds}: {}", said.err);
        assert!(said.err.contains("help: give the theme a folder of its own"), "{}", said.err);
        assert_eq!(difference(&before, &club.site()), None, "{theme}, {holds}");
    }
    // A library by another name, one folder down.
    let club = Club::tiny();
    fs::rename(club.at("content"), club.at("our-words")).expect("renamed");
    let said = club.run(&["build", "--library", "our-words", "--theme", "."]);
    assert_eq!(said.code, Some(2));
    assert!(said.err.contains("holds the library"), "{}", said.err);
}

/// What lies about in a coach's folders.
const LYING_ABOUT: [&str; 16] = [
    "notes.txt",
    "zaunkoenig.html",
    ".env",
    ".git/config",
    ".git/hooks.css",
    "people/zaunkoenig.css",
    "styles/.club.css",
    "styles/.club.css.swp",
    "styles/club.css~",
    "styles/club.css.bak",
    "styles/people.yaml",
    "styles/people.html",
    "styles/.hidden/club.css",
    "scripts/people.json",
    "images/people.csv",
    "templates/people.txt",
];

/// What a theme is for.
const ADMITTED: [&str; 8] = [
    "templates/words.html",
    "styles/club.css",
    "styles/print/club.css",
    "scripts/club.js",
    "images/hall.svg",
    "images/hall.webp",
    "fonts/hall.woff2",
    "icon.svg",
];

fn theme_with_everything(club: &Club) {
    LYING_ABOUT.iter().for_each(|name| club.write(&format!("ours/{name}"), CANARY));
    ADMITTED.iter().for_each(|name| club.write(&format!("ours/{name}"), "/* ours */"));
}

#[test]
fn a_theme_brings_only_kinds_of_files_that_a_look_is_made_of() {
    let club = Club::tiny();
    theme_with_everything(&club);
    let said = club.run(&["build", "--theme", "ours"]);
    assert!(said.out.starts_with("site: "), "{}", said.err);
    assert_eq!(canaries(&club), Vec::<String>::new());
    for name in ADMITTED.iter().filter(|name| !name.starts_with("templates/")) {
        assert_eq!(club.read(&format!("site/{name}")), "/* ours */", "{name}");
    }
    // What is left out is said, hidden things apart.
    for name in ["`notes.txt`", "`people`", "`styles/club.css~`", "`scripts/people.json`"] {
        assert!(said.err.contains(name), "{name}: {}", said.err);
    }
    assert!(!said.err.contains(".env") && !said.err.contains(".git"), "{}", said.err);
}

#[cfg(unix)]
#[test]
fn a_link_in_a_theme_leads_nowhere() {
    use std::os::unix::fs::symlink;
    let club = Club::tiny();
    club.write("people/roster.css", CANARY);
    club.write("ours/styles/club.css", "/* ours */");
    symlink("../../people/roster.css", club.at("ours/styles/linked.css")).expect("a link");
    symlink("../people", club.at("ours/images")).expect("a link");
    symlink("../people", club.at("ours/scripts")).expect("a link");
    let said = club.run(&["build", "--theme", "ours"]);
    assert!(said.out.starts_with("site: "), "{}", said.err);
    assert!(said.err.contains("`styles/linked.css`"), "{}", said.err);
    assert_eq!(canaries(&club), Vec::<String>::new());
}

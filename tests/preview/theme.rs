//! A club's own theme in a preview: followed like the library, and nothing of it is shown that a site
//! would not carry.

use super::running::Place;
use super::{FREE, PAGE};

#[test]
fn a_theme_is_followed_and_a_broken_template_keeps_the_pages() {
    let place = Place::with_starter();
    let template = "theme/templates/movement.html";
    place.save("theme/styles/own.css", "p { margin: 0 }");
    let preview = place.preview(&[&FREE[..], &["--theme", "theme"]].concat());
    let mut events = preview.events();
    let first = events.next();
    assert_eq!(preview.get("/styles/own.css").body, "p { margin: 0 }");

    let own = "{% extends \"slate/movement.html\" %}{% block main %}Our own words{% endblock %}";
    place.save(template, own);
    let news = events.until(|news| news.pages > first.pages);
    assert!(preview.get(PAGE).body.contains("Our own words"));

    for broken in ["{% if %}", "{{ no_such_name }}"] {
        place.save(template, broken);
        let said = events.until(|news| news.summary.starts_with("The theme cannot be used"));
        assert_eq!(said.pages, news.pages);
        assert!(said.pressing && said.findings.starts_with("error: "), "{}", said.findings);
        assert!(said.findings.contains("movement.html"), "{}", said.findings);
        assert!(preview.get(PAGE).body.contains("Our own words"));
        place.save(template, own);
        assert_eq!(events.until(|news| news.build > said.build).findings, first.findings);
    }
}

#[test]
fn a_theme_that_holds_a_roster_is_not_shown() {
    let roster = "zaunkoenig:\n  limits: {impact: 1}\n";
    let place = Place::with_starter();
    place.save("roster.yaml", roster);
    place.save("ours/styles/own.css", "p { margin: 0 }");
    place.save("ours/notes.txt", roster);
    let preview = place.preview(&[&FREE[..], &["--theme", "."]].concat());
    let news = preview.events().next();
    assert!(news.summary.starts_with("The theme cannot be used"), "{}", news.summary);
    assert!(news.findings.contains("give the theme a folder of its own"), "{}", news.findings);
    for path in ["/roster.yaml", "/ours/notes.txt", "/content/club.yaml", "/"] {
        let answer = preview.get(path);
        assert_ne!(answer.status, 200, "{path}");
        assert!(!answer.body.contains("zaunkoenig"), "{path}");
    }
    drop(preview);

    // A theme that becomes one while it is followed keeps the last good pages.
    let preview = place.preview(&[&FREE[..], &["--theme", "ours"]].concat());
    let mut events = preview.events();
    let first = events.next();
    assert_eq!(preview.get("/styles/own.css").status, 200);
    assert_eq!(preview.get("/notes.txt").status, 404);
    place.save("ours/styles/roster.yaml", roster);
    let said = events.until(|news| news.summary.starts_with("The theme cannot be used"));
    assert_eq!(said.pages, first.pages);
    assert_eq!(preview.get("/styles/roster.yaml").status, 404);
}

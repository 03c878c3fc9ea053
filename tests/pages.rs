//! What every page of the starter library's site must have, page by page.
//! Never a look at templates: the finished files are read by a tokenizer.

#[path = "site/club.rs"]
mod club;
#[path = "site/page.rs"]
mod page;

use club::Club;
use page::{Page, resolve};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

/// The site, built once for all tests of this file.
static SITE: LazyLock<club::Tree> = LazyLock::new(|| {
    let club = Club::starter();
    club.build();
    club.site()
});

fn text(name: &str) -> String {
    String::from_utf8(SITE[name].clone()).expect("UTF-8")
}

fn pages() -> BTreeMap<String, Page> {
    let names = SITE.keys().filter(|name| name.ends_with(".html"));
    names.map(|name| (name.clone(), page::read(&text(name)))).collect()
}

/// Fails with every complaint at once.
fn none(complaints: Vec<String>) {
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

/// Links that lead nowhere, from every page to files and places on pages.
fn broken(pages: &BTreeMap<String, Page>, is_file: impl Fn(&str) -> bool) -> Vec<String> {
    let mut broken = Vec::new();
    for (name, page) in pages {
        for address in &page.addresses {
            let Some((file, place)) = resolve(name, &address.value) else { continue };
            // `#week/<cycle>/<number>` is read by the page's script, from the file of that cycle's weeks.
            let week = |place: &String| {
                let cycle = place.strip_prefix("week/").and_then(|rest| rest.split('/').next());
                cycle.is_some_and(|cycle| is_file(&format!("data/weeks-{cycle}.js")))
            };
            let place_is_there = |place: &String| {
                place.is_empty()
                    || week(place)
                    || pages.get(&file).is_some_and(|page| page.ids.contains(place))
            };
            if !is_file(&file) || !place.as_ref().is_none_or(place_is_there) {
                broken.push(format!("{name}: {}", address.value));
            }
        }
    }
    broken
}

#[test]
fn every_link_leads_to_a_file_and_a_place_on_it() {
    none(broken(&pages(), |file| SITE.contains_key(file)));
    let bad = r##"<a href="gone.html"></a><a href="#nowhere"></a><a id="a" href="#a"></a>"##;
    let bad = BTreeMap::from([("kit/x.html".to_string(), page::read(bad))]);
    assert_eq!(broken(&bad, |file| file == "kit/x.html").len(), 2);
}

#[test]
fn addresses_resolve_as_a_browser_resolves_them() {
    // RFC 3986, section 5.4: `../g`, `g#s`, `#s`, and a scheme of its own.
    let file = |from, address| resolve(from, address).map(|(file, _)| file);
    assert_eq!(file("b/c.html", "../g.html"), Some("g.html".into()));
    assert_eq!(file("b/c.html", "g.html#s"), Some("b/g.html".into()));
    assert_eq!(file("b/c.html", "#s"), Some("b/c.html".into()));
    assert_eq!(file("b/c.html", "../../g.html"), None);
    assert_eq!(file("b/c.html", "https://g/"), None);
}

#[test]
fn no_page_refers_to_another_host() {
    let complaints = |name: &str, page: &Page| -> Vec<String> {
        let foreign = page.addresses.iter().filter(|address| {
            let is_canonical = address.element == "link" && address.rel == "canonical";
            !is_canonical && resolve(name, &address.value).is_none()
        });
        foreign.map(|address| format!("{name}: {}", address.value)).collect()
    };
    none(pages().iter().flat_map(|(name, page)| complaints(name, page)).collect());
    let bad = page::read(r#"<script src="//cdn.example/x.js"></script><a href="/x">x</a>"#);
    assert_eq!(complaints("index.html", &bad).len(), 1);
}

#[test]
fn scripts_and_styles_name_no_other_host() {
    let ours = SITE.keys().filter(|name| name.ends_with(".js") || name.ends_with(".css"));
    let complaints = ours.filter(|name| {
        // The name of SVG's namespace is a name: nothing is asked there.
        let text = text(name).replace("http://www.w3.org/2000/svg", "");
        text.contains("http://") || text.contains("https://")
    });
    none(complaints.cloned().collect());
}

#[test]
fn every_page_has_one_heading_one_title_of_its_own_and_a_language() {
    let pages = pages();
    let mut titles: BTreeMap<&str, &str> = BTreeMap::new();
    let mut complaints = Vec::new();
    for (name, page) in &pages {
        if page.first_headings != 1 {
            complaints.push(format!("{name}: {} first headings", page.first_headings));
        }
        if page.lang != "en-GB" {
            complaints.push(format!("{name}: language {:?}", page.lang));
        }
        if let Some(other) = titles.insert(&page.title, name) {
            complaints.push(format!("{name} and {other}: title {:?}", page.title));
        }
        complaints.extend(page.twice.iter().map(|id| format!("{name}: id `{id}` stands twice")));
    }
    none(complaints);
    assert!(pages.len() > 100 && titles.keys().all(|title| title.contains("Thornmere Hall")));
}

/// Folders and pages that tell someone to move.
fn tells_to_move(name: &str) -> bool {
    let folders =
        ["movements/", "ladders/", "sessions/", "cycles/", "patterns/", "cautions/", "kit/"];
    let doors = ["index.html", "floor.html", "home.html", "learning.html", "kit-and-limits.html"];
    folders.iter().any(|folder| name.starts_with(folder)) || doors.contains(&name)
}

#[test]
fn who_is_told_to_move_reads_the_caution_line_and_the_stop_signs() {
    let club = Club::starter().read("content/club.yaml");
    let line = value(&club, "caution-line: ");
    let signs = club.lines().skip_while(|line| *line != "stop-signs:").skip(1);
    let signs: Vec<&str> = signs.map_while(|line| line.strip_prefix("  - ")).collect();
    assert!(line.len() > 40 && signs.len() >= 7, "{line} {signs:?}");
    let lacks = |page: &Page| -> Vec<String> {
        let wanted = std::iter::once(line.as_str()).chain(signs.iter().copied());
        wanted.filter(|words| !page.words.contains(words)).map(str::to_string).collect()
    };
    let moving: Vec<(String, Page)> =
        pages().into_iter().filter(|(name, _)| tells_to_move(name)).collect();
    assert!(moving.len() > 100);
    none(
        moving
            .iter()
            .flat_map(|(name, page)| lacks(page).into_iter().map(move |w| format!("{name}: {w}")))
            .collect(),
    );
    assert_eq!(lacks(&page::read("<p>Move!</p>")).len(), signs.len() + 1);
}

/// The value of a key on one line of YAML.
fn value(yaml: &str, key: &str) -> String {
    let line = yaml.lines().find_map(|line| line.strip_prefix(key));
    line.unwrap_or_else(|| panic!("no {key}")).trim_matches('"').to_string()
}

#[test]
fn no_address_carries_a_question_or_a_person() {
    let addresses = pages().into_values().flat_map(|page| page.addresses);
    let asking = addresses.filter(|address| address.value.contains('?'));
    none(asking.map(|address| address.value).collect());
}

/// The rules of sitemaps.org, protocol 0.9 ("XML tag definitions", "Entity escaping", "Sitemap file
/// location"): one `urlset` in the namespace, at most 50,000 addresses and 50 MB, each address
/// escaped, under 2,048 characters, and on the host and path of the sitemap itself.
fn against_sitemaps_org(sitemap: &str, base: &str) -> Vec<String> {
    let mut complaints = Vec::new();
    let mut must = |holds: bool, words: String| {
        if !holds {
            complaints.push(words);
        }
    };
    let head = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>";
    must(sitemap.starts_with(head), "does not open as UTF-8 XML".into());
    let root = "<urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">";
    must(sitemap.matches(root).count() == 1, "no single urlset in its namespace".into());
    must(sitemap.trim_end().ends_with("</urlset>"), "does not end with </urlset>".into());
    must(sitemap.len() <= 50 * 1024 * 1024, "over 50 MB".into());
    let locations = locations(sitemap);
    must(locations.len() <= 50_000, "over 50,000 addresses".into());
    must(sitemap.matches("<url>").count() == locations.len(), "a url without one loc".into());
    for location in &locations {
        must(location.starts_with(base), format!("{location}: not below {base}"));
        must(location.len() < 2_048, format!("{location}: too long"));
        let bare = location.replace("&amp;", "").replace("&apos;", "").replace("&quot;", "");
        must(!bare.contains(['&', '\'', '"', '<', '>', ' ']), format!("{location}: not escaped"));
        must(location.is_ascii(), format!("{location}: not escaped for an address"));
    }
    let different: BTreeSet<_> = locations.iter().collect();
    must(different.len() == locations.len(), "an address stands twice".into());
    complaints
}

fn locations(sitemap: &str) -> Vec<String> {
    let parts = sitemap.split("<loc>").skip(1);
    parts.filter_map(|part| Some(part.split_once("</loc>")?.0.to_string())).collect()
}

#[test]
fn the_sitemap_keeps_the_rules_and_names_every_page() {
    let sitemap = text("sitemap.xml");
    let club = Club::starter().read("content/club.yaml");
    let base = value(&club, "address: ");
    none(against_sitemaps_org(&sitemap, &base));
    let named: BTreeSet<String> =
        locations(&sitemap).iter().map(|l| l.trim_start_matches(&base).to_string()).collect();
    let pages: BTreeSet<String> = pages().into_keys().filter(|name| name != "404.html").collect();
    assert_eq!(named, pages);
    let bad = sitemap.replacen(&base, "https://other.example/a b/", 1);
    assert_eq!(against_sitemaps_org(&bad, &base).len(), 2, "another host, and a space");
}

#[test]
fn a_missing_page_leads_home_from_any_address() {
    let page = page::read(&text("404.html"));
    let relative =
        page.addresses.iter().filter(|a| !a.value.starts_with('/') && a.rel != "canonical");
    let relative: Vec<_> = relative.filter(|a| !a.value.starts_with('#')).collect();
    assert!(relative.is_empty(), "{relative:?}");
}

#[test]
fn a_session_is_whole_before_any_script_runs() {
    let words = |name: &str| page::read(&text(name)).words;
    let push = words("sessions/push-and-pull.html");
    let wanted = [
        "fits its 60 min",
        "two rungs below your own",
        "Kit: low bar",
        "straps 45 deg",
        "Elbows to back pockets",
        "a set takes 0:12 to 0:30, 6 fit the window",
        "6 to 2, one fewer each round",
    ];
    none(wanted.iter().filter(|part| !push.contains(*part)).map(|part| part.to_string()).collect());
    assert!(words("sessions/legs-and-trunk.html").contains("expect 3-5 rounds"));
    // A rung that does a dose of its own says it.
    assert!(push.contains("4 x 4-8"), "the last row does its own dose");
    assert!(!text("sessions/push-and-pull.html").contains("does not fit"));
}

/// What a ladder's page tells machines: every rung with its own address, which leads to that rung.
#[test]
fn a_ladders_rungs_have_addresses_for_machines() {
    let base = value(&Club::starter().read("content/club.yaml"), "address: ");
    let pages = pages();
    let mut rungs = 0;
    for (name, page) in pages.iter().filter(|(name, _)| name.starts_with("ladders/")) {
        let text = text(name);
        let Some((_, facts)) = text.split_once("application/ld+json\">") else { continue };
        let facts = facts.split_once("</script>").expect("an end").0;
        let facts: serde_json::Value = serde_json::from_str(facts).expect("JSON");
        for item in facts["itemListElement"].as_array().expect("rungs") {
            let url = item["url"].as_str().unwrap_or_else(|| panic!("{name}: {item}"));
            let (file, place) = url[base.len()..].split_once('#').expect("a place");
            assert!(url.starts_with(&base) && file == name, "{url}");
            assert!(page.ids.contains(place), "{url}");
            rungs += 1;
        }
    }
    assert!(rungs > 100, "{rungs}");
}

/// What a band pulls, its band of doubt and how far it is stretched stand on the ladder's page and on the
/// movement's as the gym has them, which commands print (`tests/placing/stretch.rs`).
#[test]
fn a_pull_is_one_number_on_every_page() {
    use rungbook::gym::Gym;
    use rungbook::gym::heights::asked;
    use rungbook::gym::scale::Axis;
    use rungbook::library::reader;
    use rungbook::mechanics::solve::Person;
    use rungbook::placing::set_up::set_up_words;
    let content = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let gym = Gym::open(reader::read(&content).expect("the starter library"));
    let ladder = &gym.library.ladders[&"home-pulldown".into()];
    let page = text("ladders/home-pulldown.html");
    let mut compared = 0;
    for (rung, read) in ladder.rungs.iter().zip(gym.readings(ladder)) {
        let Ok(read) = read else { continue };
        let (pull, band) = (Axis::Pulled.shown(read.value), Axis::Pulled.band_shown(read.band));
        let words = format!("about {pull}, give or take {band}");
        assert!(page.contains(&words), "{words}");
        assert!(page.contains(&set_up_words(&gym, rung, None).expect("a stretch")));
        compared += 1;
    }
    assert_eq!(compared, 2);
    let movement = &gym.library.movements[&"straight-arm-pulldown".into()];
    let read = asked(movement, &[], &Person::default()).expect("a pull");
    let page = text("movements/straight-arm-pulldown.html");
    let about = format!("About {} of pull on both hands together", Axis::Pulled.shown(read.value));
    let band = format!("give or take {}", Axis::Pulled.band_shown(read.band));
    assert!(page.contains(&about) && page.contains(&band), "{about}, {band}");
}

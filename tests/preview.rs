//! Stories of a preview: the real command, real files, real requests.
//! Numbers of builds and words on pages decide; times are printed, never judged.

#[allow(dead_code)]
#[path = "preview/running.rs"]
mod running;
#[path = "preview/theme.rs"]
mod theme;

use running::{Place, copy};
use std::fs;
use std::io::Read;
use std::net::TcpStream;
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

const FREE: [&str; 2] = ["--port", "0"];
const ENTRY: &str = "content/movements/mobility/cat-camel.md";
const PAGE: &str = "/movements/cat-camel.html";
/// YAML that no reader can make sense of, whatever the rules are.
const BROKEN: &str = "---\nname: [never closed\n---\n";

#[test]
fn a_save_reaches_open_pages() {
    let place = Place::with_starter();
    let preview = place.preview(&FREE);
    let mut events = preview.events();
    let first = events.next();
    assert_eq!((first.build, first.pages), (1, 1));
    assert_eq!(preview.get(PAGE).pages(), 1);

    let before = place.read(ENTRY);
    let saved = Instant::now();
    place.save(ENTRY, &format!("{before}\nA word of its own: quartz.\n"));
    let news = events.until(|news| news.pages > 1);
    let page = preview.get(PAGE);
    println!("from a save to the new page: {} ms", saved.elapsed().as_millis());
    assert_eq!(news.pages, news.build);
    assert_eq!(page.pages(), news.pages);
    assert!(page.body.contains("A word of its own: quartz."));

    // A page that comes later, or comes back, hears at once where things stand.
    assert_eq!(preview.events().next().build, news.build);
}

#[test]
fn a_broken_save_keeps_the_last_good_pages_until_it_is_mended() {
    let place = Place::with_starter();
    let preview = place.preview(&FREE);
    let mut events = preview.events();
    let at_first = events.next();
    let good = place.read(ENTRY);
    let page_before = preview.get(PAGE).body;

    place.save(ENTRY, BROKEN);
    let broken = events.until(|news| news.findings != at_first.findings);
    assert_eq!(broken.pages, 1, "the pages are still those of the first build");
    assert!(broken.build > broken.pages && broken.pressing);
    assert!(broken.findings.contains("error: ["), "{}", broken.findings);
    assert!(broken.findings.contains("cat-camel.md:2:"), "{}", broken.findings);
    assert!(broken.summary.contains("last good pages"), "{}", broken.summary);
    let kept = preview.get(PAGE);
    let main = |html: &str| {
        html.split("<main").nth(1).map(|rest| rest.split("</main>").next().map(str::to_string))
    };
    assert_eq!(kept.status, 200);
    assert!(main(&kept.body).is_some());
    assert_eq!(main(&kept.body), main(&page_before));

    place.save(ENTRY, &good);
    let mended = events.until(|news| news.build > broken.build);
    assert_eq!(mended.findings, at_first.findings);
    assert_eq!(mended.pages, 1, "the same files give the same pages, and nothing reloads");
}

#[test]
fn a_preview_starts_on_broken_content_and_shows_what_to_mend() {
    let place = Place::with_starter();
    let good = place.read(ENTRY);
    place.save(ENTRY, BROKEN);
    let preview = place.preview(&FREE);
    let page = preview.get("/");
    assert_eq!(page.status, 503);
    assert_eq!(page.pages(), 0);
    assert!(page.body.contains("No pages yet") && page.body.contains("cat-camel.md:2:"));
    assert!(page.body.contains("src=\"/preview/preview.js\""));

    let mut events = preview.events();
    assert_eq!(events.next().pages, 0);
    place.save(ENTRY, &good);
    let news = events.until(|news| news.pages > 0);
    assert_eq!(preview.get("/").pages(), news.pages);
    assert_eq!(preview.get(PAGE).status, 200);
}

#[test]
fn a_preview_starts_on_an_empty_folder_and_follows_what_is_put_in() {
    let place = Place::empty();
    let preview = place.preview(&FREE);
    assert!(preview.get("/").body.contains("/preview/preview.js"));
    let mut events = preview.events();
    let empty = events.next();
    let filled = Place::with_starter();
    copy(&filled.path("content"), &place.path("content"));
    events.until(|news| news.pages > empty.pages && preview.get(PAGE).status == 200);
}

#[test]
fn twenty_quick_saves_end_with_the_last_one() {
    let place = Place::with_starter();
    let preview = place.preview(&FREE);
    let mut events = preview.events();
    events.next();
    let before = place.read(ENTRY);
    for number in 1..=20 {
        place.save(ENTRY, &format!("{before}\nSaved {number} of 20.\n"));
        thread::sleep(Duration::from_millis(15));
    }
    let mut last = 1;
    events.until(|news| {
        assert!(news.build > last, "numbers only rise");
        last = news.build;
        preview.get(PAGE).body.contains("Saved 20 of 20.")
    });
    let page = preview.get(PAGE);
    assert!(page.body.contains("Saved 20 of 20.") && page.pages() > 1);
}

/// As careful editors save: a new file beside the old one, then one step.
fn save_by_renaming(place: &Place, text: &str) {
    let half_written = format!("{ENTRY}.tmp");
    place.save(&half_written, text);
    fs::rename(place.path(&half_written), place.path(ENTRY)).expect("a rename");
}

#[test]
fn saves_by_renaming_count_and_passing_files_do_not() {
    let place = Place::with_starter();
    let preview = place.preview(&FREE);
    let mut events = preview.events();
    events.next();
    let before = place.read(ENTRY);
    let passing = ["cat-camel.md~", ".cat-camel.md.swp", "#cat-camel.md#", "4913", "cat-camel.bak"];
    let passing = passing.map(|name| format!("content/movements/mobility/{name}"));
    passing.iter().for_each(|name| place.save(name, "half an entry"));
    // Time for a build that should not come; without it one could hide in the next batch.
    let a_while = Duration::from_millis(500);
    thread::sleep(a_while);
    for name in &passing {
        fs::remove_file(place.path(name)).expect("it goes again");
    }
    // The same text again is no news either.
    save_by_renaming(&place, &before);
    thread::sleep(a_while);
    save_by_renaming(&place, &format!("{before}\nCame by a rename.\n"));
    let news = events.next();
    assert_eq!((news.build, news.pages), (2, 2), "nothing before it was a build");
    assert!(preview.get(PAGE).body.contains("Came by a rename."));
}

#[test]
fn a_library_that_goes_and_comes_back_is_followed() {
    let place = Place::with_starter();
    let preview = place.preview(&FREE);
    let mut events = preview.events();
    events.next();
    let before = place.read(ENTRY);
    fs::rename(place.path("content"), place.path("away")).expect("a rename");
    let gone = events.until(|news| news.findings.contains("there is no library folder"));
    assert_eq!(gone.pages, 1);
    assert_eq!(preview.get(PAGE).status, 200);

    copy(&place.path("away"), &place.path("content"));
    let back = events.until(|news| !news.pressing || !news.summary.contains("last good pages"));
    assert!(back.build > gone.build);
    // The folder is another one now; saves in it count all the same.
    place.save(ENTRY, &format!("{before}\nWritten after the return.\n"));
    events.until(|_| preview.get(PAGE).body.contains("Written after the return."));

    // Removed and made again in one go.
    fs::remove_dir_all(place.path("content")).expect("it goes");
    copy(&place.path("away"), &place.path("content"));
    events.until(|_| !preview.get(PAGE).body.contains("Written after the return."));
    place.save(ENTRY, &format!("{before}\nAnd after the second.\n"));
    events.until(|_| preview.get(PAGE).body.contains("And after the second."));
}

#[test]
fn strangers_are_turned_away() {
    let place = Place::with_starter();
    let preview = place.preview(&FREE);
    let ours = format!("Host: {}", preview.host());
    let port = preview.port;
    let local = format!("Host: localhost:{port}");
    let own_origin = format!("Origin: http://127.0.0.1:{port}");
    let other_port = format!("Origin: http://127.0.0.1:{}", port ^ 1);
    let secure = format!("Origin: https://127.0.0.1:{port}");
    let renamed = format!("Host: rebound.example:{port}");
    let spread = format!("Host: 127.0.0.1.rebound.example:{port}");
    let asked: [(&[&str], u16); 11] = [
        (&[&ours], 200),
        (&[&local], 200),
        (&[&ours, &own_origin], 200),
        (&[&renamed], 403),
        (&[&spread], 403),
        (&["Host: 127.0.0.1"], 403),
        (&[], 403),
        (&[&ours, &renamed], 403),
        (&[&ours, &other_port], 403),
        (&[&ours, &secure], 403),
        (&[&ours, "Origin: null"], 403),
    ];
    for (headers, status) in asked {
        let answer = preview.ask("/", headers);
        assert_eq!(answer.status, status, "{headers:?}");
        assert_eq!(answer.body.contains("/preview/preview.js"), status == 200, "{headers:?}");
        assert_eq!(answer.header("cache-control"), Some("no-store"));
        assert_eq!(answer.header("cross-origin-resource-policy"), Some("same-origin"));
        assert_eq!(answer.header("access-control-allow-origin"), None);
    }
    assert_eq!(preview.ask("/preview/events", &[&renamed]).status, 403);
    assert_eq!(preview.ask("/preview/events", &[&ours, "Origin: null"]).status, 403);
}

#[test]
fn only_this_machine_is_listened_to() {
    let place = Place::with_starter();
    let preview = place.preview(&FREE);
    assert_eq!(preview.get("/").status, 200);
    // Linux answers on all of 127.0.0.0/8 (RFC 1122, section 3.2.1.3): a server open to every
    // address would answer here too.
    let elsewhere = TcpStream::connect(("127.0.0.2", preview.port));
    assert!(elsewhere.is_err(), "the preview listens on more than 127.0.0.1");
}

#[test]
fn only_files_of_the_site_exist() {
    let place = Place::with_starter();
    place.save("secret.txt", "not for pages");
    let preview = place.preview(&FREE);
    let outside = [
        "/../secret.txt",
        "/%2e%2e/secret.txt",
        "/movements/..%2f..%2fsecret.txt",
        "/movements/../../secret.txt",
        "//secret.txt",
        "/..%5csecret.txt",
        "/secret.txt%00.html",
        "/content/club.yaml",
        "/club.yaml",
        "/%ff",
    ];
    for path in outside {
        let answer = preview.get(path);
        assert!(matches!(answer.status, 400 | 404), "{path}: {}", answer.status);
        assert!(!answer.body.contains("not for pages"), "{path}");
    }
    let missing = preview.get("/movements/no-such-movement.html");
    assert_eq!(missing.status, 404);
    assert!(missing.body.contains("href=\"/index.html\""), "its links start at the front");
    let made: Vec<_> = fs::read_dir(place.path("")).expect("the folder").flatten().collect();
    assert_eq!(made.len(), 2, "content and secret.txt: a preview writes nothing");
}

#[test]
fn everything_comes_as_what_it_is() {
    let place = Place::with_starter();
    let preview = place.preview(&FREE);
    // Media types: IANA's list; JavaScript: RFC 9239; web manifest: W3C Application Manifest.
    let kinds = [
        ("/", "text/html; charset=utf-8"),
        ("/movements/", "text/html; charset=utf-8"),
        (PAGE, "text/html; charset=utf-8"),
        ("/styles/slate.css", "text/css; charset=utf-8"),
        ("/scripts/search.js", "text/javascript; charset=utf-8"),
        ("/icon.svg", "image/svg+xml"),
        ("/site.webmanifest", "application/manifest+json"),
        ("/sitemap.xml", "application/xml"),
        ("/preview/preview.js", "text/javascript; charset=utf-8"),
        ("/preview/preview.css", "text/css; charset=utf-8"),
        ("/preview/events", "text/event-stream"),
    ];
    for (path, kind) in kinds {
        let (status, found) = if path == "/preview/events" {
            let mut stream = preview.events();
            stream.head()
        } else {
            let answer = preview.get(path);
            (answer.status, answer.header("content-type").unwrap_or_default().to_string())
        };
        assert_eq!((status, found.as_str()), (200, kind), "{path}");
    }
    // The worker of a built site would go on showing what it kept.
    let worker = preview.get("/offline-worker.js").body;
    assert!(worker.contains("registration.unregister()") && !worker.contains("addAll"));
}

#[test]
fn a_taken_port_is_said() {
    let place = Place::empty();
    let taken = place.preview(&FREE);
    let output = Command::new(env!("CARGO_BIN_EXE_rungbook"))
        .args(["preview", "--open", "no", "--port", &taken.port.to_string()])
        .current_dir(place.path(""))
        .output()
        .expect("the command runs");
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains(&format!("port {} is taken", taken.port)), "{said}");

    // Whoever holds the usual port, the second preview gets another and says so.
    let _usual = std::net::TcpListener::bind(("127.0.0.1", 7864));
    let other = place.preview(&[]);
    assert_ne!(other.port, 7864);
    assert_ne!(other.get("/").status, 403);
}

#[test]
fn a_missing_folder_is_a_sentence() {
    let place = Place::empty();
    for (arguments, said) in [
        (["--library", "contents"], "there is no library folder `contents`"),
        (["--theme", "themes"], "there is no theme folder `themes`"),
    ] {
        let output = Command::new(env!("CARGO_BIN_EXE_rungbook"))
            .args(["preview", "--open", "no", "--port", "0"])
            .args(arguments)
            .current_dir(place.path(""))
            .output()
            .expect("the command runs");
        assert_eq!(output.status.code(), Some(2));
        assert!(String::from_utf8_lossy(&output.stderr).contains(said));
    }
}

#[cfg(unix)]
#[test]
fn ctrl_c_ends_it_with_pages_open() {
    let place = Place::with_starter();
    let mut preview = place.preview(&FREE);
    let mut events = preview.events();
    events.next();
    let interrupt = Command::new("kill")
        .args(["-INT", &preview.child.id().to_string()])
        .stdout(Stdio::null())
        .status()
        .expect("kill runs");
    assert!(interrupt.success());
    assert_eq!(preview.child.wait().expect("it ends").code(), Some(0));
    let mut rest = String::new();
    preview.said.read_to_string(&mut rest).expect("its last words");
    assert!(rest.lines().any(|line| line == "preview ended"), "{rest}");
    assert!(TcpStream::connect(("127.0.0.1", preview.port)).is_err());
}

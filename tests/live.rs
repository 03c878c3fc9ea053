//! A board that is served: for this machine alone, for whoever knows its address, changed by its own page.
//! Never a board of a test's own: the real command, the roster of fourteen birds, real requests.

#[allow(dead_code)]
#[path = "preview/running.rs"]
mod running;

use running::{Answer, Place, Preview};
use serde_json::Value;
use std::fs;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

const ROSTER: &str = include_str!("board/roster.yaml");

/// A folder with the roster, and its board being served.
fn served(more: &[&str]) -> (Place, Preview) {
    let place = Place::empty();
    place.save("roster.yaml", ROSTER);
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let content = content.to_string_lossy();
    let usual = ["board", "push-and-pull", "--roster", "roster.yaml", "--today", "2026-11-30"];
    let all = [&usual[..], &["--library", &content, "--live"], more].concat();
    let board = Preview::serving(&place.path(""), &all);
    (place, board)
}

fn ours(board: &Preview) -> [String; 2] {
    [format!("Host: {}", board.host()), format!("Origin: http://{}", board.host())]
}

/// A touch as the board's own page sends it.
fn touch(board: &Preview, words: &str) -> Answer {
    let [host, origin] = ours(board);
    board.asked("POST", &format!("{}touch/{words}", board.root), &[&host, &origin])
}

fn now(board: &Preview) -> Value {
    json(&board.get(&format!("{}now", board.root)))
}

fn json(answer: &Answer) -> Value {
    serde_json::from_str(&answer.body).unwrap_or_else(|_| panic!("{}", answer.body))
}

/// What everybody does: by choice, in words.
fn doing(answer: &Value) -> Vec<String> {
    let table = &answer["table"];
    let sets = table["sets"].as_array().expect("sets").iter();
    let said = |set: &Value| {
        let taken = set["taken"].as_u64();
        let text = taken.and_then(|at| set["offers"][at as usize][0].as_u64());
        text.map_or("nothing".to_string(), |at| table["texts"][at as usize].to_string())
    };
    sets.map(said).collect()
}

#[test]
fn only_who_knows_the_address_sees_the_board() {
    let (_place, board) = served(&[]);
    let token = board.root.trim_matches('/').to_string();
    assert!(token.len() == 32 && token.chars().all(|c| c.is_ascii_hexdigit()), "{token}");
    let other = token.replace(|c: char| c != '0', "0");
    let paths = [
        "/".to_string(),
        "/now".to_string(),
        format!("/{other}/"),
        format!("/{other}/now"),
        format!("/{}/", &token[..31]),
        format!("/{token}0/"),
        format!("/{}/", token.to_uppercase().replace(char::is_numeric, "A")),
        format!("//{token}/"),
        "/index.html".to_string(),
        "/roster.yaml".to_string(),
    ];
    for path in paths {
        let answer = board.get(&path);
        assert_eq!(answer.status, 404, "{path}");
        assert!(!answer.body.contains("wren"), "{path}");
        let [host, origin] = ours(&board);
        let touched = board.asked("POST", &format!("{path}touch/1/gone/0"), &[&host, &origin]);
        assert_eq!(touched.status, 404, "{path}");
    }
    let page = board.get(&board.root);
    assert_eq!(page.status, 200);
    assert!(page.body.contains("wren"));
    assert_eq!(page.header("cache-control"), Some("no-store"));
    assert_eq!(page.header("referrer-policy"), Some("no-referrer"));
    assert_eq!(page.header("content-security-policy"), Some("frame-ancestors 'none'"));
    assert_eq!(page.header("access-control-allow-origin"), None);
    // Another run has another address.
    let (_other, again) = served(&[]);
    assert_ne!(again.root, board.root);
}

#[test]
fn strangers_see_nothing_and_change_nothing() {
    let (_place, board) = served(&[]);
    let port = board.port;
    let [host, origin] = ours(&board);
    let renamed = format!("Host: rebound.example:{port}");
    let other_port = format!("Origin: http://127.0.0.1:{}", port ^ 1);
    let secure = format!("Origin: https://127.0.0.1:{port}");
    let before = doing(&now(&board));
    // Headers, what a look is answered, what a touch is answered.
    let asked: [(&[&str], u16, u16); 8] = [
        (&[], 403, 403),
        (&[&renamed], 403, 403),
        (&[&renamed, &origin], 403, 403),
        (&[&host, &other_port], 403, 403),
        (&[&host, &secure], 403, 403),
        (&[&host, "Origin: null"], 403, 403),
        (&[&host, &origin, "Origin: http://other.example"], 403, 403),
        // A look says no origin; a touch from a page always does.
        (&[&host], 200, 403),
    ];
    for (headers, look, touched) in asked {
        let page = board.ask(&board.root, headers);
        assert_eq!(page.status, look, "{headers:?}");
        assert_eq!(page.body.contains("wren"), look == 200, "{headers:?}");
        assert_eq!(board.ask(&format!("{}now", board.root), headers).status, look, "{headers:?}");
        let path = format!("{}touch/1/gone/0", board.root);
        assert_eq!(board.asked("POST", &path, headers).status, touched, "{headers:?}");
        assert_eq!(board.asked("GET", &path, &[&host, &origin]).status, 405);
    }
    assert_eq!(doing(&now(&board)), before);
    // Linux answers on all of 127.0.0.0/8 (RFC 1122, section 3.2.1.3).
    assert!(TcpStream::connect(("127.0.0.2", port)).is_err());
}

#[test]
fn a_touch_deals_out_anew_is_numbered_and_can_be_taken_back() {
    let (place, board) = served(&["--away", "siskin"]);
    let start = now(&board);
    assert_eq!((start["number"].as_u64(), start["undo"].as_bool()), (Some(1), Some(false)));
    let straps = start["table"]["kit"].as_array().expect("kit").iter();
    let straps = straps.clone().position(|one| one[0] == "straps").expect("straps");
    let broke = json(&touch(&board, &format!("1/broke/{straps}")));
    assert_eq!((broke["number"].as_u64(), broke["undo"].as_bool()), (Some(2), Some(true)));
    assert_eq!(broke["table"]["kit"][straps][1], 3);
    assert!(
        broke["told"]["said"].as_str().expect("words").starts_with("One less of straps, 3 left.")
    );
    // Who touched an earlier board gets the one that stands, and changes nothing.
    let stale = touch(&board, "1/gone/0");
    assert_eq!(stale.status, 409);
    assert_eq!(json(&stale)["number"], 2);
    assert_eq!(doing(&json(&stale)), doing(&broke));
    let gone = json(&touch(&board, "2/gone/0"));
    assert_eq!(gone["table"]["people"][0][2], true);
    let back = json(&touch(&board, "3/back"));
    assert_eq!(doing(&back), doing(&broke));
    let back = json(&touch(&board, "4/back"));
    assert_eq!((doing(&back), back["undo"].as_bool()), (doing(&start), Some(false)));
    for words in [
        "5/back",
        "5/gone/99",
        "5/here/0",
        "5/gone",
        "5/gone/0/0",
        "5/gone/x",
        "5/broke/999",
        "5/else/0",
    ] {
        assert_eq!(touch(&board, words).status, 400, "{words}");
    }
    assert_eq!(now(&board)["number"], 5);
    // Only ten are kept, however many were made.
    for n in 5..18 {
        let words = if n % 2 == 1 { "gone/0" } else { "here/0" };
        assert_eq!(touch(&board, &format!("{n}/{words}")).status, 200);
    }
    for n in 18..28 {
        assert_eq!(touch(&board, &format!("{n}/back")).status, 200, "{n}");
    }
    assert_eq!(touch(&board, "28/back").status, 400);
    // Nothing was written: not to the roster, nor beside it.
    assert_eq!(place.read("roster.yaml"), ROSTER);
    assert_eq!(fs::read_dir(place.path("")).expect("the folder").count(), 2);
}

#[test]
fn only_the_coach_says_what_hurts_and_only_the_coach_is_told_why() {
    let (_place, wall) = served(&[]);
    let start = now(&wall);
    assert_eq!(start["table"]["situations"], serde_json::json!([]));
    assert_eq!(start["table"]["why"], serde_json::json!([]));
    assert_eq!(touch(&wall, "1/sore/0/0").status, 400);
    let hurts = json(&touch(&wall, "1/hurts/0"));
    assert_eq!(hurts["table"]["asks"][0], true);
    assert_eq!(hurts["table"]["why"], serde_json::json!([]));

    let (_place, coach) = served(&["--why"]);
    let start = now(&coach);
    let all = start["table"]["situations"].as_array().expect("situations");
    let at = all.iter().position(|one| one[0] == "Painful shoulder").expect("a shoulder");
    assert!(all.iter().all(|one| one[1].is_object()));
    let who = start["table"]["people"].as_array().expect("people").iter();
    let who = who.clone().position(|one| one[0] == "goldcrest").expect("goldcrest");
    let sore = json(&touch(&coach, &format!("1/sore/{who}/{at}")));
    let said = sore["told"]["said"].as_str().expect("words");
    assert!(
        said.contains("New for goldcrest.") && !said.to_lowercase().contains("shoulder"),
        "{said}"
    );
    let why = sore["table"]["why"][who][1].as_array().expect("reasons");
    let text = serde_json::to_string(why).expect("JSON").to_lowercase();
    assert!(text.contains("shoulder") || text.contains("overhead"), "{text}");
    // What situations leave takes longer: it comes with the next look.
    assert!(
        sore["table"]["situations"]
            .as_array()
            .expect("situations")
            .iter()
            .all(|one| one[1].is_null())
    );
    assert!(now(&coach)["table"]["situations"][0][1].is_object());
}

#[test]
fn who_asks_for_half_a_page_or_sends_too_much_is_let_go() {
    let (_place, board) = served(&[]);
    let mut half = TcpStream::connect(("127.0.0.1", board.port)).expect("a connection");
    half.set_read_timeout(Some(Duration::from_secs(60))).expect("a time limit");
    write!(half, "GET / HTTP/1.1\r\nHost: {}\r\nX-Half:", board.host()).expect("half a request");
    let begun = Instant::now();
    let mut rest = Vec::new();
    let _ = half.read_to_end(&mut rest);
    assert!(begun.elapsed() < Duration::from_secs(50), "it waits for ever");
    let [host, origin] = ours(&board);
    let long = format!("X-Long: {}", "x".repeat(2_000_000));
    let mut big = TcpStream::connect(("127.0.0.1", board.port)).expect("a connection");
    let _ = write!(big, "GET {} HTTP/1.0\r\n{host}\r\n{long}\r\n\r\n", board.root);
    let mut answer = String::new();
    let _ = big.read_to_string(&mut answer);
    assert!(!answer.contains("wren"), "a header of two megabytes was read");
    assert_eq!(board.ask(&board.root, &[&host, &origin]).status, 200);
}

#[test]
fn a_taken_port_is_said() {
    let (place, board) = served(&[]);
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let output = Command::new(env!("CARGO_BIN_EXE_rungbook"))
        .args(["board", "push-and-pull", "--roster", "roster.yaml", "--live", "--library"])
        .arg(content)
        .args(["--port", &board.port.to_string()])
        .current_dir(place.path(""))
        .output()
        .expect("the command runs");
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains(&format!("port {} is taken", board.port)), "{said}");
}

//! The pose editor of a preview: only its own page writes, only into its entry's file, and only the words
//! that were changed. Never a private function: the real command, real files, real requests.

#[path = "dice/mod.rs"]
mod dice;
#[allow(dead_code)]
#[path = "preview/running.rs"]
mod running;
#[path = "preview/posing.rs"]
mod posing;

use dice::Dice;
use posing::Poses;
use rungbook::mechanics::words::glossary::{FIGURE, POSE};
use rungbook::mechanics::words::keypose::joint_of;
use running::Place;
use serde_json::{Value, json};
use std::fs;

fn word(pose: &str, side: &str, word: &str, value: Option<&str>) -> Value {
    json!({"what": "word", "pose": pose, "side": side, "word": word, "value": value})
}

fn pose<'v>(told: &'v Value, name: &str) -> &'v Value {
    let mut poses = told["poses"].as_array().expect("poses").iter();
    poses.find(|pose| pose["pose"] == name).unwrap_or_else(|| panic!("no {name}: {told}"))
}

const BIRD_DOG: &str = "content/movements/brace/bird-dog.md";

#[test]
fn a_pose_that_cannot_be_met_is_drawn_with_what_it_misses_and_what_still_holds() {
    let poses = Poses::of(Place::with_starter());
    let page = poses.page("bridge");
    let told = poses.look(&page, &json!([word("end", "", "trunk", Some("-40"))]));
    let end = pose(&told, "end");
    assert!(end["svg"].as_str().is_some_and(|svg| svg.contains("class=\"miss\"")), "{end}");
    let all = end["wrong"].as_array().expect("a list");
    let missed = all.iter().filter_map(|one| one["sentence"].as_str());
    let sentence =
        missed.clone().find(|one| one.contains("missed by")).unwrap_or_else(|| panic!("{end}"));
    assert!(sentence.contains("`back: floor` still holds from the key pose before"), "{sentence}");
    // The ring says the same number as the sentence.
    let degrees = sentence.split("missed by ").nth(1).and_then(|rest| rest.split(' ').next());
    let degrees = degrees.expect("a number");
    assert!(end["svg"].as_str().is_some_and(|svg| svg.contains(&format!(">{degrees}°<"))), "{end}");
    let carried = end["carried"].as_array().expect("a list");
    assert!(carried.iter().any(|one| one[1] == "feet"), "{carried:?}");
    // The pose before it can be done, and is not blamed.
    assert_eq!(pose(&told, "start")["wrong"], json!([]), "{told}");
    assert!(!pose(&told, "start")["svg"].as_str().unwrap_or_default().contains("class=\"miss\""));
}

#[test]
fn a_contact_out_of_reach_says_its_centimetres_and_a_joint_on_its_end_is_named() {
    let poses = Poses::of(Place::with_starter());
    let page = poses.page("squat");
    let told = poses.look(&page, &json!([word("end", "", "hands", Some("bar 300"))]));
    let end = pose(&told, "end");
    let sentence = end["wrong"][0]["sentence"].as_str().unwrap_or_default();
    assert!(sentence.contains("out of reach by") && sentence.contains("cm"), "{end}");
    assert!(end["svg"].as_str().is_some_and(|svg| svg.contains(" cm</text>")), "{end}");
    let kinds: Vec<&str> = end["wrong"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|one| one["kind"].as_str())
        .collect();
    assert!(kinds.contains(&"pose-joint-at-limit"), "{kinds:?}");
}

#[test]
fn what_is_written_is_that_word_alone_and_can_be_taken_back() {
    let place = Place::with_starter();
    let was =
        place.read(BIRD_DOG).replace("  arrow: near hand\n", "  arrow: near hand  # as seen\n");
    place.save(BIRD_DOG, &was);
    let poses = Poses::of(place);
    let page = poses.page("bird-dog");
    let told = poses.look(&page, &json!([]));
    let print = told["print"].as_str().expect("a print").to_string();
    let edits = json!([word("end", "far", "hip", Some("-10"))]);
    let (status, _) = poses.ask(&page, "write", "", &edits);
    assert_eq!(status, 409, "a page that has read nothing changes nothing");
    let (status, written) = poses.ask(&page, "write", &print, &edits);
    assert_eq!(status, 200, "{written}");
    assert_eq!(poses.place.read(BIRD_DOG), was.replace("far: {hip: -4,", "far: {hip: -10,"));
    // A page that read the file before writes nothing.
    let (status, refused) = poses.ask(&page, "write", &print, &edits);
    assert_eq!(status, 409);
    assert!(refused["said"].as_str().is_some_and(|said| said.contains("nothing was written")));
    let print = written["print"].as_str().expect("a print");
    let (status, _) = poses.ask(&page, "undo", print, &json!([]));
    assert_eq!((status, poses.place.read(BIRD_DOG)), (200, was.clone()));
    // Twice is not undone, and nothing is undone over somebody's change.
    let (status, _) = poses.ask(&page, "undo", "", &json!([]));
    assert_eq!((status, poses.place.read(BIRD_DOG)), (409, was.clone()));
    let told = poses.look(&page, &json!([]));
    let print = told["print"].as_str().expect("a print");
    let (_, written) = poses.ask(&page, "write", print, &edits);
    let changed = format!("{}\nMore words.\n", poses.place.read(BIRD_DOG));
    poses.place.save(BIRD_DOG, &changed);
    let (status, _) =
        poses.ask(&page, "undo", written["print"].as_str().expect("a print"), &json!([]));
    assert_eq!((status, poses.place.read(BIRD_DOG)), (409, changed));
}

#[test]
fn strangers_see_no_pose_and_write_none() {
    let poses = Poses::of(Place::with_starter());
    let page = poses.page("bird-dog");
    let was = poses.place.read(BIRD_DOG);
    let [host, origin, kind] = poses.ours();
    let port = poses.preview.port;
    let edits = json!([word("end", "far", "hip", Some("-10"))]);
    let body = json!({"print": "", "edits": edits, "view": null, "stature": 172.0, "drag": null});
    let body = body.to_string();
    let write = format!("{page}write");
    let refused: [Vec<String>; 8] = [
        vec![kind.clone()],
        vec![host.clone(), kind.clone()],
        vec![host.clone(), origin.clone()],
        vec![host.clone(), origin.clone(), "Content-Type: text/plain".into()],
        vec![host.clone(), "Origin: null".into(), kind.clone()],
        vec![host.clone(), "Origin: http://other.example".into(), kind.clone()],
        vec![host.clone(), format!("Origin: http://127.0.0.1:{}", port ^ 1), kind.clone()],
        vec![format!("Host: rebound.example:{port}"), origin.clone(), kind.clone()],
    ];
    for headers in refused {
        assert_eq!(poses.post(&write, &headers, &body).status, 403, "{headers:?}");
    }
    // Another key, the key of another entry, the list's own, and ways out of the folder.
    let key = page.split('/').nth(2).expect("a key");
    let list = poses.list.split('/').nth(2).expect("a key");
    let other = poses.page("plank");
    let other = other.split('/').nth(2).expect("a key");
    for (wrong, id) in [
        (key.replace(|c: char| c != '0', "0").as_str(), "bird-dog"),
        (other, "bird-dog"),
        (list, "bird-dog"),
        (key, "plank"),
        (key, "..%2f..%2fclub"),
        (list, "..%2f..%2fclub"),
    ] {
        for what in ["", "look", "write", "undo"] {
            let path = format!("/pose/{wrong}/{id}/{what}");
            let answer = match what {
                "" => poses.preview.get(&path),
                _ => poses.post(&path, &poses.ours(), &body),
            };
            assert_eq!(answer.status, 404, "{path}");
            assert!(!answer.body.contains("Bird dog"), "{path}");
        }
    }
    assert_eq!(poses.preview.get("/pose/").status, 404);
    // What is too much, and what no page of ours says.
    let long = format!("{{\"print\": \"{}\"}}", "a".repeat(70_000));
    assert_eq!(poses.post(&write, &poses.ours(), &long).status, 413);
    for odd in ["", "{}", "[]", "{\"path\": \"club.yaml\"}"] {
        assert_eq!(poses.post(&write, &poses.ours(), odd).status, 400, "{odd}");
    }
    assert_eq!(poses.place.read(BIRD_DOG), was);
    let answer = poses.preview.get(&page);
    assert_eq!(answer.status, 200);
    assert_eq!(answer.header("referrer-policy"), Some("no-referrer"));
    let policy = answer.header("content-security-policy").unwrap_or_default();
    assert!(policy.contains("default-src 'none'") && policy.contains("frame-ancestors 'none'"));
    assert_eq!(answer.header("access-control-allow-origin"), None);
    assert_eq!(answer.header("cross-origin-resource-policy"), Some("same-origin"));
    // The preview's own pages do not tell the key to who asks for them.
    for path in ["/", "/movements/bird-dog.html", "/preview/preview.js", "/preview/pose.js"] {
        let seen = poses.preview.get(path).body;
        assert!(!seen.contains(list) && !seen.contains(key), "{path}");
    }
}

#[test]
fn nothing_but_words_of_poses_traits_and_a_view_is_written() {
    let poses = Poses::of(Place::with_starter());
    let page = poses.page("bird-dog");
    let was = poses.place.read(BIRD_DOG);
    let told = poses.look(&page, &json!([]));
    let print = told["print"].as_str().expect("a print");
    let odd = [
        word("end", "", "name", Some("Cat")),
        word("end", "near", "near", Some("1")),
        word("name", "", "knee", Some("1")),
        word("..", "", "knee", Some("1")),
        word("end", "both", "knee", Some("1")),
        word("end", "", "knee", Some("1\nname: Cat")),
        word("end", "", "knee", Some(&"9".repeat(300))),
        json!({"what": "trait", "id": "no-such-thing", "level": 1}),
        json!({"what": "trait", "id": "prone", "level": 7}),
        json!({"what": "begin", "like": "plank"}),
    ];
    for edit in odd {
        let (status, told) = poses.ask(&page, "write", print, &json!([edit]));
        assert_eq!(status, 422, "{edit}: {told}");
        assert!(told["said"].as_str().is_some_and(|said| said.ends_with('.')), "{told}");
        assert_eq!(poses.place.read(BIRD_DOG), was, "{edit}");
    }
    // Words that would be YAML of their own stay one text.
    let sly = "5, hip: 3}, elbow: {a: b";
    let (status, told) =
        poses.ask(&page, "write", print, &json!([word("end", "", "neck", Some(sly))]));
    assert_eq!(status, 200, "{told}");
    assert!(poses.place.read(BIRD_DOG).contains(&format!("neck: \"{sly}\"")));
}

#[cfg(unix)]
#[test]
fn an_entry_that_is_a_link_out_of_the_library_is_neither_read_nor_written() {
    let place = Place::with_starter();
    let text = place.read(BIRD_DOG);
    let poses = Poses::of(place);
    let page = poses.page("bird-dog");
    poses.look(&page, &json!([]));
    poses.place.save("elsewhere.md", &text);
    let file = poses.place.path(BIRD_DOG);
    fs::remove_file(&file).expect("it goes");
    std::os::unix::fs::symlink(poses.place.path("elsewhere.md"), &file).expect("a link");
    let edits = json!([word("end", "far", "hip", Some("-10"))]);
    for what in ["look", "write"] {
        let (status, told) = poses.ask(&page, what, "", &edits);
        assert_eq!(status, 422, "{told}");
        assert!(told["said"].as_str().is_some_and(|said| said.contains("inside the library")));
    }
    assert_eq!(poses.place.read("elsewhere.md"), text);
}

/// Lays the words of the figure out one below the other, as `tidy` would, each with a remark.
fn in_a_block(text: &str) -> String {
    let start = "  start: {";
    let Some(at) = text.find(start) else { return text.to_string() };
    let line = text[at..].lines().next().unwrap_or_default();
    let inside = line.trim_start_matches(start).trim_end_matches('}');
    if inside.contains(['{', '"', '[', '#']) || !line.ends_with('}') {
        return text.to_string();
    }
    let words: String = inside.split(", ").map(|word| format!("    {word}  # {word}\n")).collect();
    text.replacen(&format!("{line}\n"), &format!("  start:\n{words}"), 1)
}

/// What the words of an edit took out of a text and put there.
fn difference<'t>(old: &'t str, new: &'t str) -> (&'t str, &'t str) {
    let front = old.bytes().zip(new.bytes()).take_while(|(a, b)| a == b).count();
    let most = old.len().min(new.len()) - front;
    let back = old.bytes().rev().zip(new.bytes().rev()).take_while(|(a, b)| a == b).count();
    let back = back.min(most);
    (&old[front..old.len() - back], &new[front..new.len() - back])
}

#[test]
fn drawn_edits_of_starter_entries_keep_remarks_and_every_other_byte_and_read_as_they_were_shown() {
    let place = Place::with_starter();
    let folder = place.path("content/movements");
    let mut files: Vec<_> = walkdir::WalkDir::new(folder)
        .into_iter()
        .filter_map(Result::ok)
        .map(walkdir::DirEntry::into_path)
        .filter(|path| path.extension().is_some_and(|ending| ending == "md"))
        .collect();
    files.sort();
    let mut dice = Dice(20_261_201);
    let mut tried = 0;
    let mut chosen = Vec::new();
    while chosen.len() < 12 {
        let file = files.swap_remove(dice.roll(files.len()));
        let text = fs::read_to_string(&file).expect("a text");
        if !text.contains("\n  start: {") {
            continue;
        }
        let text = if dice.roll(2) == 0 { in_a_block(&text) } else { text };
        let text = text.replacen("figure:\n", "figure:  # a remark of the coach\n", 1);
        let text = if dice.roll(4) == 0 { text.replace('\n', "\r\n") } else { text };
        fs::write(&file, text).expect("it is written");
        chosen.push(file);
    }
    let poses = Poses::of(place);
    for file in &chosen {
        let id = file.file_stem().expect("a name").to_string_lossy().into_owned();
        let page = poses.page(&id);
        for _ in 0..4 {
            let old = fs::read_to_string(file).expect("a text");
            let told = poses.look(&page, &json!([]));
            let edit = drawn(&told, &mut dice);
            let shown = poses.look(&page, &json!([edit]));
            let print = told["print"].as_str().expect("a print");
            let (status, written) = poses.ask(&page, "write", print, &json!([edit]));
            assert_eq!(status, 200, "{id} {edit}: {written}");
            let new = fs::read_to_string(file).expect("a text");
            let (out, put) = difference(&old, &new);
            assert!(
                !out.contains(['#', '\n']) && !put.contains('#'),
                "{id} {edit}: {out:?} {put:?}"
            );
            assert!(put.len() < 60, "{id} {edit}: {put:?}");
            // Read anew by who knows nothing of the edit.
            for key in ["poses", "text", "beyond"] {
                assert_eq!(written[key], shown[key], "{id} {edit}");
            }
            let said = pose(&written, edit["pose"].as_str().expect("a pose"))["words"]
                .as_array()
                .expect("words")
                .iter()
                .find(|one| one["word"] == edit["word"] && one["side"] == edit["side"])
                .map(|one| one["value"].clone());
            assert_eq!(said, Some(edit["value"].clone()), "{id} {edit}");
            tried += 1;
        }
    }
    assert_eq!(tried, 48);
}

/// An edit: a number of a word slid, or a word more.
fn drawn(told: &Value, dice: &mut Dice) -> Value {
    let all = told["poses"].as_array().expect("poses");
    let pose = &all[dice.roll(all.len())];
    let words = pose["words"].as_array().expect("words");
    let slid: Vec<&Value> = words
        .iter()
        .filter(|one| one["numbers"].as_array().is_some_and(|n| !n.is_empty()))
        .collect();
    let name = pose["pose"].as_str().expect("a name");
    let number = (dice.roll(120) as i64 - 40).to_string();
    if slid.is_empty() || dice.roll(3) == 0 {
        let new = ["neck", "look", "shrug", "twist", "wrist", "leg-turn"];
        let side = ["", "near", "far"][dice.roll(3)];
        let value = if dice.roll(3) == 0 { "5 + 3 * 2".to_string() } else { number };
        return word(name, side, new[dice.roll(new.len())], Some(&value));
    }
    let one = slid[dice.roll(slid.len())];
    let value = one["value"].as_str().expect("a value");
    let at = &one["numbers"][0]["at"];
    let (from, long) =
        (at[0].as_u64().expect("a place") as usize, at[1].as_u64().expect("a length") as usize);
    let value = format!("{}{number}{}", &value[..from], &value[from + long..]);
    word(
        name,
        one["side"].as_str().expect("a side"),
        one["word"].as_str().expect("a word"),
        Some(&value),
    )
}

#[test]
fn every_word_of_poses_is_drawn_and_every_angle_at_its_zero_too() {
    let poses = Poses::of(Place::with_starter());
    let page = poses.preview.get("/preview/words-of-poses.html").body;
    let section = |name: &str| {
        let mut all = page.split("<section").skip(1);
        let head = format!("<h3><code>{name}</code>");
        all.find(|one| one.contains(&head)).unwrap_or_else(|| panic!("no {name}")).to_string()
    };
    for word in POSE.iter().chain(FIGURE) {
        let name = word.names[0];
        let drawings = section(name).matches("<svg").count();
        let slopes = ["trunk", "thigh", "shin", "upper-arm", "forearm", "foot-angle"];
        let is_angle = joint_of(name).is_some() || slopes.contains(&name);
        assert_eq!(drawings, if is_angle { 2 } else { 1 }, "{name}");
        assert!(section(name).contains("<p>"), "{name}");
    }
    // The zero and the example are two pictures.
    let knee = section("knee");
    let mut drawn = knee.split("<svg").skip(1);
    assert_ne!(
        drawn.next().map(|one| one.split("</svg>").next()),
        drawn.next().map(|one| one.split("</svg>").next())
    );
    assert!(knee.contains("It goes from 0 to 150 deg."), "{knee}");
}

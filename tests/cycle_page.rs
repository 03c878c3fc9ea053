//! The page of a cycle and `rungbook plan` say the same, to the digit, from every starting rung: of
//! the starter cycle, and of one over every ladder there is, with weeks in an odd order.
//! Never the library's own functions: a finished page is read beside what the command prints.

#[path = "site/club.rs"]
mod club;

use club::Club;
use html5gum::{Token, Tokenizer};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// A row of a plan as the page shows it: its text by class, the links in it.
#[derive(Debug, Default, Clone)]
struct Row {
    text: BTreeMap<String, String>,
    link: String,
}

/// Rows by ladder and starting rung, and the plain text of everything else by class or element.
#[derive(Debug, Default)]
struct Page {
    plans: BTreeMap<(String, u32), Vec<Row>>,
    descriptions: Vec<String>,
    by_pattern: Vec<Vec<String>>,
    rules: BTreeMap<String, Vec<String>>,
}

/// Where the reader stands: in which plan, from which rung, in which row, inside what.
#[derive(Default)]
struct Reader {
    page: Page,
    ladder: String,
    start: Option<u32>,
    row: Option<Row>,
    cells: Option<Vec<String>>,
    inside: Vec<(String, String)>,
}

/// Elements that have no end.
const WITHOUT_END: [&str; 3] = ["meta", "link", "input"];

impl Reader {
    fn opens(&mut self, name: &str, has: &BTreeMap<String, String>, closes_itself: bool) {
        let class = has.get("class").cloned().unwrap_or_default();
        match name {
            "section" => self.ladder = has.get("data-plan").cloned().unwrap_or_default(),
            "details" => self.start = has.get("data-start").and_then(|n| n.parse().ok()),
            "tr" if self.start.is_some() => self.row = Some(Row::default()),
            "tr" => self.cells = Some(Vec::new()),
            "th" | "td" => self.cells.iter_mut().for_each(|cells| cells.push(String::new())),
            "desc" => self.page.descriptions.push(String::new()),
            "dd" => self.rules().push(String::new()),
            "a" => self.row.iter_mut().for_each(|row| row.link = has["href"].clone()),
            _ => {}
        }
        if !closes_itself && !WITHOUT_END.contains(&name) {
            self.inside.push((name.to_string(), class));
        }
    }

    fn rules(&mut self) -> &mut Vec<String> {
        self.page.rules.entry(self.ladder.clone()).or_default()
    }

    fn says(&mut self, text: &str) {
        let (name, class) = self.inside.last().cloned().unwrap_or_default();
        if let Some(row) = &mut self.row {
            let key = if class.is_empty() { name.clone() } else { class };
            row.text.entry(key).or_default().push_str(text);
        }
        if let Some(cell) = self.cells.iter_mut().flatten().last() {
            cell.push_str(text);
        }
        match name.as_str() {
            "desc" => self.page.descriptions.iter_mut().last().unwrap().push_str(text),
            "dd" => self.rules().last_mut().unwrap().push_str(text),
            _ => {}
        }
    }

    fn closes(&mut self, name: &str) {
        if let Some(at) = self.inside.iter().rposition(|(open, _)| open == name) {
            self.inside.truncate(at);
        }
        match name {
            "tr" => {
                self.page.by_pattern.extend(self.cells.take());
                let row = self.row.take().filter(|row| row.text.contains_key("rung-number"));
                if let (Some(row), Some(start)) = (row, self.start) {
                    let plan = (self.ladder.clone(), start);
                    self.page.plans.entry(plan).or_default().push(row);
                }
            }
            "details" => self.start = None,
            _ => {}
        }
    }
}

fn read(html: &str) -> Page {
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let mut reader = Reader::default();
    for token in Tokenizer::new(html) {
        let Ok(token) = token;
        match token {
            Token::StartTag(tag) => {
                let has = tag.attributes.iter().map(|(key, value)| (text(key), text(value)));
                reader.opens(&text(&tag.name), &has.collect(), tag.self_closing);
            }
            Token::String(said) => reader.says(&text(&said)),
            Token::EndTag(tag) => reader.closes(&text(&tag.name)),
            _ => {}
        }
    }
    reader.page
}

/// `4`, or `3-4`, of a pair as the command gives it.
fn count(pair: &Value) -> String {
    match (pair[0].as_u64().unwrap(), pair[1].as_u64().unwrap()) {
        (from, to) if from == to => from.to_string(),
        (from, to) => format!("{from}-{to}"),
    }
}

/// The dose of a week in words, put together from the command's numbers.
fn dose(week: &Value) -> String {
    if week["sets"].is_null() {
        return "one set, counted".to_string();
    }
    let word = if week["sets"][1] == 1 { "set" } else { "sets" };
    let unit = match week["counts"].as_str().unwrap() {
        "reps" => "",
        "seconds" => " s",
        "metres" => " m",
        "contacts" => " contacts",
        other => panic!("{other}"),
    };
    let side = if week["each_side"] == true { " a side" } else { "" };
    format!("{} {word} of {}{unit}{side}", count(&week["sets"]), week["aim"])
}

fn differences(page: &Page, ladder: &Value, start: u32) -> Vec<String> {
    let id = ladder["ladder"].as_str().unwrap().to_string();
    let rows = page.plans.get(&(id.clone(), start)).cloned().unwrap_or_default();
    let weeks = ladder["weeks"].as_array().unwrap();
    let mut wrong = Vec::new();
    if rows.len() != weeks.len() {
        wrong.push(format!("{id} from {start}: {} rows of {}", rows.len(), weeks.len()));
    }
    for (row, week) in rows.iter().zip(weeks) {
        let shown = |class: &str| row.text.get(class).map_or("", |text| text.trim()).to_string();
        let settings = week["settings"].as_object().unwrap().iter();
        let settings = settings.map(|(name, value)| (name, value.as_str().unwrap()));
        // No height and no weight are not said on a page.
        let settings = settings.filter(|(_, value)| !value.starts_with("0 "));
        let settings: BTreeSet<String> =
            settings.map(|(name, value)| format!("{name} {value}")).collect();
        let setting = shown("setting");
        let setting = setting.trim_start_matches(", ").split(", ").filter(|word| !word.is_empty());
        let pairs = [
            (shown("th"), week["week"].to_string()),
            (shown("kind"), week["kind"].as_str().unwrap_or("").to_string()),
            (shown("rung-number"), week["rung"].to_string()),
            (row.link.clone(), format!("../movements/{}.html", week["movement"].as_str().unwrap())),
            (shown("dose thumb"), dose(week)),
            (shown("sets computed"), format!("{} sets in the week", count(&week["sets_in_week"]))),
            (
                shown("why").to_lowercase(),
                format!("{}.", week["why"].as_str().unwrap()).to_lowercase(),
            ),
        ];
        let pairs = pairs.into_iter().filter(|(shown, said)| shown != said);
        wrong.extend(pairs.map(|(shown, said)| format!("{id} from {start}: {shown} | {said}")));
        if setting.map(String::from).collect::<BTreeSet<_>>() != settings {
            wrong.push(format!("{id} from {start}: {} | {settings:?}", shown("setting")));
        }
    }
    wrong
}

/// The weeks of the whole class: the drawing's own words and the table by pattern.
fn weeks_agree(page: &Page, said: &Value, patterns: &BTreeMap<String, String>) {
    let weeks = said["weeks"].as_array().unwrap();
    let told: Vec<String> = weeks
        .iter()
        .map(|week| {
            let (kind, pulling) = (week["kind"].as_str().unwrap_or(""), count(&week["pulling"]));
            let (number, pushing) = (&week["week"], count(&week["pushing"]));
            format!("Week {number}, {kind}: pulling {pulling}, pushing {pushing}.")
        })
        .collect();
    let told = told.join(" ");
    assert!(page.descriptions.contains(&told), "{told}\n{:?}", page.descriptions);
    for (id, name) in patterns {
        let sets = weeks.iter().map(|week| match &week["sets"][id] {
            Value::Null => "0".to_string(),
            pair => count(pair),
        });
        let sets: Vec<String> = sets.collect();
        let row = page.by_pattern.iter().find(|row| row.first() == Some(name));
        match row {
            Some(row) => assert_eq!(row[1..], sets, "{name}"),
            None => assert!(sets.iter().all(|sets| sets == "0"), "{name} is not on the page"),
        }
    }
}

/// Pattern ids and the names that pages show, from the library's own file.
fn patterns(club: &Club) -> BTreeMap<String, String> {
    let yaml: Value = serde_yaml::from_str(&club.read("content/words/patterns.yaml")).unwrap();
    let entries = yaml.as_object().unwrap().iter();
    entries.map(|(id, words)| (id.clone(), words["name"].as_str().unwrap().into())).collect()
}

/// Every starting rung of every focus ladder against the command; how many plans were compared.
fn compare(club: &Club, cycle: &str) -> usize {
    let page = read(&club.read(&format!("site/cycles/{cycle}.html")));
    let tops = page.plans.keys().fold(BTreeMap::new(), |mut tops, (ladder, start)| {
        let top = tops.entry(ladder.clone()).or_insert(0);
        *top = u32::max(*top, *start);
        tops
    });
    let highest = *tops.values().max().expect("the page has plans");
    let (mut wrong, mut compared) = (Vec::new(), 0);
    for rung in 1..=highest {
        let rungs = tops.iter().map(|(ladder, top)| format!("{ladder}={}", rung.min(*top)));
        let rungs = rungs.collect::<Vec<_>>().join(",");
        let said = club.run(&["plan", cycle, "--rung", &rungs, "--format", "json"]);
        let said: Value =
            serde_json::from_str(&said.out).unwrap_or_else(|_| panic!("{}", said.err));
        for ladder in said["ladders"].as_array().unwrap() {
            let id = ladder["ladder"].as_str().unwrap();
            assert!(tops.contains_key(id), "{id} is not on the page");
            if rung <= tops[id] {
                compared += 1;
                wrong.extend(differences(&page, ladder, rung));
            }
            let rules = ["moves_up", "moves_down", "stops"].iter();
            for rule in rules.filter_map(|rule| ladder[rule].as_str()) {
                assert!(page.rules[id].iter().any(|shown| shown.contains(rule)), "{id}: {rule}");
            }
        }
        if rung == 1 {
            weeks_agree(&page, &said, &patterns(club));
        }
    }
    assert_eq!(compared, page.plans.len(), "the command has fewer plans than the page");
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
    compared
}

const ODD: &str = "name: Odd\nabout: Every ladder, weeks in an odd order\nfocus: [LADDERS]\nweeks:\n  \
     - {week: 1, kind: build, sessions: [push-and-pull]}\n  - {week: 2, kind: lighter, sessions: \
     [legs-and-trunk, push-and-pull, test-day, legs-and-trunk]}\n  - {week: 3, sessions: \
     [legs-and-trunk]}\n  - {week: 4, kind: build, sessions: [push-and-pull]}\n  - {week: 5, kind: \
     test, sessions: [test-day]}\n  - {week: 6, kind: build, sessions: []}\n  - {week: 7, kind: \
     build, sessions: [legs-and-trunk]}\n  - {week: 8, kind: lighter, sessions: [legs-and-trunk]}\n  \
     - {week: 9, kind: retest, sessions: [test-day]}\n";

#[test]
fn the_page_and_the_command_give_the_same_plan_from_every_rung() {
    let club = Club::starter();
    let ladders = std::fs::read_dir(club.at("content/ladders")).expect("ladders");
    let ladders: BTreeSet<String> = ladders
        .map(|file| file.unwrap().path().file_stem().unwrap().to_string_lossy().into_owned())
        .collect();
    let listed = ladders.iter().cloned().collect::<Vec<_>>().join(", ");
    club.write("content/cycles/odd.yaml", ODD.replace("LADDERS", &listed));
    club.build();
    assert_eq!(compare(&club, "six-weeks-push-and-pull"), 9 + 9);
    assert!(compare(&club, "odd") > 70);
    // A page that is out by one repetition or one set is seen.
    let name = "site/cycles/six-weeks-push-and-pull.html";
    let page = club.read(name);
    let said = club.run(&["plan", "six-weeks-push-and-pull", "--format", "json"]);
    let said: Value = serde_json::from_str(&said.out).expect("JSON");
    let push_up = &said["ladders"][0];
    for (from, to) in [("4 sets of 10", "4 sets of 11"), ("18 sets in", "19 sets in")] {
        assert!(page.contains(from), "{from}");
        let wrong = differences(&read(&page.replace(from, to)), push_up, 4);
        assert!(!wrong.is_empty(), "{to} was not seen");
    }
}

/// The published calendar is the one that the command prints, and the list of sessions and the
/// page of each session name the feed.
#[test]
fn calendar_and_feed_are_published_and_linked() {
    let club = Club::starter();
    club.build();
    let said = club.run(&["plan", "six-weeks-push-and-pull", "--format", "ics"]);
    let published = club.read("site/calendars/six-weeks-push-and-pull.ics");
    assert_eq!(published, said.out);
    assert!(published.contains("URL:https://thornmere-hall.example/sessions/"));
    let page = club.read("site/cycles/six-weeks-push-and-pull.html");
    assert!(page.contains("href=\"../calendars/six-weeks-push-and-pull.ics\""));
    assert!(page.contains("https://thornmere-hall.example/calendars/six-weeks-push-and-pull.ics"));
    let link = "rel=\"alternate\" type=\"application/atom+xml\"";
    for name in ["sessions/index.html", "sessions/test-day.html"] {
        let page = club.read(&format!("site/{name}"));
        assert!(page.contains(link) && page.contains("href=\"../feed.xml\""), "{name}");
    }
    assert!(!club.read("site/index.html").contains(link));
    // A cycle that says no first day, or no day at all, has no calendar and says nothing of one.
    let cycle = "content/cycles/six-weeks-push-and-pull.yaml";
    let undated = club.read(cycle).replace("starts: 2027-01-05\n", "");
    club.write(cycle, &undated);
    club.build();
    assert!(!club.at("site/calendars/six-weeks-push-and-pull.ics").exists());
    assert!(!club.read("site/cycles/six-weeks-push-and-pull.html").contains("calendars/"));
    let said = club.run(&["plan", "six-weeks-push-and-pull", "--format", "ics"]);
    assert!(said.code == Some(2) && said.err.contains("write `starts:"), "{}", said.err);
}

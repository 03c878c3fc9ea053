//! Faults said once: what a movement takes over from the catalogue, on its page and on the fault's.
//! Never asks about the starter library, whose faults may change.

mod laid;

use laid::Laid;
use rungbook::gym::Gym;
use rungbook::library::{Fault, Library, MovementId};
use rungbook::site::theme::Theme;
use rungbook::site::{Files, files};

const SHRUG: &str = r#"
```file words/faults.yaml
shrug:
  name: Shoulders shrug
  see: Shoulders climb to the ears
  also-said: [no neck]
  causes: [Too heavy, The neck helps]
  say: Long neck
  then: stop
  patterns: {pull-horizontal: {causes: [The neck pulls], say: Ears far away}}
  sources: [common-practice]
```

```change movements/pull-horizontal/strap-row.md
-  - {see: Shoulders shrug, cause: Too much lean, say: Long neck, then: "lean less, stand taller"}
+  - {fault: shrug, then: "lean less, stand taller"}
```

```change movements/pull-horizontal/one-arm-row.md
-  - {see: Trunk turns, cause: Too heavy, say: Zip to the floor, then: rung below}
+  - {fault: shrug, see: One shoulder climbs, cause: Too heavy for one arm, say: Collar wide}
```
"#;

/// The first fault of a movement.
fn first<'l>(library: &'l Library, id: &str) -> &'l Fault {
    &library.movements[&MovementId::from(id)].faults[0]
}

fn said(fault: &Fault) -> [&str; 4] {
    let then = fault.then.as_ref().map_or("", |then| &then.value.names);
    let say = fault.say.as_ref().map_or("", |say| &say.value);
    [&fault.see.value, fault.cause.as_deref().unwrap_or_default(), say, then]
}

fn site(gym: &Gym) -> Files {
    let theme = Theme::open(None).expect("our own theme reads");
    files(gym, &theme).expect("it renders")
}

fn page<'f>(files: &'f Files, name: &str) -> &'f str {
    std::str::from_utf8(&files[name]).expect("a page is text")
}

#[test]
fn the_entry_stands_before_the_pattern_and_the_pattern_before_what_is_general() {
    let library = Laid::on("tiny", SHRUG).read();
    let strap = first(&library, "strap-row");
    let taken = ["Shoulders climb to the ears", "The neck pulls", "Ears far away", "lean less"];
    assert_eq!(said(strap), taken);
    let own = ["One shoulder climbs", "Too heavy for one arm", "Collar wide", "stop"];
    assert_eq!(said(first(&library, "one-arm-row")), own);
}

#[test]
fn another_pattern_takes_what_is_general_with_every_cause() {
    let elsewhere = SHRUG.replace("{pull-horizontal: {causes", "{press: {causes");
    let library = Laid::on("tiny", &elsewhere).read();
    let strap = said(first(&library, "strap-row"));
    assert_eq!(strap[1..3], ["Too heavy; the neck helps", "Long neck"]);
}

#[test]
fn the_page_of_a_fault_says_what_differs_and_leads_to_each_movement_at_the_fault() {
    let gym = Gym::open(Laid::on("tiny", SHRUG).read());
    let files = site(&gym);
    let fault = page(&files, "faults/shrug.html");
    for words in ["Shoulders climb to the ears", "no neck", "Long neck", "The neck helps"] {
        assert!(fault.contains(words), "{words}: in general");
    }
    for words in ["Ears far away", "The neck pulls", "One shoulder climbs.", "Collar wide"] {
        assert!(fault.contains(words), "{words}: what differs");
    }
    for to in ["../movements/strap-row.html#fault-1", "../movements/one-arm-row.html#fault-1"] {
        assert!(fault.contains(to), "{to}");
    }
    let strap = page(&files, "movements/strap-row.html");
    assert!(strap.contains("Ears far away") && strap.contains("../faults/shrug.html"));
    assert!(page(&files, "faults/index.html").contains("shrug.html"));
    assert!(page(&files, "a-to-z.html").contains("faults/shrug.html"));
}

/// What a member or a coach reads first on the page must be there, as on all that tell to move.
#[test]
fn the_pages_of_faults_carry_the_caution_line_and_the_stop_signs() {
    let gym = Gym::open(Laid::on("tiny", SHRUG).read());
    let files = site(&gym);
    let club = &gym.library.club;
    let line = &club.caution_line.as_ref().expect("it has one").value;
    for name in ["faults/shrug.html", "faults/index.html"] {
        assert!(page(&files, name).contains(line.as_str()), "{name}");
        assert!(club.stop_signs.iter().all(|sign| page(&files, name).contains(sign)), "{name}");
    }
}

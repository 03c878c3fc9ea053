//! A link in a body that goes nowhere.
//! Never asks another host whether it is there.

use crate::check::Rule;
use crate::check::bodies::{self, Link};
use crate::check::unknown::Known;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::Library;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("broken-link"),
    severity: Severity::Error,
    what: "A link in a body goes nowhere.",
    why: "Whoever follows it stands before an empty page.",
    example: r#"
Like the [towel row](towel-rwo).
"#,
    next: "Link to a movement by its id, or to `ladders/`, `kit/`, `cautions/`, `faults/`, \
           `sources/`, `sessions/`, `cycles/`, `patterns/` or `muscles/` and an id.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let pages = Pages::of(&gym.library);
    bodies::links(gym).iter().filter_map(|link| pages.broken(link)).collect()
}

/// The ids of every kind of page, by the word that stands before the slash; movements have none.
struct Pages<'l>(Vec<(&'static str, Known<'l>)>);

impl<'l> Pages<'l> {
    fn of(library: &'l Library) -> Pages<'l> {
        let words = &library.words;
        Pages(vec![
            ("", Known::files(library, "movement", "movements")),
            ("ladders", Known::files(library, "ladder", "ladders")),
            ("sessions", Known::files(library, "session", "sessions")),
            ("cycles", Known::files(library, "cycle", "cycles")),
            ("kit", Known::words(library, "kit", "words/kit.yaml", &words.kit)),
            ("cautions", Known::words(library, "caution", "words/cautions.yaml", &words.cautions)),
            ("faults", Known::words(library, "fault", "words/faults.yaml", &words.faults)),
            ("sources", Known::words(library, "source", "words/sources.yaml", &words.sources)),
            ("patterns", Known::words(library, "pattern", "words/patterns.yaml", &words.patterns)),
            ("muscles", Known::words(library, "muscle", "words/muscles.yaml", &words.muscles)),
        ])
    }

    fn broken(&self, link: &Link) -> Option<Finding> {
        let to = link.to.as_str();
        if ["http://", "https://", "mailto:", "#"].iter().any(|start| to.starts_with(start)) {
            return None;
        }
        let page = to.split('#').next().unwrap_or(to);
        let (kind, id) = page.split_once('/').unwrap_or(("", page));
        let kind = if kind == "movements" { "" } else { kind };
        let known = self.0.iter().find(|(word, _)| *word == kind).map(|(_, known)| known);
        if known.is_some_and(|known| known.has(id)) && !link.is_cut_off {
            return None;
        }
        if link.is_cut_off {
            let help = format!("write `{}`: links lead to ids", to.trim().replace(' ', "-"));
            return Some(RULE.finding("an address with a space is no link", link.span).help(help));
        }
        if link.is_footnote {
            let help = "write the note into the text, or as a sentence below it";
            return Some(RULE.finding("footnotes are not read", link.span).help(help));
        }
        let headline = format!("this link goes nowhere: there is no `{page}`");
        let finding = RULE.finding(headline, link.span);
        Some(match self.of_a_path(page) {
            Some(right) => {
                let help = format!("write `{right}`: links lead to ids, not to files");
                finding.help(help).mend(link.span, to.replacen(page, &right, 1))
            }
            None => finding.help(self.help(kind, id)),
        })
    }

    /// The address of what a path to its file leads to, such as `../brace/plank.md`.
    fn of_a_path(&self, page: &str) -> Option<String> {
        let file = page.rsplit('/').next()?;
        let endings = [".md", ".yaml", ".html"];
        let id = endings.into_iter().find_map(|ending| file.strip_suffix(ending))?;
        let (word, _) = self.0.iter().find(|(_, known)| known.has(id))?;
        Some(match *word {
            "" => id.to_string(),
            word => format!("{word}/{id}"),
        })
    }

    fn help(&self, kind: &str, id: &str) -> String {
        let here = self.0.iter().find(|(word, _)| *word == kind);
        // A slip in the word before the slash, or none where one belongs: look for the id anywhere.
        let elsewhere = || self.0.iter().find(|(_, known)| known.has(id));
        let meant = match here.and_then(|(word, known)| Some((word, known.nearest(id)?))) {
            Some((word, meant)) => Some((word, meant)),
            None => elsewhere().map(|(word, _)| (word, id)),
        };
        match meant {
            Some((&"", meant)) => format!("did you mean `{meant}`?"),
            Some((word, meant)) => format!("did you mean `{word}/{meant}`?"),
            None => {
                "link to a movement by its id, or to `ladders/`, `kit/` and so on and an id".into()
            }
        }
    }
}

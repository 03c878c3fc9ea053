//! Sheet: a board as one file for a tablet or the wall, and one A4 when it is printed.
//! Never a request, never a why on the copy that others see: the coach's copy is a file of its own.

use super::Board;
use super::live::Live;
use super::view::{AT_HOME, BlockView, Doing, LineView, PROPOSED, View};
use super::why::why;
use crate::figure::{draw, style};
use crate::gym::Gym;
use sha2::{Digest, Sha256};
use std::fmt::Write;

/// Who reads the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Copy {
    /// Everybody in the hall: what to do.
    Wall,
    /// The coach alone: also why.
    Coach,
}

impl Copy {
    /// What a file of this kind says of itself in its head, and no other file.
    pub fn mark(self) -> &'static str {
        match self {
            Copy::Wall => "<meta name=\"rungbook-board\" content=\"for the class\">",
            Copy::Coach => "<meta name=\"rungbook-board\" content=\"for the coach alone\">",
        }
    }
}

const STYLE: &str = include_str!("script/board.css");
/// The clock reckons as the site's own does: by the same two scripts.
const SCRIPTS: [&str; 6] = [
    include_str!("../../themes/slate/scripts/clock.js"),
    include_str!("../../themes/slate/scripts/run.js"),
    include_str!("script/table.js"),
    include_str!("script/clock.js"),
    include_str!("script/done.js"),
    include_str!("script/board.js"),
];

/// The file.
pub fn as_page(gym: &Gym, (board, view): (&Board, &View), live: Live, copy: Copy) -> String {
    let styles = format!("{STYLE}{}", style::SHEET);
    // Only a board that is served asks anybody anything, and then its own address alone.
    let asks = if live.is_served() { " connect-src 'self';" } else { "" };
    let script = SCRIPTS.concat();
    let policy = format!(
        "default-src 'none'; style-src 'sha256-{}'; script-src 'sha256-{}';{asks} base-uri 'none'; form-action 'none'",
        hash(&styles),
        hash(&script)
    );
    let language = escaped(&gym.library.club.language);
    let title = format!("{}: the board", escaped(&view.session));
    let body = body(gym, (board, view), copy);
    let live = match copy {
        Copy::Wall => live.for_the_wall(),
        Copy::Coach => live,
    };
    // Strings, numbers and lists of them always serialise; `<` would end the data early.
    let data = serde_json::to_string(&live).unwrap_or_default().replace('<', "\\u003c");
    let mark = copy.mark();
    format!(
        "<!doctype html>\n<html lang=\"{language}\">\n<head>\n<meta charset=\"utf-8\">\n{mark}\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"robots\" content=\"noindex, nofollow\">\n\
         <meta name=\"referrer\" content=\"no-referrer\">\n\
         <title>{title}</title>\n<style>{styles}</style>\n</head>\n<body>\n{body}\
         <script type=\"application/json\" id=\"table\">{data}</script>\n\
         <script>{script}</script>\n</body>\n</html>\n"
    )
}

fn body(gym: &Gym, (board, view): (&Board, &View), copy: Copy) -> String {
    let whose = match copy {
        Copy::Wall => "Private: for this class alone. Not for a site, a chat or a photograph.",
        Copy::Coach => "The coach's copy: it says why. For your eyes alone; never on the wall.",
    };
    let mut text = format!(
        "<header>\n<p class=\"private\">{}</p>\n<h1>{}{}</h1>\n</header>\n",
        escaped(whose),
        escaped(&view.session),
        view.day.as_ref().map_or(String::new(), |day| format!(" <small>{}</small>", escaped(day)))
    );
    text += &strip(view);
    let names: Vec<&str> = view.people.iter().map(|(name, _)| name.as_str()).collect();
    text += &format!("<p class=\"for\">For {}. {UNNAMED}</p>\n", escaped(&names.join(", ")));
    text += "<main>\n";
    text += &before(view);
    for (at, block) in view.blocks.iter().enumerate() {
        text += &block_section(gym, view, at, block);
    }
    if copy == Copy::Coach {
        text += &reasons(gym, board, view);
    }
    text += "</main>\n";
    text += &stop(gym);
    text
}

/// A button a person and a thing: what the script needs to say what changed. Without it, names alone.
fn strip(view: &View) -> String {
    let mut text = "<div id=\"top\">\n<section id=\"clock\" aria-label=\"Clock\"></section>\n\
                    <nav id=\"strip\" aria-label=\"People\">"
        .to_string();
    let _ = write!(text, "<p id=\"how\">{}</p><ul>", escaped(TOUCH));
    for (at, (name, at_home)) in view.people.iter().enumerate() {
        let home = if *at_home { " <small title=\"at home\">\u{2302}</small>" } else { "" };
        // Writing to a String cannot fail.
        let _ = write!(
            text,
            "<li><button type=\"button\" data-who=\"{at}\" aria-expanded=\"false\">{}{home}</button></li>",
            escaped(name)
        );
    }
    // What a touch changed is said where the touch was, so that it is in sight wherever the page stands.
    text + "</ul><div id=\"choices\" hidden></div><p id=\"said\" role=\"status\"></p></nav>\n</div>\n"
}

/// What a touch does, for whoever sees the board for the first time.
const TOUCH: &str = "Touch a name for who has come, has gone or hurts, and \u{201c}Something broke\u{201d} for \
                     kit: only those change who must. \u{2302} is at home.";

/// On paper most of a line are everyone else: of those named here, whose limits were asked.
const UNNAMED: &str = "Everyone else is of these alone; whoever is not named asks the coach.";

fn before(view: &View) -> String {
    let mut text = "<section class=\"before\"><h2>Fetch before class</h2>\n<ul>".to_string();
    let kit: Vec<String> = view.hall_kit.iter().map(|(n, name)| format!("{n} × {name}")).collect();
    let hall = std::iter::once(("For the hall".to_string(), kit));
    let set_up = (!view.set_up.is_empty()).then(|| vec![view.set_up.join("; ")]);
    let hall = hall.chain(set_up.map(|heights| ("Set up".to_string(), heights)));
    let home = view.home_kit.iter().cloned().map(|(name, kit)| (format!("{name} \u{2302}"), kit));
    for (at, (place, kit)) in hall.chain(home).enumerate() {
        let kit = if kit.is_empty() { "nothing".to_string() } else { kit.join(", ") };
        let id = if at == 0 { " id=\"hall\"" } else { "" };
        let (place, kit) = (escaped(&place), escaped(&kit));
        let _ = write!(text, "<li><b>{place}</b> <span{id}>{kit}</span></li>");
    }
    text + "</ul></section>\n"
}

fn block_section(gym: &Gym, view: &View, at: usize, block: &BlockView) -> String {
    let format = block.format.as_ref();
    let format = format.map_or(String::new(), |format| format!("<b>{}.</b> ", escaped(format)));
    let proposed = match block.is_proposed {
        true => format!(" <span class=\"proposed\">{PROPOSED}</span>"),
        false => String::new(),
    };
    let mut text = format!(
        "<section class=\"block\" id=\"block-{}\">\n<h2>{}. {} <small>{} to {}</small></h2>\n\
         <p class=\"how\">{format}{}{proposed}</p>\n",
        at + 1,
        at + 1,
        escaped(&block.name),
        block.from,
        block.to,
        escaped(&block.how)
    );
    if !block.groups.is_empty() {
        let _ = write!(text, "<ul class=\"groups\" data-block=\"{at}\">");
        let is_any_at_home = view.people.iter().any(|(_, at_home)| *at_home);
        for (at, (letter, names)) in block.groups.iter().enumerate() {
            let home = if at == 0 && is_any_at_home { AT_HOME } else { "" };
            let names = escaped(&names.join(", "));
            let _ =
                write!(text, "<li><b>{letter}</b> <span>{names}</span> <small>{home}</small></li>");
        }
        text += "</ul>\n";
    }
    for (line, shown) in block.lines.iter().enumerate() {
        text += &line_section(gym, view, (at, line), shown);
    }
    text + "</section>\n"
}

fn line_section(gym: &Gym, view: &View, (block, line): (usize, usize), shown: &LineView) -> String {
    let mut text = format!(
        "<div class=\"line\"><h3>{}</h3>\n<ul class=\"doing\" data-line=\"{block}-{line}\">\n",
        escaped(&shown.name)
    );
    for doing in &shown.doing {
        text += &doing_item(gym, view, doing);
    }
    text + "</ul></div>\n"
}

fn doing_item(gym: &Gym, view: &View, doing: &Doing) -> String {
    let said = escaped(&doing.said());
    let cue = match doing.cue.is_empty() {
        true => String::new(),
        false => format!("<p class=\"cue\">{}</p>", escaped(&doing.cue)),
    };
    let mut text =
        format!("<li class=\"card\">{}<p class=\"what\">{said}</p>{cue}", figure(gym, doing));
    for (dose, who) in &doing.who {
        // Writing to a String cannot fail.
        let _ = write!(
            text,
            "<div class=\"much\"><p class=\"dose\">{}</p><ul class=\"who\">",
            escaped(dose)
        );
        for one in who {
            let (name, _) = &view.people[*one];
            let _ = write!(text, "<li data-who=\"{one}\">{}</li>", escaped(name));
        }
        text += "</ul></div>";
    }
    text + "</li>\n"
}

/// The last key pose of what is done, beside words that name it; none beside a change, as the drawing
/// would show what the change leaves out.
fn figure(gym: &Gym, doing: &Doing) -> String {
    if doing.is_changed {
        return String::new();
    }
    let rung = doing.rung.as_ref().and_then(|rung| gym.rungs.get(&rung.key));
    let posed = rung.or_else(|| gym.posed.get(doing.movement.as_ref()?));
    let solved = posed.and_then(|posed| posed.figure.as_ref());
    let drawn = solved.and_then(|solved| draw(solved, "", "board").frames.pop());
    drawn.unwrap_or_default()
}

fn reasons(gym: &Gym, board: &Board, view: &View) -> String {
    let mut text = "<section class=\"why\"><h2>Why, for you alone</h2>\n\
                    <p>What is not here is as the session asks.</p>\n"
        .to_string();
    for (who, (name, _)) in view.people.iter().enumerate() {
        let _ = write!(text, "<h3>{}</h3>\n<ul>", escaped(name));
        for (block, shown) in view.blocks.iter().enumerate() {
            for (line, of_line) in shown.lines.iter().enumerate() {
                let Some(why) = why(gym, board, (block, line), who) else { continue };
                let _ =
                    write!(text, "<li><b>{}</b> {}</li>", escaped(&of_line.name), escaped(&why));
            }
        }
        for note in &board.class.people[who].notes {
            let _ = write!(text, "<li><b>After class</b> {}</li>", escaped(note));
        }
        text += "</ul>\n";
    }
    text + "</section>\n"
}

/// The caution line and the signs at which to stop, as on every page that tells someone to move.
fn stop(gym: &Gym) -> String {
    let club = &gym.library.club;
    let caution = club.caution_line.as_ref().map_or("", |line| line.value.as_str());
    let signs: Vec<&str> = club.stop_signs.iter().map(String::as_str).collect();
    format!(
        "<footer><p>{}</p><p><b>Stop and get help:</b> {}</p></footer>\n",
        escaped(caution),
        escaped(&signs.join(", "))
    )
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

fn hash(text: &str) -> String {
    base64(&Sha256::digest(text.as_bytes()))
}

/// Base 64 (RFC 4648), as a content policy writes a hash.
fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::new();
    for three in bytes.chunks(3) {
        let byte = |at: usize| u32::from(three.get(at).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for at in 0..4 {
            let letter = (bits >> (18 - 6 * at)) & 63;
            let is_there = at <= three.len();
            text.push(if is_there { char::from(LETTERS[letter as usize]) } else { '=' });
        }
    }
    text
}

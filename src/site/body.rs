//! Bodies: an entry's Markdown as HTML, headings set under the page's own, links made ours.
//! Never lets raw HTML through: what looks like a tag is shown as text.

use super::routes::{Links, from_written};
use crate::library::reader::unseen::is_unseen;
use pulldown_cmark::{CowStr, Event, Options, Parser, Tag, html};

/// The HTML of a body on a page with `links`.
pub fn to_html(markdown: &str, links: &Links) -> String {
    let options = Options::ENABLE_TABLES | Options::ENABLE_STRIKETHROUGH;
    let events = Parser::new_ext(markdown, options).map(|event| match event {
        Event::Html(text) | Event::InlineHtml(text) => Event::Text(text),
        Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
            let dest_url = ours(&dest_url, links);
            Event::Start(Tag::Link { link_type, dest_url, title, id })
        }
        Event::Start(Tag::Image { dest_url, .. }) => {
            Event::Text(CowStr::from(format!("[picture: {dest_url}] ")))
        }
        other => other,
    });
    let events = events.filter(|event| !matches!(event, Event::End(pulldown_cmark::TagEnd::Image)));
    let mut out = String::new();
    html::push_html(&mut out, events);
    // `&#1;` is written in plain letters and becomes a sign that no page may hold.
    out.replace(is_unseen, "\u{fffd}")
}

fn ours<'a>(written: &CowStr<'a>, links: &Links) -> CowStr<'a> {
    let outside = written.starts_with("https://") || written.starts_with("http://");
    if outside || written.starts_with("mailto:") || written.starts_with('#') {
        return written.clone();
    }
    match from_written(written) {
        Some(target) => CowStr::from(links.to(&target.to())),
        // Another kind of address, such as one that runs a script, is none of ours.
        None => CowStr::from("#"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_are_relative_and_tags_are_text() {
        let links = Links::from("movements/strap-row.html");
        let html = to_html("[towel](towel-row) <b>x</b>", &links);
        assert!(html.contains(r#"href="../movements/towel-row.html""#), "{html}");
        assert!(html.contains("&lt;b&gt;"), "{html}");
        let html = to_html("a &#1;&#x1b;&#8238;&#xfffe; b\n", &links);
        assert_eq!(html, "<p>a \u{fffd}\u{fffd}\u{fffd}\u{fffd} b</p>\n");
        for other in [
            "javascript:alert(1)",
            "JaVaScRiPt&colon;alert(1)",
            "//other.example/x",
            "data:text/html,x",
        ] {
            let html = to_html(&format!("[x]({other}) and <{other}>"), &links);
            assert!(!html.contains(&format!("href=\"{other}")), "{html}");
        }
    }
}

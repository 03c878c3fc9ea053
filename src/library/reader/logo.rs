//! The club's logo: the drawing beside `club.yaml` that its key `logo` names.
//! Never draws and never mends it; a drawing that could do more than be looked at is refused.

use super::codes;
use super::fields::Reading;
use super::files::TextFile;
use crate::finding::{Finding, Severity, Sources, Span};
use crate::library::Library;

/// It is part of every page's head, and of what a phone keeps.
const BIGGEST: usize = 32 * 1024;

/// The space of names of a drawing (W3C, SVG 1.1, 1.3).
const SVG: &str = "http://www.w3.org/2000/svg";

/// What a logo is drawn with: shapes, groups, gradients, words for those who do not see. Nothing that runs,
/// fetches, or brings in other pages.
const DRAWN_WITH: [&str; 20] = [
    "svg",
    "g",
    "defs",
    "title",
    "desc",
    "metadata",
    "path",
    "rect",
    "circle",
    "ellipse",
    "line",
    "polyline",
    "polygon",
    "text",
    "tspan",
    "use",
    "linearGradient",
    "radialGradient",
    "stop",
    "clipPath",
];

/// Finds the logo among the drawings that were read; one that is no logo is said to be read by nothing.
pub fn settle(files: &[TextFile], library: &mut Library, sources: &Sources, reading: &mut Reading) {
    let wanted = library.club.logo.clone();
    let is_drawing = |file: &&TextFile| matches!(&file.parts[..], [name] if name.ends_with(".svg"));
    let mut found = false;
    for file in files.iter().filter(is_drawing) {
        let whole = Span::whole(file.file);
        if wanted.as_ref().is_none_or(|name| file.parts != [name.value.as_str()]) {
            let headline = format!("nothing reads `{}`", file.parts.join("/"));
            let help = "name it as `logo` in club.yaml, or keep it outside the library";
            let finding = Finding::new(codes::STRAY_FILE, Severity::Warning, headline, whole);
            reading.findings.push(finding.help(help));
            continue;
        }
        found = true;
        match why_not(sources.text(file.file)) {
            Some((headline, help)) => {
                reading.error(codes::LOGO_REFUSED, headline.to_string(), whole, help);
            }
            None => library.club.logo_file = Some(file.file),
        }
    }
    if let Some(name) = wanted.filter(|_| !found) {
        let headline = format!("there is no drawing `{}` beside club.yaml", name.value);
        let help = "put an SVG file of that name there, or take `logo` away";
        reading.error(codes::LOGO_REFUSED, headline, name.span, help);
    }
}

fn why_not(text: &str) -> Option<(&'static str, &'static str)> {
    if text.len() > BIGGEST {
        return Some(("the logo is over 32 kB", "save it with fewer points and no pictures in it"));
    }
    // A document type, which could hold entities, is not read.
    let read = roxmltree::Document::parse(text);
    let Some(drawing) = read.ok().filter(|read| is_drawn(&read.root_element(), "svg")) else {
        return Some(("the logo is no SVG drawing", "save it as plain SVG"));
    };
    let harmless = drawing.descendants().all(|node| match node.node_type() {
        roxmltree::NodeType::Element => is_harmless(&node),
        // `<?xml-stylesheet ...?>` fetches.
        roxmltree::NodeType::PI => false,
        _ => true,
    });
    (!harmless).then_some((
        "the logo holds more than a drawing: a script, a style, a picture or an address",
        "save it as plain SVG, its shapes alone, with everything in it",
    ))
}

fn is_drawn(node: &roxmltree::Node<'_, '_>, name: &str) -> bool {
    node.tag_name().namespace() == Some(SVG) && node.tag_name().name() == name
}

/// Whether an element only draws, and refers to nothing but parts of the drawing itself.
fn is_harmless(node: &roxmltree::Node<'_, '_>) -> bool {
    let drawn = DRAWN_WITH.iter().any(|name| is_drawn(node, name));
    drawn
        && node.attributes().all(|attribute| {
            let (name, value) = (attribute.name(), attribute.value());
            let low = value.to_lowercase();
            let inside = match name {
                "href" | "src" => value.trim_start().starts_with('#'),
                _ => !low.contains("url(") || low.replace(['"', '\''], "").contains("url(#"),
            };
            inside
                && !name.to_lowercase().starts_with("on")
                && !low.contains("javascript:")
                && !low.contains('\\')
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drawing_that_does_more_than_be_looked_at_is_refused() {
        let plain = "<svg xmlns=\"http://www.w3.org/2000/svg\"><path d=\"M0 0\"/></svg>";
        assert_eq!(why_not(plain), None);
        let drawn = |inside: &str| {
            format!(
                "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:s=\"http://www.w3.org/2000/svg\" \
                     xmlns:xlink=\"http://www.w3.org/1999/xlink\">{inside}</svg>"
            )
        };
        assert_eq!(why_not(&drawn("<g fill=\"url(#a)\"><use xlink:href=\"#b\"/></g>")), None);
        for inside in [
            "<script>1</script>",
            "<s:script>1</s:script>",
            "<g onload = \"x()\"/>",
            "<g\nonclick='x()'/>",
            "<use xlink:href=\"javascript:x()\"/>",
            "<use href=\"//elsewhere.example/x.svg#a\"/>",
            "<image href=\"https://elsewhere.example/x.png\"/>",
            "<a href=\"https://elsewhere.example\"/>",
            "<g fill=\"url('http://elsewhere.example/x#a')\"/>",
            "<style>@import 'x'</style>",
            "<foreignObject/>",
            "<animate/>",
            "<h:p xmlns:h=\"http://www.w3.org/1999/xhtml\"/>",
            "<g>",
        ] {
            assert!(why_not(&drawn(inside)).is_some(), "{inside}");
        }
        for bad in [
            "<svg><path/></svg>",
            "<?xml-stylesheet href=\"x\"?><svg xmlns=\"http://www.w3.org/2000/svg\"/>",
            "<!DOCTYPE svg [<!ENTITY a \"b\">]><svg xmlns=\"http://www.w3.org/2000/svg\">&a;</svg>",
            "no drawing",
        ] {
            assert!(why_not(bad).is_some(), "{bad}");
        }
        assert!(why_not(&format!("<svg>{}</svg>", " ".repeat(BIGGEST))).is_some());
    }
}

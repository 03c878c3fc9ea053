//! Findings for a person at a terminal: the line, the carets, the next step.
//! Never prints; returns text.

use super::{Finding, Place, Severity, Sources, plain};
use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};

/// Whether the terminal wants colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paint {
    /// Plain text: a pipe, a file or `NO_COLOR`.
    Plain,
    /// Colours.
    Colour,
}

/// Words `findings` as a terminal shows them, a blank line after each.
pub fn render(findings: &[Finding], sources: &Sources, paint: Paint) -> String {
    let renderer = match paint {
        Paint::Plain => Renderer::plain(),
        Paint::Colour => Renderer::styled(),
    };
    let mut out = String::new();
    for finding in findings {
        out.push_str(&renderer.render(&[group(finding, sources)]));
        out.push_str("\n\n");
    }
    out
}

fn group<'a>(finding: &'a Finding, sources: &'a Sources) -> Group<'a> {
    let level = match finding.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Advice => Level::INFO.with_name("advice"),
    };
    let title = level.primary_title(format!("[{}] {}", finding.code, finding.headline));
    let mut group = Group::with_title(title);
    group = with_place(group, &finding.place, finding.also.as_ref(), sources);
    if !finding.help.is_empty() {
        // It may repeat what stands in the file.
        let help: Vec<String> = finding.help.lines().map(plain).collect();
        group = group.element(Level::HELP.message(help.join("\n")));
    }
    group
}

fn with_place<'a>(
    group: Group<'a>,
    place: &'a Place,
    also: Option<&'a Place>,
    sources: &'a Sources,
) -> Group<'a> {
    if place.span.is_whole_file() {
        let group = group.element(Origin::path(sources.name(place.span.file)));
        return match also {
            Some(also) if also.span.is_whole_file() => {
                group.element(Origin::path(sources.name(also.span.file)))
            }
            Some(also) => group.element(snippet(also, None, sources)),
            None => group,
        };
    }
    match also {
        Some(also) if also.span.file == place.span.file && !also.span.is_whole_file() => {
            group.element(snippet(place, Some(also), sources))
        }
        Some(also) if !also.span.is_whole_file() => {
            group.element(snippet(place, None, sources)).element(snippet(also, None, sources))
        }
        Some(also) => group
            .element(snippet(place, None, sources))
            .element(Origin::path(sources.name(also.span.file))),
        None => group.element(snippet(place, None, sources)),
    }
}

fn snippet<'a>(
    place: &'a Place,
    second: Option<&'a Place>,
    sources: &'a Sources,
) -> Snippet<'a, annotate_snippets::Annotation<'a>> {
    let text = sources.text(place.span.file);
    let mut snippet = Snippet::source(text)
        .path(sources.name(place.span.file))
        .annotation(annotation(AnnotationKind::Primary, place, text));
    if let Some(second) = second {
        snippet = snippet.annotation(annotation(AnnotationKind::Context, second, text));
    }
    snippet
}

fn annotation<'a>(
    kind: AnnotationKind,
    place: &'a Place,
    text: &str,
) -> annotate_snippets::Annotation<'a> {
    let (start, end) = on_characters(text, place.span.start as usize, place.span.end as usize);
    let annotation = kind.span(start..end);
    if place.label.is_empty() { annotation } else { annotation.label(plain(&place.label)) }
}

/// A span inside the text, on character boundaries, on one line.
fn on_characters(text: &str, start: usize, end: usize) -> (usize, usize) {
    let mut start = start.min(text.len());
    while !text.is_char_boundary(start) {
        start -= 1;
    }
    let mut end = end.clamp(start, text.len());
    while !text.is_char_boundary(end) {
        end += 1;
    }
    let line_end = text[start..end].find(['\n', '\r']).map_or(end, |at| start + at);
    (start, line_end.max(start))
}

/// One closing sentence: how many errors, warnings and pieces of advice.
pub fn summary(findings: &[Finding]) -> String {
    let count = |severity| findings.iter().filter(|f| f.severity == severity).count();
    let say = |n: usize, one: &str, many: &str| match n {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {many}")),
    };
    let parts: Vec<String> = [
        say(count(Severity::Error), "error", "errors"),
        say(count(Severity::Warning), "warning", "warnings"),
        say(count(Severity::Advice), "piece of advice", "pieces of advice"),
    ]
    .into_iter()
    .flatten()
    .collect();
    match parts.as_slice() {
        [] => "nothing to mend".to_string(),
        [one] => one.clone(),
        [head @ .., last] => format!("{} and {last}", head.join(", ")),
    }
}

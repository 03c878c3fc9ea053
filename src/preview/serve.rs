//! Serving: the site out of memory, and a stream that tells open pages of every new build.
//! Never reads a file for a request: what is not among the site's files does not exist.

use super::pose;
use super::showing::Showing;
use crate::door::{self, Door};
use axum::Router;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use serde::Serialize;
use std::convert::Infallible;
use std::io;
use std::sync::Arc;
use std::time::{SystemTime, UNIX_EPOCH};
use tokio::sync::watch::Receiver;
use tokio_stream::{Stream, StreamExt, wrappers::WatchStream};

const SCRIPT: &str = include_str!("page/preview.js");
const STYLE: &str = include_str!("page/preview.css");
const OFFLINE: &str = include_str!("page/offline-worker.js");
const WAITING: &str = include_str!("page/waiting.html");

#[derive(Clone)]
struct Served {
    showing: Receiver<Arc<Showing>>,
    /// Tells this run from an earlier one at the same port, whose numbers began at 1 as well.
    run: Arc<str>,
}

impl Served {
    fn now(&self) -> Arc<Showing> {
        Arc::clone(&self.showing.borrow())
    }
}

/// Serves what `showing` holds, until the future is dropped.
pub async fn serve(
    door: Door,
    showing: Receiver<Arc<Showing>>,
    poses: pose::Wanted,
) -> io::Result<()> {
    door::serve(door, "preview", app(showing).merge(pose::app(poses))).await
}

fn app(showing: Receiver<Arc<Showing>>) -> Router {
    let started = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    let run = started.as_millis().to_string().into();
    Router::new()
        .route("/preview/events", get(events))
        .route("/preview/preview.js", get(|| own(SCRIPT, "js")))
        .route("/preview/preview.css", get(|| own(STYLE, "css")))
        .route("/offline-worker.js", get(|| own(OFFLINE, "js")))
        .route("/", get(|state| page(state, Path(String::new()))))
        .route("/{*file}", get(page))
        .with_state(Served { showing, run })
}

async fn own(text: &'static str, ending: &'static str) -> Response {
    ([(CONTENT_TYPE, content_type(ending))], text).into_response()
}

async fn page(State(served): State<Served>, Path(file): Path<String>) -> Response {
    let showing = served.now();
    let name = match file.is_empty() || file.ends_with('/') {
        true => format!("{file}index.html"),
        false => file,
    };
    let Some(site) = showing.site.clone() else { return waiting(&served.run, &showing) };
    // A page takes a moment to make, in which others are answered.
    let made = tokio::task::spawn_blocking(move || match site.file(&name) {
        Some(made) => (StatusCode::OK, name, made),
        None => {
            let missing = site.file(MISSING).unwrap_or_else(|| Ok(Vec::new()));
            (StatusCode::NOT_FOUND, MISSING.to_string(), missing)
        }
    });
    match made.await {
        Ok((status, name, Ok(body))) => {
            shown(status, &name, body, &script_tag(&served.run, &showing))
        }
        Ok((_, name, Err(error))) => unmade(&served.run, &showing, (&name, error.to_string())),
        Err(error) => unmade(&served.run, &showing, ("page", error.to_string())),
    }
}

/// The page for an address that does not exist.
const MISSING: &str = "404.html";

fn shown(status: StatusCode, name: &str, mut body: Vec<u8>, tag: &str) -> Response {
    let ending = name.rsplit('.').next().unwrap_or_default();
    if ending == "html" {
        add_script(&mut body, tag);
    }
    (status, [(CONTENT_TYPE, content_type(ending))], body).into_response()
}

/// Stands for a page that the theme cannot show.
fn unmade(run: &str, showing: &Showing, (name, why): (&str, String)) -> Response {
    let summary = format!("`{name}` cannot be made");
    let findings = format!("error: {why}\n  = help: mend the place named, and save it\n");
    waiting(run, &Showing { summary, findings, ..showing.clone() })
}

/// Stands for every page until there are some.
fn waiting(run: &str, showing: &Showing) -> Response {
    let page = WAITING
        .replace("{summary}", &escaped(&showing.summary))
        .replace("{findings}", &escaped(&showing.findings));
    let mut body = page.into_bytes();
    add_script(&mut body, &script_tag(run, showing));
    let kind = [(CONTENT_TYPE, content_type("html"))];
    (StatusCode::SERVICE_UNAVAILABLE, kind, body).into_response()
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('{', "&#123;")
}

/// The script that keeps a page up to date, with the numbers of the build that the page is from.
fn script_tag(run: &str, showing: &Showing) -> String {
    format!(
        "<script src=\"/preview/preview.js\" data-run=\"{run}\" data-build=\"{}\" data-pages=\"{}\" defer></script>\n",
        showing.build, showing.pages
    )
}

/// Puts `tag` before the end of the body; a theme's page may leave that end out.
fn add_script(html: &mut Vec<u8>, tag: &str) {
    let end = b"</body>";
    let found = html.windows(end.len()).rposition(|part| part.eq_ignore_ascii_case(end));
    let at = found.unwrap_or(html.len());
    html.splice(at..at, tag.bytes());
}

/// Media types as the IANA lists them; text is always UTF-8.
fn content_type(ending: &str) -> &'static str {
    match ending {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "xml" => "application/xml",
        "txt" | "md" => "text/plain; charset=utf-8",
        "ics" => "text/calendar; charset=utf-8",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" | "jpeg" => "image/jpeg",
        "webp" => "image/webp",
        "avif" => "image/avif",
        "ico" => "image/vnd.microsoft.icon",
        "woff2" => "font/woff2",
        "pdf" => "application/pdf",
        _ => "application/octet-stream",
    }
}

/// What an open page hears of a build.
#[derive(Serialize)]
struct News<'a> {
    run: &'a str,
    build: u64,
    pages: u64,
    summary: &'a str,
    findings: &'a str,
    pressing: bool,
}

/// Every build from now on, after the one that is shown now: a page that was away misses nothing.
async fn events(
    State(served): State<Served>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    let run = Arc::clone(&served.run);
    let stream = WatchStream::new(served.showing).map(move |showing| Ok(event(&run, &showing)));
    Sse::new(stream).keep_alive(KeepAlive::default())
}

fn event(run: &str, showing: &Showing) -> Event {
    let news = News {
        run,
        build: showing.build,
        pages: showing.pages,
        summary: &showing.summary,
        findings: &showing.findings,
        pressing: showing.pressing,
    };
    // Numbers and strings always become JSON, and JSON has no line breaks of its own.
    let json = serde_json::to_string(&news).unwrap_or_default();
    Event::default().id(showing.build.to_string()).data(json)
}

//! Serving the pose editor: its list, its pages, and what they ask and write.
//! Never reads more than a page of ours sends, never waits for it for long, and never changes anything
//! for a page that is not ours.

use super::asked::Asked;
use super::desk::{Desk, No};
use super::shown::Shown;
use super::{Key, Wanted};
use crate::door::Guard;
use crate::figure::style::SHEET;
use crate::figure::wordbook::wordbook;
use crate::library::MovementId;
use axum::Router;
use axum::body::{Body, to_bytes};
use axum::extract::{Path, Request, State};
use axum::http::header::{CONTENT_SECURITY_POLICY, CONTENT_TYPE, REFERRER_POLICY};
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

const PAGE: &str = include_str!("../page/pose.html");
const LIST: &str = include_str!("../page/poses.html");
const SCRIPT: &str = include_str!("../page/pose.js");
const STYLE: &str = include_str!("../page/pose.css");

/// The most that a page sends, bytes: hundreds of changes.
const LARGEST: usize = 64 * 1024;

/// How long it may take to arrive.
const LONGEST: Duration = Duration::from_secs(10);

#[derive(Clone)]
struct Served {
    guard: Guard,
    key: Key,
    desk: Arc<Mutex<Desk>>,
}

/// What is served to whoever knows the key.
pub fn app(wanted: Wanted) -> Router {
    let desk = Arc::new(Mutex::new(Desk::new(wanted.library)));
    let served = Served { guard: wanted.guard, key: wanted.key, desk };
    Router::new()
        .route("/preview/pose.js", get(|| async { text("text/javascript", SCRIPT.to_string()) }))
        .route("/preview/pose.css", get(|| async { text("text/css", format!("{STYLE}{SHEET}")) }))
        .route("/preview/words-of-poses.html", get(words))
        .route("/pose/{key}/", get(list))
        .route("/pose/{key}/{id}/", get(page))
        .route("/pose/{key}/{id}/{what}", post(asked))
        .with_state(served)
}

/// Every word with its drawings; solved when somebody looks.
async fn words() -> Response {
    let made = tokio::task::spawn_blocking(wordbook).await;
    made.map_or_else(|_| failed(), |page| text("text/html", page))
}

fn text(kind: &str, words: String) -> Response {
    ([(CONTENT_TYPE, format!("{kind}; charset=utf-8"))], words).into_response()
}

/// The address is the key: it goes to nobody, no page holds ours in a frame, and ours runs nothing else.
fn guarded(mut response: Response) -> Response {
    let policy = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; \
                  base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
    let headers = response.headers_mut();
    headers.insert(REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    headers.insert(CONTENT_SECURITY_POLICY, HeaderValue::from_static(policy));
    response
}

fn nothing_here() -> Response {
    let words = "Nothing is here: open the address of the poses that `rungbook preview` said.\n";
    guarded((StatusCode::NOT_FOUND, words).into_response())
}

async fn list(State(served): State<Served>, Path(key): Path<String>) -> Response {
    if !served.key.is(&key) {
        return nothing_here();
    }
    let all = served.key.clone();
    let made = tokio::task::spawn_blocking(move || held(&served.desk).movements()).await;
    let Ok(Ok(movements)) = made else { return failed() };
    let line = |(id, name, has): &(MovementId, String, bool)| {
        let more = if *has { "" } else { " <small>no pose yet</small>" };
        let (own, id) = (all.of(id), id.as_str());
        let name = escaped(name);
        format!("<li><a href=\"/pose/{}/{id}/\" data-id=\"{id}\">{name}</a>{more}</li>\n", own.0)
    };
    let lines: String = movements.iter().map(line).collect();
    guarded(text("text/html", LIST.replace("{lines}", &lines)))
}

async fn page(State(served): State<Served>, Path((key, id)): Path<(String, String)>) -> Response {
    let id = MovementId(id);
    if !served.key.of(&id).is(&key) {
        return nothing_here();
    }
    guarded(text("text/html", PAGE.replace("{id}", &escaped(id.as_str()))))
}

async fn asked(
    State(served): State<Served>,
    Path((key, id, what)): Path<(String, String, String)>,
    request: Request,
) -> Response {
    let id = MovementId(id);
    if !served.key.of(&id).is(&key) {
        return nothing_here();
    }
    let (parts, body) = request.into_parts();
    // A link or a form on any page can make a browser ask; only our own page says that it is one.
    if !served.guard.sent_by_our_page(&parts.headers) || !is_json(&parts.headers) {
        let words = "A pose is changed by its own page alone.\n";
        return guarded((StatusCode::FORBIDDEN, words).into_response());
    }
    let asked = match read(body).await {
        Ok(asked) => asked,
        Err(response) => return guarded(response),
    };
    let done = tokio::task::spawn_blocking(move || {
        let mut desk = held(&served.desk);
        match what.as_str() {
            "look" => Some(desk.look(&id, &asked)),
            "write" => Some(desk.write(&id, &asked)),
            "undo" => Some(desk.undo(&id, &asked)),
            _ => None,
        }
    });
    guarded(match done.await {
        Ok(Some(done)) => answered(done),
        Ok(None) => return nothing_here(),
        Err(_) => failed(),
    })
}

fn is_json(headers: &HeaderMap) -> bool {
    headers.get(CONTENT_TYPE).is_some_and(|kind| kind.as_bytes() == b"application/json")
}

async fn read(body: Body) -> Result<Asked, Response> {
    let refused = |status: StatusCode, words: &'static str| (status, words).into_response();
    let bytes = match tokio::time::timeout(LONGEST, to_bytes(body, LARGEST)).await {
        Ok(Ok(bytes)) => bytes,
        Ok(Err(_)) => {
            return Err(refused(StatusCode::PAYLOAD_TOO_LARGE, "That is too much at once.\n"));
        }
        Err(_) => {
            return Err(refused(StatusCode::REQUEST_TIMEOUT, "That took too long to arrive.\n"));
        }
    };
    serde_json::from_slice(&bytes)
        .map_err(|_| refused(StatusCode::BAD_REQUEST, "That is nothing that a pose's page says.\n"))
}

/// What was done half-way has changed nothing: a file is written whole or not at all.
fn held(desk: &Mutex<Desk>) -> std::sync::MutexGuard<'_, Desk> {
    desk.lock().unwrap_or_else(PoisonError::into_inner)
}

fn answered(done: Result<Shown, No>) -> Response {
    match done {
        Ok(shown) => json(StatusCode::OK, serde_json::to_string(&shown)),
        Err(No::Changed(why)) => json(StatusCode::CONFLICT, said(&why)),
        Err(No::Cannot(why)) => json(StatusCode::UNPROCESSABLE_ENTITY, said(&why)),
    }
}

fn said(why: &str) -> serde_json::Result<String> {
    serde_json::to_string(&serde_json::json!({ "said": why }))
}

fn json(status: StatusCode, words: serde_json::Result<String>) -> Response {
    // Strings, numbers and lists of them always serialise.
    let words = words.unwrap_or_default();
    (status, [(CONTENT_TYPE, "application/json")], words).into_response()
}

fn failed() -> Response {
    let words = "The pose could not be made: `rungbook check` says what is wrong.\n";
    guarded((StatusCode::INTERNAL_SERVER_ERROR, words).into_response())
}

fn escaped(words: &str) -> String {
    words.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;").replace('{', "&#123;")
}

//! Serving: the page of a board, how it stands, and touches on it.
//! Never reads what is sent beside an address, and never changes anything for a page that is not ours.

use super::Wanted;
use super::class::{Answer, Asked, Class, Outcome};
use crate::board::Copy;
use crate::door::Guard;
use axum::Router;
use axum::extract::{Path, Request, State};
use axum::http::header::{CONTENT_SECURITY_POLICY, CONTENT_TYPE, REFERRER_POLICY};
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use sha2::{Digest, Sha256};
use std::sync::{Arc, Mutex, PoisonError};

#[derive(Clone)]
struct Served {
    guard: Guard,
    copy: Copy,
    token: Arc<str>,
    page: Arc<str>,
    class: Arc<Mutex<Class>>,
}

/// What is served to whoever knows the token.
pub fn app(wanted: Wanted, guard: Guard, token: String) -> Router {
    let Wanted { gym, session, standing, copy, page } = wanted;
    let class = Arc::new(Mutex::new(Class::new(gym, session, standing, copy)));
    let served = Served { guard, copy, token: token.into(), page: page.into(), class };
    Router::new()
        .route("/{token}/", get(page_of))
        .route("/{token}/now", get(now))
        .route("/{token}/touch/{number}/{*what}", post(touch))
        .fallback(|| async { nothing_here() })
        .layer(middleware::from_fn_with_state(served.clone(), with_the_token))
        .with_state(served)
}

fn nothing_here() -> Response {
    (
        StatusCode::NOT_FOUND,
        "Nothing is here: open the address that `rungbook board --live` said.\n",
    )
        .into_response()
}

/// Lets in who knows the token; what is compared are prints, so that the time it takes tells nothing of it.
async fn with_the_token(State(served): State<Served>, request: Request, next: Next) -> Response {
    let said = request.uri().path().split('/').nth(1).unwrap_or_default();
    let mut response = match Sha256::digest(said) == Sha256::digest(served.token.as_bytes()) {
        true => next.run(request).await,
        false => nothing_here(),
    };
    let headers = response.headers_mut();
    // The address is the key: it goes to nobody, and no page holds the board in a frame of its own.
    headers.insert(REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    let frames = HeaderValue::from_static("frame-ancestors 'none'");
    headers.insert(CONTENT_SECURITY_POLICY, frames);
    response
}

async fn page_of(State(served): State<Served>) -> Response {
    ([(CONTENT_TYPE, "text/html; charset=utf-8")], served.page.to_string()).into_response()
}

async fn now(State(served): State<Served>) -> Response {
    // A table takes a moment to make, in which others are answered.
    let made = tokio::task::spawn_blocking(move || held(&served.class).now());
    made.await.map_or_else(|_| failed(), |answer| json(StatusCode::OK, &answer))
}

async fn touch(
    State(served): State<Served>,
    Path((_, number, what)): Path<(String, u64, String)>,
    headers: HeaderMap,
) -> Response {
    // A link or a picture on any page can make a browser ask; only our own page says that it is one.
    if !served.guard.sent_by_our_page(&headers) {
        return (StatusCode::FORBIDDEN, "Touches come from the board's own page.\n")
            .into_response();
    }
    let Some(asked) = Asked::read(&what, served.copy) else { return impossible() };
    let made = tokio::task::spawn_blocking(move || held(&served.class).touch(number, asked));
    match made.await {
        Ok(Outcome::Done(answer)) => json(StatusCode::OK, &answer),
        Ok(Outcome::Stale(answer)) => json(StatusCode::CONFLICT, &answer),
        Ok(Outcome::Impossible) => impossible(),
        Err(_) => failed(),
    }
}

/// A touch that failed half-way has changed nothing: the board is put in place whole.
fn held(class: &Mutex<Class>) -> std::sync::MutexGuard<'_, Class> {
    class.lock().unwrap_or_else(PoisonError::into_inner)
}

fn impossible() -> Response {
    (StatusCode::BAD_REQUEST, "That cannot be said of this board.\n").into_response()
}

fn failed() -> Response {
    (StatusCode::INTERNAL_SERVER_ERROR, "The board could not be dealt out.\n").into_response()
}

fn json(status: StatusCode, answer: &Answer) -> Response {
    // Strings, numbers and lists of them always serialise.
    let text = serde_json::to_string(answer).unwrap_or_default();
    (status, [(CONTENT_TYPE, "application/json")], text).into_response()
}

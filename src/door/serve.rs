//! Serving: connections one by one, so many at a time, each with a time in which it must ask.
//! Never answers a stranger, and never lets an answer be kept or taken by another site.

use super::guard::{Door, Guard};
use axum::Router;
use axum::extract::{Request, State};
use axum::http::header::{CACHE_CONTROL, X_CONTENT_TYPE_OPTIONS};
use axum::http::{HeaderName, HeaderValue, StatusCode};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use std::io;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::Semaphore;
use tokio::task::JoinSet;

/// How long a request may take to arrive. A browser opens its connections anew when it needs them.
const LONGEST_ASKING: Duration = Duration::from_secs(10);

/// How many are served at once; a browser takes six connections, and one for the news of each page.
const MOST_AT_ONCE: usize = 200;

/// Serves `app`, which strangers are told is a `what`, until the future is dropped.
///
/// # Errors
/// When the system takes the port away.
pub async fn serve(door: Door, what: &'static str, app: Router) -> io::Result<()> {
    let (listener, guard) = door.into_parts();
    let listener = tokio::net::TcpListener::from_std(listener)?;
    let app = app.layer(middleware::from_fn_with_state((guard, what), at_the_door));
    let places = Arc::new(Semaphore::new(MOST_AT_ONCE));
    // A future that is dropped takes everything with it that was begun for somebody.
    let mut answered = JoinSet::new();
    loop {
        let place = Arc::clone(&places).acquire_owned().await.map_err(io::Error::other)?;
        let Ok((stream, _)) = listener.accept().await else {
            // Somebody is gone again, or there is no room: no reason to close, nor to ask at once.
            tokio::time::sleep(Duration::from_millis(50)).await;
            continue;
        };
        let connection = answering()
            .serve_connection(TokioIo::new(stream), TowerToHyperService::new(app.clone()));
        answered.spawn(async move {
            let _place = place;
            // Whoever asks badly or too slowly is let go; there is nobody to tell.
            let _ = connection.await;
        });
        while answered.try_join_next().is_some() {}
    }
}

/// Waits a while for a request, and no longer: a half-sent one would keep its place for ever.
fn answering() -> http1::Builder {
    let mut builder = http1::Builder::new();
    builder.timer(TokioTimer::new()).header_read_timeout(LONGEST_ASKING);
    builder
}

/// Turns strangers away, and marks every answer as for our own pages and for now only.
async fn at_the_door(
    State((guard, what)): State<(Guard, &'static str)>,
    request: Request,
    next: Next,
) -> Response {
    let mut response = match guard.admits(request.headers()) {
        true => next.run(request).await,
        false => (StatusCode::FORBIDDEN, refusal(guard, what)).into_response(),
    };
    let headers = response.headers_mut();
    headers.insert(CACHE_CONTROL, HeaderValue::from_static("no-store"));
    headers.insert(X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    // Without it another site could take our scripts, and the unpublished words in them, as its own
    // (Fetch standard, section 3.7, Cross-Origin-Resource-Policy).
    let policy = HeaderName::from_static("cross-origin-resource-policy");
    headers.insert(policy, HeaderValue::from_static("same-origin"));
    response
}

fn refusal(guard: Guard, what: &str) -> String {
    format!("This {what} is only for a browser on its own machine, at {}\n", guard.address())
}

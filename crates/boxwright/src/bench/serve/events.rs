//! What an open page hears.

use super::Served;
use crate::bench::desk::Event;
use axum::extract::State;
use axum::response::sse::{self, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use futures_util::stream;
use std::convert::Infallible;
use std::time::Duration;
use tokio::sync::watch::Receiver;

/// A sign of life this often, by which lost pages are noticed.
const ALIVE: Duration = Duration::from_secs(15);

/// The present state, and every later one; a page that is slow hears the newest only.
pub(super) async fn events(State(served): State<Served>) -> Response {
    let Some(desk) = served.desk() else {
        return super::unchosen();
    };
    let mut listener = desk.listen();
    listener.mark_changed();
    let told = stream::unfold(listener, |mut listener: Receiver<Event>| async move {
        listener.changed().await.ok()?;
        let event = listener.borrow_and_update().clone();
        let data = serde_json::to_string(&event).ok()?;
        let event = sse::Event::default().event("state").data(data);
        Some((Ok::<_, Infallible>(event), listener))
    });
    let alive = KeepAlive::new().interval(ALIVE);
    Sse::new(told).keep_alive(alive).into_response()
}

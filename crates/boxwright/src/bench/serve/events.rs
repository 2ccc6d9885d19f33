//! What an open page hears.

use super::Served;
use crate::bench::desk::Event;
use axum::extract::State;
use axum::http::header;
use axum::response::sse::{self, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use futures_util::stream;
use std::convert::Infallible;
use std::pin::Pin;
use std::time::Duration;
use tokio::sync::watch;

/// A sign of life this often, by which lost pages are noticed.
const ALIVE: Duration = Duration::from_secs(15);

/// Pages that are told at once; the one that began to listen first gives way to
/// a newer one, and asks again by itself.
const MOST: u64 = 24;

/// Counts those who began to listen.
#[derive(Debug, Default)]
pub(in super::super) struct Listeners(watch::Sender<u64>);

impl Listeners {
    /// One more; comes to its end when too many have begun after it.
    fn next(&self) -> impl Future<Output = ()> + use<> {
        let mut count = self.0.subscribe();
        let mut own = 0;
        self.0.send_modify(|count| {
            *count += 1;
            own = *count;
        });
        async move {
            count.wait_for(|count| *count >= own + MOST).await.ok();
        }
    }
}

/// What one page listens to.
struct Ear {
    events: watch::Receiver<Event>,
    end: Pin<Box<dyn Future<Output = ()> + Send>>,
}

/// The present state, and every later one; a page that is slow hears the newest only.
pub(super) async fn events(State(served): State<Served>) -> Response {
    let Some(desk) = served.desk() else {
        return super::unchosen();
    };
    let mut ear = Ear {
        events: desk.listen(),
        end: Box::pin(served.listeners.next()),
    };
    ear.events.mark_changed();
    let told = stream::unfold(ear, |mut ear| async move {
        tokio::select! {
            changed = ear.events.changed() => changed.ok()?,
            () = &mut ear.end => return None,
        }
        let event = ear.events.borrow_and_update().clone();
        let data = serde_json::to_string(&event).ok()?;
        let event = sse::Event::default().event("state").data(data);
        Some((Ok::<_, Infallible>(event), ear))
    });
    let alive = KeepAlive::new().interval(ALIVE);
    let told = Sse::new(told).keep_alive(alive);
    // Whoever gives way gives up its connection too.
    ([(header::CONNECTION, "close")], told).into_response()
}

//! The page over HTTP, on this machine alone.

mod connection;
mod deeds;
mod downloads;
mod events;
mod limits;
mod looks;
mod shelf;

use super::chooser::Room;
use super::desk::Desk;
use super::guard::{self, Guard};
use axum::Router;
use axum::http::{StatusCode, header};
use axum::middleware;
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use std::sync::Arc;

pub(super) use connection::serve;

/// What every answer is made from.
#[derive(Clone, Debug)]
pub(super) struct Served {
    pub(super) room: Arc<Room>,
    pub(super) guard: Arc<Guard>,
    pub(super) drafts: Arc<downloads::Drafts>,
    pub(super) trials: Arc<deeds::Trials>,
    pub(super) listeners: Arc<events::Listeners>,
}

impl Served {
    pub(super) fn new(room: Arc<Room>, guard: Arc<Guard>) -> Self {
        Self {
            room,
            guard,
            drafts: Arc::default(),
            trials: Arc::default(),
            listeners: Arc::default(),
        }
    }

    /// The desk, once a design lies on it.
    fn desk(&self) -> Option<Arc<Desk>> {
        self.room.desk().map(Arc::clone)
    }
}

/// The answer until a design is chosen.
fn unchosen() -> Response {
    (StatusCode::CONFLICT, "choose a design first").into_response()
}

/// Every address there is.
pub(super) fn router(served: Served) -> Router {
    let guard = Arc::clone(&served.guard);
    Router::new()
        .route("/", get(looks::whole))
        .route("/parts", get(looks::parts))
        .route("/events", get(events::events))
        .route("/explain/{id}", get(looks::explained))
        .route("/shelf", get(shelf::shelf))
        .route("/driver", post(shelf::driver))
        .route("/do", post(deeds::done))
        .route("/try", post(deeds::tried))
        .route("/sheet/{name}", get(downloads::sheet))
        .route("/pack.pdf", get(downloads::pack))
        .route("/cut/{name}", get(downloads::cut))
        .route("/asset/bench.css", get(style))
        .route("/asset/bench.js", get(script))
        .with_state(served)
        .layer(middleware::from_fn_with_state(guard, guard::guarded))
}

async fn style() -> impl IntoResponse {
    let kind = [(header::CONTENT_TYPE, "text/css; charset=utf-8")];
    (kind, include_str!("../asset/bench.css"))
}

async fn script() -> impl IntoResponse {
    let kind = [(header::CONTENT_TYPE, "text/javascript; charset=utf-8")];
    (kind, include_str!("../asset/bench.js"))
}

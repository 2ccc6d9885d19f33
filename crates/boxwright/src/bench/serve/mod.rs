//! The page over HTTP, on this machine alone.

mod assets;
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
use axum::http::StatusCode;
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
    pub(super) trials: Arc<deeds::Trials>,
    pub(super) listeners: Arc<events::Listeners>,
}

impl Served {
    pub(super) fn new(room: Arc<Room>, guard: Arc<Guard>) -> Self {
        Self {
            room,
            guard,
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
        .route("/build.html", get(downloads::build))
        .route("/cut/{name}", get(downloads::cut))
        .route("/asset/{name}", get(assets::asset))
        .with_state(served)
        .layer(middleware::from_fn_with_state(guard, guard::guarded))
}

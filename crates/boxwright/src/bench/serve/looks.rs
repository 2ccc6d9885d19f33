//! The page, its parts, and what checks say.

use super::Served;
use crate::bench::desk::{Desk, Event};
use crate::bench::page::{self, View};
use crate::{say, terminal};
use axum::extract::{Path, Query, State};
use axum::http::{HeaderName, StatusCode, header};
use axum::response::{Html, IntoResponse, Response};
use std::time::Duration;
use studies::check;
use tokio::task;

/// So long a page waits for the first studies of a new text.
const PATIENCE: Duration = Duration::from_secs(3);

const STATE: HeaderName = HeaderName::from_static("x-state");

type Asked = Query<Vec<(String, String)>>;

/// The whole page.
pub(super) async fn whole(State(served): State<Served>, Query(asked): Asked) -> Response {
    let Some(desk) = served.desk() else {
        let chooser = page::chooser(&served.room.chooser(), served.guard.token());
        return Html(chooser.into_string()).into_response();
    };
    caught_up(&desk).await;
    let drawn = task::spawn_blocking(move || {
        let state = desk.state();
        let view = View::from_query(&asked);
        page::whole(&state, &view, served.guard.token()).into_string()
    });
    shown(drawn.await)
}

/// The parts of the page that may have changed.
pub(super) async fn parts(State(served): State<Served>, Query(asked): Asked) -> Response {
    let Some(desk) = served.desk() else {
        return super::unchosen();
    };
    caught_up(&desk).await;
    let drawn = task::spawn_blocking(move || {
        let state = desk.state();
        let view = View::from_query(&asked);
        let parts = page::parts(&state, &view).into_string();
        ([(STATE, Event::word(&state))], Html(parts))
    });
    match drawn.await {
        Ok(parts) => parts.into_response(),
        Err(_) => shown(Err(())),
    }
}

/// Waits until the newest text is shown, though not for ever.
async fn caught_up(desk: &Desk) {
    let number = desk.number();
    let mut listener = desk.listen();
    let reached = listener.wait_for(|event| event.number >= number);
    tokio::time::timeout(PATIENCE, reached).await.ok();
}

fn shown<E>(drawn: Result<String, E>) -> Response {
    match drawn {
        Ok(page) => Html(page).into_response(),
        Err(_) => {
            let said = "this page could not be drawn: a fault of the program, not of the design";
            (StatusCode::INTERNAL_SERVER_ERROR, said).into_response()
        }
    }
}

/// What the command line says of a check.
pub(super) async fn explained(Path(id): Path<String>) -> Response {
    let Some(check) = check::find(&id) else {
        return (StatusCode::NOT_FOUND, "there is no such check").into_response();
    };
    let kind = [(header::CONTENT_TYPE, "text/plain; charset=utf-8")];
    let text = say::explained(check, terminal::Ink { colour: false });
    (kind, text).into_response()
}

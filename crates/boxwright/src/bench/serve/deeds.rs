//! Changes, and what they would change.

use super::{Served, limits};
use crate::bench::deed::Deed;
use crate::bench::desk::{Trial, Undone};
use crate::bench::page;
use crate::bench::refusal::Problem;
use crate::bench::worker::{self, BANDS, NOMINAL, Turn};
use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{Html, IntoResponse, Response};
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::sync::Arc;
use studies::Texts;
use tokio::task;

/// The answer to a deed.
#[derive(Serialize)]
struct Answer {
    number: u64,
    problems: Vec<Problem>,
}

/// Trials: the newest one wins.
#[derive(Debug, Default)]
pub(in super::super) struct Trials(Turn);

/// Does what the page asks for.
pub(super) async fn done(
    State(served): State<Served>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Response> {
    let deed = read::<Deed>(&headers, body).await?;
    let room = Arc::clone(&served.room);
    let done = task::spawn_blocking(move || room.act(&deed)).await;
    match done.map_err(|_| broken())? {
        Ok(number) => Ok(answer(StatusCode::OK, number, Vec::new())),
        Err(undone) => Err(said(
            undone,
            served.room.desk().map_or(0, |desk| desk.number()),
        )),
    }
}

/// What promises and findings would change to; nothing is kept.
pub(super) async fn tried(
    State(served): State<Served>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Response> {
    let deed = read::<Deed>(&headers, body).await?;
    let desk = served.desk().ok_or_else(super::unchosen)?;
    let number = desk.number();
    let turn = served.trials.0.next();
    let trials = Arc::clone(&served.trials);
    let quick = headers.contains_key("x-quick");
    let tried = task::spawn_blocking(move || {
        let trial = desk.trial(&deed)?;
        Ok(compared(&trial, quick, &|| trials.0.is_old(turn)))
    });
    match tried.await.map_err(|_| broken())? {
        Ok(Some(html)) => Ok(Html(html).into_response()),
        Ok(None) => Err(StatusCode::NO_CONTENT.into_response()),
        Err(undone) => Err(said(undone, number)),
    }
}

/// The change as the page shows it; none where a newer trial took its place.
fn compared(trial: &Trial, quick: bool, is_old: &(dyn Fn() -> bool + Sync)) -> Option<String> {
    let texts = Texts {
        design: &trial.text,
        shelf: trial.shelf.as_deref(),
    };
    let (before, step) = match (&trial.bands, &trial.nominal) {
        (Some(before), _) if !quick => (before, BANDS),
        (_, Some(before)) => (before, NOMINAL),
        _ => return None,
    };
    let after = match worker::study(&trial.memory, texts, step, &|_| (), is_old) {
        Ok(Ok(after)) => after,
        Ok(Err(_)) | Err(_) => return None,
    };
    Some(page::tried(before, &after).into_string())
}

/// Reads a body of JSON.
pub(super) async fn read<T: DeserializeOwned>(
    headers: &HeaderMap,
    body: Body,
) -> Result<T, Response> {
    let kind = headers.get(header::CONTENT_TYPE);
    let is_json = kind.is_some_and(|kind| kind.as_bytes().starts_with(b"application/json"));
    if !is_json {
        let said = (StatusCode::UNSUPPORTED_MEDIA_TYPE, "this is to be JSON");
        return Err(said.into_response());
    }
    let bytes = limits::body(body)
        .await
        .map_err(IntoResponse::into_response)?;
    serde_json::from_slice(&bytes)
        .map_err(|error| (StatusCode::BAD_REQUEST, error.to_string()).into_response())
}

fn said(undone: Undone, number: u64) -> Response {
    match undone {
        Undone::Problems(problems) => answer(StatusCode::UNPROCESSABLE_ENTITY, number, problems),
        Undone::Refused(refusal) => {
            let problem = Problem {
                place: String::new(),
                message: refusal.message,
                advice: refusal.advice.unwrap_or_default(),
            };
            answer(StatusCode::UNPROCESSABLE_ENTITY, number, vec![problem])
        }
        Undone::Outdated => {
            let problem = Problem {
                place: String::new(),
                message: "the design has changed meanwhile".into(),
                advice: "look at it again, then choose once more".into(),
            };
            answer(StatusCode::CONFLICT, number, vec![problem])
        }
    }
}

fn answer(status: StatusCode, number: u64, problems: Vec<Problem>) -> Response {
    let text = serde_json::to_string(&Answer { number, problems }).unwrap_or_default();
    let kind = [(header::CONTENT_TYPE, "application/json")];
    (status, kind, text).into_response()
}

/// A thread that should have answered did not.
pub(super) fn broken() -> Response {
    let said = "this broke off: a fault of the program, not of the design";
    (StatusCode::INTERNAL_SERVER_ERROR, said).into_response()
}

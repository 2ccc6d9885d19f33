//! The shelf, and drivers that are to come onto it.

use super::{Served, deeds};
use crate::bench::data_sheet::{self, Typed};
use crate::bench::page;
use axum::body::Body;
use axum::extract::{Query, State};
use axum::http::HeaderMap;
use axum::response::{Html, IntoResponse, Response};
use serde::Deserialize;
use tokio::task;

/// Parts that fit a search.
pub(super) async fn shelf(
    State(served): State<Served>,
    Query(asked): Query<Vec<(String, String)>>,
) -> Result<Response, Response> {
    let desk = served.desk().ok_or_else(super::unchosen)?;
    let found = task::spawn_blocking(move || {
        let value = |key: &str| asked.iter().find(|(name, _)| name == key);
        let value = |key| value(key).map_or("", |(_, value)| value.as_str());
        let shelf = desk.shelf();
        page::shelf(&shelf, value("search"), value("kind")).into_string()
    });
    let found = found.await.map_err(|_| deeds::broken())?;
    Ok(Html(found).into_response())
}

/// What a page knows of a driver.
#[derive(Debug, Deserialize)]
struct Known {
    values: Typed,
}

/// What follows from what a data sheet says of a driver.
pub(super) async fn driver(
    State(served): State<Served>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Response> {
    let known: Known = deeds::read(&headers, body).await?;
    let desk = served.desk().ok_or_else(super::unchosen)?;
    let said = task::spawn_blocking(move || {
        let shelf = desk.shelf();
        data_sheet::fragment(&known.values, &shelf).into_string()
    });
    let said = said.await.map_err(|_| deeds::broken())?;
    Ok(Html(said).into_response())
}

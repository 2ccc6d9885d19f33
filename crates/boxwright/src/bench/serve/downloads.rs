//! Sheets, the pack and files for the workshop, from the design as it is shown.

use super::Served;
use crate::bench::page;
use crate::bench::state::Studied;
use crate::calendar;
use crate::commands::{pack, workshop};
use crate::failure::Failure;
use axum::extract::{Path, Query, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use drawings::{Paper, Sheet, Theme, export};
use std::time::Duration;
use tokio::task;

/// So long a pack waits for the studies to end; then it tells what is known.
const PATIENCE: Duration = Duration::from_secs(120);

type Asked = Query<Vec<(String, String)>>;

/// Every sheet of a design on the usual paper.
fn sheets(of: &Studied) -> Vec<Sheet> {
    let leaves = of.all_leaves().to_vec();
    drawings::pack::bound(leaves, &of.report, Paper::A4, calendar::today())
}

/// One sheet: `3.svg` or `3.pdf`, counted from 1.
pub(super) async fn sheet(
    State(served): State<Served>,
    Path(name): Path<String>,
    Query(asked): Asked,
) -> Response {
    let Some((number, kind)) = name.split_once('.') else {
        return nothing();
    };
    let (Ok(number), "svg" | "pdf") = (number.parse::<usize>(), kind) else {
        return nothing();
    };
    let is_svg = kind == "svg";
    let theme = theme(&asked);
    worked(served, move |of| {
        let sheets = sheets(of);
        let Some(sheet) = number.checked_sub(1).and_then(|index| sheets.get(index)) else {
            return Ok(None);
        };
        if is_svg {
            let bytes = export::svg::svg(sheet, theme).into_bytes();
            return Ok(Some(File::shown("image/svg+xml", bytes)));
        }
        let bytes = pdf(of, std::slice::from_ref(sheet))?;
        let name = format!("{number:02}-{}.pdf", pack::slug(&sheet.title));
        Ok(Some(File::kept("application/pdf", name, bytes)))
    })
    .await
}

/// The whole pack, once the studies have ended: it holds mends and swaps too.
pub(super) async fn pack(State(served): State<Served>, Query(asked): Asked) -> Response {
    if let Some(desk) = served.room.desk() {
        let mut listener = desk.listen();
        let ended = listener.wait_for(|event| !event.busy);
        tokio::time::timeout(PATIENCE, ended).await.ok();
    }
    let paper = match value(&asked, "paper") {
        Some("letter") => Paper::Letter,
        _ => Paper::A4,
    };
    worked(served, move |of| {
        let sheets = match paper {
            Paper::A4 => sheets(of),
            _ => drawings::pack::pack(&of.project, &of.report, paper, calendar::today()),
        };
        let name = format!("{}-pack.pdf", pack::slug(&of.report.name));
        Ok(Some(File::kept("application/pdf", name, pdf(of, &sheets)?)))
    })
    .await
}

/// The build order for a phone, with what is checked off now.
pub(super) async fn build(State(served): State<Served>) -> Response {
    let Some(desk) = served.desk() else {
        return super::unchosen();
    };
    let made = task::spawn_blocking(move || {
        let state = desk.state();
        let file = page::handout(&state, calendar::today())?;
        let name = &state.studied.as_ref()?.report.name;
        let name = format!("{}-build.html", pack::slug(name));
        let bytes = file.into_string().into_bytes();
        Some(File::kept("text/html; charset=utf-8", name, bytes))
    });
    match made.await {
        Ok(Some(file)) => file.into_response(),
        Ok(None) => nothing(),
        Err(_) => StatusCode::INTERNAL_SERVER_ERROR.into_response(),
    }
}

/// A file for the workshop or the office by its name in the pack.
pub(super) async fn cut(State(served): State<Served>, Path(name): Path<String>) -> Response {
    worked(served, move |of| {
        let date = calendar::today();
        let templates = workshop::templates(&of.report, Paper::A4, date);
        let mut files = workshop::files(&of.report, &templates, date)?;
        files.extend(pack::tables(&of.report));
        let last = |path: &str| path.rsplit('/').next() == Some(name.as_str());
        let found = files.into_iter().find(|(path, _)| last(path));
        Ok(found.map(|(_, bytes)| File::kept(kind(&name), name.clone(), bytes)))
    })
    .await
}

fn kind(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("pdf") => "application/pdf",
        Some("svg") => "image/svg+xml",
        Some("dxf") => "image/vnd.dxf",
        Some("stl") => "model/stl",
        Some("csv") => "text/csv; charset=utf-8",
        Some("json") => "application/json",
        _ => "application/octet-stream",
    }
}

fn pdf(of: &Studied, sheets: &[Sheet]) -> Result<Vec<u8>, Failure> {
    export::pdf::pdf(sheets, &of.report.name, calendar::today(), Theme::Paper)
        .map_err(|error| Failure::plain(error.to_string()))
}

fn value<'a>(asked: &'a [(String, String)], key: &str) -> Option<&'a str> {
    let (_, value) = asked.iter().find(|(name, _)| name == key)?;
    Some(value)
}

fn theme(asked: &[(String, String)]) -> Theme {
    match value(asked, "theme") {
        Some("blueprint") => Theme::Blueprint,
        _ => Theme::Paper,
    }
}

/// A file as it is sent.
struct File {
    kind: &'static str,
    /// The name it is to be kept by, where it is.
    name: Option<String>,
    bytes: Vec<u8>,
}

impl File {
    fn shown(kind: &'static str, bytes: Vec<u8>) -> Self {
        Self {
            kind,
            name: None,
            bytes,
        }
    }

    fn kept(kind: &'static str, name: String, bytes: Vec<u8>) -> Self {
        Self {
            kind,
            name: Some(name),
            bytes,
        }
    }
}

impl IntoResponse for File {
    fn into_response(self) -> Response {
        let kind = [(header::CONTENT_TYPE, self.kind)];
        let named = self.name.map(|name| {
            // Names of files are made of letters, digits, dashes and points.
            [(
                header::CONTENT_DISPOSITION,
                format!("attachment; filename=\"{name}\""),
            )]
        });
        match named {
            Some(named) => (kind, named, self.bytes).into_response(),
            None => (kind, self.bytes).into_response(),
        }
    }
}

/// Makes a file of the design as it is shown, in a thread that may take its time.
async fn worked(
    served: Served,
    make: impl FnOnce(&Studied) -> Result<Option<File>, Failure> + Send + 'static,
) -> Response {
    let Some(desk) = served.desk() else {
        return super::unchosen();
    };
    let made = task::spawn_blocking(move || match desk.state().studied {
        Some(of) => make(&of).map_err(|failure| format!("{failure:?}")),
        None => Ok(None),
    });
    match made.await {
        Ok(Ok(Some(file))) => file.into_response(),
        Ok(Ok(None)) => nothing(),
        Ok(Err(why)) => (StatusCode::INTERNAL_SERVER_ERROR, why).into_response(),
        Err(_) => StatusCode::INTERNAL_SERVER_ERROR.into_response(),
    }
}

fn nothing() -> Response {
    (StatusCode::NOT_FOUND, "there is no such file").into_response()
}

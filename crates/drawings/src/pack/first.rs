//! The first sheet: brief, promises, the box.

use super::{Page, brief, say};
use crate::boxview;
use crate::geometry::{Point, Rect};
use crate::layout::role_of;
use crate::layout::{
    Block, Heading, Paragraph, Promise, PromiseStrip, STRONG, content_area, stacked,
};
use crate::paper::Paper;
use crate::sheet::Drawing;
use crate::text::Lettering;
use design::Project;
use studies::check::Severity;
use studies::{Report, report, words};
use wood::Wall;

pub(crate) fn page(project: &Project, report: &Report, paper: Paper) -> Page {
    let area = content_area(paper);
    let said = Paragraph {
        letters: Lettering::regular(3.1),
        ..Paragraph::new(&brief::sentence(&project.design))
    };
    let strip = PromiseStrip {
        promises: report.promises.iter().map(|p| promise(p, report)).collect(),
    };
    let (mut drawing, y) = stacked(
        &[Box::new(said), Box::new(strip)],
        Point::new(area.x, area.y),
        area.w,
    );
    let below = Rect::new(area.x, y + 7.0, area.w, area.bottom() - y - 7.0);
    let left = Rect {
        w: 0.61 * area.w,
        ..below
    };
    drawing.append(boxview::lifted(&report.carpentry, left));
    let x = left.right() + 6.0;
    let right = Rect::new(x, below.y, below.right() - x, below.h);
    let scale = beside(project, report, right, &mut drawing);
    let page = Page {
        scale: format!("front {scale}, box not to scale"),
        ..Page::new("Brief and box", drawing)
    };
    let page = page.noted(
        "Triangle: what the brief asks for. Stroke: the box as designed. Shaded: eight of ten \
         builds drawn within the tolerances lie there. Disc: kept. Diamond: in doubt. Square: \
         missed.",
    );
    page.noted(
        "Dimensions in mm, over the walls. Lid lifted; front and right wall drawn as of glass.",
    )
}

/// Front view, what else is inside, what is wrong; gives the scale.
fn beside(project: &Project, report: &Report, area: Rect, out: &mut Drawing) -> String {
    let front = report.carpentry.body.wall(Wall::Front);
    let under = beneath(project, report);
    let (_, height) = stacked(&under, Point::default(), area.w);
    let room = Rect::new(area.x, area.y + 7.0, area.w, area.h - 12.0 - height);
    let view = boxview::panel(front, &[], room);
    let scale = view.scale_text();
    let heading: Box<dyn Block> = Box::new(Heading::new(
        "Front",
        &format!("{scale}, outer face, holes to cut"),
    ));
    out.append(stacked(&[heading], Point::new(area.x, area.y), area.w).0);
    out.append(view.drawing);
    let at = Point::new(area.x, area.bottom() - height);
    out.append(stacked(&under, at, area.w).0);
    scale
}

/// What stands below the front view.
fn beneath(project: &Project, report: &Report) -> Vec<Box<dyn Block>> {
    let mut said = Vec::new();
    let holes = super::wood::holes(report.carpentry.body.wall(Wall::Front));
    if !holes.is_empty() {
        said.push(Paragraph::remark(&format!("Holes in the front: {holes}.")));
    }
    let also = also_inside(project, report);
    if !also.is_empty() {
        said.push(Paragraph::remark(&also));
    }
    said.push(tally(report));
    said.into_iter()
        .map(|p| Box::new(p) as Box<dyn Block>)
        .collect()
}

/// Things without a shape, which the picture cannot show.
fn also_inside(project: &Project, report: &Report) -> String {
    let drawn = |name: &str| {
        report
            .carpentry
            .parts
            .iter()
            .any(|p| p.label.contains(name))
    };
    let things: Vec<String> = project
        .design
        .inside
        .iter()
        .filter(|t| !drawn(&t.name.text))
        .map(|t| say::times(t.count, &t.name.text))
        .collect();
    if things.is_empty() {
        return String::new();
    }
    format!("Also inside, not drawn: {}.", things.join(", "))
}

/// How many findings of each kind there are, in the colour of the worst.
fn tally(report: &Report) -> Paragraph {
    let count = |severity| {
        let all = report.findings.iter();
        all.filter(|f| f.severity == severity).count()
    };
    let stops = count(Severity::Stop);
    let cautions = count(Severity::Caution);
    let plural = |n: usize, one: &str, many: &str| match n {
        1 => format!("1 {one}"),
        n => format!("{n} {many}"),
    };
    let (worst, said) = match (stops, cautions) {
        (0, 0) => (Severity::Good, "Nothing found wrong.".to_owned()),
        (0, c) => {
            let cautions = plural(c, "caution", "cautions");
            (
                Severity::Caution,
                format!("{cautions} to weigh, see sheet 2."),
            )
        }
        (s, c) => {
            let stops = plural(s, "stop", "stops");
            let cautions = plural(c, "caution", "cautions");
            let said = format!("Do not build it like this: {stops} and {cautions}, see sheet 2.");
            (Severity::Stop, said)
        }
    };
    Paragraph {
        letters: STRONG,
        role: role_of(worst),
        ..Paragraph::new(&said)
    }
}

fn promise(promise: &report::Promise, report: &Report) -> Promise {
    Promise {
        name: promise.title.to_owned(),
        value: words::bare(promise.value, &promise.unit),
        unit: sign(&promise.unit).to_owned(),
        about: promise.about.clone(),
        number: promise.value,
        band: promise.p10.zip(promise.p90),
        target: promise.target,
        state: promise.target.map(|_| state(promise, report)),
        odds: odds(promise),
    }
}

fn sign(unit: &str) -> &str {
    match unit {
        "EUR" => "€",
        "USD" => "$",
        "GBP" => "£",
        other => other,
    }
}

/// How a wish stands: missed as designed, kept only on paper, or kept.
fn state(promise: &report::Promise, report: &Report) -> Severity {
    let check = format!("brief-{}", promise.id);
    let found = report.findings.iter().find(|f| f.id == check);
    match found.map(|f| f.severity) {
        _ if !promise.kept() => Severity::Stop,
        Some(Severity::Stop | Severity::Caution) => Severity::Caution,
        Some(Severity::Good) | None => Severity::Good,
    }
}

fn odds(promise: &report::Promise) -> String {
    let Some(target) = promise.target else {
        return "the brief does not ask".to_owned();
    };
    promise
        .odds_sentence()
        .unwrap_or_else(|| format!("brief: {}", say::plain(target, &promise.unit)))
}

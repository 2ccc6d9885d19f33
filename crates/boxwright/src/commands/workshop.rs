//! What a pack holds for saw, drill, router, engraver and printer.

use super::pack::slug;
use crate::failure::Failure;
use drawings::cut::{self, Letters};
use drawings::{Date, Paper, Sheet, Theme, export, template};
use studies::Report;
use studies::carpentry::{Carpentry, CutLine};
use wood::Panel;

pub(super) const TEMPLATES: &str = "templates.pdf";
pub(super) const CUT: &str = "cut";
pub(super) const SOLID: &str = "solid";

/// How far the facets of a round hole may lie within it, in m.
const CHORD: f64 = 1e-5;

/// The templates at full size.
pub(crate) fn templates(report: &Report, paper: Paper, date: Option<Date>) -> Vec<Sheet> {
    let revision = report.revision;
    template::templates(&report.carpentry, &report.name, revision, paper, date)
}

/// Every file for the workshop with its name.
pub(crate) fn files(
    report: &Report,
    templates: &[Sheet],
    date: Option<Date>,
) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    let mut out = Vec::new();
    if !templates.is_empty() {
        let title = format!("{}, templates", report.name);
        let pdf = export::pdf::pdf(templates, &title, date, Theme::Paper)
            .map_err(|error| Failure::plain(error.to_string()))?;
        out.push((TEMPLATES.to_owned(), pdf));
    }
    for (name, sheet) in cut_files(&report.carpentry) {
        let dxf = export::dxf::dxf(&sheet).into_bytes();
        let svg = export::svg::cut_svg(&sheet).into_bytes();
        out.push((format!("{CUT}/{name}.dxf"), dxf));
        out.push((format!("{CUT}/{name}.svg"), svg));
    }
    out.extend(solids(&report.carpentry));
    Ok(out)
}

/// Each line of the cut list with the first of its panels: they are alike.
fn panels(carpentry: &Carpentry) -> impl Iterator<Item = (&CutLine, &Panel)> {
    let first = |line: &CutLine| line.panels.first().copied();
    carpentry
        .cut_list
        .iter()
        .filter_map(move |line| Some((line, carpentry.body.panel(first(line)?)?)))
}

fn panel_name(line: &CutLine, panel: &Panel) -> String {
    slug(&format!("panel {} {}", line.letter, panel.name))
}

/// Drawings for machines, with the names of their files.
fn cut_files(carpentry: &Carpentry) -> Vec<(String, Sheet)> {
    let mut out: Vec<(String, Sheet)> = panels(carpentry)
        .map(|(line, panel)| (panel_name(line, panel), cut::panel(panel, &line.letter)))
        .collect();
    if let Some(plan) = &carpentry.control {
        let name = "control-panel";
        out.push((name.to_owned(), cut::plate(plan, Letters::Strokes)));
        out.push((
            format!("{name}-outlined"),
            cut::plate(plan, Letters::Outlines),
        ));
    }
    for plan in &carpentry.sheets {
        let sheets = (0..plan.layout.sheets.len()).filter_map(|index| cut::sawing(plan, index));
        out.extend(sheets.enumerate().map(|(index, sheet)| {
            let name = format!("layout {} {}", plan.sheet, index + 1);
            (slug(&name), sheet)
        }));
    }
    out
}

/// Names of the drawings for machines, each a `.dxf` and an `.svg`.
pub(crate) fn cut_names(carpentry: &Carpentry) -> Vec<String> {
    let files = cut_files(carpentry).into_iter();
    files.map(|(name, _)| name).collect()
}

/// The box and each of its panels, as solids.
fn solids(carpentry: &Carpentry) -> Vec<(String, Vec<u8>)> {
    let corners = |panel: &Panel| panel.mesh(CHORD).corners();
    let whole: Vec<[[f64; 3]; 3]> = carpentry.body.panels.iter().flat_map(corners).collect();
    let mut out = vec![(format!("{SOLID}/box.stl"), export::stl::stl(&whole))];
    out.extend(panels(carpentry).map(|(line, panel)| {
        let name = format!("{SOLID}/{}.stl", panel_name(line, panel));
        (name, export::stl::stl(&corners(panel)))
    }));
    out
}

//! Panels with their holes, and how sheets are sawn.

use super::Form;
use serde::Serialize;
use studies::carpentry::{Carpentry, CutLine, DrillLine, SheetPlan};
use wood::sawing::{Cut, CutSheet};
use wood::{PanelHole, PanelId};

/// One line of the cut list; lengths in m.
#[derive(Serialize)]
pub(super) struct Panel<'a> {
    letter: &'a str,
    name: &'a str,
    count: usize,
    sheet: &'a str,
    thickness: f64,
    long: [f64; 2],
    short: [f64; 2],
    grain: Option<usize>,
    edges: &'a str,
    /// m³ of wood in one.
    volume: f64,
    holes: Vec<Hole<'a>>,
}

#[derive(Serialize)]
struct Hole<'a> {
    label: &'a str,
    at: [f64; 2],
    #[serde(flatten)]
    form: Form,
    pocket: Option<f64>,
    tool: Option<&'a str>,
    before_glue: Option<&'a str>,
}

pub(super) fn panels(model: &Carpentry) -> Vec<Panel<'_>> {
    model
        .cut_list
        .iter()
        .filter_map(|line| panel(model, line))
        .collect()
}

fn panel<'a>(model: &'a Carpentry, line: &'a CutLine) -> Option<Panel<'a>> {
    let id = *line.panels.first()?;
    let panel = model.body.panel(id)?;
    let holes = panel.holes.iter().enumerate();
    Some(Panel {
        letter: &line.letter,
        name: &line.name,
        count: line.panels.len(),
        sheet: &line.sheet,
        thickness: line.thickness,
        long: line.long,
        short: line.short,
        grain: line.grain,
        edges: &line.edges,
        volume: panel.volume(),
        holes: holes
            .map(|(index, hole)| Hole::new(hole, drilling(model, id, index)))
            .collect(),
    })
}

fn drilling(model: &Carpentry, panel: PanelId, hole: usize) -> Option<&DrillLine> {
    let same = |line: &&DrillLine| line.panel == panel && line.hole == hole;
    model.drilling.iter().find(same)
}

impl<'a> Hole<'a> {
    fn new(hole: &'a PanelHole, line: Option<&'a DrillLine>) -> Self {
        Self {
            label: &hole.label,
            at: hole.at,
            form: hole.outline.into(),
            pocket: hole.pocket,
            tool: line.map(|line| line.tool.as_str()),
            before_glue: line.and_then(|line| line.before.as_deref()),
        }
    }
}

/// How one kind of sheet is sawn; lengths in m.
#[derive(Serialize)]
pub(super) struct Sheet<'a> {
    sheet: &'a str,
    kerf: f64,
    trim: f64,
    bought: usize,
    fewest: usize,
    proven: bool,
    waste: f64,
    left_over: Vec<&'a str>,
    layouts: Vec<Layout<'a>>,
}

#[derive(Serialize)]
struct Layout<'a> {
    stock: &'a str,
    length: f64,
    width: f64,
    pieces: Vec<Piece<'a>>,
    cuts: Vec<Line>,
    offcuts: &'a [[f64; 4]],
}

#[derive(Serialize)]
struct Piece<'a> {
    letter: &'a str,
    x: f64,
    y: f64,
    length: f64,
    width: f64,
    turned: bool,
}

#[derive(Serialize)]
struct Line {
    number: usize,
    from: [f64; 2],
    to: [f64; 2],
}

impl<'a> Sheet<'a> {
    pub(super) fn new(plan: &'a SheetPlan) -> Self {
        let [kerf, trim] = plan.kerf_and_trim;
        let letter = |blank: usize| plan.letters.get(blank).map_or("", String::as_str);
        let sheets = plan.layout.sheets.iter();
        Self {
            sheet: &plan.sheet,
            kerf,
            trim,
            bought: plan.layout.bought,
            fewest: plan.layout.fewest,
            proven: plan.layout.proven,
            waste: plan.waste,
            left_over: plan.layout.left_over.iter().map(|b| letter(*b)).collect(),
            layouts: sheets
                .filter_map(|used| Layout::new(plan, used, &letter))
                .collect(),
        }
    }
}

impl<'a> Layout<'a> {
    fn new(
        plan: &'a SheetPlan,
        used: &'a CutSheet,
        letter: &impl Fn(usize) -> &'a str,
    ) -> Option<Self> {
        let stock = plan.stock.get(used.stock)?;
        let line = |cut: &Cut| Line {
            number: cut.number,
            from: cut.from,
            to: cut.to,
        };
        let pieces = used.pieces.iter().map(|laid| Piece {
            letter: letter(laid.blank),
            x: laid.x,
            y: laid.y,
            length: laid.length,
            width: laid.width,
            turned: laid.turned,
        });
        Some(Self {
            stock: &stock.name,
            length: stock.length,
            width: stock.width,
            pieces: pieces.collect(),
            cuts: used.cuts.iter().map(line).collect(),
            offcuts: &used.offcuts,
        })
    }
}

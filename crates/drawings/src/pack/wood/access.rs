//! What goes in and comes out again, the smallest gaps, weight and walls.

use super::words::{degrees, of_hundred};
use crate::boxview::{self, mm};
use crate::geometry::Rect;
use crate::layout::{
    Align, Block, Cell, Column, Heading, Ledger, Paragraph, Piece, Table, content_area,
};
use crate::pack::{Page, flowed};
use crate::paper::Paper;
use crate::sheet::Drawing;
use crate::text::number;
use studies::carpentry::{AccessLine, Carpentry, GapLine, Passage, Stage, WallMode};

pub(super) fn pages(carpentry: &Carpentry, paper: Paper) -> Vec<Page> {
    let mut blocks: Vec<Box<dyn Block>> = Vec::new();
    if !carpentry.access.is_empty() {
        let remark =
            "once the box is closed; slack: the smallest gap on the way, what lacks where negative";
        blocks.push(Box::new(Heading::new("In and out", remark)));
        blocks.push(Box::new(access(carpentry)));
    }
    if !carpentry.gaps.is_empty() {
        let remark =
            "what lacks most of what it wants first; odds: drawn builds in which they touch";
        blocks.push(Box::new(Heading::new("Smallest gaps", remark)));
        blocks.push(Box::new(gaps(carpentry)));
    }
    blocks.push(Box::new(Heading::new(
        "Weight and balance",
        "seen from the right; quartered disc: centre of mass",
    )));
    blocks.push(Box::new(Balanced::new(carpentry, paper)));
    blocks.push(Box::new(balance(carpentry)));
    if !carpentry.modes.is_empty() {
        let remark = "lowest bending mode in Hz: edges free to turn, edges held fast";
        blocks.push(Box::new(Heading::new("Walls", remark)));
        blocks.push(Box::new(modes(&carpentry.modes)));
        blocks.push(Box::new(Paragraph::remark(
            "Glued edges lie between both bounds. Braced: one brace across the longer span.",
        )));
    }
    flowed("In and out", &blocks, paper, 2)
}

fn access(carpentry: &Carpentry) -> Table {
    let rows = carpentry.access.iter().filter_map(|line| {
        let part = carpentry.parts.get(line.part)?;
        Some(vec![
            Cell::from(part.number.to_string()).strong(),
            Cell::from(line.label.as_str()),
            Cell::from(goes_in(line.goes_in)),
            out_cell(line),
            slack_cell(line),
            Cell::from(reach(line)),
        ])
    });
    Table {
        columns: vec![
            Column::new("", Align::Left, 0.5),
            Column::new("part", Align::Left, 2.8),
            Column::new("goes in", Align::Left, 2.2),
            Column::new("comes out", Align::Left, 2.6),
            Column::new("slack", Align::Right, 1.3),
            Column::new("reached by", Align::Left, 1.9),
        ],
        rows: rows.collect(),
    }
}

const fn goes_in(stage: Stage) -> &'static str {
    match stage {
        Stage::Open => "before any wall is joined",
        Stage::BeforeLast => "before the last wall",
        Stage::Closed => "any time",
    }
}

fn out_cell(line: &AccessLine) -> Cell {
    let Some(through) = &line.through else {
        return Cell::from(never(line.passage)).strong();
    };
    let how = if line.how.is_empty() || line.how == "straight" {
        String::new()
    } else {
        format!(", {}", line.how)
    };
    let first = if line.first.is_empty() {
        String::new()
    } else {
        format!("; first out: {}", line.first.join(", "))
    };
    Cell::from(format!("{through}{how}{first}"))
}

/// What is proven is told apart from what a search did not find.
const fn never(passage: Passage) -> &'static str {
    match passage {
        Passage::TooLarge => "never: too large",
        Passage::NoOpening => "never: no opening",
        Passage::NotFound | Passage::Out => "no way found: try it dry",
    }
}

fn slack_cell(line: &AccessLine) -> Cell {
    let millimetres = number(1000.0 * line.slack, 0);
    match line.passage {
        Passage::NoOpening => Cell::from("–").muted(),
        Passage::Out | Passage::TooLarge | Passage::NotFound => {
            Cell::from(format!("{millimetres} mm"))
        }
    }
}

fn reach(line: &AccessLine) -> &'static str {
    match (line.driver_reaches, line.hand_reaches) {
        (true, true) => "screwdriver, hand",
        (true, false) => "screwdriver only",
        (false, true) => "hand only",
        (false, false) => "nothing",
    }
}

/// So many gaps are listed.
const LISTED: usize = 12;

fn gaps(carpentry: &Carpentry) -> Table {
    let row = |line: &GapLine| -> Option<Vec<Cell>> {
        let part = carpentry.parts.get(line.part)?;
        let gap = if line.gap.abs() < 5e-5 && line.wanted <= 0.0 {
            "rests on it".to_owned()
        } else {
            format!("{} mm", number(1000.0 * line.gap, 1))
        };
        let odds = if line.odds > 0.0 {
            of_hundred(line.odds)
        } else {
            "none".to_owned()
        };
        let wanted = if line.wanted > 0.0 {
            format!("{} mm", mm(line.wanted))
        } else {
            "–".to_owned()
        };
        let tight = line.gap < line.wanted;
        let gap = Cell::from(gap);
        Some(vec![
            Cell::from(part.label.as_str()),
            Cell::from(line.other.as_str()),
            if tight { gap.strong() } else { gap },
            Cell::from(wanted).muted(),
            Cell::from(odds),
        ])
    };
    Table {
        columns: vec![
            Column::new("part", Align::Left, 3.0),
            Column::new("to", Align::Left, 2.6),
            Column::new("gap", Align::Right, 1.7),
            Column::new("wanted", Align::Right, 1.4),
            Column::new("odds", Align::Right, 1.5),
        ],
        rows: carpentry.gaps.iter().take(LISTED).filter_map(row).collect(),
    }
}

/// The view with the centre of mass, as a block.
struct Balanced {
    drawing: Drawing,
    height: f64,
}

impl Balanced {
    fn new(carpentry: &Carpentry, paper: Paper) -> Self {
        let width = (content_area(paper).w - 9.0) / 2.0;
        let (drawing, height) = boxview::balance(carpentry, Rect::new(0.0, 0.0, width, 62.0));
        Self { drawing, height }
    }
}

impl Block for Balanced {
    fn pieces(&self, _width: f64) -> Vec<Piece> {
        vec![Piece {
            height: self.height,
            drawing: self.drawing.clone(),
            keep_with_next: true,
        }]
    }

    fn space_above(&self) -> f64 {
        1.0
    }
}

fn balance(carpentry: &Carpentry) -> Ledger {
    let balance = &carpentry.balance;
    let [x, y, z] = balance.centre.map(mm);
    let mut rows = vec![
        (
            "weight".to_owned(),
            format!("{} kg", number(balance.weight, 2)),
        ),
        (
            "centre of mass from the left, the front, below".to_owned(),
            format!("{x}, {y}, {z} mm"),
        ),
    ];
    if let Some([u, v]) = balance.level_handle {
        rows.push((
            "a handle hangs level at, across and up on its wall".to_owned(),
            format!("{}, {} mm", mm(u), mm(v)),
        ));
    }
    if let Some(hang) = balance.hang {
        rows.push(("hangs from the handle at".to_owned(), degrees(hang)));
    }
    let (tips, towards) = balance.tipping;
    rows.push((
        format!("tips over to the {} beyond", towards.name()),
        degrees(tips),
    ));
    Ledger {
        rows,
        summed: false,
    }
}

fn modes(modes: &[WallMode]) -> Table {
    let rows = modes.iter().map(|m| {
        let between = |a: f64, b: f64| format!("{} – {}", number(a, 0), number(b, 0));
        vec![
            Cell::from(m.wall.name()),
            Cell::from(m.span.map(mm).join(" × ")).muted(),
            Cell::from(between(m.supported, m.clamped)),
            Cell::from(between(m.braced[0], m.braced[1])).muted(),
        ]
    });
    Table {
        columns: vec![
            Column::new("wall", Align::Left, 1.4),
            Column::new("free span", Align::Left, 2.0),
            Column::new("as it is", Align::Right, 2.0),
            Column::new("braced", Align::Right, 2.0),
        ],
        rows: rows.collect(),
    }
}

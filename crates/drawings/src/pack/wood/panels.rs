//! One sheet for every panel that has holes; panels with nothing but their edges
//! share sheets.

use super::words::{alike, edge, of_note, outline, size, slanted};
use crate::boxview::{self, mm, purpose};
use crate::cut::long_points;
use crate::geometry::{Point, Rect};
use crate::layout::{
    Align, Block, Cell, Column, Grid, Heading, Paragraph, SMALL, Table, content_area, flow, stacked,
};
use crate::math;
use crate::pack::Page;
use crate::paper::Paper;
use crate::sheet::{Anchor, Drawing, Text};
use studies::carpentry::{Carpentry, CutLine, DrillLine};
use wood::{Panel, PanelEdge};

/// Share of the sheet's width that the drawing takes.
const DRAWN: f64 = 0.56;
/// Between drawing and words, mm.
const GUTTER: f64 = 7.0;
/// More positions of one kind of hole than this stand in a list of their own.
const A_CELL: usize = 4;
/// Panels without holes on one sheet.
const PLAIN: usize = 2;
/// A corner nearer to the side of the blank lies on it, m.
const OFF_BLANK: f64 = 0.000_05;
/// From a corner to what is written beside it, mm.
const INSIDE: f64 = 4.0;
const NOTE: &str = "Seen from outside, in mm, long points; measured from the marked corner, the \
     lower left. Seen from inside, left and right change places: mark on the outer face. Dashed: \
     the inner face.";
const ROUTER: &str = "Router and hole saw: clamp the work, cut in passes, against the turn of the \
     bit; hands, sleeves and cable away. The tool's own manual comes first.";

pub(super) fn pages(carpentry: &Carpentry, paper: Paper) -> Vec<Page> {
    let area = content_area(paper);
    let mut out = Vec::new();
    let mut plain: Vec<(&CutLine, &Panel)> = Vec::new();
    for line in &carpentry.cut_list {
        let Some(panel) = line.panels.first().and_then(|id| carpentry.body.panel(*id)) else {
            continue;
        };
        if !panel.holes.is_empty() {
            out.extend(drilled(carpentry, line, panel, area));
        } else if panel.edges.iter().any(of_note) {
            plain.push((line, panel));
        }
    }
    out.extend(plain.chunks(PLAIN).map(|some| together(some, area)));
    out
}

/// "Panel A, front".
fn title(line: &CutLine) -> String {
    format!("Panel {}, {}", line.letter, line.name)
}

/// Drawing to the left, words to the right; words that find no room go on, on sheets
/// of their own.
fn drilled(carpentry: &Carpentry, line: &CutLine, panel: &Panel, area: Rect) -> Vec<Page> {
    let left = Rect {
        w: DRAWN * area.w,
        ..area
    };
    let groups = alike(panel);
    let numbers = numbers(panel);
    let mut view = boxview::panel(panel, &numbers, left);
    boxview::put_name(panel, &format!("{} {}", line.letter, line.name), &mut view);
    if slanted(panel) {
        put_corners(panel, view.blank, view.scale, &mut view.drawing);
    }
    let x = left.right() + GUTTER;
    let mut blocks: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(
            &format!("{} {}", line.letter, line.name),
            &format!("{} × {} mm", size(panel.blank), mm(panel.thickness)),
        )),
        Box::new(holes_table(carpentry, panel, &groups)),
    ];
    for (number, reason) in first(carpentry, panel, &groups) {
        let text = format!("{number}: before gluing, because {reason}.");
        blocks.push(Box::new(Paragraph::remark(&text)));
    }
    blocks.push(Box::new(Heading::new("Edges", "as seen from outside")));
    blocks.push(Box::new(edges(panel)));
    if line.panels.len() > 1 {
        let text = format!("{} pieces alike.", line.panels.len());
        blocks.push(Box::new(Paragraph::new(&text)));
    }
    if !view.measured {
        let text = "More positions than find room along the edges: they stand in the table.";
        blocks.push(Box::new(Paragraph::remark(text)));
    }
    if !view.unnamed.is_empty() {
        let said: Vec<String> = view.unnamed.iter().map(usize::to_string).collect();
        let text = format!(
            "Found by position, not numbered in the drawing: {}.",
            said.join(", ")
        );
        blocks.push(Box::new(Paragraph::remark(&text)));
    }
    blocks.extend(long_lists(panel, &groups));
    let scale = view.scale_text();
    let beside = Rect::new(x, area.y, area.right() - x, area.h);
    let mut words = flow(&blocks, beside, 1, 0.0).into_iter();
    let mut drawing = view.drawing;
    drawing.append(words.next().unwrap_or_default());
    let page = Page {
        scale,
        ..Page::new(title(line), drawing)
    };
    let more = words.map(|rest| Page::new(title(line), rest.moved(area.x - x, 0.0)));
    std::iter::once(page.noted(NOTE).noted(ROUTER))
        .chain(more)
        .collect()
}

/// Number of each hole: equal holes share one.
fn numbers(panel: &Panel) -> Vec<usize> {
    let mut out = vec![0; panel.holes.len()];
    for (number, (_, held)) in alike(panel).iter().enumerate() {
        for i in held {
            out[*i] = number + 1;
        }
    }
    out
}

type Group<'a> = (&'a wood::PanelHole, Vec<usize>);

fn holes_table(carpentry: &Carpentry, panel: &Panel, groups: &[Group]) -> Table {
    let column = |name: &str, share: f64| Column::new(name, Align::Left, share);
    let rows = groups.iter().enumerate().map(|(i, (hole, held))| {
        let deep = hole
            .pocket
            .map_or("through".to_owned(), |d| format!("{} deep", mm(d)));
        let times = match held.len() {
            1 => String::new(),
            n => format!("{n} × "),
        };
        let tools = once(drilling(carpentry, panel, held).map(|d| d.tool.as_str()));
        let middles = match held.len() > A_CELL {
            true => "listed below".to_owned(),
            false => positions(panel, held).join("; "),
        };
        vec![
            Cell::from((i + 1).to_string()).strong(),
            Cell::from(called(hole)),
            Cell::from(format!("{times}{}, {deep}", outline(&hole.outline))),
            Cell::from(middles),
            Cell::from(tools).muted(),
        ]
    });
    Table {
        columns: vec![
            column("", 0.5),
            column("hole", 2.2),
            column("size", 2.2),
            column("middle: across | up", 2.8),
            column("with", 2.2),
        ],
        rows: rows.collect(),
    }
}

fn called(hole: &wood::PanelHole) -> &str {
    if hole.label.is_empty() {
        purpose(hole.purpose)
    } else {
        &hole.label
    }
}

/// Middles of some holes, from the datum corner.
fn positions(panel: &Panel, held: &[usize]) -> Vec<String> {
    held.iter().map(|i| corner(&panel.holes[*i].at)).collect()
}

/// The positions of holes that are many, kind by kind.
fn long_lists(panel: &Panel, groups: &[Group]) -> Vec<Box<dyn Block>> {
    let many = groups.iter().enumerate();
    many.filter(|(_, (_, held))| held.len() > A_CELL)
        .flat_map(|(i, (hole, held))| {
            let name = format!("{}: {} × {}", i + 1, held.len(), called(hole));
            let blocks: [Box<dyn Block>; 2] = [
                Box::new(Heading::new(&name, "middles, across | up")),
                Box::new(Grid {
                    items: positions(panel, held),
                }),
            ];
            blocks
        })
        .collect()
}

/// Schedule lines of some holes.
fn drilling<'a>(
    carpentry: &'a Carpentry,
    panel: &'a Panel,
    held: &'a [usize],
) -> impl Iterator<Item = &'a DrillLine> {
    carpentry
        .drilling
        .iter()
        .filter(|d| d.panel == panel.id && held.contains(&d.hole))
}

fn once<'a>(words: impl Iterator<Item = &'a str>) -> String {
    let mut out: Vec<&str> = Vec::new();
    for word in words {
        if !out.contains(&word) {
            out.push(word);
        }
    }
    out.join(", ")
}

/// Holes that must be made before gluing, and why.
fn first(carpentry: &Carpentry, panel: &Panel, groups: &[Group]) -> Vec<(String, String)> {
    let mut out: Vec<(Vec<String>, String)> = Vec::new();
    for (i, (_, held)) in groups.iter().enumerate() {
        let Some(why) = drilling(carpentry, panel, held).find_map(|d| d.before.clone()) else {
            continue;
        };
        let number = (i + 1).to_string();
        match out.iter_mut().find(|(_, reason)| *reason == why) {
            Some((numbers, _)) => numbers.push(number),
            None => out.push((vec![number], why)),
        }
    }
    out.into_iter()
        .map(|(numbers, why)| (numbers.join(", "), why.trim_end_matches('.').to_owned()))
        .collect()
}

/// Each edge in words, by where it lies.
fn edges(panel: &Panel) -> Table {
    let rows = panel.edges.iter().map(|e| {
        let meets = e
            .meets
            .map_or(String::new(), |w| format!(", meets {}", w.name()));
        (format!("{}{meets}", side(panel, e)), edge(e))
    });
    let corners = slanted(panel).then(|| {
        let at: Vec<String> = long_points(panel).iter().map(corner).collect();
        ("corners: across | up".to_owned(), at.join("; "))
    });
    let rows = rows.chain(corners);
    let column = |share: f64| Column::new("", Align::Left, share);
    Table {
        columns: vec![column(1.0), column(1.9)],
        rows: rows
            .map(|(at, said)| vec![Cell::from(at), Cell::from(said)])
            .collect(),
    }
}

/// "125.5 | 210", from the datum corner.
fn corner(at: &[f64; 2]) -> String {
    at.map(mm).join("\u{a0}|\u{a0}")
}

/// Writes the corners of a panel that are none of its blank beside them, inside.
fn put_corners(panel: &Panel, blank: Rect, scale: f64, out: &mut Drawing) {
    let centre = blank.centre();
    let millimetres = 1000.0 / scale;
    let off = |at: f64, end: f64| at > OFF_BLANK && at < end - OFF_BLANK;
    for at in long_points(panel) {
        if !(0..2).any(|axis| off(at[axis], panel.blank[axis])) {
            continue;
        }
        let point = Point::new(
            blank.x + at[0] * millimetres,
            blank.bottom() - at[1] * millimetres,
        );
        let said = corner(&at);
        let to_left = point.x > centre.x;
        let (dx, anchor) = match to_left {
            true => (-INSIDE, Anchor::End),
            false => (INSIDE, Anchor::Start),
        };
        let dy = if point.y > centre.y { -INSIDE } else { INSIDE };
        let apart = math::abs(point.y - centre.y) > 2.0 * INSIDE + SMALL.size_mm;
        if apart && SMALL.width(&said) + 2.0 * INSIDE < blank.w {
            let text = Text::new(point.moved(dx, dy), &said, SMALL);
            out.text_where_clear(text.anchored(anchor).centred());
        }
    }
}

/// Where an edge lies: lower, right, upper, left.
fn side(panel: &Panel, edge: &PanelEdge) -> &'static str {
    let [[x0, y0], [x1, y1]] = edge.outer;
    let [w, h] = panel.blank;
    let middle = [(x0 + x1) / 2.0 / w - 0.5, (y0 + y1) / 2.0 / h - 0.5];
    match middle {
        [x, y] if y.abs() >= x.abs() && y < 0.0 => "lower",
        [x, y] if y.abs() >= x.abs() => "upper",
        [x, _] if x > 0.0 => "right",
        _ => "left",
    }
}

/// Panels without holes, a few on a sheet.
fn together(some: &[(&CutLine, &Panel)], area: Rect) -> Page {
    let mut drawing = Drawing::default();
    let columns = some.len().min(2);
    let rows = some.len().div_ceil(columns);
    let (w, h) = (
        (area.w - GUTTER * (columns - 1) as f64) / columns as f64,
        (area.h - GUTTER * (rows - 1) as f64) / rows as f64,
    );
    let mut scales: Vec<String> = Vec::new();
    for (i, (line, panel)) in some.iter().enumerate() {
        let cell = Rect::new(
            area.x + (w + GUTTER) * (i % columns) as f64,
            area.y + (h + GUTTER) * (i / columns) as f64,
            w,
            h,
        );
        let scale = plain(line, panel, cell, &mut drawing);
        if !scales.contains(&scale) {
            scales.push(scale);
        }
    }
    let letters: Vec<&str> = some.iter().map(|(line, _)| line.letter.as_str()).collect();
    let title = match letters.len() {
        1 => title(some[0].0),
        _ => format!("Panels {}", letters.join(", ")),
    };
    let page = Page {
        scale: scales.join(" and "),
        ..Page::new(title, drawing)
    };
    page.noted(NOTE)
}

/// One of them: words above, drawing below; gives the scale.
fn plain(line: &CutLine, panel: &Panel, cell: Rect, out: &mut Drawing) -> String {
    let remark = format!("{} × {} mm", size(panel.blank), mm(panel.thickness));
    let times = match line.panels.len() {
        1 => String::new(),
        n => format!(", {n} pieces alike"),
    };
    let name = format!("{} {}", line.letter, line.name);
    let blocks: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(&name, &format!("{remark}{times}"))),
        Box::new(edges(panel)),
    ];
    let (words, y) = stacked(&blocks, Point::new(cell.x, cell.y), cell.w);
    out.append(words);
    let under = Rect::new(cell.x, y + 3.0, cell.w, (cell.bottom() - y - 3.0).max(20.0));
    let mut view = boxview::panel(panel, &[], under);
    boxview::put_name(panel, &name, &mut view);
    if slanted(panel) {
        put_corners(panel, view.blank, view.scale, &mut view.drawing);
    }
    let scale = view.scale_text();
    out.append(view.drawing);
    scale
}

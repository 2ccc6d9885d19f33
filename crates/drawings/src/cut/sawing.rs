//! A sheet of wood and the cuts through it, at full size.

use super::canvas::{Canvas, Layer, mm};
use crate::geometry::Point;
use crate::sheet::Sheet;
use crate::text::number;
use crate::text::stroke::StrokeLettering;
use studies::carpentry::SheetPlan;
use wood::sawing::{Cut, CutSheet, Laid};

/// Letters on blanks: height of capitals in mm.
const LARGE: f64 = 20.0;
/// Numbers of cuts.
const SMALL: f64 = 8.0;

/// One sheet of a plan: blanks with their letters, cuts with their numbers in
/// sawing order, offcuts. A cut's line is the middle of the saw's kerf.
/// `None` where there is no such sheet.
#[must_use]
pub fn sawing(plan: &SheetPlan, index: usize) -> Option<Sheet> {
    let used = plan.layout.sheets.get(index)?;
    let stock = plan.stock.get(used.stock)?;
    let size = [stock.length, stock.width];
    let mut canvas = Canvas::new(size);
    canvas.polygon(Layer::Drawing, &block(0.0, 0.0, size[0], size[1]));
    for laid in &used.pieces {
        blank(&mut canvas, plan, laid);
    }
    for [x, y, length, width] in &used.offcuts {
        canvas.polygon(Layer::Drawing, &block(*x, *y, *length, *width));
    }
    for cut in &used.cuts {
        numbered(&mut canvas, cut);
    }
    let title = format!("{}, {}", plan.sheet, title(used, index, plan));
    Some(canvas.sheet(&title))
}

fn title(used: &CutSheet, index: usize, plan: &SheetPlan) -> String {
    let stock = &plan.stock[used.stock].name;
    format!(
        "sheet {} of {}: {stock}",
        index + 1,
        plan.layout.sheets.len()
    )
}

fn block(x: f64, y: f64, length: f64, width: f64) -> [[f64; 2]; 4] {
    [
        [x, y],
        [x + length, y],
        [x + length, y + width],
        [x, y + width],
    ]
}

fn blank(canvas: &mut Canvas, plan: &SheetPlan, laid: &Laid) {
    let corners = block(laid.x, laid.y, laid.length, laid.width);
    canvas.polygon(Layer::Drawing, &corners);
    let letter = plan.letters.get(laid.blank).map_or("", String::as_str);
    let size = format!(
        "{} × {}",
        number(mm(laid.length), 1),
        number(mm(laid.width), 1)
    );
    let middle = canvas.point([laid.x + laid.length / 2.0, laid.y + laid.width / 2.0]);
    let room = (mm(laid.length) * 0.9, mm(laid.width) * 0.4);
    for (words, cap, down) in [(letter, LARGE, -0.5), (&size, SMALL, 1.0)] {
        let cap = fitted(words, cap, room);
        canvas.words(
            Layer::Mark,
            words,
            cap,
            middle.moved(0.0, down * cap * 1.5),
            0.0,
        );
    }
}

/// The height of capitals at which words stay within width and height.
fn fitted(words: &str, cap: f64, (width, height): (f64, f64)) -> f64 {
    let wide = StrokeLettering::new(1.0)
        .width(words)
        .max(f64::MIN_POSITIVE);
    cap.min(width / wide).min(height / 2.0)
}

fn numbered(canvas: &mut Canvas, cut: &Cut) {
    canvas.polyline(Layer::Cut, &[cut.from, cut.to]);
    let [from, to] = [cut.from, cut.to].map(|at| canvas.point(at));
    // Beside the line, a little way along it.
    let long = from.distance(to).max(f64::MIN_POSITIVE);
    let along = Point::new((to.x - from.x) / long, (to.y - from.y) / long);
    let share = (2.0 * SMALL).min(long / 2.0);
    let at = from
        .moved(along.x * share, along.y * share)
        .moved(along.y * SMALL, -along.x * SMALL);
    canvas.words(Layer::Mark, &cut.number.to_string(), SMALL, at, 0.0);
}

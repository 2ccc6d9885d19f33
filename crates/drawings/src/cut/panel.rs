//! A panel as a cut file.

use super::canvas::{Canvas, Layer, hole_shape, mm};
use super::{LARGEST_DRILL, Room, long_points};
use crate::geometry::{Point, Rect};
use crate::path::Path;
use crate::sheet::{Shape, Sheet};
use crate::text::number;
use crate::text::stroke::StrokeLettering;
use wood::{EdgeForm, Outline, Panel, PanelEdge, PanelHole};

/// Letters of marks: height of capitals in mm.
const CAP: f64 = 3.0;
/// From an edge to what is written along it, and around words, in mm.
const CLEAR: f64 = 2.0;
/// Arms of a cross on a centre, in mm.
const ARM: f64 = 3.0;

/// A panel at full size as seen from outside: its outline over the long
/// points, its holes, and marks for what else is done to it.
#[must_use]
pub fn panel(panel: &Panel, letter: &str) -> Sheet {
    let mut canvas = Canvas::new(panel.blank);
    let mut room = Room::new(canvas.rect().inset(CLEAR));
    canvas.polygon(Layer::Cut, &long_points(panel));
    for hole in &panel.holes {
        draw_hole(&mut canvas, hole);
        room.take(surrounding(hole_shape(hole.outline, canvas.point(hole.at))).inset(-CLEAR));
    }
    faces(&mut canvas, panel);
    datum(&mut canvas, &mut room);
    for edge in &panel.edges {
        edge_note(&mut canvas, &mut room, edge);
    }
    let title = format!("panel {letter}, {}", panel.name);
    hole_notes(&mut canvas, &mut room, panel);
    let thick = number(mm(panel.thickness), 1);
    let words = format!("{letter} {} · outside · {thick} thick", panel.name);
    let middle = canvas.rect().centre();
    place(&mut canvas, &mut room, &words, middle);
    canvas.sheet(&title)
}

fn surrounding(shape: Shape) -> Rect {
    match shape {
        Shape::Rect(rect) => rect,
        Shape::Circle { centre, radius } => Rect::new(
            centre.x - radius,
            centre.y - radius,
            2.0 * radius,
            2.0 * radius,
        ),
        Shape::Path(path) => {
            let points: Vec<Point> = path.flatten().into_iter().flat_map(|l| l.points).collect();
            Rect::around(&points).unwrap_or_default()
        }
    }
}

/// The layer a hole is made on.
fn layer_of(hole: &PanelHole) -> Layer {
    match (hole.pocket, hole.outline) {
        (Some(_), _) => Layer::Pocket,
        (None, Outline::Circle { diameter }) if diameter <= LARGEST_DRILL => Layer::Drill,
        (None, _) => Layer::Cut,
    }
}

fn draw_hole(canvas: &mut Canvas, hole: &PanelHole) {
    canvas.hole(layer_of(hole), hole.at, hole.outline);
    canvas.cross(Layer::Mark, hole.at, ARM);
}

/// The edges of both faces where they are not the outline: where a bevel ends,
/// and how far a step reaches.
fn faces(canvas: &mut Canvas, panel: &Panel) {
    for edge in &panel.edges {
        if edge.tilt != 0.0 {
            let shorter = if edge.tilt > 0.0 {
                edge.inner
            } else {
                edge.outer
            };
            canvas.polyline(Layer::Drawing, &shorter);
        }
        if let Some([width, _]) = edge.step {
            let reach = step_line(edge, width);
            canvas.polyline(Layer::Mark, &reach);
        }
    }
}

/// The inner end of a step, seen through the panel.
fn step_line(edge: &PanelEdge, width: f64) -> [[f64; 2]; 2] {
    let [from, to] = edge.outer;
    let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
    let long = crate::math::hypot(dx, dy).max(f64::MIN_POSITIVE);
    // Edges run counter-clockwise: the panel lies to their left.
    let inwards = [-dy / long * width, dx / long * width];
    edge.outer.map(|p| [p[0] + inwards[0], p[1] + inwards[1]])
}

/// The corner all places are measured from.
fn datum(canvas: &mut Canvas, room: &mut Room) {
    let arm = 12.0_f64
        .min(canvas.rect().w / 3.0)
        .min(canvas.rect().h / 3.0);
    let corner = Point::new(CLEAR, canvas.rect().bottom() - CLEAR);
    let ends = [corner.moved(0.0, -arm), corner, corner.moved(arm, 0.0)];
    canvas.path(Layer::Mark, Path::polyline(&ends));
    room.take(Rect::new(corner.x, corner.y - arm, arm, arm).inset(-0.5));
    place(canvas, room, "datum", corner.moved(2.0 * arm, -arm / 2.0));
}

/// What is done to an edge, along it.
fn edge_note(canvas: &mut Canvas, room: &mut Room, edge: &PanelEdge) {
    let words = edge_words(edge);
    if words.is_empty() {
        return;
    }
    let [from, to] = edge.outer.map(|at| canvas.point(at));
    let long = from.distance(to);
    let width = StrokeLettering::new(CAP).width(&words);
    if long <= width {
        return;
    }
    let (ux, uy) = ((to.x - from.x) / long, (to.y - from.y) / long);
    // Up in letters that run along the edge, turned to be read from below or
    // from the right; the panel lies to the left of the way as seen.
    let (nx, ny) = (uy, -ux);
    let flipped = ux < -0.01 || (ux.abs() <= 0.01 && uy > 0.0);
    let (dx, dy) = if flipped { (-ux, -uy) } else { (ux, uy) };
    let turn = crate::math::atan2(dy, dx).to_degrees();
    let step = edge.step.map_or(0.0, |[step, _]| mm(step));
    for share in [0.5, 0.3, 0.7, 0.2, 0.8] {
        let middle = from
            .towards(to, share)
            .moved(nx * (step + 2.0 * CLEAR), ny * (step + 2.0 * CLEAR));
        let (w, h) = (
            width * ux.abs() + CAP * uy.abs(),
            width * uy.abs() + CAP * ux.abs(),
        );
        let rect = Rect::new(middle.x - w / 2.0, middle.y - h / 2.0, w, h);
        if room.is_free(&rect) {
            room.take(rect.inset(-CLEAR));
            canvas.words(Layer::Mark, &words, CAP, middle, turn);
            return;
        }
    }
}

/// "45.0° bevel, inside shorter; step 9.0 × 6.0 inside; round 6.0".
fn edge_words(edge: &PanelEdge) -> String {
    let mut said = Vec::new();
    if edge.tilt.abs() > 1e-6 {
        let side = if edge.tilt > 0.0 { "inside" } else { "outside" };
        let degrees = number(edge.tilt.abs().to_degrees(), 1);
        said.push(format!("{degrees}° bevel, {side} shorter"));
    }
    if let Some([width, depth]) = edge.step {
        let size = format!("{} × {}", number(mm(width), 1), number(mm(depth), 1));
        said.push(format!("step {size} deep, inside"));
    }
    match edge.form {
        Some(EdgeForm::Round(radius)) => said.push(format!("round R{}", number(mm(radius), 1))),
        Some(EdgeForm::Chamfer(off)) => said.push(format!("chamfer {}", number(mm(off), 1))),
        None => {}
    }
    said.join("; ")
}

/// What holes are, once for those that are alike.
fn hole_notes(canvas: &mut Canvas, room: &mut Room, panel: &Panel) {
    let alike = |a: &PanelHole, b: &PanelHole| {
        a.label == b.label && a.outline == b.outline && a.pocket == b.pocket
    };
    for (i, hole) in panel.holes.iter().enumerate() {
        if panel.holes[..i].iter().any(|earlier| alike(earlier, hole)) {
            continue;
        }
        let count = panel
            .holes
            .iter()
            .filter(|other| alike(other, hole))
            .count();
        let rect = surrounding(hole_shape(hole.outline, canvas.point(hole.at)));
        let below = Point::new(rect.centre().x, rect.bottom() + CLEAR + CAP);
        place(canvas, room, &hole_words(hole, count), below);
    }
}

fn hole_words(hole: &PanelHole, count: usize) -> String {
    let times = if count > 1 {
        format!("{count} × ")
    } else {
        String::new()
    };
    let size = match hole.outline {
        Outline::Circle { diameter } => format!("⌀{}", number(mm(diameter), 1)),
        Outline::Rectangle { width, height, .. } => {
            format!("{} × {}", number(mm(width), 1), number(mm(height), 1))
        }
    };
    let depth = hole.pocket.map_or(String::new(), |depth| {
        format!(" × {} deep", number(mm(depth), 1))
    });
    format!("{times}{size}{depth} {}", hole.label)
        .trim_end()
        .to_owned()
}

/// Writes words near a point where there is room; leaves them out where there
/// is none.
fn place(canvas: &mut Canvas, room: &mut Room, words: &str, wish: Point) {
    let size = (StrokeLettering::new(CAP).width(words), CAP * 4.0 / 3.0);
    let reach = canvas.rect().w.max(canvas.rect().h) / 3.0;
    if let Some(rect) = room.nearest(size, wish, reach) {
        room.take(rect.inset(-1.0));
        // A third of the height hangs below the base line.
        let middle = rect.centre().moved(0.0, -CAP / 6.0);
        canvas.words(Layer::Mark, words, CAP, middle, 0.0);
    }
}

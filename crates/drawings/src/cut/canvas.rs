//! Layers of a cut file, and drawing onto them.

use crate::geometry::{Point, Rect};
use crate::path::Path;
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Group, Shape, Sheet, Stroke, Style, pen};
use crate::text::stroke::StrokeLettering;
use core::f64::consts::FRAC_PI_2;
use wood::Outline;

/// What is done along a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// Cut through.
    Cut,
    /// Drilled through.
    Drill,
    /// Cut to a depth only.
    Pocket,
    /// Engraved or etched.
    Etch,
    /// Marked for work by hand: centres, bevels, steps, names.
    Mark,
    /// Not worked at all: what is to be seen beside the work.
    Drawing,
}

impl Layer {
    /// Every layer.
    pub const ALL: [Self; 6] = [
        Self::Cut,
        Self::Drill,
        Self::Pocket,
        Self::Etch,
        Self::Mark,
        Self::Drawing,
    ];

    /// Its name in a file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Drill => "drill",
            Self::Pocket => "pocket",
            Self::Etch => "etch",
            Self::Mark => "mark",
            Self::Drawing => "drawing",
        }
    }

    const fn role(self) -> Role {
        match self {
            Self::Cut => Role::Stop,
            Self::Drill => Role::Accent,
            Self::Pocket => Role::Good,
            Self::Etch => Role::Third,
            Self::Mark => Role::Ink,
            Self::Drawing => Role::Muted,
        }
    }

    pub(crate) const fn style(self) -> Style {
        Style::stroked(Stroke::new(self.role(), pen::HAIR))
    }
}

/// Metres as millimetres.
pub(crate) fn mm(metres: f64) -> f64 {
    1000.0 * metres
}

/// A piece at full size; places are given in m from its lower left corner,
/// y upwards.
pub(crate) struct Canvas {
    width: f64,
    height: f64,
    layers: [Drawing; 6],
}

impl Canvas {
    /// A piece of so many metres across and up.
    pub(crate) fn new([across, up]: [f64; 2]) -> Self {
        Self {
            width: mm(across),
            height: mm(up),
            layers: Default::default(),
        }
    }

    /// The whole piece in mm.
    pub(crate) fn rect(&self) -> Rect {
        Rect::new(0.0, 0.0, self.width, self.height)
    }

    /// A place on the sheet in mm.
    pub(crate) fn point(&self, [x, y]: [f64; 2]) -> Point {
        Point::new(mm(x), self.height - mm(y))
    }

    /// A closed outline through places.
    pub(crate) fn polygon(&mut self, layer: Layer, corners: &[[f64; 2]]) {
        let corners: Vec<Point> = corners.iter().map(|at| self.point(*at)).collect();
        self.path(layer, Path::polygon(&corners));
    }

    /// An open line through places.
    pub(crate) fn polyline(&mut self, layer: Layer, places: &[[f64; 2]]) {
        let places: Vec<Point> = places.iter().map(|at| self.point(*at)).collect();
        self.path(layer, Path::polyline(&places));
    }

    /// An outline in mm on the sheet.
    pub(crate) fn path(&mut self, layer: Layer, path: Path) {
        self.layers[layer as usize].path(path, layer.style());
    }

    /// A hole about a place.
    pub(crate) fn hole(&mut self, layer: Layer, at: [f64; 2], outline: Outline) {
        let shape = hole_shape(outline, self.point(at));
        self.layers[layer as usize].shape(shape, layer.style());
    }

    /// A cross on the middle of a hole, its arms so many mm long.
    pub(crate) fn cross(&mut self, layer: Layer, at: [f64; 2], arm: f64) {
        let p = self.point(at);
        for (dx, dy) in [(arm, 0.0), (0.0, arm)] {
            let ends = [p.moved(-dx, -dy), p.moved(dx, dy)];
            self.path(layer, Path::polyline(&ends));
        }
    }

    /// Words in single strokes, capitals so many mm high, centred on a point
    /// in mm on the sheet.
    pub(crate) fn words(&mut self, layer: Layer, text: &str, cap: f64, middle: Point, turn: f64) {
        let base = middle
            .moved(0.0, cap / 2.0)
            .turned(middle, turn.to_radians());
        let strokes = StrokeLettering::new(cap).path(text, base, Anchor::Middle, turn);
        self.path(layer, strokes);
    }

    /// The sheet, a group to a layer; empty layers are left out.
    pub(crate) fn sheet(self, title: &str) -> Sheet {
        let mut sheet = Sheet::sized(self.width, self.height, title);
        for (layer, drawing) in Layer::ALL.into_iter().zip(self.layers) {
            if !drawing.items.is_empty() {
                let group = Group::Layer(layer.name().to_owned());
                sheet.drawing.group(group, drawing);
            }
        }
        sheet
    }
}

/// A hole about a point in mm: a true circle, or a rectangle with true arcs
/// for corners.
pub(crate) fn hole_shape(outline: Outline, centre: Point) -> Shape {
    match outline {
        Outline::Circle { diameter } => Shape::Circle {
            centre,
            radius: mm(diameter) / 2.0,
        },
        Outline::Rectangle {
            width,
            height,
            corner,
        } => {
            let (w, h) = (mm(width), mm(height));
            let rect = Rect::new(centre.x - w / 2.0, centre.y - h / 2.0, w, h);
            let radius = mm(corner).min(w / 2.0).min(h / 2.0);
            if radius > 0.0 {
                Shape::Path(rounded(rect, radius))
            } else {
                Shape::Rect(rect)
            }
        }
    }
}

/// A rectangle with rounded corners, clockwise as seen.
fn rounded(rect: Rect, radius: f64) -> Path {
    let inner = rect.inset(radius).corners();
    let mut path = Path::default().move_to(inner[0].moved(-radius, 0.0));
    let starts = [(0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)];
    for (i, (dx, dy)) in starts.into_iter().enumerate() {
        path = path.arc(inner[i], FRAC_PI_2);
        let next = inner[(i + 1) % 4];
        path = path.line_to(next.moved(radius * dx, radius * dy));
    }
    path.close()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rounded_hole_keeps_its_size() {
        let outline = Outline::Rectangle {
            width: 0.04,
            height: 0.02,
            corner: 0.003,
        };
        let shape = hole_shape(outline, Point::new(30.0, 30.0));
        let lines = shape.to_path().flatten();
        let bounds = Rect::around(&lines[0].points).unwrap();
        for (found, wanted) in [
            (bounds.x, 10.0),
            (bounds.y, 20.0),
            (bounds.w, 40.0),
            (bounds.h, 20.0),
        ] {
            assert!((found - wanted).abs() < 1e-9, "{bounds:?}");
        }
        // Area of the rectangle less four corners of a square less a circle.
        let area: f64 = lines[0]
            .stretches()
            .map(|(a, b)| (a.x * b.y - b.x * a.y) / 2.0)
            .sum();
        let wanted = 800.0 - (4.0 - core::f64::consts::PI) * 9.0;
        assert!((area - wanted).abs() < 0.05, "{area} for {wanted}");
    }
}

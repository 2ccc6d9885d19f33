//! The neutral middle: a sheet in millimetres with items at fixed positions.
//!
//! Layout happens once, into a [`Sheet`]; exporters only translate it.

mod collide;
mod item;

pub use collide::Collision;
pub use item::{Anchor, Dash, Fill, Group, Item, Shape, Stroke, Style, Text, pen};

use crate::geometry::{Point, Rect};
use crate::paper::Paper;
use crate::path::Path;

/// One drawing on one piece of paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// What is on it, for the title block and the list of sheets.
    pub title: String,
    /// Width in mm.
    pub width_mm: f64,
    /// Height in mm.
    pub height_mm: f64,
    /// What is drawn, in painter's order.
    pub drawing: Drawing,
}

impl Sheet {
    /// An empty sheet of a paper.
    #[must_use]
    pub fn new(paper: Paper, title: &str) -> Self {
        let (width_mm, height_mm) = paper.size_mm();
        Self::sized(width_mm, height_mm, title)
    }

    /// An empty sheet of any size in mm.
    #[must_use]
    pub fn sized(width_mm: f64, height_mm: f64, title: &str) -> Self {
        Self {
            title: title.to_owned(),
            width_mm,
            height_mm,
            drawing: Drawing::default(),
        }
    }

    /// The whole sheet as a rectangle.
    #[must_use]
    pub fn rect(&self) -> Rect {
        Rect::new(0.0, 0.0, self.width_mm, self.height_mm)
    }

    /// Every place where text meets other text, a line, or the edge of the
    /// sheet, by the true measures of the letters, or is covered; and numbered
    /// rings that overlap. A text that stands on an opaque patch drawn after
    /// the line does not meet it.
    #[must_use]
    pub fn collisions(&self) -> Vec<Collision> {
        collide::collisions(self)
    }
}

/// Items in painter's order: later ones lie on top.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    /// The items.
    pub items: Vec<Item>,
}

impl Drawing {
    /// Adds a shape.
    pub fn shape(&mut self, shape: Shape, style: Style) {
        self.items.push(Item::Shape(shape, style));
    }

    /// Adds a straight line.
    pub fn line(&mut self, from: Point, to: Point, stroke: Stroke) {
        self.polyline(&[from, to], stroke);
    }

    /// Adds an open line through points.
    pub fn polyline(&mut self, points: &[Point], stroke: Stroke) {
        self.path(Path::polyline(points), Style::stroked(stroke));
    }

    /// Adds a closed outline through points.
    pub fn polygon(&mut self, points: &[Point], style: Style) {
        self.path(Path::polygon(points), style);
    }

    /// Adds an outline.
    pub fn path(&mut self, path: Path, style: Style) {
        self.shape(Shape::Path(path), style);
    }

    /// Adds an upright rectangle.
    pub fn rect(&mut self, rect: Rect, style: Style) {
        self.shape(Shape::Rect(rect), style);
    }

    /// Adds a true circle.
    pub fn circle(&mut self, centre: Point, radius: f64, style: Style) {
        self.shape(Shape::Circle { centre, radius }, style);
    }

    /// Adds a line of text.
    pub fn text(&mut self, text: Text) {
        self.items.push(Item::Text(text));
    }

    /// Adds a line of text where it meets nothing that is drawn; whether it did.
    pub(crate) fn text_where_clear(&mut self, text: Text) -> bool {
        let clear = collide::is_clear(self, &text);
        if clear {
            self.text(text);
        }
        clear
    }

    /// Adds another drawing as one group.
    pub fn group(&mut self, group: Group, inner: Drawing) {
        self.items.push(Item::Group(group, inner.items));
    }

    /// Adds the items of another drawing on top.
    pub fn append(&mut self, other: Drawing) {
        self.items.extend(other.items);
    }

    /// The drawing moved by `dx` and `dy` mm.
    #[must_use]
    pub fn moved(&self, dx: f64, dy: f64) -> Self {
        Self {
            items: self.items.iter().map(|i| i.moved(dx, dy)).collect(),
        }
    }

    /// The smallest rectangle around everything drawn (line widths left
    /// out); `None` when nothing is.
    #[must_use]
    pub fn bounds(&self) -> Option<Rect> {
        let points: Vec<Point> = self.items.iter().flat_map(Item::corner_points).collect();
        Rect::around(&points)
    }
}

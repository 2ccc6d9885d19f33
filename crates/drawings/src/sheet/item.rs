//! What can stand on a sheet.

use crate::geometry::{Point, Rect};
use crate::path::Path;
use crate::role::Role;
use crate::text::{Lettering, drawable};

/// Line widths in mm, in the steps a draughtsman's pens have.
pub mod pen {
    /// Grids.
    pub const HAIR: f64 = 0.10;
    /// Rules, leaders, dimension lines.
    pub const FINE: f64 = 0.13;
    /// Hidden and inner edges.
    pub const THIN: f64 = 0.18;
    /// Visible edges.
    pub const MEDIUM: f64 = 0.25;
    /// Outlines and curves.
    pub const BOLD: f64 = 0.35;
    /// The frame of the sheet.
    pub const FRAME: f64 = 0.5;
}

/// One thing at a fixed position.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A shape with fill, stroke or both.
    Shape(Shape, Style),
    /// One line of text.
    Text(Text),
    /// Items that belong together.
    Group(Group, Vec<Item>),
}

/// Why items belong together.
#[derive(Clone, Debug, PartialEq)]
pub enum Group {
    /// They are seen only inside an outline.
    Clip(Rect),
    /// They go on a named layer of a cut file ("cut", "engrave", "fold").
    Layer(String),
    /// They show one named thing, for a page to find again.
    Named(String),
}

/// A shape.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// An outline of straight lines, arcs and curves.
    Path(Path),
    /// An upright rectangle.
    Rect(Rect),
    /// A true circle.
    Circle {
        /// Its centre.
        centre: Point,
        /// Its radius in mm.
        radius: f64,
    },
}

impl Shape {
    /// The shape as an outline.
    #[must_use]
    pub fn to_path(&self) -> Path {
        match self {
            Self::Path(path) => path.clone(),
            Self::Rect(rect) => Path::polygon(&rect.corners()),
            Self::Circle { centre, radius } => Path::default()
                .move_to(centre.moved(*radius, 0.0))
                .arc(*centre, 2.0 * core::f64::consts::PI)
                .close(),
        }
    }
}

/// How a surface is filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fill {
    /// Its colour.
    pub role: Role,
    /// 0 clear to 1 opaque.
    pub opacity: f64,
}

/// Pattern of a line.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Dash {
    /// Unbroken.
    #[default]
    Solid,
    /// Dashes.
    Dashed,
    /// Short dashes.
    Short,
    /// Dots.
    Dotted,
    /// Long dash and dot: centre lines.
    Centre,
    /// Lengths of strokes and gaps in mm, by turns; unbroken when empty.
    Of(&'static [f64]),
}

impl Dash {
    /// Lengths of strokes and gaps in mm, by turns; empty when unbroken.
    #[must_use]
    pub const fn pattern_mm(self) -> &'static [f64] {
        match self {
            Self::Solid => &[],
            Self::Dashed => &[2.0, 1.2],
            Self::Short => &[1.0, 0.8],
            Self::Dotted => &[0.3, 0.7],
            Self::Centre => &[4.0, 0.8, 0.4, 0.8],
            Self::Of(pattern) => pattern,
        }
    }
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub role: Role,
    /// Its width in mm.
    pub width_mm: f64,
    /// Its pattern.
    pub dash: Dash,
    /// 0 clear to 1 opaque.
    pub opacity: f64,
}

impl Stroke {
    /// An unbroken line.
    #[must_use]
    pub const fn new(role: Role, width_mm: f64) -> Self {
        Self {
            role,
            width_mm,
            dash: Dash::Solid,
            opacity: 1.0,
        }
    }

    /// The same line with a pattern.
    #[must_use]
    pub const fn dashed(self, dash: Dash) -> Self {
        Self { dash, ..self }
    }

    /// The same line, partly clear.
    #[must_use]
    pub const fn faded(self, opacity: f64) -> Self {
        Self { opacity, ..self }
    }
}

/// How a shape is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Style {
    /// Its surface.
    pub fill: Option<Fill>,
    /// Its edge.
    pub stroke: Option<Stroke>,
}

impl Style {
    /// Only an edge.
    #[must_use]
    pub const fn stroked(stroke: Stroke) -> Self {
        Self {
            fill: None,
            stroke: Some(stroke),
        }
    }

    /// Only a surface.
    #[must_use]
    pub const fn filled(role: Role) -> Self {
        Self::washed(role, 1.0)
    }

    /// Only a surface, partly clear.
    #[must_use]
    pub const fn washed(role: Role, opacity: f64) -> Self {
        Self {
            fill: Some(Fill { role, opacity }),
            stroke: None,
        }
    }

    /// The same with an edge.
    #[must_use]
    pub const fn edged(self, stroke: Stroke) -> Self {
        Self {
            stroke: Some(stroke),
            ..self
        }
    }
}

/// Which end of a line of text stands at its position.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Anchor {
    /// Its start.
    #[default]
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// One line of text.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Where the anchor stands, on the base line.
    pub at: Point,
    /// What is written.
    pub content: String,
    /// Size and weight.
    pub letters: Lettering,
    /// Which end stands at `at`.
    pub anchor: Anchor,
    /// Colour.
    pub role: Role,
    /// Turn about `at` in degrees, clockwise as seen.
    pub turn_deg: f64,
}

impl Text {
    /// A line of text in ink, from its start.
    #[must_use]
    pub fn new(at: Point, content: &str, letters: Lettering) -> Self {
        Self {
            at,
            content: drawable(content),
            letters,
            anchor: Anchor::Start,
            role: Role::Ink,
            turn_deg: 0.0,
        }
    }

    /// The same with another anchor.
    #[must_use]
    pub fn anchored(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }

    /// The same in another colour.
    #[must_use]
    pub fn coloured(self, role: Role) -> Self {
        Self { role, ..self }
    }

    /// The same turned by degrees, clockwise as seen.
    #[must_use]
    pub fn turned(self, turn_deg: f64) -> Self {
        Self { turn_deg, ..self }
    }

    /// Moves the base line so that capitals stand centred on `at`.
    #[must_use]
    pub fn centred(self) -> Self {
        let drop = self.letters.cap_height() / 2.0;
        let turn = self.turn_deg.to_radians();
        let at = self.at;
        Self {
            at: at.moved(0.0, drop).turned(at, turn),
            ..self
        }
    }

    /// Width of the line in mm.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.letters.width(&self.content)
    }

    /// Start of the line, before turning.
    #[must_use]
    pub fn start(&self) -> Point {
        let back = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => self.width() / 2.0,
            Anchor::End => self.width(),
        };
        self.at.moved(-back, 0.0)
    }

    /// The box of the ink before turning.
    #[must_use]
    pub fn upright_box(&self) -> Rect {
        let (above, below) = self.letters.ink(&self.content);
        let start = self.start();
        Rect::new(start.x, start.y - above, self.width(), above + below)
    }

    /// Corners of the box of the ink, turned as drawn.
    #[must_use]
    pub fn corners(&self) -> [Point; 4] {
        let turn = self.turn_deg.to_radians();
        self.upright_box()
            .corners()
            .map(|p| p.turned(self.at, turn))
    }
}

impl Item {
    /// The item moved by `dx` and `dy` mm.
    #[must_use]
    pub fn moved(&self, dx: f64, dy: f64) -> Self {
        match self {
            Self::Shape(shape, style) => Self::Shape(shape.moved(dx, dy), *style),
            Self::Text(text) => Self::Text(Text {
                at: text.at.moved(dx, dy),
                ..text.clone()
            }),
            Self::Group(group, items) => {
                let group = match group {
                    Group::Clip(rect) => Group::Clip(rect.moved(dx, dy)),
                    other => other.clone(),
                };
                Self::Group(group, items.iter().map(|i| i.moved(dx, dy)).collect())
            }
        }
    }

    /// Points whose surrounding rectangle holds the item.
    pub(crate) fn corner_points(&self) -> Vec<Point> {
        match self {
            Self::Shape(Shape::Rect(rect), _) => rect.corners().to_vec(),
            Self::Shape(Shape::Circle { centre, radius }, _) => vec![
                centre.moved(-radius, -radius),
                centre.moved(*radius, *radius),
            ],
            Self::Shape(Shape::Path(path), _) => {
                path.flatten().into_iter().flat_map(|l| l.points).collect()
            }
            Self::Text(text) => text.corners().to_vec(),
            Self::Group(Group::Clip(rect), _) => rect.corners().to_vec(),
            Self::Group(_, items) => items.iter().flat_map(Item::corner_points).collect(),
        }
    }
}

impl Shape {
    fn moved(&self, dx: f64, dy: f64) -> Self {
        match self {
            Self::Path(path) => Self::Path(path.moved(dx, dy)),
            Self::Rect(rect) => Self::Rect(rect.moved(dx, dy)),
            Self::Circle { centre, radius } => Self::Circle {
                centre: centre.moved(dx, dy),
                radius: *radius,
            },
        }
    }
}

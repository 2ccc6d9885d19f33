//! Charts: curves, bands and marks drawn on a sheet of our own, with names
//! written at the curves instead of a key beside them.

mod axis;
mod curve;
mod frame;
mod label;
mod lanes;

pub use axis::{Axis, Scale};

use crate::geometry::Rect;
use crate::role::Role;
use crate::sheet::{Dash, Drawing, Stroke};

/// A chart: what is plotted, not how it is laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// Heading.
    pub title: String,
    /// What the heading leaves open, in smaller letters beside it.
    pub subtitle: String,
    /// The level axis.
    pub x: Axis,
    /// The upright axis.
    pub y: Axis,
    /// Curves; the first is drawn last, on top.
    pub series: Vec<Series>,
    /// Lines and points of reference.
    pub marks: Vec<Mark>,
    /// Where along x the model may be believed; curves are dotted outside.
    pub model_holds: Option<(f64, f64)>,
    /// A bar under the plot that says what holds where along x.
    pub strip: Option<Strip>,
    /// One or two sentences under the plot.
    pub caption: String,
}

/// One curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// Its name, written at the curve; none when empty.
    pub name: String,
    /// Points (x, y) with x rising; a y that is not finite breaks the curve.
    pub points: Vec<(f64, f64)>,
    /// Shaded surroundings, one low and one high value for every point.
    pub band: Option<Band>,
    /// Which of the curves it is, by colour and pattern together.
    pub style: SeriesStyle,
}

/// Low and high edge of a shaded band, aligned with the points of a series.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Band {
    /// Lower edge (P10).
    pub low: Vec<f64>,
    /// Upper edge (P90).
    pub high: Vec<f64>,
}

/// How a curve is drawn. Colour and pattern differ together, so that a grey
/// print and a colour-blind reader tell the curves apart.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SeriesStyle {
    /// The curve in hand: full line.
    #[default]
    Main,
    /// A second curve: dashed.
    Second,
    /// A third curve: short dashes.
    Third,
    /// A curve to compare with: thin, dash and dot.
    Reference,
}

/// A line or a point of reference.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// An upright line at an x.
    AtX(f64, String),
    /// A level line at a y.
    AtY(f64, String),
    /// A point.
    Point(f64, f64, String),
}

/// What holds where along x.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Strip {
    /// What the bar tells, written under its start.
    pub title: String,
    /// Stretches from, to, name.
    pub spans: Vec<(f64, f64, String)>,
}

impl SeriesStyle {
    pub(crate) fn role(self) -> Role {
        match self {
            Self::Main => Role::Accent,
            Self::Second => Role::Second,
            Self::Third => Role::Third,
            Self::Reference => Role::Muted,
        }
    }

    pub(crate) fn stroke(self) -> Stroke {
        let (width, dash) = match self {
            Self::Main => (0.45, Dash::Solid),
            Self::Second => (0.4, Dash::Dashed),
            Self::Third => (0.4, Dash::Short),
            Self::Reference => (0.25, Dash::Centre),
        };
        Stroke::new(self.role(), width).dashed(dash)
    }
}

impl Chart {
    /// A chart with axes and nothing in it.
    #[must_use]
    pub fn new(title: &str, x: Axis, y: Axis) -> Self {
        Self {
            title: title.to_owned(),
            subtitle: String::new(),
            x,
            y,
            series: Vec::new(),
            marks: Vec::new(),
            model_holds: None,
            strip: None,
            caption: String::new(),
        }
    }

    /// Lays the chart out within `area` (mm).
    #[must_use]
    pub fn draw(&self, area: Rect) -> Drawing {
        frame::draw(self, area).0
    }

    /// The same, and where its plot lies, for values to be read off it.
    #[must_use]
    pub fn plotted(&self, area: Rect) -> (Drawing, Rect) {
        frame::draw(self, area)
    }
}

#[cfg(test)]
mod tests;

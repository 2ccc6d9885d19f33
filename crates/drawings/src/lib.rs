//! Sheets in millimetres, and the exporters to SVG and PDF.
//!
//! Everything is laid out once into a neutral [`Sheet`]; the exporters in
//! [`export`] only translate it and know nothing of one another. Lengths are
//! millimetres throughout, y runs downwards, colours are [`Role`]s.
//!
//! ```
//! use boxwright_drawings::export::{pdf::pdf, svg::svg};
//! use boxwright_drawings::sheet::{Stroke, Style, Text, pen};
//! use boxwright_drawings::text::Lettering;
//! use boxwright_drawings::{Paper, Point, Rect, Role, Sheet, Theme};
//!
//! let mut sheet = Sheet::new(Paper::A4, "Square");
//! let edge = Style::stroked(Stroke::new(Role::Ink, pen::MEDIUM));
//! sheet.drawing.rect(Rect::new(20.0, 20.0, 50.0, 50.0), edge);
//! let at = Point::new(20.0, 17.0);
//! sheet.drawing.text(Text::new(at, "50 mm wide", Lettering::regular(3.0)));
//! assert!(sheet.collisions().is_empty());
//!
//! let page = svg(&sheet, Theme::Blueprint);
//! assert!(page.contains("50 mm wide"));
//! let file = pdf(&[sheet], "Square", None, Theme::Paper)?;
//! assert!(file.starts_with(b"%PDF"));
//! # Ok::<(), boxwright_drawings::export::pdf::PdfError>(())
//! ```

pub mod boxview;
pub mod chart;
pub mod control;
pub mod cut;
mod date;
#[cfg(test)]
mod demo_wood;
pub mod export;
mod geometry;
#[cfg(test)]
mod golden;
pub mod layout;
mod math;
pub mod pack;
mod paper;
mod path;
mod role;
pub mod schematic;
pub mod sheet;
mod spread;
pub mod template;
pub mod text;
mod view;

pub use date::Date;
pub use geometry::{Point, Rect};
pub use paper::Paper;
pub use path::{Path, Polyline, Segment};
pub use role::{Rgb, Role, Theme};
pub use sheet::{Drawing, Sheet};

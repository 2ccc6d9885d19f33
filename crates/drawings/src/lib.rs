//! Sheets in millimetres, and the exporters to SVG and PDF.
//!
//! Everything is laid out once into a neutral [`Sheet`]; the exporters in
//! [`export`] only translate it and know nothing of one another. Lengths are
//! millimetres throughout, y runs downwards, colours are [`Role`]s.

pub mod boxview;
pub mod chart;
mod date;
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
pub mod sheet;
mod spread;
pub mod text;

pub use date::Date;
pub use geometry::{Point, Rect};
pub use paper::Paper;
pub use path::{Path, Polyline, Segment};
pub use role::{Rgb, Role, Theme};
pub use sheet::{Drawing, Sheet};

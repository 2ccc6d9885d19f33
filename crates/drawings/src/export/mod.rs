//! Translators of sheets and solids. None knows of another, and none lays
//! anything out.

pub mod dxf;
pub mod pdf;
pub mod stl;
pub mod svg;

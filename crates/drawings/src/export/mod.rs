//! Translators of sheets. None knows of another, and none lays anything out.

pub mod pdf;
pub mod svg;

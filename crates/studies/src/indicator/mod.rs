//! The low-battery indicator: a circuit from the maker's drawer that lights while
//! there is still so much music left, what it does over the builds, and how it
//! is set.

mod cut_off;
mod design;
mod drawer;
mod fading;
mod model;
mod parts;
mod steps;
mod study;
mod wants;

pub use model::{
    Alternative, Built, Cause, CutOff, Indicator, Kind, Limits, Net, Part, Reading, Sag, Step,
    Threshold, Trimmer, Wanted,
};

pub(crate) use cut_off::bears_rush;
pub(crate) use design::Indicators;
pub(crate) use steps::{PACK_CARE, from_the_pack};
pub(crate) use study::{Player, Switched, study};

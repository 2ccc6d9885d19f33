//! The small-signal parameters of a driver and what ties them together.
//!
//! Symbols are the trade's: R<sub>E</sub>, f<sub>S</sub>, Q<sub>MS</sub>,
//! Q<sub>ES</sub>, Q<sub>TS</sub>, V<sub>AS</sub>, S<sub>D</sub>, Bl,
//! M<sub>MS</sub>, C<sub>MS</sub>, R<sub>MS</sub>, η₀ (`small-1972`).
//! f<sub>S</sub>, the Qs and M<sub>MS</sub> are those of the driver hung in
//! free air, without a baffle.
//!
//! ```
//! use boxwright_physics::air::Air;
//! use boxwright_physics::driver::{Partial, complete};
//!
//! let sheet = Partial {
//!     re: Some(3.6),
//!     fs: Some(55.0),
//!     qms: Some(4.0),
//!     qes: Some(0.42),
//!     sd: Some(133e-4),
//!     mms: Some(12.5e-3),
//!     bl: Some(6.7),
//!     ..Partial::default()
//! };
//! let completion = complete(&sheet, &Air::with(1.2, 343.0));
//! assert!(completion.missing.is_empty());
//! let bl = &completion.conflicts[0];
//! assert_eq!(bl.names.last(), Some(&"bl"));
//! assert!((bl.implied - 6.085).abs() < 1e-3 && bl.percent > 10.0);
//! ```

mod complete;
mod measure;
mod relations;

pub use complete::{Completion, Conflict, Partial, complete};
pub use measure::{
    ImpedancePoints, ImpedanceReading, added_mass, known_volume, known_volume_with_quality,
};
pub use relations::{
    SENSITIVITY_VOLTAGE, compliance_of, efficiency, efficiency_of_resonance, equivalent_volume,
    free_air_mass, level_of_power, sensitivity, total_quality,
};

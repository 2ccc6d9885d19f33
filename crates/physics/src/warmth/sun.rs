//! The sun on a box.

/// Irradiance in W/m² of a face square to the sun under a clear sky, at sea
/// level: the round value that solar cells are rated at (`iec-60904-3`, from
/// memory). Above the air it is 1361 W/m²; a low sun gives less than this.
pub const CLEAR_SKY: f64 = 1000.0;

/// Irradiance in W/m² of each face of a block whose sides have these areas in
/// m², with the sun where it heats the block most.
///
/// Of each pair of opposite faces one lies in the sun. A block with face areas
/// A₁, A₂, A₃ shows the sun at most √(A₁² + A₂² + A₃²), where the sun's
/// direction is in proportion to the areas.
#[must_use]
pub fn struck(areas: [f64; 3], irradiance: f64) -> [f64; 3] {
    let shown = areas.iter().map(|area| area * area).sum::<f64>().sqrt();
    areas.map(|area| irradiance * area / shown)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::{cos, sin};
    use proptest::prelude::*;

    proptest! {
        /// No other height and bearing of the sun puts more heat on the block.
        #[test]
        fn no_sun_heats_more(
            areas in prop::array::uniform3(0.01_f64..0.5),
            height in 0.0_f64..1.57,
            bearing in 0.0_f64..1.57,
        ) {
            let most: f64 = struck(areas, 1.0).iter().zip(areas).map(|(flux, area)| flux * area).sum();
            let sun = [cos(height) * cos(bearing), cos(height) * sin(bearing), sin(height)];
            let other: f64 = sun.iter().zip(areas).map(|(flux, area)| flux * area).sum();
            prop_assert!(other <= most * (1.0 + 1e-12));
        }
    }
}

//! Round scales.

use crate::math;
use crate::text::number;

/// Scales offered: millimetres of the box to one on paper.
const SCALES: [f64; 16] = [
    1.0, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0,
];

/// The largest round scale at which a size, in mm, fits a room.
pub(crate) fn round(size: (f64, f64), room: (f64, f64)) -> f64 {
    let room = (room.0.max(1.0), room.1.max(1.0));
    SCALES
        .into_iter()
        .find(|s| size.0 / s <= room.0 && size.1 / s <= room.1)
        .unwrap_or_else(|| math::ceil((size.0 / room.0).max(size.1 / room.1)))
}

/// A scale as a title block says it: "1 : 4".
pub(crate) fn said(scale: f64) -> String {
    let decimals = usize::from(scale.fract() > 0.0);
    format!("1 : {}", number(scale, decimals))
}

/// A length in m as a dimension says it: millimetres, a tenth only where there is one.
pub(crate) fn mm(length: f64) -> String {
    let tenths = math::round(length * 1e4);
    number(tenths / 10.0, usize::from(tenths % 10.0 != 0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_said_to_the_tenth() {
        assert_eq!(mm(0.36), "360");
        assert_eq!(mm(0.0125), "12.5");
        assert_eq!(mm(0.072_04), "72");
        assert_eq!(mm(-0.0005), "−0.5");
    }

    #[test]
    fn the_scale_is_the_largest_that_fits() {
        assert_eq!(said(round((360.0, 200.0), (150.0, 90.0))), "1 : 2.5");
        assert_eq!(said(round((30.0, 20.0), (150.0, 90.0))), "1 : 1");
    }
}

//! The normal distribution, truncated, by its inverse.

use physics::math::{exp, ln};

/// Where drawn normal deviates are cut off, in standard deviations.
const CUT: f64 = 3.0;

/// Φ(−3), the tail left out at either side (tabulated; Abramowitz & Stegun 26.2).
const TAIL: f64 = 1.349_898_031_630_094_5e-3;

/// A standard normal deviate for a number in 0..1, cut off at three standard deviations.
///
/// Inverse of the distribution by `wichura-1988` (algorithm AS 241, about 16
/// digits), applied to the interval between the two tails.
fn deviate(unit: f64) -> f64 {
    let unit = unit.clamp(0.0, 1.0);
    inverse(TAIL + unit * (1.0 - 2.0 * TAIL)).clamp(-CUT, CUT)
}

fn ratio(r: f64, numerator: [f64; 8], denominator: [f64; 8]) -> f64 {
    let horner = |c: [f64; 8]| c.iter().rev().fold(0.0, |sum, &k| sum * r + k);
    horner(numerator) / horner(denominator)
}

fn inverse(p: f64) -> f64 {
    let q = p - 0.5;
    if q.abs() <= 0.425 {
        return q * ratio(0.180_625 - q * q, CENTRE.0, CENTRE.1);
    }
    let r = (-ln(if q < 0.0 { p } else { 1.0 - p })).sqrt();
    let x = if r <= 5.0 {
        ratio(r - 1.6, MIDDLE.0, MIDDLE.1)
    } else {
        ratio(r - 5.0, FAR.0, FAR.1)
    };
    if q < 0.0 { -x } else { x }
}

/// A log-normal factor with median 1 for a number in 0..1.
pub(crate) fn log_factor(unit: f64, sigma: f64) -> f64 {
    exp(sigma * deviate(unit))
}

const CENTRE: ([f64; 8], [f64; 8]) = (
    [
        3.387_132_872_796_366_5,
        1.331_416_678_917_843_8e2,
        1.971_590_950_306_551_3e3,
        1.373_169_376_550_946e4,
        4.592_195_393_154_987e4,
        6.726_577_092_700_87e4,
        3.343_057_558_358_813e4,
        2.509_080_928_730_122_7e3,
    ],
    [
        1.0,
        4.231_333_070_160_091e1,
        6.871_870_074_920_579e2,
        5.394_196_021_424_751e3,
        2.121_379_430_158_659_7e4,
        3.930_789_580_009_271e4,
        2.872_908_573_572_194_3e4,
        5.226_495_278_852_545e3,
    ],
);
const MIDDLE: ([f64; 8], [f64; 8]) = (
    [
        1.423_437_110_749_683_5,
        4.630_337_846_156_546,
        5.769_497_221_460_691,
        3.647_848_324_763_204_5,
        1.270_458_252_452_368_4,
        2.417_807_251_774_506e-1,
        2.272_384_498_926_918_4e-2,
        7.745_450_142_783_414e-4,
    ],
    [
        1.0,
        2.053_191_626_637_759,
        1.676_384_830_183_803_8,
        6.897_673_349_851e-1,
        1.481_039_764_274_800_8e-1,
        1.519_866_656_361_645_7e-2,
        5.475_938_084_995_345e-4,
        1.050_750_071_644_416_9e-9,
    ],
);
const FAR: ([f64; 8], [f64; 8]) = (
    [
        6.657_904_643_501_103,
        5.463_784_911_164_114,
        1.784_826_539_917_291_3,
        2.965_605_718_285_048_7e-1,
        2.653_218_952_657_612_4e-2,
        1.242_660_947_388_078_4e-3,
        2.711_555_568_743_487_6e-5,
        2.010_334_399_292_288_1e-7,
    ],
    [
        1.0,
        5.998_322_065_558_88e-1,
        1.369_298_809_227_358e-1,
        1.487_536_129_085_061_5e-2,
        7.868_691_311_456_133e-4,
        1.846_318_317_510_054_8e-5,
        1.421_511_758_316_446e-7,
        2.044_263_103_389_939_8e-15,
    ],
);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn matches_tabulated_points() {
        // Abramowitz & Stegun table 26.1: Φ(1) = 0.841344746068543, Φ(2) = 0.977249868051821.
        for (p, x) in [
            (0.5, 0.0),
            (0.841_344_746_068_543, 1.0),
            (0.977_249_868_051_821, 2.0),
            (TAIL, -3.0),
        ] {
            assert!((inverse(p) - x).abs() < 1e-12, "{p}: {}", inverse(p));
        }
    }

    #[test]
    fn is_symmetric_and_bounded() {
        for i in 0..=100 {
            let u = f64::from(i) / 100.0;
            assert!((deviate(u) + deviate(1.0 - u)).abs() < 1e-9);
            assert!(deviate(u).abs() <= CUT);
        }
    }
}

//! The heat study by other routes.

use super::{Case, Warmth};
use crate::check::Edit;
use crate::{Options, Texts, apply, survey};

const BATHING: &str = include_str!("../../../../examples/bathing-beach/design.toml");

const SHADE: &[(&str, &str)] = &[("place.sun", "false")];

fn warmth(edits: &[(&str, &str)], builds: usize) -> Warmth {
    let edits: Vec<Edit> = edits
        .iter()
        .map(|&(key, value)| Edit::set(key, value))
        .collect();
    let texts = Texts {
        design: &apply(BATHING, &edits).unwrap(),
        shelf: None,
    };
    let options = Options {
        builds,
        spread: 1.0,
        progress: &|_| (),
    };
    survey(texts, options).unwrap().warmth.unwrap()
}

fn case<'a>(warmth: &'a Warmth, id: &str) -> &'a Case {
    warmth.cases.iter().find(|case| case.id == id).unwrap()
}

/// The handbook's one line, U = 1/(1/h + t/k + 1/h) over the walls' area with
/// 9 W/(m²·K) on both sides, against the network, which knows that convection
/// grows with the difference and which way each wall faces. The box stands on
/// the sand without feet: five faces.
#[test]
fn the_air_rises_as_the_one_line_formula_says() {
    let warm = warmth(SHADE, 0);
    let [width, height, depth] = [0.348, 0.188, 0.17];
    let area = 2.0 * height * (width + depth) + width * depth;
    let whole = 1.0 / (1.0 / 9.0 + 0.0118 / 0.14 + 1.0 / 9.0);
    for case in &warm.cases {
        let rise = case.steady.nominal.air - warm.outdoors;
        let expected = case.heat.total() / (whole * area);
        assert!(
            (0.6..1.7).contains(&(rise / expected)),
            "{}: {rise} K, one line {expected} K",
            case.id
        );
    }
}

#[test]
fn sun_and_a_hotter_day_warm_everything() {
    let cool = warmth(&[("place.hottest", "30 °C"), SHADE[0]], 0);
    let hot = warmth(&[("place.hottest", "40 °C"), SHADE[0]], 0);
    let sunny = warmth(&[("place.hottest", "40 °C"), ("place.sun", "true")], 0);
    for ((cool, hot), sunny) in cool.cases.iter().zip(&hot.cases).zip(&sunny.cases) {
        let each = [cool, hot, sunny].map(|case| case.steady.nominal);
        for pick in [
            |t: &super::Temperatures| t.chip,
            |t: &super::Temperatures| t.battery,
            |t: &super::Temperatures| t.air,
        ] {
            let [a, b, c] = [pick(&each[0]), pick(&each[1]), pick(&each[2])];
            // Ten degrees outdoors are near ten degrees inside.
            assert!((b - a - 10.0).abs() < 2.0, "{a} {b}");
            assert!(c > b + 5.0, "{b} {c}");
        }
    }
    assert!(sunny.silent.nominal.air > 45.0);
    assert!((hot.silent.nominal.air - 40.0).abs() < 0.01);
}

#[test]
fn more_is_played_and_more_is_warm() {
    let warm = warmth(&[], 0);
    for pair in warm.cases.windows(2) {
        assert!(pair[0].heat.total() < pair[1].heat.total());
        assert!(pair[0].steady.nominal.chip < pair[1].steady.nominal.chip);
    }
    for case in &warm.cases {
        // Within the hour nothing gets warmer than after many.
        assert!(case.hour.chip <= case.steady.nominal.chip + 0.01);
        assert!(case.hour.battery <= case.steady.nominal.battery + 0.01);
        assert!(case.course.len() > 10 && case.course.len() == case.seconds.len());
    }
    let sine = case(&warm, "sine");
    assert!(sine.heat.drivers > 5.0 * case(&warm, "music").heat.drivers);
}

#[test]
fn the_box_as_designed_stands_within_its_band() {
    let warm = warmth(&[], 60);
    for case in &warm.cases {
        let standing = &case.steady;
        let (low, high) = (standing.p10.unwrap(), standing.p90.unwrap());
        assert!(low.chip < high.chip);
        assert!((low.chip - 1.0..high.chip + 1.0).contains(&standing.nominal.chip));
    }
}

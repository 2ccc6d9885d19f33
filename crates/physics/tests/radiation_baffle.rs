//! The edge-wave model of a box's front against a boundary-element solution
//! (`diffraction-table`) and the series of a sphere (`morse-ingard`).

mod table;

use boxwright_physics::math::db_amplitude;
use boxwright_physics::radiation::baffle::{BaffleModel, Face};

const SOUND_SPEED: f64 = 343.0;

fn face(case: &str) -> Face {
    // A disc of the area of the table's square source.
    let radius = |side: f64| side / core::f64::consts::PI.sqrt();
    match case {
        "cube" => Face {
            width: 0.6,
            height: 0.6,
            source_x: 0.0,
            source_y: 0.0,
            source_radius: radius(0.0667),
        },
        "box" => Face {
            width: 0.2,
            height: 0.3,
            source_x: 0.0,
            source_y: 0.05,
            source_radius: radius(0.025),
        },
        other => panic!("no such box: {other}"),
    }
}

/// Worst error in dB at one angle, below and above k·width = 6, and all errors in words.
fn worst(column: usize, degrees: f64) -> ([f64; 2], String) {
    let mut worst = [0.0_f64; 2];
    let mut report = String::new();
    for row in table::rows(include_str!("../../../reference/box_diffraction.csv")) {
        let (frequency, k_width) = (table::number(row[1]), table::number(row[2]));
        let model = BaffleModel::toward(&face(row[0]), degrees.to_radians(), 0.0);
        let level = db_amplitude(model.gain(frequency, SOUND_SPEED).norm());
        let error = level - table::number(row[column]);
        report += &format!(
            "{} {frequency} Hz, k·width {k_width}: {error:+.2} dB
",
            row[0]
        );
        let side = usize::from(k_width >= 6.0);
        worst[side] = worst[side].max(error.abs());
    }
    (worst, report)
}

/// The bounds the module's documentation states; rounded up from what was
/// measured, so a worse model fails and a better one calls for new words.
#[test]
fn stays_within_the_stated_error() {
    for (column, degrees, below, above) in
        [(3, 0.0, 0.6, 0.8), (4, 30.0, 0.8, 0.5), (5, 60.0, 1.0, 0.7)]
    {
        let ([low, high], report) = worst(column, degrees);
        for (got, stated) in [(low, below), (high, above)] {
            let fair = got <= stated && got > stated - 0.15;
            assert!(
                fair,
                "{degrees}°: {got:.2} dB against {stated} stated\n{report}"
            );
        }
    }
}

/// Where the front has given half of its 6 dB: 77.6 Hz·m over the width for
/// the cube (boundary elements), 108.3 over the diameter for a sphere. The
/// missing depth puts the model's a tenth higher.
#[test]
fn half_of_the_step() {
    let model = BaffleModel::new(&face("cube"));
    let level = |f: f64| db_amplitude(model.gain(f, SOUND_SPEED).norm());
    let crossing = (20..400)
        .map(f64::from)
        .find(|&f| level(f) > db_amplitude(2.0) / 2.0)
        .unwrap();
    let product = crossing * 0.6;
    assert!((1.05..1.13).contains(&(product / 77.6)), "{product} Hz·m");
}

/// A sphere and the square front it just fills differ in every detail, yet
/// below ka = 0.5 the step is one of size alone.
#[test]
fn follows_a_sphere_of_the_same_front_below_the_step() {
    for row in table::numbers(include_str!("../../../reference/sphere_point_source.csv")) {
        if row[0] > 0.5 {
            continue;
        }
        let radius: f64 = 0.2;
        let side = radius * core::f64::consts::PI.sqrt();
        let face = Face {
            width: side,
            height: side,
            source_x: 0.0,
            source_y: 0.0,
            source_radius: 0.01,
        };
        let frequency = row[0] * SOUND_SPEED / (2.0 * core::f64::consts::PI * radius);
        let level = db_amplitude(BaffleModel::new(&face).gain(frequency, SOUND_SPEED).norm());
        assert!(
            (level - row[1]).abs() < 0.4,
            "ka {}: {level} against {}",
            row[0],
            row[1]
        );
    }
}

//! Bending modes of plates against parameters computed elsewhere, against Lévy's
//! exact solution, and what must hold of any plate.

mod table;

use boxwright_physics::math::{cosh, sin, sinh};
use boxwright_physics::plate::{Edges, Hold, Plate, Rigidity};
use core::f64::consts::PI;
use proptest::prelude::*;

/// ωa²√(mass/D) of the plate a × b with unit mass and rigidity, a = 1.
fn parameters(a_over_b: f64, edges: Edges, count: usize) -> Vec<f64> {
    let unit = Plate {
        span: [1.0, 1.0 / a_over_b],
        mass: 1.0,
        rigidity: Rigidity {
            along: 1.0,
            across: 1.0,
            mixed: 1.0,
        },
    };
    let hertz = unit.frequencies(edges, count);
    hertz.into_iter().map(|hertz| 2.0 * PI * hertz).collect()
}

/// Supported edges are exact: the table's ten digits. Clamped ones come from a
/// Ritz method, so from above; by no more than 0.15 %, which is far below what
/// is known of any wooden board.
#[test]
fn parameters_of_the_table() {
    let rows = table::numbers(include_str!("../../../reference/plate_parameters.csv"));
    assert_eq!(rows.len(), 36);
    for row in rows {
        let mode = row[1] as usize - 1;
        let supported = parameters(row[0], Edges::SUPPORTED, 5)[mode];
        assert!(
            (supported - row[2]).abs() < 1e-8 * row[2],
            "{row:?} {supported}"
        );
        let clamped = parameters(row[0], Edges::CLAMPED, 5)[mode];
        let above = clamped / row[3] - 1.0;
        assert!((-1e-7..1.5e-3).contains(&above), "{row:?} {clamped}");
    }
}

#[test]
fn panels_of_the_table() {
    let rows = table::rows(include_str!("../../../reference/plate_examples.csv"));
    assert_eq!(rows.len(), 3);
    for row in rows {
        let number = |cell: usize| table::number(row[cell]);
        let thickness = number(4);
        let rigidity = Rigidity::isotropic(1e9 * number(1), number(3), thickness);
        assert!((rigidity.along - number(7)).abs() < 1e-8 * number(7));
        assert!((rigidity.mixed - rigidity.along).abs() < 1e-12 * rigidity.along);
        let plate = Plate {
            span: [number(5), number(6)],
            mass: number(2) * thickness,
            rigidity,
        };
        let supported = plate.lowest(Edges::SUPPORTED);
        assert!((supported / number(8) - 1.0).abs() < 1e-8, "{supported}");
        let clamped = plate.lowest(Edges::CLAMPED);
        assert!(
            (0.0..5e-4).contains(&(clamped / number(9) - 1.0)),
            "{clamped}"
        );
    }
}

/// The lowest parameter with two opposite edges supported and the other two
/// clamped, by Lévy's exact solution (`leissa-1973`): sin πx times a function of
/// y that is even about the middle, φ₁ tanh(φ₁b/2) = −φ₂ tan(φ₂b/2).
fn levy(a_over_b: f64) -> f64 {
    let half = 0.5 / a_over_b;
    let misses = |parameter: f64| {
        let (one, two) = ((parameter + PI * PI).sqrt(), (parameter - PI * PI).sqrt());
        // Without the pole of the tangent.
        let cosine = sin(PI / 2.0 - two * half);
        one * sinh(one * half) / cosh(one * half) * cosine + two * sin(two * half)
    };
    let (mut low, mut high) = (PI * PI + 1e-9, PI * PI + (PI / half) * (PI / half));
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if misses(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// Again from above, and closer, since only one direction is approximated.
#[test]
fn two_edges_clamped_agree_with_the_exact_solution() {
    let edges = Edges {
        along: Hold::Supported,
        across: Hold::Clamped,
    };
    assert!((levy(1.0) - 28.9509).abs() < 1e-3, "{}", levy(1.0));
    for a_over_b in [0.4, 2.0 / 3.0, 1.0, 1.5, 2.5] {
        let found = parameters(a_over_b, edges, 1)[0];
        let above = found / levy(a_over_b) - 1.0;
        assert!((-1e-9..1e-3).contains(&above), "{a_over_b} {above:e}");
    }
}

/// A strip much longer than wide bends like a beam between its long edges:
/// β² = π², 15.418, 22.373 (`leissa-1973`).
#[test]
fn a_long_strip_bends_like_a_beam() {
    for (hold, beam) in [
        (Hold::Supported, PI * PI),
        (Hold::OneOfEach, 15.4182),
        (Hold::Clamped, 22.3733),
    ] {
        let edges = Edges {
            along: hold,
            across: Hold::Supported,
        };
        let found = parameters(0.02, edges, 1)[0];
        assert!((found / beam - 1.0).abs() < 2e-3, "{hold:?} {found}");
    }
}

prop_compose! {
    fn any_plate()(
        span in [0.1..0.8, 0.1..0.8],
        mass in 3.0..20.0,
        moduli in [1e9..15e9, 1e9..15e9],
        shear in 0.02..0.4,
        poisson in 0.0_f64..0.3,
        thickness in 0.003..0.025,
    ) -> Plate {
        let (shear, moduli): (f64, [f64; 2]) = (shear, moduli);
        // No solid has more: ν² < E₁/E₂, or pulling it would give work.
        let poisson = poisson.min(0.9 * (moduli[0] / moduli[1]).sqrt());
        let rigidity = Rigidity::orthotropic(
            moduli, shear * (moduli[0] * moduli[1]).sqrt(), poisson, thickness);
        Plate { span, mass, rigidity }
    }
}

fn any_hold() -> impl Strategy<Value = Hold> {
    prop::sample::select(&[Hold::Supported, Hold::Clamped, Hold::OneOfEach][..])
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn frequency_goes_as_thickness_over_span_squared(
        plate in any_plate(), along in any_hold(), across in any_hold(), by in 0.3_f64..3.0
    ) {
        let edges = Edges { along, across };
        let larger = Plate { span: plate.span.map(|span| by * span), ..plate };
        let ratio = plate.lowest(edges) / larger.lowest(edges);
        prop_assert!((ratio / (by * by) - 1.0).abs() < 1e-9);
        // Thickness takes its cube into the rigidity and itself into the mass.
        let Rigidity { along, across, mixed } = plate.rigidity;
        let cube = by * by * by;
        let thicker = Plate {
            mass: by * plate.mass,
            rigidity: Rigidity { along: cube * along, across: cube * across, mixed: cube * mixed },
            ..plate
        };
        prop_assert!((thicker.lowest(edges) / plate.lowest(edges) / by - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_turned_plate_sounds_the_same(plate in any_plate(), along in any_hold(), across in any_hold()) {
        let turned = Plate {
            span: [plate.span[1], plate.span[0]],
            rigidity: plate.rigidity.turned(),
            ..plate
        };
        let edges = Edges { along, across };
        let swapped = Edges { along: across, across: along };
        for (one, other) in plate.frequencies(edges, 6).iter().zip(turned.frequencies(swapped, 6)) {
            prop_assert!((one / other - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn every_held_edge_raises_it(plate in any_plate(), other in any_hold()) {
        let held = |along| plate.lowest(Edges { along, across: other });
        prop_assert!(held(Hold::Supported) < held(Hold::OneOfEach));
        prop_assert!(held(Hold::OneOfEach) < held(Hold::Clamped));
    }

    /// Stretched along its stiffer axis, a plate with H² = D₁D₂ is an isotropic one:
    /// the products of β/span scale alike.
    #[test]
    fn a_stretched_plate_is_isotropic(plate in any_plate(), ratio in 0.2_f64..5.0) {
        let plain = Plate {
            rigidity: Rigidity { along: 100.0, across: 100.0, mixed: 100.0 },
            ..plate
        };
        let stretched = Plate {
            span: [plate.span[0] * ratio, plate.span[1]],
            rigidity: Rigidity {
                along: 100.0 * ratio * ratio * ratio * ratio,
                across: 100.0,
                mixed: 100.0 * ratio * ratio,
            },
            ..plate
        };
        let (one, other) = (plain.lowest(Edges::CLAMPED), stretched.lowest(Edges::CLAMPED));
        prop_assert!((one / other - 1.0).abs() < 1e-9);
    }
}

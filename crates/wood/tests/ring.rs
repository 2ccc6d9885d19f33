//! Mitre gaps by formula, against boards joined in the plane, and against what
//! every maker knows.

use boxwright_wood::ring::{Budget, DRAWS, Errors, Held, Ring, Spread, test_gap};
use libm::{acos, atan2, cos, sin, sqrt, tan};
use proptest::prelude::*;
use std::f64::consts::FRAC_PI_4;

type Point = [f64; 2];

/// A trapezoid in the plane: start and end of its long edge, then of its short edge.
#[derive(Clone, Copy)]
struct Board {
    long: [Point; 2],
    short: [Point; 2],
}

/// A board from the origin along x, wood above.
fn board(length: f64, thickness: f64, [start, end]: [f64; 2]) -> Board {
    Board {
        long: [[0.0, 0.0], [length, 0.0]],
        short: [
            [thickness / tan(FRAC_PI_4 + start), thickness],
            [length - thickness / tan(FRAC_PI_4 + end), thickness],
        ],
    }
}

fn minus(a: Point, b: Point) -> Point {
    [a[0] - b[0], a[1] - b[1]]
}

fn direction(v: Point) -> f64 {
    atan2(v[1], v[0])
}

impl Board {
    fn moved(self, angle: f64, to: Point) -> Self {
        let turn = |[x, y]: Point| {
            let (sin, cos) = (sin(angle), cos(angle));
            [cos * x - sin * y + to[0], sin * x + cos * y + to[1]]
        };
        Self {
            long: self.long.map(turn),
            short: self.short.map(turn),
        }
    }

    /// Turned and moved so that its start lies face to face with another's end.
    fn joined_to(self, other: &Self) -> Self {
        let face = direction(minus(other.short[1], other.long[1]));
        let own = direction(minus(self.short[0], self.long[0]));
        self.moved(face - own, other.long[1])
    }
}

fn boards(ring: &Ring, errors: &Errors) -> [Board; 4] {
    std::array::from_fn(|index| {
        let length = [ring.width, ring.height][index % 2] + errors.lengths[index];
        let angles = [errors.angles[2 * index], errors.angles[2 * index + 1]];
        board(length, ring.thickness, angles)
    })
}

/// Three mitres face to face; how far the ends of the fourth stand apart, square
/// to the mitre.
fn dry(ring: &Ring, errors: &Errors) -> f64 {
    let [first, second, third, fourth] = boards(ring, errors);
    let second = second.joined_to(&first);
    let third = third.joined_to(&second);
    let last = fourth.joined_to(&third);
    let square = |from: Point, to: Point| {
        let [x, y] = minus(to, from);
        ((y - x) * std::f64::consts::FRAC_1_SQRT_2).abs()
    };
    square(first.long[0], last.long[1]).max(square(first.short[0], last.short[1]))
}

/// All long points together; pushed askew so that the widest mitre is tightest.
fn strapped(ring: &Ring, errors: &Errors) -> f64 {
    let boards = boards(ring, errors);
    let lengths = boards.map(|board| board.long[1][0]);
    let widest = |askew: f64| {
        let inside = inner_angles(lengths, std::f64::consts::FRAC_PI_2 + askew);
        let corners = (0..4).map(|corner| {
            let (end, start) = (
                errors.angles[2 * corner + 1],
                errors.angles[(2 * corner + 2) % 8],
            );
            let wood = 2.0 * FRAC_PI_4 + end + start;
            2.0 * sin((inside[corner] - wood) / 2.0).abs() * ring.thickness / sin(FRAC_PI_4)
        });
        corners.fold(0.0, f64::max)
    };
    let (mut low, mut high) = (-0.2, 0.2);
    for _ in 0..80 {
        let (one, other) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if widest(one) < widest(other) {
            high = other;
        } else {
            low = one;
        }
    }
    widest(low)
}

/// Angles inside a closed figure of four sides, given the one at the end of the first.
fn inner_angles([a, b, c, d]: [f64; 4], first: f64) -> [f64; 4] {
    let diagonal = sqrt(a * a + b * b - 2.0 * a * b * cos(first));
    let angle = |one: f64, other: f64, far: f64| {
        acos((one * one + other * other - far * far) / (2.0 * one * other))
    };
    let second = angle(b, diagonal, a) + angle(c, diagonal, d);
    let third = angle(c, d, diagonal);
    let fourth = angle(d, diagonal, c) + angle(a, diagonal, b);
    [first, second, third, fourth]
}

/// What each error opens by itself, added up: the scale of the second order. Held dry, an
/// angle swings the boards behind it; strapped, it opens no more than the depth of a mitre.
fn scale(ring: &Ring, errors: &Errors, held: Held) -> f64 {
    let angles: f64 = errors.angles.iter().map(|angle| angle.abs()).sum();
    let lengths: f64 = errors.lengths.iter().map(|length| length.abs()).sum();
    match held {
        Held::Dry => angles * (ring.width + ring.height + ring.thickness) + lengths,
        Held::Strapped => {
            let skew = lengths / ring.width.min(ring.height);
            (angles + skew) * ring.thickness / sin(FRAC_PI_4)
        }
    }
}

fn rings() -> impl Strategy<Value = Ring> {
    (0.1..0.8, 0.1..0.8, 0.006..0.025).prop_map(|(width, height, thickness)| Ring {
        width,
        height,
        thickness,
    })
}

fn draw() -> impl Strategy<Value = [f64; DRAWS]> {
    prop::array::uniform13(0.0..1.0)
}

fn spreads() -> impl Strategy<Value = Spread> {
    (0.0..1.0_f64, 0.0..1.0, 0.0..0.001).prop_map(|(degrees, common, length)| Spread {
        angle: degrees.to_radians(),
        common,
        length,
    })
}

proptest! {
    #[test]
    fn the_formula_is_the_figure(ring in rings(), spread in spreads(), draw in draw()) {
        let errors = spread.errors(&draw);
        for (held, figure) in [
            (Held::Dry, dry(&ring, &errors)),
            (Held::Strapped, strapped(&ring, &errors)),
        ] {
            let within = 0.02 * scale(&ring, &errors, held) + 1e-12;
            let formula = ring.gap(&errors, held);
            prop_assert!((formula - figure).abs() < within, "{held:?}: {formula} {figure} {within}");
        }
    }

    /// A hundredth of the errors: the rest of the formula shrinks with their square.
    #[test]
    fn small_errors_leave_no_difference(ring in rings(), spread in spreads(), draw in draw()) {
        let spread = Spread { angle: spread.angle / 100.0, length: spread.length / 100.0, ..spread };
        let errors = spread.errors(&draw);
        for (held, figure) in [
            (Held::Dry, dry(&ring, &errors)),
            (Held::Strapped, strapped(&ring, &errors)),
        ] {
            let within = 3e-4 * scale(&ring, &errors, held) + 1e-11;
            prop_assert!((ring.gap(&errors, held) - figure).abs() < within, "{held:?}");
        }
    }

    #[test]
    fn no_ring_is_worse_than_the_worst(ring in rings(), spread in spreads(), draw in draw()) {
        for held in [Held::Dry, Held::Strapped] {
            let gap = ring.gap(&spread.errors(&draw), held);
            prop_assert!(gap <= ring.worst(&spread, held) * (1.0 + 1e-12) + 1e-15);
        }
    }

    #[test]
    fn twice_the_error_is_twice_the_gap(ring in rings(), spread in spreads(), draw in draw()) {
        let twice = Spread { angle: 2.0 * spread.angle, length: 2.0 * spread.length, ..spread };
        for held in [Held::Dry, Held::Strapped] {
            let (one, two) = (ring.gap(&spread.errors(&draw), held), ring.gap(&twice.errors(&draw), held));
            prop_assert!((two - 2.0 * one).abs() < 1e-12);
        }
    }

    /// Boards all too long by the same make a larger ring, not a gap.
    #[test]
    fn equal_lengths_close(ring in rings(), longer in -0.001..0.001_f64) {
        let errors = Errors { lengths: [longer; 4], ..Errors::default() };
        for held in [Held::Dry, Held::Strapped] {
            prop_assert!(ring.gap(&errors, held) < 1e-15);
        }
    }

    /// A board cut a little too steep at one end and too flat at the mating one.
    #[test]
    fn errors_that_cancel_close(ring in rings(), angle in -0.01..0.01_f64) {
        let errors = Errors {
            angles: std::array::from_fn(|cut| if cut % 2 == 0 { angle } else { -angle }),
            ..Errors::default()
        };
        for held in [Held::Dry, Held::Strapped] {
            prop_assert!(ring.gap(&errors, held) < 1e-15);
        }
    }
}

/// Common knowledge, no source: a quarter of a degree at eight cuts adds up to
/// two degrees at the last corner, 5 mm over 150 mm.
#[test]
fn a_quarter_of_a_degree_opens_two() {
    let angle = Errors::tilt(0.25_f64.to_radians()).closing_angle();
    assert!((angle - 2_f64.to_radians()).abs() < 1e-12);
    assert!((angle * 150.0 - 5.2).abs() < 0.05);
}

/// Four offcuts of 150 mm, every cut off by a quarter of a degree: by hand,
/// 4 ε (150 + 150) / √2 = 3.70 mm.
#[test]
fn a_test_ring_shows_the_tilt() {
    let gap = test_gap(0.150, 0.012, 0.25_f64.to_radians());
    assert!((gap - 3.70e-3).abs() < 0.01e-3, "{gap}");
}

/// The strap shares that out: half a degree at each corner over the 17 mm of a
/// mitre in 12 mm boards.
#[test]
fn a_strap_shares_the_error_out() {
    let ring = Ring {
        width: 0.4,
        height: 0.2,
        thickness: 0.012,
    };
    let gap = ring.gap(&Errors::tilt(0.25_f64.to_radians()), Held::Strapped);
    let expected = 0.5_f64.to_radians() * 0.012 * 2_f64.sqrt();
    assert!((gap - expected).abs() < 1e-12, "{gap} {expected}");
}

/// Rows of numbers from 0 to 1, evenly spread (additive recurrence with square
/// roots of primes).
fn rows(count: usize) -> Vec<[f64; DRAWS]> {
    const PRIMES: [f64; DRAWS] = [
        2.0, 3.0, 5.0, 7.0, 11.0, 13.0, 17.0, 19.0, 23.0, 29.0, 31.0, 37.0, 41.0,
    ];
    let number = |row: usize, prime: f64| (row as f64 * prime.sqrt()).fract();
    (1..=count)
        .map(|row| PRIMES.map(|prime| number(row, prime)))
        .collect()
}

/// With a tilt alone, the strapped gap is proportional to its size, so the odds
/// and quantiles are those of a uniform number.
#[test]
fn a_tilt_alone_is_uniform() {
    let ring = Ring {
        width: 0.3,
        height: 0.2,
        thickness: 0.015,
    };
    let spread = Spread {
        angle: 0.3_f64.to_radians(),
        common: 1.0,
        length: 0.0,
    };
    let worst = ring.worst(&spread, Held::Strapped);
    let rows = rows(4000);
    let Budget {
        median, p90, odds, ..
    } = ring.budget(&spread, Held::Strapped, 0.3 * worst, &rows);
    for (found, expected) in [(median / worst, 0.5), (p90 / worst, 0.9), (odds, 0.3)] {
        assert!((found - expected).abs() < 0.005, "{found} {expected}");
    }
    // Nine of ten close within the gap of a tilt of nine tenths of the largest.
    let wanted = ring.wanted_angle(&spread, Held::Strapped, worst, 0.9, &rows);
    let expected = spread.angle / 0.9;
    assert!(wanted.is_some_and(|wanted| (wanted / expected - 1.0).abs() < 0.005));
}

#[test]
fn lengths_alone_may_spoil_it() {
    let ring = Ring {
        width: 0.3,
        height: 0.2,
        thickness: 0.015,
    };
    let spread = Spread {
        angle: 0.0,
        common: Spread::ONE_SETTING,
        length: 0.002,
    };
    let wanted = ring.wanted_angle(&spread, Held::Dry, 0.0001, 0.9, &rows(500));
    assert_eq!(wanted, None);
}

/// What is compared above is far larger than what is allowed: a formula that gave
/// nothing, or twice too much, would be found out. And odds by the formula are those of
/// rings joined in the plane.
#[test]
fn odds_are_those_of_rings_joined_in_the_plane() {
    let ring = Ring {
        width: 0.36,
        height: 0.20,
        thickness: 0.012,
    };
    let spread = Spread {
        angle: 0.5_f64.to_radians(),
        common: Spread::ONE_SETTING,
        length: 0.0003,
    };
    let rows = rows(2000);
    for (held, figure, glue_gap) in [
        (Held::Dry, dry as fn(&Ring, &Errors) -> f64, 0.004),
        (Held::Strapped, strapped, 0.00015),
    ] {
        let joined: Vec<(f64, f64)> = rows
            .iter()
            .map(|row| {
                let errors = spread.errors(row);
                (figure(&ring, &errors), 0.02 * scale(&ring, &errors, held))
            })
            .collect();
        let telling = joined.iter().filter(|(gap, within)| gap > within);
        let telling = telling.count() as f64 / 2000.0;
        assert!(telling > 0.9, "{held:?}: {telling}");
        let closed = joined.iter().filter(|(gap, _)| *gap <= glue_gap).count();
        let closed = closed as f64 / 2000.0;
        let Budget { odds, .. } = ring.budget(&spread, held, glue_gap, &rows);
        assert!((0.2..0.8).contains(&odds), "{held:?}: {odds}");
        // Of 2000 rings a handful lie as close to the limit as the second order.
        assert!((odds - closed).abs() < 0.01, "{held:?}: {odds} {closed}");
    }
}

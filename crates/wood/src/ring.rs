//! Whether a ring of four mitred boards closes.
//!
//! Board 0 runs along the bottom, 1 up the right side, 2 along the top, 3 down
//! the left side; corner i is where board i ends, and corner 3 is closed last.
//! All formulas are of first order in the errors: for angles up to 1° and lengths
//! up to 1 % they agree with the true figure of the ring within 2 % of the sum of
//! what each error opens by itself. Derived here; the tests join four
//! trapezoids in the plane.

use std::f64::consts::{FRAC_1_SQRT_2, SQRT_2};

/// Size of a ring in m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ring {
    /// Over its long points.
    pub width: f64,
    /// Over its long points.
    pub height: f64,
    /// Of the boards.
    pub thickness: f64,
}

/// What the cuts of one ring miss.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Errors {
    /// By how much each mitre exceeds 45°, measured in the wood at the long
    /// point, in rad: start and end of board 0, of board 1, and so on.
    pub angles: [f64; 8],
    /// By how much each board is too long over its long points, in m.
    pub lengths: [f64; 4],
}

/// How far the saw may be off, either way, every error within its bounds equally
/// likely.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// Error of the angle of a cut in rad.
    pub angle: f64,
    /// The share of that which all eight cuts have in common, 0 to 1: how far the
    /// saw is tilted wrongly. The rest differs from cut to cut.
    pub common: f64,
    /// Error of the length of a board in m.
    pub length: f64,
}

impl Spread {
    /// Share of the angle's error that is common to cuts made with one setting of
    /// the tilt: an estimate, no source.
    pub const ONE_SETTING: f64 = 0.75;
}

/// Numbers from 0 to 1 that a [`Spread`] needs for one ring.
pub const DRAWS: usize = 13;

/// How the ring is held when its gap is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// Three mitres are held face to face, and all error shows at the fourth.
    Dry,
    /// A strap draws all long points together, and the ring is pushed askew until
    /// the widest of the four mitres is as tight as it can be.
    Strapped,
}

/// What gap rings of a saw have.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Budget {
    /// With all errors at their worst, in m.
    pub worst: f64,
    /// Of the rings drawn, in m.
    pub median: f64,
    /// That nine rings of ten stay below, in m.
    pub p90: f64,
    /// Share of rings that close within the glue's gap, 0 to 1.
    pub odds: f64,
}

impl Errors {
    /// The same error at every cut, and boards of the right length.
    #[must_use]
    pub fn tilt(angle: f64) -> Self {
        Self {
            angles: [angle; 8],
            ..Self::default()
        }
    }

    /// By how much each corner exceeds a right angle, in rad.
    fn corners(&self) -> [f64; 4] {
        std::array::from_fn(|corner| {
            self.angles[2 * corner + 1] + self.angles[(2 * corner + 2) % 8]
        })
    }

    /// Angle in rad by which the faces of the last mitre miss each other once the
    /// others are closed: the sum of all eight errors. A saw off by 0.25° gives
    /// 2°, which is 5 mm over 150 mm.
    #[must_use]
    pub fn closing_angle(&self) -> f64 {
        self.angles.iter().sum()
    }
}

impl Ring {
    /// Depth of a mitre from the long point to the short point, in m.
    fn face(&self) -> f64 {
        self.thickness * SQRT_2
    }

    /// The wider end of the gap at the closing mitre, square to its faces, in m;
    /// boards that would have to overlap count the same.
    #[must_use]
    pub fn gap(&self, errors: &Errors, held: Held) -> f64 {
        match held {
            Held::Dry => self.dry(errors),
            Held::Strapped => self.strapped(errors),
        }
    }

    fn dry(&self, errors: &Errors) -> f64 {
        let ([c0, c1, c2, _], [d0, d1, d2, d3]) = (errors.corners(), errors.lengths);
        let across = d0 - d2 - self.height * (c1 + c2);
        let up = d1 - d3 + self.width * (c0 + c1);
        let long_point = (up - across) * FRAC_1_SQRT_2;
        let short_point = long_point - errors.closing_angle() * self.face();
        long_point.abs().max(short_point.abs())
    }

    /// A ring of given lengths has one way left to move, askew by an angle s,
    /// which widens one pair of opposite corners and narrows the other. Mitre i
    /// gapes by |s - mᵢ|, so the middle of the extreme mᵢ is best.
    fn strapped(&self, errors: &Errors) -> f64 {
        let ([c0, c1, c2, c3], [d0, d1, d2, d3]) = (errors.corners(), errors.lengths);
        let (p, q) = ((d0 - d2) / self.height, (d1 - d3) / self.width);
        let needs = [-c0, q + c1, p + q - c2, p + c3];
        let most = needs.into_iter().fold(f64::NEG_INFINITY, f64::max);
        let least = needs.into_iter().fold(f64::INFINITY, f64::min);
        (most - least) / 2.0 * self.face()
    }

    /// The widest gap that errors within a spread can give, in m.
    #[must_use]
    pub fn worst(&self, spread: &Spread, held: Held) -> f64 {
        // The gap is convex in the errors, so it is widest where all are extreme.
        // Both cuts of a corner count alike, so they may share a sign.
        let extremes = (0..1_u32 << 9).map(|signs| {
            let sign = |bit: u32| f64::from(signs >> bit & 1);
            let draws = std::array::from_fn(|index| match index {
                0 => sign(0),
                1..=8 => sign(1 + index as u32 / 2 % 4),
                _ => sign(index as u32 - 4),
            });
            self.gap(&spread.errors(&draws), held)
        });
        extremes.fold(0.0, f64::max)
    }

    /// What gap rings have whose errors are drawn: each row of numbers from 0 to
    /// 1 is one ring. With no rows, every ring is taken for the worst.
    #[must_use]
    pub fn budget(
        &self,
        spread: &Spread,
        held: Held,
        glue_gap: f64,
        draws: &[[f64; DRAWS]],
    ) -> Budget {
        let worst = self.worst(spread, held);
        let mut gaps: Vec<f64> = draws
            .iter()
            .map(|draw| self.gap(&spread.errors(draw), held))
            .collect();
        if gaps.is_empty() {
            gaps.push(worst);
        }
        gaps.sort_by(f64::total_cmp);
        let at = |share: f64| {
            let place = (share * gaps.len() as f64).ceil() as usize;
            gaps[place.clamp(1, gaps.len()) - 1]
        };
        Budget {
            worst,
            median: at(0.5),
            p90: at(0.9),
            odds: self.odds(spread, held, glue_gap, draws),
        }
    }

    /// The share of rings drawn that close within the glue's gap.
    fn odds(&self, spread: &Spread, held: Held, glue_gap: f64, draws: &[[f64; DRAWS]]) -> f64 {
        if draws.is_empty() {
            return f64::from(u8::from(self.worst(spread, held) <= glue_gap));
        }
        let closes = |draw: &&[f64; DRAWS]| self.gap(&spread.errors(draw), held) <= glue_gap;
        draws.iter().filter(closes).count() as f64 / draws.len() as f64
    }

    /// The largest error of the angle in rad, up to 2°, at which this share of
    /// rings closes, all else as in the spread; `None` where the lengths alone
    /// spoil it.
    #[must_use]
    pub fn wanted_angle(
        &self,
        spread: &Spread,
        held: Held,
        glue_gap: f64,
        share: f64,
        draws: &[[f64; DRAWS]],
    ) -> Option<f64> {
        let closes = |angle: f64| {
            let spread = Spread { angle, ..*spread };
            self.odds(&spread, held, glue_gap, draws) >= share
        };
        let (mut good, mut bad) = (0.0, 2_f64.to_radians());
        if !closes(good) {
            return None;
        }
        if closes(bad) {
            return Some(bad);
        }
        // To a hundred-thousandth of a degree or so: more than any saw can be set to.
        for _ in 0..17 {
            let middle = (good + bad) / 2.0;
            if closes(middle) {
                good = middle;
            } else {
                bad = middle;
            }
        }
        Some(good)
    }
}

impl Spread {
    /// The errors of one ring from numbers from 0 to 1: the tilt, then eight
    /// angles, then four lengths.
    #[must_use]
    pub fn errors(&self, draws: &[f64; DRAWS]) -> Errors {
        let either_way = |draw: f64, most: f64| (2.0 * draw - 1.0) * most;
        let tilt = either_way(draws[0], self.angle * self.common);
        let own = self.angle * (1.0 - self.common);
        Errors {
            angles: std::array::from_fn(|cut| tilt + either_way(draws[1 + cut], own)),
            lengths: std::array::from_fn(|board| either_way(draws[9 + board], self.length)),
        }
    }
}

/// The gap in m at the last mitre of a test ring of four offcuts, three mitres
/// held tight, when every cut is off by this angle in rad. A saw whose test ring
/// gapes less is set better than that.
#[must_use]
pub fn test_gap(length: f64, thickness: f64, angle: f64) -> f64 {
    let ring = Ring {
        width: length,
        height: length,
        thickness,
    };
    ring.gap(&Errors::tilt(angle), Held::Dry)
}

//! How long fuses stand a current, by the limits of their standards.

/// Families of fuses with limits of their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Family {
    /// By `ul-248-14`, rated 0 to 30 A: blades and tubes alike.
    General,
    /// By `ul-248-14`, fast, 50 mA to 6.3 A.
    GeneralFast,
    /// Tubes of 5 × 20 mm by `iec-60127`, fast, 125 mA to 10 A.
    TubeFast,
}

/// One point of a standard: multiple of the rating, and the shortest and longest opening time in s.
type Point = (f64, Option<f64>, Option<f64>);

impl Family {
    /// Points of the standard, the smallest current first.
    const fn points(self) -> &'static [Point] {
        match self {
            Self::General => &[(1.35, None, Some(3600.0)), (2.0, None, Some(120.0))],
            Self::GeneralFast => &[(1.1, Some(14_400.0), None)],
            Self::TubeFast => &[
                (1.5, Some(3600.0), None),
                (2.1, None, Some(1800.0)),
                (2.75, Some(0.05), Some(2.0)),
                (4.0, Some(0.01), Some(0.3)),
                (10.0, None, Some(0.02)),
            ],
        }
    }

    /// Longest time in s for which a current, as a multiple of the rating, can flow; `None`
    /// where the standard sets no limit. A larger current never flows longer.
    #[must_use]
    pub fn longest(self, multiple: f64) -> Option<f64> {
        let met = self.points().iter().filter(|point| point.0 <= multiple);
        met.filter_map(|point| point.2)
            .fold(None, |least: Option<f64>, own| {
                Some(least.map_or(own, |least| least.min(own)))
            })
    }

    /// Time in s for which it stands a current, as a multiple of the rating, at least; `None`
    /// where the standard promises nothing. A smaller current is never stood for less.
    #[must_use]
    pub fn shortest(self, multiple: f64) -> Option<f64> {
        let met = self.points().iter().filter(|point| point.0 >= multiple);
        met.filter_map(|point| point.1)
            .fold(None, |most: Option<f64>, own| {
                Some(most.map_or(own, |most| most.max(own)))
            })
    }
}

/// How a fuse is made, as far as it decides what rush it lets pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Make {
    /// A blade, as in cars.
    Blade,
    /// A fast tube.
    FastTube,
    /// A slow tube.
    SlowTube,
}

impl Make {
    /// Heat of a rush that it surely lets pass, in A²·s for each A² of its rating: current
    /// squared times the shortest opening time at the largest current its standard gives one
    /// for. Good for rushes shorter than that time, when no heat leaves the wire in it: 10 ms for
    /// a fast tube (`iec-60127`), 20 ms for a slow tube (10 times the rating, from memory) and
    /// for a blade (6 times the rating, from memory).
    #[must_use]
    pub const fn passes(self) -> f64 {
        match self {
            Self::FastTube => 4.0 * 4.0 * 0.01,
            Self::SlowTube => 10.0 * 10.0 * 0.02,
            Self::Blade => 6.0 * 6.0 * 0.02,
        }
    }
}

/// Heat of a rush that begins at a current (A) and falls with a time constant (s), in A²·s.
#[must_use]
pub const fn rush(amperes: f64, time: f64) -> f64 {
    0.5 * amperes * amperes * time
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn more_current_opens_it_sooner() {
        for family in [Family::General, Family::GeneralFast, Family::TubeFast] {
            let steps = (1..200).map(|step| 0.1 * f64::from(step));
            let times: Vec<_> = steps
                .map(|multiple| (family.shortest(multiple), family.longest(multiple)))
                .collect();
            for pair in times.windows(2) {
                let [(s0, l0), (s1, l1)] = [pair[0], pair[1]];
                assert!(s1.unwrap_or(0.0) <= s0.unwrap_or(0.0));
                assert!(l1.unwrap_or(f64::INFINITY) <= l0.unwrap_or(f64::INFINITY));
                assert!(s0.unwrap_or(0.0) <= l0.unwrap_or(f64::INFINITY));
            }
        }
    }
}

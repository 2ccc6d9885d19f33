//! The shape of a spread.

/// The shape of a spread about its nominal value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// Does not vary.
    Fixed,
    /// Anywhere within plus or minus the half width, equally likely (`gum-2008`, 4.3.7).
    Even {
        /// Half width in the value's own unit.
        half: f64,
    },
    /// A factor whose logarithm is normal, cut off at three standard deviations.
    Factor {
        /// Standard deviation of the natural logarithm.
        sigma: f64,
    },
}

impl Shape {
    pub(super) fn scaled(self, by: f64) -> Self {
        match self {
            _ if by == 0.0 => Self::Fixed,
            Self::Fixed => Self::Fixed,
            Self::Even { half: 0.0 } => Self::Fixed,
            Self::Even { half } => Self::Even { half: half * by },
            Self::Factor { sigma } => Self::Factor { sigma: sigma * by },
        }
    }
}

//! The filter of a switching output into the impedance it really meets.

use crate::math::{Complex, J, omega};

/// A resistor and a capacitor in series across the output.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Damping {
    /// The resistor in Ω.
    pub resistance: f64,
    /// The capacitor in F.
    pub capacitance: f64,
}

/// The output stage with its filter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Output {
    /// Resistance before the filter in Ω.
    pub resistance: f64,
    /// Inductance in series in H; that of both legs of a bridge.
    pub inductance: f64,
    /// Capacitance across the load in F; half of that of one leg of a bridge.
    pub capacitance: f64,
    /// What damps it, where there is something.
    pub damping: Option<Damping>,
}

impl Damping {
    fn admittance(&self, w: f64) -> Complex {
        (Complex::from(self.resistance) + 1.0 / (J * w * self.capacitance)).inv()
    }

    /// Share in W of a sine of one volt rms at this frequency that its resistor takes.
    #[must_use]
    pub fn heat(&self, frequency: f64) -> f64 {
        let current = self.admittance(omega(frequency));
        current.norm_sqr() * self.resistance
    }
}

impl Output {
    /// Voltage at the load over that of the stage, at a frequency in Hz and
    /// with this load in Ω.
    #[must_use]
    pub fn gain(&self, frequency: f64, load: Complex) -> Complex {
        let w = omega(frequency);
        let damped = self
            .damping
            .map_or(Complex::default(), |rc| rc.admittance(w));
        let across = load.inv() + J * w * self.capacitance + damped;
        let series = Complex::from(self.resistance) + J * w * self.inductance;
        (Complex::from(1.0) + series * across).inv()
    }

    /// Largest gain over some frequencies (Hz) and loads, and the frequency where it stands.
    #[must_use]
    pub fn peak(&self, hertz: &[f64], loads: &[Complex]) -> (f64, f64) {
        let each = hertz.iter().zip(loads);
        let gains = each.map(|(&hertz, &load)| (self.gain(hertz, load).norm(), hertz));
        gains.fold(
            (0.0, 0.0),
            |most, next| if next.0 > most.0 { next } else { most },
        )
    }
}

/// The damping, of the values that can be had, with the smallest capacitor
/// that holds the gain to `most`, frequency by frequency, and of these the one
/// that stays farthest below; `None` where none does.
///
/// A small capacitor wastes least in its resistor.
#[must_use]
pub fn quietest(
    output: &Output,
    hertz: &[f64],
    loads: &[Complex],
    [resistors, capacitors]: [&[f64]; 2],
    most: &[f64],
) -> Option<Damping> {
    let reached = |damped: &Output| {
        let each = hertz.iter().zip(loads).zip(most);
        each.map(|((&hertz, &load), most)| damped.gain(hertz, load).norm() / most)
            .fold(0.0, f64::max)
    };
    capacitors.iter().find_map(|&capacitance| {
        let each = resistors.iter().map(|&resistance| {
            let damping = Damping {
                resistance,
                capacitance,
            };
            let damped = Output {
                damping: Some(damping),
                ..*output
            };
            (reached(&damped), damping)
        });
        let (share, damping) = each.min_by(|a, b| a.0.total_cmp(&b.0))?;
        (share <= 1.0).then_some(damping)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::amplifier::LowPass;
    use crate::math::pow;

    fn grid() -> Vec<f64> {
        (0..600)
            .map(|i| 20.0 * pow(10.0, f64::from(i) / 150.0))
            .collect()
    }

    const BARE: Output = Output {
        resistance: 0.0,
        inductance: 20e-6,
        capacitance: 0.34e-6,
        damping: None,
    };

    /// Into a resistor it is the plain low-pass of second order.
    #[test]
    fn a_resistor_makes_it_a_plain_low_pass() {
        let plain = LowPass::of(BARE.inductance, BARE.capacitance, 4.0);
        for hertz in grid() {
            let gain = BARE.gain(hertz, 4.0.into()).norm();
            assert!((gain / plain.gain(hertz) - 1.0).abs() < 1e-12);
        }
    }

    /// A coil is no load at the filter's own frequency: it rings, and the
    /// smallest capacitor that holds it takes the least heat.
    #[test]
    fn a_coil_lets_it_ring_and_damping_holds_it() {
        let hertz = grid();
        let loads: Vec<Complex> = hertz
            .iter()
            .map(|&hertz| Complex::new(3.5, omega(hertz) * 0.25e-3))
            .collect();
        assert!(BARE.peak(&hertz, &loads).0 > 5.0);
        let (resistors, capacitors) = ([4.7, 6.8, 10.0, 15.0], [0.1e-6, 0.22e-6, 0.47e-6, 1e-6]);
        let values = [&resistors[..], &capacitors[..]];
        let most = vec![1.75; hertz.len()];
        let damping = quietest(&BARE, &hertz, &loads, values, &most).unwrap();
        let damped = Output {
            damping: Some(damping),
            ..BARE
        };
        assert!(damped.peak(&hertz, &loads).0 <= 1.75);
        let smallest = [&resistors[..], &capacitors[..1]];
        assert!(quietest(&BARE, &hertz, &loads, smallest, &most).is_none());
        // Nothing lets a low-pass of second order be flat where it must already fall.
        let strict: Vec<f64> = hertz.iter().map(|_| 0.5).collect();
        assert!(quietest(&BARE, &hertz, &loads, values, &strict).is_none());
        assert!(damping.heat(20e3) > damping.heat(1e3));
    }
}

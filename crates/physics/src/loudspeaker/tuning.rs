//! Vents and chambers by the classical figures: tuning, leakage, pipe resonance.

use core::f64::consts::PI;

use super::load::radius;
use super::parts::end_correction;
use super::system::{Vent, VentEnd};
use crate::air::Air;
use crate::math;

/// Tuning frequency f<sub>B</sub> in Hz of equal vents in a chamber of `volume` (m³).
///
/// Helmholtz's resonator, c/2π·√(nS/(V·L′)), with L′ the length and both end
/// corrections (`levine-1948` free, `norris-1989` flush). Losses, the tube's own air and
/// filling are left out: the tuning is a property of the vent and the volume.
#[must_use]
pub fn vent_tuning(volume: f64, vent: &Vent, air: &Air) -> f64 {
    let area = f64::from(vent.count) * vent.area;
    air.sound_speed / (2.0 * PI) * (area / (volume * effective_length(vent))).sqrt()
}

/// Length in m that gives equal vents the tuning `frequency` (Hz) in a chamber
/// of `volume` (m³); `None` where the end corrections alone are too long.
#[must_use]
pub fn vent_length(volume: f64, frequency: f64, vent: &Vent, air: &Air) -> Option<f64> {
    let wavenumber = math::omega(frequency) / air.sound_speed;
    let area = f64::from(vent.count) * vent.area;
    let length = area / (volume * wavenumber * wavenumber) - end_length(vent);
    (length > 0.0).then_some(length)
}

/// First resonance in Hz of the tube itself, half a wavelength in its length
/// and both end corrections.
#[must_use]
pub fn pipe_resonance(vent: &Vent, air: &Air) -> f64 {
    air.sound_speed / (2.0 * effective_length(vent))
}

/// Length of a vent in m with both end corrections.
#[must_use]
pub fn effective_length(vent: &Vent) -> f64 {
    vent.length + end_length(vent)
}

fn end_length(vent: &Vent) -> f64 {
    (end_correction(vent.inner) + end_correction(vent.outer)) * radius(vent.area)
}

/// Acoustic resistance in Pa·s/m³ of leaks that give a chamber of `volume`
/// (m³) the leakage loss Q<sub>L</sub> at its tuning `frequency` (Hz):
/// Q<sub>L</sub>/(ω<sub>B</sub>C<sub>AB</sub>) (`small-1973`).
#[must_use]
pub fn leak_resistance(quality: f64, frequency: f64, volume: f64, air: &Air) -> f64 {
    let stiffness = air.density * air.sound_speed * air.sound_speed;
    quality * stiffness / (math::omega(frequency) * volume)
}

impl Vent {
    /// A vent that is nothing but the mass that tunes a chamber of `volume`
    /// (m³) to `frequency` (Hz): the vent of the classical network, without
    /// losses, ends or length.
    #[must_use]
    pub fn mass_alone(frequency: f64, volume: f64, air: &Air) -> Self {
        const LENGTH: f64 = 1e-6;
        let wavenumber = math::omega(frequency) / air.sound_speed;
        Self {
            count: 1,
            area: volume * wavenumber * wavenumber * LENGTH,
            length: LENGTH,
            hydraulic_radius: f64::INFINITY,
            inner: VentEnd::None,
            outer: VentEnd::None,
            roughness: 1.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const AIR: Air = Air::with(1.2, 343.0);

    #[test]
    fn length_inverts_tuning() {
        let vent = Vent {
            count: 2,
            area: 0.0012,
            length: 0.11,
            hydraulic_radius: 0.0195,
            inner: VentEnd::Free,
            outer: VentEnd::Flush,
            roughness: 1.0,
        };
        let frequency = vent_tuning(0.009, &vent, &AIR);
        let length = vent_length(0.009, frequency, &vent, &AIR).expect("the vent exists");
        assert!((length - 0.11).abs() < 1e-12);
        assert_eq!(vent_length(0.009, 4.0 * frequency, &vent, &AIR), None);
    }

    #[test]
    fn mass_alone_has_the_tuning_asked_for() {
        let vent = Vent::mass_alone(60.0, 0.006, &AIR);
        assert!((vent_tuning(0.006, &vent, &AIR) - 60.0).abs() < 1e-9);
    }
}

//! What ground, wall and room add to the sound of a box.
//!
//! Hard surfaces are replaced by image sources (`kuttruff`); the diffuse
//! field of a room follows Sabine. Surfaces are taken as plane, wide and
//! hard: fair for paved ground, plaster and boards. Grass and sand absorb
//! above some 200 Hz when source and ear are low; that is left out, so the
//! gain over them is overstated there.

use core::f64::consts::{LN_10, PI};

use crate::air::Air;
use crate::math::{cos, exp2, omega};
use crate::special::sinc;

/// What is near the box when it plays. Lengths in m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Surroundings {
    /// Nothing near.
    Free,
    /// Hard ground out of doors.
    Ground {
        /// Height of the source above the ground.
        source_height: f64,
        /// Height of the ear above the ground.
        ear_height: f64,
    },
    /// Hard ground, and a hard wall behind the box across the line to the listener.
    Wall {
        /// Height of the source above the ground.
        source_height: f64,
        /// Height of the ear above the ground.
        ear_height: f64,
        /// From the source (the front of the box) to the wall.
        distance_to_wall: f64,
    },
    /// A room with a diffuse field.
    Room {
        /// Volume in m³.
        volume: f64,
        /// Reverberation time in s.
        reverberation_time: f64,
    },
}

/// How far the source is from one that radiates evenly all round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Directionality {
    /// Pressure to the rear over pressure to the front.
    pub rear: f64,
    /// Directivity factor: on-axis intensity over its mean over the sphere.
    pub factor: f64,
}

impl Directionality {
    /// Radiates evenly all round, as any box does below its baffle's frequency.
    pub const EVEN: Self = Self {
        rear: 1.0,
        factor: 1.0,
    };
}

/// Mean-square pressure at the ear over that of the free-field direct sound
/// at the same distance (m), for a source that radiates evenly all round.
///
/// Averaged over a band `bandwidth_octaves` wide about `frequency` (Hz), with
/// equal power per hertz in it; 0 for a pure tone. Low-frequency limits: 4
/// (+6 dB) on the ground, 16 (+12 dB) on the ground against a wall.
#[must_use]
pub fn power_gain(
    surroundings: &Surroundings,
    frequency: f64,
    distance: f64,
    air: &Air,
    bandwidth_octaves: f64,
) -> f64 {
    let even = Directionality::EVEN;
    power_gain_of(
        surroundings,
        even,
        frequency,
        distance,
        air,
        bandwidth_octaves,
    )
}

/// [`power_gain`] for a source of known directionality: the wall's image
/// shines with the rear sound, the room is filled by the power, not by the
/// axis.
#[must_use]
pub fn power_gain_of(
    surroundings: &Surroundings,
    source: Directionality,
    frequency: f64,
    distance: f64,
    air: &Air,
    bandwidth_octaves: f64,
) -> f64 {
    let band = Band::new(frequency, bandwidth_octaves, air);
    match *surroundings {
        Surroundings::Free => 1.0,
        Surroundings::Ground {
            source_height,
            ear_height,
        } => {
            let flat = horizontal(distance, source_height, ear_height);
            let up = source_height + ear_height;
            band.mean_square(&[Image::direct(distance), Image::at(distance, flat, up, 1.0)])
        }
        Surroundings::Wall {
            source_height,
            ear_height,
            distance_to_wall,
        } => {
            let flat = horizontal(distance, source_height, ear_height);
            let behind = flat + 2.0 * distance_to_wall;
            let (down, up) = (source_height - ear_height, source_height + ear_height);
            band.mean_square(&[
                Image::direct(distance),
                Image::at(distance, flat, up, 1.0),
                Image::at(distance, behind, down, source.rear),
                Image::at(distance, behind, up, source.rear),
            ])
        }
        Surroundings::Room {
            volume,
            reverberation_time,
        } => {
            let area = absorption_area(volume, reverberation_time, air);
            1.0 + 16.0 * PI * distance * distance / (area * source.factor)
        }
    }
}

/// Equivalent absorption area in m² of a room: 24 ln 10 · V/(cT), Sabine (`kuttruff`).
///
/// Fair for reverberation times above some 0.2 s in ordinary rooms.
fn absorption_area(volume: f64, reverberation_time: f64, air: &Air) -> f64 {
    24.0 * LN_10 * volume / (air.sound_speed * reverberation_time)
}

/// Horizontal distance for a straight distance between two heights.
fn horizontal(distance: f64, source_height: f64, ear_height: f64) -> f64 {
    let rise = source_height - ear_height;
    (distance * distance - rise * rise).max(0.0).sqrt()
}

/// A source or image as heard: path in m, amplitude relative to the direct sound.
#[derive(Clone, Copy)]
struct Image {
    path: f64,
    amplitude: f64,
}

impl Image {
    const fn direct(distance: f64) -> Self {
        Self {
            path: distance,
            amplitude: 1.0,
        }
    }

    fn at(distance: f64, along: f64, across: f64, strength: f64) -> Self {
        let path = (along * along + across * across).sqrt();
        Self {
            path,
            amplitude: strength * distance / path,
        }
    }
}

/// A band of frequencies by the mean and the half-width of its wavenumbers.
struct Band {
    middle: f64,
    half_width: f64,
}

impl Band {
    fn new(frequency: f64, octaves: f64, air: &Air) -> Self {
        let k = omega(frequency) / air.sound_speed;
        let edge = exp2(octaves / 2.0);
        Self {
            middle: k * (edge + 1.0 / edge) / 2.0,
            half_width: k * (edge - 1.0 / edge) / 2.0,
        }
    }

    /// Σ aᵢaⱼ cos k(rᵢ − rⱼ), the cosine averaged over the band.
    fn mean_square(&self, images: &[Image]) -> f64 {
        let mut sum = 0.0;
        for (i, one) in images.iter().enumerate() {
            sum += one.amplitude * one.amplitude;
            for other in &images[..i] {
                let detour = one.path - other.path;
                let coherence = cos(self.middle * detour) * sinc(self.half_width * detour);
                sum += 2.0 * one.amplitude * other.amplitude * coherence;
            }
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const AIR: Air = Air::with(1.2, 343.0);

    const GROUND: Surroundings = Surroundings::Ground {
        source_height: 0.2,
        ear_height: 1.2,
    };
    const WALL: Surroundings = Surroundings::Wall {
        source_height: 0.2,
        ear_height: 1.2,
        distance_to_wall: 0.3,
    };

    #[test]
    fn low_frequency_limits() {
        assert!((power_gain(&GROUND, 1.0, 50.0, &AIR, 0.0) - 4.0).abs() < 0.01);
        assert!((power_gain(&WALL, 1.0, 50.0, &AIR, 0.0) - 16.0).abs() < 0.5);
        assert_eq!(power_gain(&Surroundings::Free, 100.0, 5.0, &AIR, 1.0), 1.0);
    }

    /// The first dip of a tone over hard ground: detour of half a wavelength.
    #[test]
    fn ground_dip_stands_where_the_detour_is_half_a_wave() {
        let ground = Surroundings::Ground {
            source_height: 1.0,
            ear_height: 1.0,
        };
        let detour = (16.0_f64 + 4.0).sqrt() - 4.0;
        let dip = AIR.sound_speed / (2.0 * detour);
        let far = 4.0 / (16.0_f64 + 4.0).sqrt();
        let expected = (1.0 - far) * (1.0 - far);
        assert!((power_gain(&ground, dip, 4.0, &AIR, 0.0) - expected).abs() < 1e-9);
    }

    /// Sabine's 0.161 V/T and the critical distance √(A/16π) where both fields are equal.
    #[test]
    fn room_at_the_critical_distance() {
        let area = absorption_area(50.0, 0.5, &AIR);
        assert!((area / (0.161 * 50.0 / 0.5) - 1.0).abs() < 2e-3);
        let room = Surroundings::Room {
            volume: 50.0,
            reverberation_time: 0.5,
        };
        let critical = (area / (16.0 * PI)).sqrt();
        assert!((power_gain(&room, 1000.0, critical, &AIR, 0.3) - 2.0).abs() < 1e-12);
    }

    #[test]
    fn a_wall_hears_the_rear_only() {
        let dark = Directionality {
            rear: 0.0,
            factor: 2.0,
        };
        let wall = power_gain_of(&WALL, dark, 500.0, 5.0, &AIR, 0.3);
        assert!((wall - power_gain(&GROUND, 500.0, 5.0, &AIR, 0.3)).abs() < 1e-12);
    }

    proptest! {
        /// The closed band average equals the mean over tones in the band.
        #[test]
        fn band_is_the_mean_of_its_tones(frequency in 40.0_f64..4000.0, octaves in 0.1_f64..1.5) {
            let edge = exp2(octaves / 2.0);
            let (low, high) = (frequency / edge, frequency * edge);
            let steps = 4000;
            let tone = |i: i32| low + (high - low) * (f64::from(i) + 0.5) / f64::from(steps);
            for place in [GROUND, WALL] {
                let gain = |f: f64| power_gain(&place, f, 3.0, &AIR, 0.0);
                let mean = (0..steps).map(|i| gain(tone(i))).sum::<f64>() / f64::from(steps);
                let band = power_gain(&place, frequency, 3.0, &AIR, octaves);
                prop_assert!((band - mean).abs() < 2e-3, "{band} {mean}");
            }
        }

        /// Never more than all images in step, never less than nothing.
        #[test]
        fn bounded(frequency in 20.0_f64..20_000.0, distance in 1.0_f64..100.0, octaves in 0.0_f64..1.0) {
            let ground = power_gain(&GROUND, frequency, distance, &AIR, octaves);
            let wall = power_gain(&WALL, frequency, distance, &AIR, octaves);
            prop_assert!((0.0..=4.0).contains(&ground));
            prop_assert!((0.0..=16.0).contains(&wall));
        }

        /// Far off and over a wide band the reverberant room grows with distance squared.
        #[test]
        fn a_livelier_room_is_louder(time in 0.2_f64..3.0, distance in 0.5_f64..20.0) {
            let room = |t| Surroundings::Room { volume: 80.0, reverberation_time: t };
            let gain = |t| power_gain(&room(t), 500.0, distance, &AIR, 0.3);
            prop_assert!(gain(1.1 * time) > gain(time));
        }
    }
}

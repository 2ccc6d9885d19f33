//! Sound lost to the air on the way.

use crate::air::{Air, STANDARD_PRESSURE};
use crate::math::{exp, pow};

/// Pure-tone absorption of the atmosphere in dB/m (`iso-9613-1` eq. 3 to 5).
///
/// Valid for 50 Hz to 10 kHz, −20 to 50 °C, pressure below 2 atmospheres, to
/// within ±10 %; used beyond 10 kHz too, where it is the best there is.
#[must_use]
pub fn db_per_metre(frequency: f64, air: &Air) -> f64 {
    let pressure = air.pressure / STANDARD_PRESSURE;
    let temperature = air.kelvin() / 293.15;
    let water_percent = 100.0 * air.water_share();
    let oxygen = pressure
        * (24.0 + 4.04e4 * water_percent * (0.02 + water_percent) / (0.391 + water_percent));
    let cooling = -4.170 * (pow(temperature, -1.0 / 3.0) - 1.0);
    let nitrogen = pressure / temperature.sqrt() * (9.0 + 280.0 * water_percent * exp(cooling));
    let square = frequency * frequency;
    let classical = 1.84e-11 / pressure * temperature.sqrt();
    let kelvin = air.kelvin();
    let oxygen_part = 0.012_75 * exp(-2239.1 / kelvin) / (oxygen + square / oxygen);
    let nitrogen_part = 0.1068 * exp(-3352.0 / kelvin) / (nitrogen + square / nitrogen);
    let relaxation = pow(temperature, -2.5) * (oxygen_part + nitrogen_part);
    8.686 * square * (classical + relaxation)
}

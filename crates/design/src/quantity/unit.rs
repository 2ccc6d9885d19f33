//! Units and their spellings.

use super::Dimension;
use core::f64::consts::PI;

/// One unit: an SI value is `number × factor × 10^power + offset`.
///
/// Factor and power of ten are kept apart so that metric numbers are converted
/// by moving the decimal point, without rounding.
#[derive(Debug, PartialEq)]
pub(crate) struct Unit {
    /// As printed.
    pub(crate) symbol: &'static str,
    /// What it measures.
    pub(crate) dimension: Dimension,
    /// Other spellings that are understood, in the form [`normal`] gives.
    pub(crate) also: &'static [&'static str],
    /// Whole factor.
    pub(crate) factor: f64,
    /// Power of ten.
    pub(crate) power: i32,
    /// Offset in SI.
    pub(crate) offset: f64,
}

const fn unit(
    dimension: Dimension,
    symbol: &'static str,
    factor: f64,
    power: i32,
    also: &'static [&'static str],
) -> Unit {
    Unit {
        symbol,
        dimension,
        also,
        factor,
        power,
        offset: 0.0,
    }
}

use Dimension as D;

/// Every unit understood; within a dimension the first spelling wins.
pub(crate) static UNITS: &[Unit] = &[
    unit(
        D::Length,
        "mm",
        1.0,
        -3,
        &["millimetre", "millimetres", "millimeter", "millimeters"],
    ),
    unit(
        D::Length,
        "cm",
        1.0,
        -2,
        &["centimetre", "centimetres", "centimeter", "centimeters"],
    ),
    unit(
        D::Length,
        "m",
        1.0,
        0,
        &["metre", "metres", "meter", "meters"],
    ),
    unit(D::Length, "µm", 1.0, -6, &["um"]),
    unit(D::Length, "km", 1.0, 3, &[]),
    unit(D::Length, "in", 254.0, -4, &["\"", "inch", "inches", "in."]),
    unit(D::Length, "ft", 3048.0, -4, &["'", "foot", "feet"]),
    unit(D::Length, "thou", 254.0, -7, &["mil"]),
    unit(D::Area, "cm²", 1.0, -4, &[]),
    unit(D::Area, "mm²", 1.0, -6, &[]),
    unit(D::Area, "m²", 1.0, 0, &[]),
    unit(D::Area, "in²", 64516.0, -8, &["sq in"]),
    unit(
        D::Volume,
        "L",
        1.0,
        -3,
        &["l", "litre", "litres", "liter", "liters", "dm3"],
    ),
    unit(D::Volume, "ml", 1.0, -6, &["mL"]),
    unit(D::Volume, "cm³", 1.0, -6, &["cc"]),
    unit(D::Volume, "m³", 1.0, 0, &[]),
    unit(D::Volume, "in³", 16_387_064.0, -12, &["cu in"]),
    unit(D::Volume, "ft³", 28_316_846_592.0, -12, &["cu ft"]),
    unit(D::Mass, "kg", 1.0, 0, &[]),
    unit(D::Mass, "g", 1.0, -3, &["gram", "grams"]),
    unit(D::Mass, "mg", 1.0, -6, &[]),
    unit(D::Mass, "lb", 45_359_237.0, -8, &["lbs", "pound", "pounds"]),
    unit(D::Mass, "oz", 28_349_523_125.0, -12, &["ounce", "ounces"]),
    unit(D::Time, "h", 3600.0, 0, &["hour", "hours", "hr", "hrs"]),
    unit(D::Time, "min", 60.0, 0, &["minute", "minutes"]),
    unit(D::Time, "s", 1.0, 0, &["sec", "second", "seconds"]),
    unit(D::Time, "ms", 1.0, -3, &[]),
    unit(D::Frequency, "Hz", 1.0, 0, &["hz"]),
    unit(D::Frequency, "kHz", 1.0, 3, &["khz"]),
    unit(D::Temperature, "°C", 1.0, 0, &["C", "degC", "deg C"]),
    Unit {
        symbol: "°F",
        dimension: D::Temperature,
        also: &["F", "degF", "deg F"],
        factor: 5.0 / 9.0,
        power: 0,
        offset: -160.0 / 9.0,
    },
    unit(D::Share, "%", 1.0, -2, &["percent", "per cent"]),
    unit(D::SoundLevel, "dB", 1.0, 0, &["db"]),
    unit(D::SoundLevel, "dB(A)", 1.0, 0, &["dBA", "dB A", "dB (A)"]),
    unit(D::Decibel, "dB", 1.0, 0, &["db"]),
    unit(D::Gain, "dB", 1.0, 0, &["db"]),
    unit(D::Gain, "V/V", 1.0, 0, &["times"]),
    unit(D::Voltage, "V", 1.0, 0, &["volt", "volts"]),
    unit(D::Voltage, "mV", 1.0, -3, &[]),
    unit(D::Voltage, "W/A", 1.0, 0, &[]),
    unit(D::Current, "A", 1.0, 0, &["amp", "amps", "ampere"]),
    unit(D::Current, "mA", 1.0, -3, &[]),
    unit(D::Current, "µA", 1.0, -6, &["uA"]),
    unit(D::Current, "nA", 1.0, -9, &[]),
    unit(D::Resistance, "Ω", 1.0, 0, &["ohm", "ohms", "Ohm", "Ohms"]),
    unit(
        D::Resistance,
        "mΩ",
        1.0,
        -3,
        &["mohm", "milliohm", "milliohms"],
    ),
    unit(D::Resistance, "kΩ", 1.0, 3, &["kohm", "KΩ"]),
    unit(D::Resistance, "MΩ", 1.0, 6, &["Mohm", "megohm"]),
    unit(D::Capacitance, "µF", 1.0, -6, &["uF"]),
    unit(D::Capacitance, "nF", 1.0, -9, &[]),
    unit(D::Capacitance, "pF", 1.0, -12, &[]),
    unit(D::Capacitance, "mF", 1.0, -3, &[]),
    unit(D::Capacitance, "F", 1.0, 0, &["farad"]),
    unit(D::Inductance, "mH", 1.0, -3, &[]),
    unit(D::Inductance, "µH", 1.0, -6, &["uH"]),
    unit(D::Inductance, "nH", 1.0, -9, &[]),
    unit(D::Inductance, "H", 1.0, 0, &["henry"]),
    unit(
        D::SemiInductance,
        "Ω s^n",
        1.0,
        0,
        &["Ω sⁿ", "ohm sn", "ohm sⁿ", "Ωsn"],
    ),
    unit(D::Power, "W", 1.0, 0, &["watt", "watts"]),
    unit(D::Power, "mW", 1.0, -3, &[]),
    unit(D::Power, "kW", 1.0, 3, &[]),
    unit(D::Charge, "Ah", 3600.0, 0, &["A h"]),
    unit(D::Charge, "mAh", 36.0, -1, &["mA h"]),
    unit(D::Energy, "Wh", 3600.0, 0, &["W h"]),
    unit(D::Energy, "kWh", 36.0, 5, &["kW h"]),
    unit(D::Energy, "J", 1.0, 0, &[]),
    unit(D::ForceFactor, "T m", 1.0, 0, &["Tm"]),
    unit(D::ForceFactor, "N/A", 1.0, 0, &[]),
    unit(D::Compliance, "mm/N", 1.0, -3, &[]),
    unit(D::Compliance, "m/N", 1.0, 0, &[]),
    unit(D::Compliance, "µm/N", 1.0, -6, &["um/N"]),
    unit(D::Damping, "kg/s", 1.0, 0, &[]),
    unit(D::Damping, "N s/m", 1.0, 0, &["Ns/m"]),
    unit(D::Density, "kg/m³", 1.0, 0, &[]),
    unit(D::Density, "g/cm³", 1.0, 3, &[]),
    unit(D::Density, "kg/L", 1.0, 3, &["kg/l"]),
    unit(D::Pressure, "GPa", 1.0, 9, &[]),
    unit(D::Pressure, "MPa", 1.0, 6, &["N/mm2"]),
    unit(D::Pressure, "kPa", 1.0, 3, &[]),
    unit(D::Pressure, "hPa", 1.0, 2, &["mbar"]),
    unit(D::Pressure, "Pa", 1.0, 0, &["N/m2"]),
    unit(D::Speed, "m/s", 1.0, 0, &[]),
    unit(D::Speed, "km/h", 1.0 / 3.6, 0, &[]),
    unit(D::Angle, "°", PI / 180.0, 0, &["deg", "degree", "degrees"]),
    unit(D::Angle, "rad", 1.0, 0, &["radian", "radians"]),
    unit(D::AreaDensity, "g/m²", 1.0, -3, &[]),
    unit(D::AreaDensity, "kg/m²", 1.0, 0, &[]),
    unit(
        D::ThermalResistance,
        "K/W",
        1.0,
        0,
        &["°C/W", "C/W", "degC/W"],
    ),
    unit(D::Coverage, "m²/L", 1.0, 3, &["m2/l", "m2/litre"]),
];

/// One spelling for what keyboards and languages write differently: µ and μ,
/// Ω and the ohm sign, raised digits, dots between factors, odd spaces.
pub(crate) fn normal(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            '\u{3bc}' => out.push('µ'),
            '\u{2126}' => out.push('Ω'),
            '²' => out.push('2'),
            '³' => out.push('3'),
            '^' => {}
            '″' | '”' | '“' => out.push('"'),
            '′' | '’' => out.push('\''),
            '·' | '⋅' | '*' => push_space(&mut out),
            c if c.is_whitespace() => push_space(&mut out),
            c => out.push(c),
        }
    }
    out.replace(" /", "/").replace("/ ", "/")
}

fn push_space(out: &mut String) {
    if !out.ends_with(' ') {
        out.push(' ');
    }
}

impl Unit {
    fn is_called(&self, normal_name: &str) -> bool {
        normal(self.symbol) == normal_name || self.also.contains(&normal_name)
    }

    /// Whether conversion only moves the decimal point.
    pub(crate) fn is_decimal(&self) -> bool {
        self.factor == 1.0 && self.offset == 0.0
    }
}

/// What a spelling of a unit turned out to be.
pub(crate) enum Found {
    /// A unit of the wanted dimension.
    Unit(&'static Unit),
    /// A unit of another dimension.
    Other(&'static Unit),
    /// No unit known.
    Nothing,
}

/// Looks a spelling up.
pub(crate) fn find(text: &str, wanted: Dimension) -> Found {
    let name = normal(text);
    let called = |u: &&Unit| u.is_called(&name);
    if let Some(unit) = UNITS.iter().filter(|u| u.dimension == wanted).find(called) {
        return Found::Unit(unit);
    }
    match UNITS.iter().find(called) {
        Some(unit) => Found::Other(unit),
        None => Found::Nothing,
    }
}

/// Symbols of a dimension, in the order of the table.
pub(crate) fn symbols(dimension: Dimension) -> impl Iterator<Item = &'static str> {
    UNITS
        .iter()
        .filter(move |u| u.dimension == dimension)
        .map(|u| u.symbol)
}

/// The unit of a dimension whose symbol or spelling comes nearest to `text`.
pub(crate) fn nearest(text: &str, wanted: Dimension) -> Option<&'static str> {
    let name = normal(text);
    let units = || UNITS.iter().filter(|u| u.dimension == wanted);
    let same_but_case = units().find(|u| {
        std::iter::once(u.symbol)
            .chain(u.also.iter().copied())
            .any(|s| normal(s).to_lowercase() == name.to_lowercase())
    });
    same_but_case.map(|u| u.symbol).or_else(|| {
        let names = units().flat_map(|u| {
            std::iter::once(u.symbol)
                .chain(u.also.iter().copied())
                .map(|s| (s, u.symbol))
        });
        names
            .map(|(s, symbol)| (strsim::damerau_levenshtein(&normal(s), &name), s, symbol))
            .filter(|(distance, s, _)| *distance == 1 && s.chars().count() > 1)
            .min_by_key(|(distance, _, _)| *distance)
            .map(|(_, _, symbol)| symbol)
    })
}

//! How values look in a file, for sentences that say what to write.

use crate::fault::{Lengths, Wanted};
use crate::quantity::Dimension;

/// How the value of a key looks in a file.
pub(crate) fn example(key: &str, wanted: Wanted) -> &'static str {
    match key {
        "distance" => "\"3 m\"",
        "altitude" => "\"200 m\"",
        "ears" => "\"1.2 m\"",
        "room" => "\"50 m³\"",
        "reverberation" => "\"0.5 s\"",
        "cable_length" => "\"0.5 m\"",
        "cable_section" => "\"0.75 mm²\"",
        "length" if wanted == Wanted::Quantity(Dimension::Length) => "\"120 mm\"",
        "outside" | "inside" => "\"360 x 200 x 180 mm\"",
        "size" if wanted == Wanted::Quantity(Dimension::Length) => "\"4 in\"",
        "mass" | "mms" | "added_mass" => "\"8 g\"",
        "idle_current" => "\"30 mA\"",
        "on_resistance" | "resistance" => "\"0.2 Ω\"",
        "input_impedance" => "\"20 kΩ\"",
        "filter_inductance" => "\"10 µH\"",
        "filter_capacitance" => "\"0.68 µF\"",
        "level" => "\"0.9 V\"",
        "section" if wanted == Wanted::Quantity(Dimension::Area) => "\"0.75 mm²\"",
        "warning" => "\"30 min\"",
        "delay" => "\"3 s\"",
        "hysteresis" => "\"0.3 V\"",
        "slack" => "\"10 %\"",
        "efficiency" => "\"85 %\"",
        "can" => "\"0.75 L\"",
        "tolerance" => "\"1 %\"",
        "hottest" => "\"38 °C\"",
        "sum_resistor" => "\"1 kΩ\"",
        "sensitivity" => "\"87 dB\"",
        _ => of_dimension(wanted),
    }
}

/// The unit in an example; nothing for pure numbers.
pub(super) fn unit_of(example: &str) -> &str {
    let text = example.trim_matches('"');
    text.rfind(|c: char| c.is_ascii_digit())
        .map_or("", |digit| text[digit + 1..].trim_start())
}

fn of_lengths(of: Lengths) -> &'static str {
    match of {
        Lengths::Block => "\"30 x 20 x 180 mm\"",
        Lengths::Cylinder => "\"50 x 120 mm\"",
        Lengths::Face => "\"120 x 60 mm\"",
        Lengths::Section => "\"20 x 30 mm\"",
        Lengths::Position => "\"180 x 100 mm\"",
        Lengths::Corner => "\"20 x 0 x 60 mm\"",
    }
}

fn of_dimension(wanted: Wanted) -> &'static str {
    let dimension = match wanted {
        Wanted::Money => return "\"12 €\"",
        Wanted::Lengths(of) => return of_lengths(of),
        Wanted::Quantity(dimension) => dimension,
    };
    match dimension {
        Dimension::Length => "\"12 mm\"",
        Dimension::Area => "\"55 cm²\"",
        Dimension::Volume => "\"6 L\"",
        Dimension::Mass => "\"1.2 kg\"",
        Dimension::Time => "\"8 h\"",
        Dimension::Frequency => "\"70 Hz\"",
        Dimension::Temperature => "\"20 °C\"",
        Dimension::Share => "\"50 %\"",
        Dimension::SoundLevel => "\"88 dB\"",
        Dimension::Decibel => "\"3 dB\"",
        Dimension::Gain => "\"26 dB\"",
        Dimension::Number => "0.45",
        Dimension::Voltage => "\"12 V\"",
        Dimension::Current => "\"2 A\"",
        Dimension::Resistance => "\"3.4 Ω\"",
        Dimension::Capacitance => "\"1000 µF\"",
        Dimension::Inductance => "\"0.3 mH\"",
        Dimension::SemiInductance => "\"0.02 Ω s^n\"",
        Dimension::Power => "\"20 W\"",
        Dimension::Charge => "\"7 Ah\"",
        Dimension::Energy => "\"80 Wh\"",
        Dimension::ForceFactor => "\"4.2 T m\"",
        Dimension::Compliance => "\"0.8 mm/N\"",
        Dimension::Damping => "\"0.6 kg/s\"",
        Dimension::Density => "\"680 kg/m³\"",
        Dimension::Pressure => "\"9 GPa\"",
        Dimension::Speed => "\"10 m/s\"",
        Dimension::Angle => "\"8°\"",
        Dimension::AreaDensity => "\"150 g/m²\"",
        Dimension::ThermalResistance => "\"12 K/W\"",
        Dimension::Coverage => "\"12 m²/L\"",
    }
}

//! Which inputs of a design can be moved by hand, and how far.

use design::{Design, Dimension, EnclosureKind, EnclosureSize};

/// An input before its text is looked at; step and range in SI.
pub(super) struct Input {
    pub(super) key: String,
    pub(super) label: String,
    /// Which of the lengths of a size it is.
    pub(super) length: Option<usize>,
    pub(super) measures: Dimension,
    pub(super) step: f64,
    pub(super) within: (f64, f64),
}

fn input(key: &str, label: &str, measures: Dimension, step: f64, within: (f64, f64)) -> Input {
    Input {
        key: key.to_owned(),
        label: label.to_owned(),
        length: None,
        measures,
        step,
        within,
    }
}

/// Those the design has, in the order of the work.
pub(super) fn inputs(design: &Design) -> Vec<Input> {
    let mut out = Vec::new();
    let (key, size) = match &design.enclosure.size {
        EnclosureSize::Outside(size) => ("box.outside", size),
        EnclosureSize::Inside(size) => ("box.inside", size),
    };
    let sides = [
        ("width", size.width),
        ("height", size.height),
        ("depth", size.depth),
    ];
    for (length, (name, side)) in sides.into_iter().enumerate() {
        out.push(Input {
            length: Some(length),
            ..input(
                key,
                &format!("box {name}"),
                Dimension::Length,
                0.01,
                (0.5 * side.si, 1.6 * side.si),
            )
        });
    }
    out.push(input(
        "box.filling",
        "filling",
        Dimension::Share,
        0.1,
        (0.0, 1.0),
    ));
    out.push(input(
        "box.thickness",
        "wall thickness",
        Dimension::Length,
        0.001,
        (0.003, 0.03),
    ));
    match &design.enclosure.kind {
        EnclosureKind::Sealed => {}
        EnclosureKind::Vented(vent) => {
            let length = vent.length.si;
            let across = vent.diameter.si;
            let long = (0.3 * length, 2.0 * length);
            let wide = (0.6 * across, 1.6 * across);
            out.push(input(
                "box.vent.length",
                "vent length",
                Dimension::Length,
                0.01,
                long,
            ));
            out.push(input(
                "box.vent.diameter",
                "vent diameter",
                Dimension::Length,
                0.002,
                wide,
            ));
        }
        EnclosureKind::PassiveRadiator(_) => out.push(input(
            "box.radiator.added_mass",
            "mass on the radiator",
            Dimension::Mass,
            0.005,
            (0.0, 0.2),
        )),
    }
    out.push(input(
        "source.level",
        "level of the source",
        Dimension::Voltage,
        0.1,
        (0.1, 3.0),
    ));
    let cable = "cable to the drivers";
    out.push(input(
        "amplifier.cable_length",
        cable,
        Dimension::Length,
        0.1,
        (0.1, 5.0),
    ));
    out.push(input(
        "battery.count",
        "batteries",
        Dimension::Number,
        1.0,
        (1.0, 8.0),
    ));
    out.push(input(
        "place.temperature",
        "air",
        Dimension::Temperature,
        5.0,
        (-10.0, 45.0),
    ));
    out
}

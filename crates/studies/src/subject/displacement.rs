//! What takes up air inside the box, each thing with the spread of its volume.

use crate::vary::{Causes, Uncertain, spreads};
use core::f64::consts::FRAC_PI_4;
use design::{Design, DriverPart, EnclosureKind, Shape, Size, Tolerance, Value};

/// Volume of a cylinder in m³.
pub(super) fn cylinder(diameter: f64, length: f64) -> f64 {
    FRAC_PI_4 * diameter * diameter * length
}

/// A volume, and half its width in parts of itself where a tolerance is stated.
#[derive(Clone, Copy, Debug)]
struct Volume {
    si: f64,
    stated: Option<(f64, Value)>,
}

impl Volume {
    const fn guessed(si: f64) -> Self {
        Self { si, stated: None }
    }

    /// A product of lengths, each with the power it goes in by; stated
    /// tolerances add up as limits do.
    fn of(si: f64, factors: &[(Value, f64)]) -> Self {
        let mut stated: Option<(f64, Value)> = None;
        for &(value, power) in factors {
            let part = match value.tolerance {
                Tolerance::Unstated => continue,
                Tolerance::Within(half) => half / value.si.abs(),
                Tolerance::About => spreads::ABOUT.spread,
            };
            let (sum, _) = stated.unwrap_or((0.0, value));
            stated = Some((sum + power * part, value));
        }
        Self { si, stated }
    }

    fn of_shape(shape: &Shape) -> Self {
        match shape {
            Shape::Block(size) => Self::of_block(size),
            Shape::Cylinder { diameter, length } => Self::of(
                cylinder(diameter.si, length.si),
                &[(*diameter, 2.0), (*length, 1.0)],
            ),
            Shape::Volume(volume) => Self::of(volume.si, &[(*volume, 1.0)]),
        }
    }

    fn of_block(size: &Size) -> Self {
        let edges = [size.width, size.height, size.depth];
        let si = edges.iter().map(|edge| edge.si).product();
        Self::of(si, &edges.map(|edge| (edge, 1.0)))
    }

    /// Air taken up by a driver: as stated, else frame, basket and magnet.
    fn of_driver(part: &DriverPart) -> Self {
        if let Some(stated) = part.displacement {
            return Self::of(stated.si, &[(stated, 1.0)]);
        }
        let cutout = part.cutout.or(part.size).map_or(0.09, |value| value.si);
        let depth = part.depth.map_or(0.5 * cutout, |value| value.si);
        let magnet = part.magnet.map_or(0.6 * cutout, |value| value.si);
        // A cone frustum from cut-out to magnet over half the depth is mostly air
        // that the cone leaves open; about a third of it is basket and cone.
        Self::guessed(cylinder(magnet, 0.45 * depth) + cylinder(cutout, 0.55 * depth) / 3.0)
    }
}

/// Gathers what takes up air.
struct Ledger<'a> {
    causes: &'a mut Causes,
    lines: Vec<(String, Uncertain)>,
}

impl Ledger<'_> {
    fn add(&mut self, label: String, count: u32, one: Volume) {
        let si = f64::from(count) * one.si;
        if si <= 0.0 {
            return;
        }
        let id = format!("box.displaced.{}", self.lines.len() + 1);
        let words = format!("air taken up by {label}");
        let volume = match one.stated {
            Some((part, value)) => {
                let tolerance = Tolerance::Within(part * si);
                let all = Value {
                    si,
                    tolerance,
                    ..value
                };
                self.causes
                    .value(id, words, "m³", &all, &spreads::DISPLACED)
            }
            None => self.causes.usual(id, words, "m³", si, &spreads::DISPLACED),
        };
        self.lines.push((label, volume));
    }

    fn add_many(&mut self, count: u32, name: &str, one: Volume) {
        self.add(format!("{count} × {name}"), count, one);
    }
}

/// Everything inside that takes up air, all of one kind on a line.
pub(super) fn displaced(causes: &mut Causes, design: &Design) -> Vec<(String, Uncertain)> {
    let mut ledger = Ledger {
        causes,
        lines: Vec::new(),
    };
    for group in &design.drivers {
        let name = &group.part.common.name.text;
        ledger.add_many(group.count, name, Volume::of_driver(&group.part));
    }
    if let EnclosureKind::PassiveRadiator(used) = &design.enclosure.kind {
        let frame = used.part.frame.map_or(0.1, |value| value.si);
        let depth = used.part.depth.map_or(0.02, |value| value.si);
        let one = Volume::guessed(cylinder(0.85 * frame, depth) / 3.0);
        ledger.add_many(used.count, &used.part.common.name.text, one);
    }
    let board = &design.amplifier.part;
    if let Some(size) = &board.size {
        ledger.add(board.common.name.text.clone(), 1, Volume::of_block(size));
    }
    // A drawn bay takes its whole room out of the chambers' air; one only told of is counted by
    // its battery, and its walls are not.
    let battery = &design.battery;
    if let Some(size) = battery.part.size.as_ref().filter(|_| design.bay.is_none()) {
        let name = battery.part.common.name.text.clone();
        ledger.add(name, battery.count, Volume::of_block(size));
    }
    if let Some(control) = design.control.as_ref().filter(|said| !said.boxed.value) {
        for used in &control.parts {
            if let Some(body) = &used.part.body {
                let name = used.part.common.name.text.clone();
                ledger.add(name, 1, Volume::of_block(body));
            }
        }
    }
    for used in &design.modules {
        if let Some(size) = &used.part.size {
            let name = used.part.common.name.text.clone();
            ledger.add(name, 1, Volume::of_block(size));
        }
    }
    for thing in &design.inside {
        ledger.add_many(
            thing.count,
            &thing.name.text,
            Volume::of_shape(&thing.shape),
        );
    }
    ledger.lines
}

//! The circuit as a diagram.

use crate::geometry::Rect;
use crate::role::Role;
use crate::schematic::{Face, Net as Line, Part as Drawn, Schematic, Symbol, Terminal, sheets};
use crate::sheet::{Drawing, Stroke, pen};
use studies::indicator::{Kind, Net, Part};
use studies::words;

const LINE: Stroke = Stroke::new(Role::Ink, pen::MEDIUM);

/// Parts and nets within an area.
pub(super) fn draw(parts: &[Part], nets: &[Net], area: Rect) -> Drawing {
    let schematic = schematic(parts, nets);
    let mut laid = sheets(&schematic, area).into_iter();
    laid.next()
        .map_or_else(Drawing::default, |sheet| sheet.drawing)
}

fn schematic(parts: &[Part], nets: &[Net]) -> Schematic {
    let mut out = Schematic {
        parts: parts.iter().map(drawn).collect(),
        nets: Vec::new(),
    };
    for net in nets {
        let ends = net
            .pins
            .iter()
            .filter_map(|(mark, pin)| end(parts, mark, pin));
        let ends: Vec<(usize, usize)> = ends.collect();
        match net.name.as_str() {
            // Ground is drawn at each part rather than led around.
            "ground" => {
                for (part, pin) in ends {
                    let ground = out.parts.len();
                    out.parts.push(Drawn {
                        symbol: Symbol::Ground,
                        name: String::new(),
                        note: String::new(),
                        terminals: vec![Terminal::new("", Face::Either)],
                    });
                    out.nets.push(line("ground", &[(part, pin), (ground, 0)]));
                }
            }
            name @ ("battery +" | "cut-off in" | "cut-off out") => {
                let mut ends = ends;
                ends.push((out.parts.len(), 0));
                out.parts.push(Drawn {
                    symbol: Symbol::Point,
                    name: name.to_owned(),
                    note: String::new(),
                    terminals: vec![Terminal::new("", Face::Either)],
                });
                out.nets.push(line(name, &ends));
            }
            name => out.nets.push(line(name, &ends)),
        }
    }
    out
}

fn line(name: &str, ends: &[(usize, usize)]) -> Line {
    Line {
        name: name.to_owned(),
        ends: ends
            .iter()
            .map(|(part, pin)| (*part, *pin, String::new()))
            .collect(),
        leads: name != "ground",
        stroke: LINE,
        wires: Vec::new(),
    }
}

/// Place of a part and of its terminal.
fn end(parts: &[Part], mark: &str, pin: &str) -> Option<(usize, usize)> {
    let part = parts.iter().position(|part| part.mark == mark)?;
    let terminal = pins(parts[part].kind)
        .iter()
        .position(|(name, _)| *name == pin)?;
    // Capacitors have two names for each of their ends.
    let ends = drawn(&parts[part]).terminals.len();
    Some((part, terminal % ends))
}

/// Names and sides of the terminals of each kind, in the order of its symbol.
const fn pins(kind: Kind) -> &'static [(&'static str, Face)] {
    match kind {
        Kind::Resistor | Kind::Trimmer | Kind::Button => {
            &[("1", Face::Either), ("2", Face::Either)]
        }
        Kind::Capacitor | Kind::Electrolytic => &[
            ("+", Face::Either),
            ("−", Face::Either),
            ("1", Face::Either),
            ("2", Face::Either),
        ],
        Kind::Reference => &[("anode", Face::Either), ("cathode", Face::Either)],
        Kind::Lamp => &[("anode", Face::Either), ("cathode", Face::Either)],
        Kind::Comparator => &[
            ("+", Face::Left),
            ("−", Face::Left),
            ("supply", Face::Left),
            ("ground", Face::Left),
            ("output", Face::Right),
        ],
        Kind::Mosfet | Kind::MosfetP => &[
            ("gate", Face::Left),
            ("drain", Face::Right),
            ("source", Face::Right),
        ],
        Kind::Relay => &[
            ("coil 1", Face::Left),
            ("coil 2", Face::Right),
            ("contact 1", Face::Left),
            ("contact 2", Face::Right),
        ],
    }
}

/// The name of a terminal as it stands in its symbol: what tapers has little room.
fn inscribed(name: &str) -> &str {
    match name {
        "supply" => "V+",
        "ground" => "0 V",
        name => name,
    }
}

fn drawn(part: &Part) -> Drawn {
    let terminals = pins(part.kind).iter();
    let named = matches!(part.kind, Kind::Comparator | Kind::Relay);
    let terminal = |(name, face): &(&str, Face)| {
        Terminal::new(if named { inscribed(name) } else { "" }, *face)
    };
    let many = matches!(part.kind, Kind::Capacitor | Kind::Electrolytic);
    Drawn {
        symbol: symbol(part.kind),
        name: part.mark.clone(),
        note: value(part),
        terminals: terminals
            .take(if many { 2 } else { usize::MAX })
            .map(terminal)
            .collect(),
    }
}

const fn symbol(kind: Kind) -> Symbol {
    match kind {
        Kind::Resistor | Kind::Trimmer => Symbol::Resistor,
        Kind::Capacitor | Kind::Electrolytic => Symbol::Capacitor,
        Kind::Reference => Symbol::Zener,
        Kind::Comparator => Symbol::Comparator,
        Kind::Lamp => Symbol::Led,
        Kind::Mosfet => Symbol::Mosfet,
        Kind::MosfetP => Symbol::MosfetP,
        Kind::Relay => Symbol::Block,
        Kind::Button => Symbol::Contact,
    }
}

/// Its value as it is written beside it.
pub(super) fn value(part: &Part) -> String {
    let value = part.value.map(|value| prefixed(value, part.unit));
    value.unwrap_or_default()
}

/// A value with its prefix, held together: 4.7 kΩ, 680 µF.
pub(super) fn prefixed(value: f64, unit: &str) -> String {
    words::prefixed(value, unit).replace(' ', "\u{a0}")
}

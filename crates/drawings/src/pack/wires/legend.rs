//! What the colours and dashes of the wires stand for.

use crate::geometry::Point;
use crate::layout::SMALL;
use crate::role::Role;
use crate::schematic::stroke_of;
use crate::sheet::{Drawing, Text};
use design::WireColour;
use studies::electrics::{Electrics, colour};

/// Length of a sample, mm: long enough for the longest pattern.
const SAMPLE: f64 = 15.0;
const ROW: f64 = 4.2;
const BETWEEN: f64 = 6.0;

/// Samples of the colours that are used, in rows within a width, from (0, 0) downwards.
pub(super) fn legend(electrics: &Electrics, width: f64) -> Drawing {
    let used = colour::ALL
        .into_iter()
        .filter(|c| electrics.harness.iter().any(|w| w.colour == *c));
    let entries: Vec<(WireColour, String)> = used
        .map(|c| {
            let said = format!("{} {}: {}", colour::letters(c), colour::name(c), usual(c));
            (c, said)
        })
        .collect();
    let widest = entries
        .iter()
        .map(|(_, said)| SMALL.width(said))
        .fold(0.0, f64::max);
    let pitch = SAMPLE + 1.5 + widest + BETWEEN;
    let columns = (((width + BETWEEN) / pitch) as usize).max(1);
    let mut out = Drawing::default();
    for (i, (colour, said)) in entries.iter().enumerate() {
        let at = Point::new(
            pitch * (i % columns) as f64,
            ROW * (i / columns) as f64 + 1.0,
        );
        out.line(at, at.moved(SAMPLE, 0.0), stroke_of(*colour));
        let text = Text::new(at.moved(SAMPLE + 1.5, 0.0), said, SMALL);
        out.text(text.coloured(Role::Ink).centred());
    }
    out
}

/// What a colour carries by the convention of these sheets.
const fn usual(colour: WireColour) -> &'static str {
    match colour {
        WireColour::Red => "battery, not switched",
        WireColour::Orange => "battery, switched",
        WireColour::Yellow => "supply of its own",
        WireColour::Black => "return",
        WireColour::Brown => "charger",
        WireColour::White => "left +",
        WireColour::Blue => "left −",
        WireColour::Green => "right +",
        WireColour::Violet => "right −",
        WireColour::Turquoise => "signal, left",
        WireColour::Pink => "signal, right",
        WireColour::Grey => "signal ground",
    }
}

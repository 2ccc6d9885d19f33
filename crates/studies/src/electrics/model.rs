//! What the electrics of a design give, nominal, for sheets, files and the build order.

use super::spools::Spool;
use design::{FusePart, Place, WireColour};
use wiring::rules::Breach;
use wiring::{Carries, Flow, Mode, Nets, System};

/// The electrics of a box: parts, wires, what happens in each mode, and the harness.
#[derive(Clone, Debug)]
pub struct Electrics {
    /// Parts with their terminals, and the wires between them.
    pub system: System,
    /// What stands behind each part of the system, in the same order.
    pub parts: Vec<ElectricPart>,
    /// How each wire of the system is made, in the same order.
    pub harness: Vec<HarnessWire>,
    /// What the wires are cut from, thinnest first.
    pub spools: Vec<Spool>,
    /// What the switches can be set to, and what follows.
    pub modes: Vec<ModeState>,
    /// What breaks the rules every system of wires must keep.
    pub breaches: Vec<Breach>,
    /// The battery's fuse; the first where batteries in parallel have one each.
    pub fuse: Option<FuseChoice>,
    /// What is drawn from the battery.
    pub supply: Supply,
    /// What had to be assumed because the design does not name it.
    pub assumed: Vec<Assumed>,
    /// What is wrong with what the design says of its wires.
    pub troubles: Vec<Trouble>,
}

impl Electrics {
    /// What happens in the first mode in which the box plays.
    #[must_use]
    pub fn playing(&self) -> Option<&ModeState> {
        let mut modes = self.modes.iter();
        modes.find(|state| state.mode.state == wiring::State::On)
    }

    /// What happens with the box off: the mode in which most is drawn then.
    #[must_use]
    pub fn off(&self) -> Option<&ModeState> {
        let off = self.modes.iter();
        off.filter(|state| state.mode.state == wiring::State::Off)
            .max_by(|a, b| a.idle.total_cmp(&b.idle))
    }
}

impl Electrics {
    /// Small goods that the design need not name: terminal strips, resistors of a sum.
    pub fn small_goods(&self) -> impl Iterator<Item = (&wiring::Part, &ElectricPart)> {
        let named_missing = |index| self.assumed.iter().any(|own| own.part == index);
        let parts = self.system.parts.iter().zip(&self.parts).enumerate();
        parts
            .filter(move |(index, (part, behind))| {
                let small = matches!(part.kind, wiring::Kind::Star | wiring::Kind::Resistor);
                small && behind.assumed && !named_missing(*index)
            })
            .map(|(_, both)| both)
    }
}

/// What stands behind a part of the system.
#[derive(Clone, Debug, PartialEq)]
pub struct ElectricPart {
    /// What it is on the shelf, or in words where the design does not name it.
    pub label: String,
    /// The table that names it, as edits do: `battery`, `control.part.2`, `module.1`,
    /// `drivers.1`; empty where none does.
    pub table: String,
    /// Where the design speaks of it.
    pub place: Option<Place>,
    /// Whether the design does not name it and it was assumed.
    pub assumed: bool,
    /// Its middle in the frame of the box, in m.
    pub at: [f64; 3],
    /// Its place in the list of parts of the box, where it is one of them.
    pub placed: Option<usize>,
    /// Direct current it is rated for in A, where known.
    pub dc_current: Option<f64>,
    /// Direct voltage it is rated for in V, where known.
    pub dc_voltage: Option<f64>,
    /// Current it draws with nothing playing in A; 0 where it draws none.
    pub idle: f64,
    /// Current it draws over the long run with the loudest programme in A.
    pub continuous: f64,
    /// Peak current it draws in A.
    pub peak: f64,
    /// Capacitance across its supply in F.
    pub capacitance: f64,
}

/// How one wire is made.
#[derive(Clone, Debug, PartialEq)]
pub struct HarnessWire {
    /// Its number on the labels at both ends: "W7".
    pub label: String,
    /// Where it begins: "battery +".
    pub from: String,
    /// Where it ends.
    pub to: String,
    /// What is written on the label at each end: number and where that end goes.
    pub texts: [String; 2],
    /// What it carries.
    pub carries: Carries,
    /// Copper section in m².
    pub section: f64,
    /// The wire on the shelf it is cut from, where one is named or fits.
    pub stock: Option<String>,
    /// Colour of its insulation.
    pub colour: WireColour,
    /// How it lies in the box: corners from the first end to the second, in m.
    pub run: Vec<[f64; 3]>,
    /// Length of that run in m.
    pub lies: f64,
    /// Length to cut, with slack and service loops, or as the design states it, in m.
    pub length: f64,
    /// Length that it would be cut to if the design stated none, in m.
    pub usual: f64,
    /// Least length that reaches from one end to the other, stripped and taut, in m.
    pub reaches: f64,
    /// What is put on each end.
    pub endings: [Ending; 2],
    /// Greatest long-term current in any mode in A.
    pub continuous: f64,
    /// Greatest peak current in any mode in A.
    pub peak: f64,
    /// Volts lost along it at that peak.
    pub drop: f64,
    /// Resistance in Ω.
    pub ohms: f64,
    /// Whether the design names it, rather than the program proposing it.
    pub stated: bool,
    /// Where the design speaks of it.
    pub place: Option<Place>,
}

/// What is put on the end of a wire.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ending {
    /// How it is joined.
    pub kind: EndingKind,
    /// Length to strip in m.
    pub strip: f64,
}

/// How the end of a wire is joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum EndingKind {
    /// A crimped push-on sleeve.
    PushOn,
    /// A crimped ring under a nut.
    Ring,
    /// A crimped ferrule in a screw or lever terminal.
    Ferrule,
    /// Soldered, with shrink sleeve.
    Solder,
    /// A crimped contact in the plug of the pack.
    Plug,
}

/// What the switches are set to, and what follows.
#[derive(Clone, Debug)]
pub struct ModeState {
    /// The positions.
    pub mode: Mode,
    /// What is one piece of metal.
    pub nets: Nets,
    /// Long-term currents and voltages with the loudest programme.
    pub flow: Flow,
    /// Current drawn from the battery with nothing playing, in A.
    pub idle: f64,
    /// Long-term current with the loudest programme, in A.
    pub continuous: f64,
    /// Parts that are supplied.
    pub live: Vec<usize>,
    /// Whether the charger is joined to the battery.
    pub charges: bool,
}

/// A fuse and what it is held against.
#[derive(Clone, Debug, PartialEq)]
pub struct FuseChoice {
    /// Its place in the list of parts.
    pub part: usize,
    /// Rated current in A.
    pub current: f64,
    /// The fuse on the shelf, where one is named or fits.
    pub stock: Option<FusePart>,
    /// Whether the design names it.
    pub stated: bool,
    /// Least rating: 1.25 times the long-term current or the charger's, in A.
    pub least: f64,
    /// Greatest rating: what the thinnest wire behind it carries, in A.
    pub most: f64,
    /// Length of wire between battery and fuse in m.
    pub reach: f64,
    /// Heat of the rush through it when the box is switched on, in A²·s.
    pub rush: f64,
    /// Heat of a rush that it surely lets pass, in A²·s.
    pub passes: f64,
}

impl FuseChoice {
    /// Least rating in A of a fuse of this make that bears the music, the charger and the rush
    /// when the box is switched on.
    #[must_use]
    pub fn bears(&self) -> f64 {
        self.least
            .max(self.current * (self.rush / self.passes).sqrt())
    }
}

/// What is drawn from the battery.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Supply {
    /// Voltage of the full, the half-empty and the empty battery in V.
    pub volts: [f64; 3],
    /// Resistance of the battery in Ω.
    pub ohms: f64,
    /// Its capacity in A·s.
    pub capacity: f64,
    /// Long-term current with the loudest programme in A.
    pub continuous: f64,
    /// With a sine at the clip point in A.
    pub sine: f64,
    /// At the peaks of full output in A.
    pub peak: f64,
    /// The first rush into empty capacitors in A, and how long it takes to fall to a third, in s.
    pub inrush: (f64, f64),
}

/// Something the design does not name.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumed {
    /// Its place in the list of parts.
    pub part: usize,
    /// What was assumed, in words: "a main switch that carries 3 A".
    pub words: String,
}

/// Something wrong with what the design says of its wires.
#[derive(Clone, Debug, PartialEq)]
pub struct Trouble {
    /// What.
    pub words: String,
    /// What to write instead.
    pub advice: String,
    /// Names that come near, nearest first.
    pub near: Vec<String>,
    /// The key that says it: `wiring.wire.2.from`.
    pub key: String,
    /// Where it is written.
    pub place: Place,
}

#[cfg(test)]
mod tests {
    use super::FuseChoice;

    /// A slow tube passes 200 A²·s for each A² of its rating: for 128 A²·s it takes 0.8 A.
    #[test]
    fn the_rush_raises_the_least_rating() {
        let fuse = |rush: f64| FuseChoice {
            part: 0,
            current: 0.5,
            stock: None,
            stated: true,
            least: 0.308,
            most: 16.0,
            reach: 0.1,
            rush,
            passes: 200.0 * 0.5 * 0.5,
        };
        assert_eq!(fuse(1.0).bears(), 0.308);
        assert!((fuse(128.0).bears() - 0.8).abs() < 1e-12);
    }
}

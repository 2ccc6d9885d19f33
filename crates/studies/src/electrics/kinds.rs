//! Parts as the wiring sees them: terminals, contacts, what conducts inside.

use design::Contacts;
use wiring::{Inner, Kind, Part, Role, Side, Sign, Terminal, Through};

/// A name for a side.
pub(super) const fn side_word(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
        Side::Mono => "",
    }
}

/// A terminal's name on a side: "left in", or "in" where there is one channel.
pub(super) fn sided(side: Side, name: &str) -> String {
    format!("{} {name}", side_word(side))
        .trim_start()
        .to_owned()
}

fn with(mut part: Part, terminals: Vec<Terminal>, inner: Vec<Inner>) -> Part {
    part.terminals = terminals;
    part.inner = inner;
    part
}

pub(super) fn battery(name: &str, volts: [f64; 2]) -> Part {
    let terminals = vec![
        Terminal::new("+", Role::Plus),
        Terminal::new("-", Role::Minus),
    ];
    let mut part = with(Part::new(name, Kind::Battery), terminals, Vec::new());
    part.gives = Some(volts);
    part
}

/// A part with two like ends.
fn two_ends(name: &str, kind: Kind, through: Through) -> Part {
    let ends = ["1", "2"].map(|end| Terminal::new(end, Role::Contact));
    let inner = vec![Inner::always(0, 1, through)];
    with(Part::new(name, kind), ends.into(), inner)
}

pub(super) fn fuse(name: &str) -> Part {
    two_ends(name, Kind::Fuse, Through::Fuse)
}

pub(super) fn resistor(name: &str, ohms: f64) -> Part {
    two_ends(name, Kind::Resistor, Through::Resistance(ohms))
}

/// A switch: terminals numbered pole after pole, the common one first.
///
/// Position 0 is off, or for a switch without one the second throw.
pub(super) fn switch(name: &str, contacts: Contacts) -> Part {
    let poles = contacts.poles() as usize;
    let throws = contacts.throws() as usize;
    let centre = matches!(contacts, Contacts::SpdtCentreOff | Contacts::DpdtCentreOff);
    let mut part = Part::new(name, Kind::Switch);
    part.positions = match (throws, centre) {
        (1, _) => vec!["off".into(), "on".into()],
        (_, false) => vec!["second".into(), "first".into()],
        (_, true) => vec!["middle".into(), "first".into(), "second".into()],
    };
    for pole in 0..poles {
        let first = part.terminals.len();
        for throw in 0..=throws {
            let number = pole * (throws + 1) + throw + 1;
            let terminal = Terminal::new(number.to_string(), Role::Contact);
            part.terminals.push(terminal);
        }
        part.inner.push(Inner::contact(first, first + 1, &[1]));
        if throws == 2 {
            let when = if centre { 2 } else { 0 };
            part.inner.push(Inner::contact(first, first + 2, &[when]));
        }
    }
    part
}

pub(super) fn charge_socket(name: &str) -> Part {
    let terminals = vec![
        Terminal::new("+", Role::Charge),
        Terminal::new("-", Role::ChargeReturn),
    ];
    let mut part = with(Part::new(name, Kind::ChargeSocket), terminals, Vec::new());
    part.positions = vec!["no plug".into(), "plug".into()];
    part
}

/// A terminal strip for so many wires.
pub(super) fn strip(name: &str, ways: usize) -> Part {
    let ends = (1..=ways).map(|way| Terminal::new(way.to_string(), Role::Contact));
    let inner = (1..ways).map(|way| Inner::always(way - 1, way, Through::Metal));
    with(Part::new(name, Kind::Star), ends.collect(), inner.collect())
}

fn supplied(kind: Kind, name: &str, stands: Option<[f64; 2]>) -> Part {
    let terminals = vec![
        Terminal::new("+", Role::Supply),
        Terminal::new("-", Role::Return),
    ];
    let inner = vec![Inner::always(0, 1, Through::Load)];
    let mut part = with(Part::new(name, kind), terminals, inner);
    part.stands = stands;
    part
}

/// Something that only draws: a light, a meter.
pub(super) fn load(kind: Kind, name: &str, stands: Option<[f64; 2]>) -> Part {
    supplied(kind, name, stands)
}

/// An amplifier board: supply, inputs, outputs of each channel.
pub(super) fn amplifier(sides: &[Side], bridged: bool, stands: [f64; 2]) -> Part {
    let mut part = supplied(Kind::Amplifier, "amplifier", Some(stands));
    for &side in sides {
        let terminal = Terminal::new(sided(side, "in"), Role::SignalIn);
        part.terminals.push(terminal.on(side));
    }
    let ground = part.terminals.len();
    part.terminals
        .push(Terminal::new("signal ground", Role::SignalGround));
    part.inner.push(Inner::always(1, ground, Through::Metal));
    for &side in sides {
        let name = |sign: &str| match side {
            Side::Mono => format!("out {sign}"),
            Side::Left | Side::Right => sided(side, sign),
        };
        let roles = if bridged {
            [Role::Bridged, Role::Bridged]
        } else {
            [Role::Output, Role::OutputGround]
        };
        let first = part.terminals.len();
        let plus = Terminal::new(name("+"), roles[0]).on(side);
        let minus = Terminal::new(name("-"), roles[1]).on(side);
        part.terminals.push(plus.signed(Sign::Plus));
        part.terminals.push(minus.signed(Sign::Minus));
        if !bridged {
            part.inner.push(Inner::always(1, first + 1, Through::Metal));
        }
    }
    part
}

/// A radio module.
pub(super) fn radio(name: &str, stands: Option<[f64; 2]>) -> Part {
    let mut part = supplied(Kind::Radio, name, stands);
    part.terminals
        .push(Terminal::new("left out", Role::SignalOut).on(Side::Left));
    part.terminals
        .push(Terminal::new("right out", Role::SignalOut).on(Side::Right));
    part.terminals
        .push(Terminal::new("signal ground", Role::SignalGround));
    part.inner.push(Inner::always(1, 4, Through::Metal));
    part
}

/// A converter of supply voltage.
pub(super) fn converter(
    name: &str,
    stands: Option<[f64; 2]>,
    gives: [f64; 2],
    isolated: bool,
) -> Part {
    let mut part = Part::new(name, Kind::Converter);
    part.terminals = vec![
        Terminal::new("in +", Role::Supply),
        Terminal::new("in -", Role::Return),
        Terminal::new("out +", Role::Plus),
        Terminal::new("out -", Role::Minus),
    ];
    part.inner = vec![Inner::always(0, 1, Through::Load)];
    if !isolated {
        part.inner.push(Inner::always(1, 3, Through::Metal));
    }
    part.stands = stands;
    part.gives = Some(gives);
    part
}

/// The board of a low-battery indicator, which feeds its own light.
pub(super) fn indicator(name: &str, stands: Option<[f64; 2]>) -> Part {
    let mut part = supplied(Kind::Indicator, name, stands);
    part.terminals.push(Terminal::new("light +", Role::Plus));
    part.terminals.push(Terminal::new("light -", Role::Minus));
    part.gives = Some([0.0, 0.0]);
    part
}

/// A level control with one track per side.
pub(super) fn volume(name: &str, sides: &[Side], ohms: f64) -> Part {
    let mut part = Part::new(name, Kind::Potentiometer);
    for &side in sides {
        let first = part.terminals.len();
        for (end, role) in [
            ("top", Role::Top),
            ("wiper", Role::Wiper),
            ("bottom", Role::Bottom),
        ] {
            let terminal = Terminal::new(sided(side, end), role);
            part.terminals.push(terminal.on(side));
        }
        // At mid-turn; where it stands does not change what reaches what.
        let half = Through::Resistance(ohms / 2.0);
        part.inner.push(Inner::always(first, first + 1, half));
        part.inner.push(Inner::always(first + 1, first + 2, half));
    }
    part
}

/// A signal socket: the tip's side, and the ring's where it has one.
pub(super) fn jack(name: &str, tip: Side, ring: Option<Side>, switched: bool) -> Part {
    let mut part = Part::new(name, Kind::Jack);
    let mut poles = vec![("tip", tip)];
    poles.extend(ring.map(|ring| ("ring", ring)));
    for (pole, side) in &poles {
        let terminal = Terminal::new(*pole, Role::SignalOut);
        part.terminals.push(terminal.on(*side));
    }
    part.terminals
        .push(Terminal::new("sleeve", Role::SignalGround));
    if switched {
        part.positions = vec!["no plug".into(), "plug".into()];
        for (index, (pole, _)) in poles.iter().enumerate() {
            let own = part.terminals.len();
            let terminal = Terminal::new(format!("{pole} switch"), Role::Contact);
            part.terminals.push(terminal);
            part.inner.push(Inner::contact(index, own, &[0]));
        }
    }
    part
}

/// Loudspeaker terminals: a pair, or one leg alone.
pub(super) fn post(name: &str, side: Side, legs: &[Sign]) -> Part {
    let mut part = Part::new(name, Kind::Post);
    for &sign in legs {
        let end = match sign {
            Sign::Plus => "+",
            Sign::Minus => "-",
        };
        let terminal = Terminal::new(end, Role::Contact);
        part.terminals.push(terminal.on(side).signed(sign));
    }
    part
}

pub(super) fn driver(name: &str, side: Side, ohms: f64) -> Part {
    let mut part = Part::new(name, Kind::Driver);
    for (end, sign) in [("+", Sign::Plus), ("-", Sign::Minus)] {
        let terminal = Terminal::new(end, Role::Load);
        part.terminals.push(terminal.on(side).signed(sign));
    }
    part.inner = vec![Inner::always(0, 1, Through::Resistance(ohms))];
    part
}

/// A metal plate that bare parts touch.
pub(super) fn plate(name: &str, touching: usize) -> Part {
    let ends = (1..=touching).map(|end| Terminal::new(end.to_string(), Role::Metal));
    let inner = (1..touching).map(|end| Inner::always(end - 1, end, Through::Metal));
    with(
        Part::new(name, Kind::Plate),
        ends.collect(),
        inner.collect(),
    )
}

/// A contact that an indicator opens when the battery is low. What holds it closed is fed from
/// the contact's own entry: from behind the contact it could never start, and fed past the
/// contact it would never cut off.
pub(super) fn cut_off(name: &str) -> Part {
    let mut part = Part::new(name, Kind::Switch);
    part.terminals = vec![
        Terminal::new("in", Role::Supply).signed(Sign::Plus),
        Terminal::new("-", Role::Return),
        Terminal::new("out", Role::Contact).signed(Sign::Minus),
    ];
    part.inner = vec![
        Inner::always(0, 1, Through::Load),
        Inner::contact(0, 2, &[1]),
    ];
    part.positions = vec!["open".into(), "closed".into()];
    part
}

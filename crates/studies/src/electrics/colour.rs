//! The colours of wires: what each is for, and how each is told apart without colour.
//!
//! Which colour carries what is a convention of our own, printed beside every list;
//! green and yellow together are left to protective earth (`iec-60757`).

use design::WireColour;
use wiring::Side;

/// What a wire carries, as far as its colour goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Duty {
    /// Battery voltage before the main switch.
    Plus,
    /// Battery voltage behind it.
    Switched,
    /// A supply of its own, such as a converter's.
    Derived,
    /// Return of the supply.
    Return,
    /// The charger's positive pole.
    Charge,
    /// One leg of an output: its side, and whether it is the positive one.
    Output(Side, bool),
    /// A signal: its side.
    Signal(Side),
    /// What signals are measured against.
    SignalGround,
}

/// The colour for a duty.
#[must_use]
pub const fn colour(duty: Duty) -> WireColour {
    match duty {
        Duty::Plus => WireColour::Red,
        Duty::Switched => WireColour::Orange,
        Duty::Derived => WireColour::Yellow,
        Duty::Return => WireColour::Black,
        Duty::Charge => WireColour::Brown,
        Duty::Output(Side::Left | Side::Mono, true) => WireColour::White,
        Duty::Output(Side::Left | Side::Mono, false) => WireColour::Blue,
        Duty::Output(Side::Right, true) => WireColour::Green,
        Duty::Output(Side::Right, false) => WireColour::Violet,
        Duty::Signal(Side::Left | Side::Mono) => WireColour::Turquoise,
        Duty::Signal(Side::Right) => WireColour::Pink,
        Duty::SignalGround => WireColour::Grey,
    }
}

/// Its letters (`iec-60757`).
#[must_use]
pub const fn letters(colour: WireColour) -> &'static str {
    match colour {
        WireColour::Black => "BK",
        WireColour::Brown => "BN",
        WireColour::Red => "RD",
        WireColour::Orange => "OG",
        WireColour::Yellow => "YE",
        WireColour::Green => "GN",
        WireColour::Blue => "BU",
        WireColour::Violet => "VT",
        WireColour::Grey => "GY",
        WireColour::White => "WH",
        WireColour::Pink => "PK",
        WireColour::Turquoise => "TQ",
    }
}

/// Its name.
#[must_use]
pub const fn name(colour: WireColour) -> &'static str {
    match colour {
        WireColour::Black => "black",
        WireColour::Brown => "brown",
        WireColour::Red => "red",
        WireColour::Orange => "orange",
        WireColour::Yellow => "yellow",
        WireColour::Green => "green",
        WireColour::Blue => "blue",
        WireColour::Violet => "violet",
        WireColour::Grey => "grey",
        WireColour::White => "white",
        WireColour::Pink => "pink",
        WireColour::Turquoise => "turquoise",
    }
}

/// How its line is dashed where it is drawn: line and gap in turn in mm; a full line where empty.
#[must_use]
pub const fn dashes(colour: WireColour) -> &'static [f64] {
    match colour {
        WireColour::Red => &[],
        WireColour::Black => &[8.0, 1.0],
        WireColour::Orange => &[5.0, 1.2],
        WireColour::Brown => &[5.0, 1.0, 1.0, 1.0],
        WireColour::Yellow => &[3.0, 1.0],
        WireColour::White => &[6.0, 1.0, 2.0, 1.0],
        WireColour::Blue => &[3.0, 1.0, 1.0, 1.0],
        WireColour::Green => &[6.0, 1.0, 1.0, 1.0, 1.0, 1.0],
        WireColour::Violet => &[3.0, 1.0, 1.0, 1.0, 1.0, 1.0],
        WireColour::Turquoise => &[1.8, 1.0],
        WireColour::Pink => &[1.0, 1.0],
        WireColour::Grey => &[0.6, 0.9],
    }
}

/// Every colour.
pub const ALL: [WireColour; 12] = [
    WireColour::Black,
    WireColour::Brown,
    WireColour::Red,
    WireColour::Orange,
    WireColour::Yellow,
    WireColour::Green,
    WireColour::Blue,
    WireColour::Violet,
    WireColour::Grey,
    WireColour::White,
    WireColour::Pink,
    WireColour::Turquoise,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_colours_share_letters_or_dashes() {
        for (index, one) in ALL.into_iter().enumerate() {
            for other in &ALL[..index] {
                assert_ne!(letters(one), letters(*other));
                assert_ne!(dashes(one), dashes(*other), "{}", name(one));
                assert_ne!(name(one), name(*other));
            }
        }
    }

    #[test]
    fn no_two_duties_share_a_colour() {
        let sides = [Side::Left, Side::Right];
        let mut duties = vec![
            Duty::Plus,
            Duty::Switched,
            Duty::Derived,
            Duty::Return,
            Duty::Charge,
            Duty::SignalGround,
        ];
        duties.extend(sides.map(Duty::Signal));
        duties.extend(sides.map(|side| Duty::Output(side, true)));
        duties.extend(sides.map(|side| Duty::Output(side, false)));
        let mut colours: Vec<WireColour> = duties.into_iter().map(colour).collect();
        colours.sort();
        colours.dedup();
        assert_eq!(colours.len(), 12);
    }
}

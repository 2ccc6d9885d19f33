//! How a wire of a colour is drawn.

use crate::role::Role;
use crate::sheet::{Dash, Stroke, pen};
use design::WireColour;
use studies::electrics::colour;

/// The role of a wire's colour.
#[must_use]
pub const fn role_of(colour: WireColour) -> Role {
    match colour {
        WireColour::Black => Role::WireBlack,
        WireColour::Brown => Role::WireBrown,
        WireColour::Red => Role::WireRed,
        WireColour::Orange => Role::WireOrange,
        WireColour::Yellow => Role::WireYellow,
        WireColour::Green => Role::WireGreen,
        WireColour::Blue => Role::WireBlue,
        WireColour::Violet => Role::WireViolet,
        WireColour::Grey => Role::WireGrey,
        WireColour::White => Role::WireWhite,
        WireColour::Pink => Role::WirePink,
        WireColour::Turquoise => Role::WireTurquoise,
    }
}

/// The line of a wire: its colour, and dashes that tell it apart without.
#[must_use]
pub const fn stroke_of(wire: WireColour) -> Stroke {
    Stroke::new(role_of(wire), pen::BOLD).dashed(Dash::Of(colour::dashes(wire)))
}

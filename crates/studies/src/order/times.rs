//! How long the work takes: hands-on times of somebody who has done it before, in s.
//!
//! Common practice, no source: they are there to plan a week with, not a day. A quick hand
//! needs [`QUICK`] of them, a slow one or a first box [`SLOW`].

use super::model::Span;

pub(super) const QUICK: f64 = 0.7;
pub(super) const SLOW: f64 = 1.8;

const MINUTE: f64 = 60.0;
pub(super) const HOUR: f64 = 3600.0;

/// Four offcuts mitred, taped, measured, the blade set and once more.
pub(super) const TEST_RING: f64 = 40.0 * MINUTE;
/// Setting up the saw for a sheet, and each piece cut from it.
pub(super) const SHEET: f64 = 15.0 * MINUTE;
pub(super) const PIECE: f64 = 4.0 * MINUTE;
/// An edge mitred, rebated or slanted.
pub(super) const EDGE: f64 = 2.5 * MINUTE;
/// Marking and drilling a hole, and cutting one out along its rim.
pub(super) const DRILLED: f64 = 1.5 * MINUTE;
pub(super) const CUT_OUT: f64 = 12.0 * MINUTE;
/// Everything set up dry with clamps, and measured.
pub(super) const DRY_FIT: f64 = 40.0 * MINUTE;
/// Clamps set and checked, squeezed-out glue taken off, for each step of gluing.
pub(super) const CLAMPS: f64 = 15.0 * MINUTE;
/// A fillet along the inner joints, for the box, and per hole to be sealed.
pub(super) const FILLET: f64 = 20.0 * MINUTE;
/// One outer edge rounded or chamfered.
pub(super) const FORMED_EDGE: f64 = 3.0 * MINUTE;
/// A vent tube fitted and glued.
pub(super) const VENT: f64 = 15.0 * MINUTE;
/// The plate of the control panel sawn and filed, and each of its holes.
pub(super) const PLATE: f64 = 25.0 * MINUTE;
pub(super) const PLATE_HOLE: f64 = 4.0 * MINUTE;
/// Etching or engraving the lettering, cleaning and sealing it.
pub(super) const LETTERING: f64 = 45.0 * MINUTE;
/// A part mounted on the control panel.
pub(super) const PANEL_PART: f64 = 5.0 * MINUTE;
/// A wire cut, stripped, ended and labelled.
pub(super) const WIRE: f64 = 6.0 * MINUTE;
/// Wires of which nothing closer is known, for each electrical part.
pub(super) const WIRES_OF_PART: f64 = 2.5;
/// The indicator's board.
pub(super) const INDICATOR: f64 = 90.0 * MINUTE;
/// Something heavy or many-screwed put in its place, and something small.
pub(super) const PART: f64 = 12.0 * MINUTE;
pub(super) const SMALL_PART: f64 = 5.0 * MINUTE;
/// A wire joined in the box and dressed.
pub(super) const JOIN: f64 = 3.0 * MINUTE;
/// Filling teased and laid in, per litre.
pub(super) const FILLING_PER_LITRE: f64 = 1.0 * MINUTE;
/// The last wall with its sealing strip screwed on.
pub(super) const CLOSE: f64 = 20.0 * MINUTE;
/// Masking and taking it off, for each thing masked, and cleaning up after it.
pub(super) const MASK: f64 = 4.0 * MINUTE;
pub(super) const UNMASK: f64 = 1.0 * MINUTE;
pub(super) const UNMASKED: f64 = 5.0 * MINUTE;
/// A sample sanded, coated and judged, for each coat.
pub(super) const OFFCUT_COAT: f64 = 5.0 * MINUTE;
/// Pilot holes of a wall clamped on dry, for each screw.
pub(super) const PILOT: f64 = 1.0 * MINUTE;
/// Tests.
pub(super) const TEST: f64 = 10.0 * MINUTE;
pub(super) const LONG_TEST: f64 = 25.0 * MINUTE;

/// Glue out of the clamps gains its strength over a day, and its water has gone: common
/// practice, no source.
pub(super) const GLUE_CURES: f64 = 24.0 * HOUR;
/// A sealing compound on the joints and around the vents.
pub(super) const SEALANT_SETS: f64 = 12.0 * HOUR;
/// A finish can be handled, not more.
pub(super) const HANDLED: f64 = 24.0 * HOUR;
/// An hour's soak.
pub(super) const SOAK: f64 = HOUR;

/// The span around a usual time.
pub(super) fn span(usual: f64) -> Span {
    Span {
        quick: QUICK * usual,
        usual,
        slow: SLOW * usual,
    }
}

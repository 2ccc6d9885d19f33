//! A wiring diagram laid out from a plain net list.
//!
//! Blocks with ports on their left and right sides stand in columns, so that what
//! gives stands left of what takes; nets run level through the columns and upright on
//! tracks in the channels between them. Two nets share no stretch, they only cross.
//! After the layered drawing of directed graphs (`sugiyama-1981`), with
//! nets of many pins kept whole. Lengths are millimetres, y runs downwards. The same
//! circuit gives the same drawing on every machine: heights are whole steps of a grid.
//!
//! ```
//! use boxwright_wiring::diagram::{Block, Circuit, Face, Net, Pin, Port, Rules, lay_out};
//!
//! let battery = Block::sized(14.0, 12.5, vec![Port::at(Face::Right), Port::at(Face::Right)]);
//! let lamp = Block::sized(10.0, 12.5, vec![Port::at(Face::Left), Port::at(Face::Left)]);
//! let wire = |port| Net::leading(vec![Pin { block: 0, port }, Pin { block: 1, port }]);
//! let circuit = Circuit { blocks: vec![battery, lamp], nets: vec![wire(0), wire(1)] };
//! let drawn = lay_out(&circuit, &Rules::default());
//! assert_eq!((drawn.crossings, drawn.bends), (0, 0));
//! ```

mod across;
mod channel;
mod circuit;
mod faces;
mod frame;
mod geometry;
mod layers;
mod order;
mod pages;
mod place;
mod state;
mod trace;
mod untangle;

pub use circuit::{Block, Circuit, Face, Net, Order, Pin, Port, Rules};
pub use geometry::{Diagram, Drawn, LabelBox, Placed, PlacedPort};
pub use pages::{Member, Page, pages};

/// The whole circuit on one drawing, as wide and high as it comes out.
///
/// Every pin has to name a port that is there, and no port may be in two nets.
#[must_use]
pub fn lay_out(circuit: &Circuit, rules: &Rules) -> Diagram {
    let layers = columns(circuit, rules, None, 1.0);
    in_columns(circuit, rules, &layers)
}

/// The column of every block, in no more than `most`, each filled to a share of the
/// room's height.
fn columns(circuit: &Circuit, rules: &Rules, most: Option<usize>, share: f64) -> Vec<usize> {
    let faces = faces::chosen(circuit);
    layers::layered(circuit, &faces, rules, most, share)
}

/// The drawing with every block in its column.
fn in_columns(circuit: &Circuit, rules: &Rules, layers: &[usize]) -> Diagram {
    let faces = faces::settled(circuit, &faces::chosen(circuit), layers);
    let frame = frame::Frame::new(circuit, &faces, layers, rules);
    let state = order::best(&frame);
    geometry::drawn(&frame, &state)
}

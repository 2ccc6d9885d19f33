//! What is to be drawn: blocks with ports, nets of pins, and the rules of the drawing.

/// Side of a block that a port is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// The left side: it takes.
    Left,
    /// The right side: it gives.
    Right,
    /// Whichever suits; a block with two such ports is passed straight through.
    Either,
}

/// Whether the ports of a side may change places.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Order {
    /// They stand from the top down as listed.
    #[default]
    Fixed,
    /// They may stand in any order.
    Free,
}

/// A place on a block where a net can end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Port {
    /// Side it is on.
    pub face: Face,
    /// Width of the label on its line next to the block, mm; none where 0.
    pub label: f64,
}

impl Port {
    /// A port without a label.
    #[must_use]
    pub const fn at(face: Face) -> Self {
        Self { face, label: 0.0 }
    }

    /// The same with a label so many mm wide.
    #[must_use]
    pub const fn labelled(self, label: f64) -> Self {
        Self { label, ..self }
    }
}

/// A part as a rectangle that nothing else may run through.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// Width and height in mm, with whatever is written about it; the height is
    /// rounded up to a whole [`Rules::step`].
    pub size: [f64; 2],
    /// From its top down to the level its ports are spread about, mm, rounded alike.
    pub middle: f64,
    /// Its ports.
    pub ports: Vec<Port>,
    /// Whether the ports of a side may change places.
    pub order: Order,
}

impl Block {
    /// A block of a width and height in mm with its ports about half its height.
    #[must_use]
    pub const fn sized(width: f64, height: f64, ports: Vec<Port>) -> Self {
        Self {
            size: [width, height],
            middle: height / 2.0,
            ports,
            order: Order::Fixed,
        }
    }
}

/// A port of a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Pin {
    /// The block, by its place in the list.
    pub block: usize,
    /// The port, by its place in the block's list.
    pub port: usize,
}

/// Pins joined to one another.
#[derive(Clone, Debug, PartialEq)]
pub struct Net {
    /// The pins.
    pub pins: Vec<Pin>,
    /// Whether it tells what stands left of what; a return does not.
    pub leads: bool,
    /// Whether its labels say the same: where room is short, a short line bears one.
    pub alike: bool,
}

impl Net {
    /// A net that runs from what gives to what takes.
    #[must_use]
    pub const fn leading(pins: Vec<Pin>) -> Self {
        Self {
            pins,
            leads: true,
            alike: false,
        }
    }

    /// A net without a direction, such as ground.
    #[must_use]
    pub const fn returning(pins: Vec<Pin>) -> Self {
        Self {
            pins,
            leads: false,
            alike: false,
        }
    }

    /// How strongly it pulls its blocks together.
    pub(super) const fn pull(&self) -> i64 {
        if self.leads { 3 } else { 1 }
    }
}

/// Blocks and nets.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Circuit {
    /// The blocks.
    pub blocks: Vec<Block>,
    /// The nets; those of a single pin are not drawn.
    pub nets: Vec<Net>,
}

/// Distances of the drawing in mm, and its room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rules {
    /// Step of the grid that heights lie on: least distance of two lines beside a
    /// block; ports of a side are two steps apart, blocks of a column too.
    pub step: f64,
    /// Between two tracks of a channel, and between tracks and labels.
    pub track: f64,
    /// From a block to where tracks or labels may begin.
    pub stub: f64,
    /// Height of a label above its line.
    pub label: f64,
    /// Width and height to keep to where the drawing may go on on another page.
    pub room: [f64; 2],
}

impl Default for Rules {
    fn default() -> Self {
        Self {
            step: 2.5,
            track: 2.5,
            stub: 1.5,
            label: 2.3,
            room: [269.0, 164.0],
        }
    }
}

//! The control panel and the parts that go into it.

use crate::{
    Choice, Common, Does, FusePart, OnWall, PanelElectric, Place, SheetPart, Size, Text, Value,
    Wall,
};

/// The control panel.
#[derive(Clone, Debug, PartialEq)]
pub struct Control {
    /// The wall it is in.
    pub on: Choice<Wall>,
    /// Its middle.
    pub at: OnWall,
    /// Width and height in m, as seen from outside with the bottom (on top and
    /// bottom: the front) edge down.
    pub size: [Value; 2],
    /// The sheet it is cut from.
    pub plate: SheetPart,
    /// Where that sheet is named.
    pub plate_place: Place,
    /// How far it lies below the outer face in m; flush with it otherwise.
    pub recess: Option<Value>,
    /// Whether a box of wood closes the recess towards the inside.
    pub boxed: Choice<bool>,
    /// Width of the ledge it is screwed on, all around, in m.
    pub ledge: Option<Value>,
    /// Diameter of its screws in m.
    pub screw: Option<Value>,
    /// What is in it.
    pub parts: Vec<ControlUse>,
    /// Where it is written.
    pub place: Place,
}

/// One part in the control panel.
#[derive(Clone, Debug, PartialEq)]
pub struct ControlUse {
    /// The shelf part.
    pub part: ControlPart,
    /// Where its name is written.
    pub place: Place,
    /// Its middle, from the left and bottom edge of the panel seen from outside, in m.
    pub at: [Value; 2],
    /// What is written beside it.
    pub label: Option<Text>,
    /// Scale around it.
    pub scale: Option<DialScale>,
    /// Whether it carries a bridged amplifier output.
    pub bridged_output: Choice<bool>,
    /// What it is for; from its kind otherwise.
    pub does: Option<Choice<Does>>,
    /// The fuse in it.
    pub fuse: Option<(FusePart, Place)>,
}

/// A scale around a shaft.
#[derive(Clone, Debug, PartialEq)]
pub struct DialScale {
    /// First number.
    pub from: i32,
    /// Last number.
    pub to: i32,
    /// Marks between two numbers.
    pub between: u32,
}

/// A part for a control panel, on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct ControlPart {
    /// What every part has.
    pub common: Common,
    /// What it is.
    pub kind: Choice<ControlKind>,
    /// Diameter of its hole in m; from its thread otherwise.
    pub hole: Option<Value>,
    /// Width and height of a rectangular hole in m.
    pub cutout: Option<[Value; 2]>,
    /// Metric thread of its bush or screw, such as M7: nominal diameter in m.
    pub thread: Option<Value>,
    /// Length of its bush in m.
    pub bush: Option<Value>,
    /// Height of its nut and washer in m.
    pub nut_height: Option<Value>,
    /// Diameter over its nut or flange in m.
    pub nut: Option<Value>,
    /// Diameter of its knob in m.
    pub knob: Option<Value>,
    /// How far its knob, lever or button stands in front of the panel, in m.
    pub knob_height: Option<Value>,
    /// Body behind the panel: width × height × depth in m.
    pub body: Option<Size>,
    /// Free depth its plug or lugs and the bend of the wires want behind the body, in m.
    pub behind: Option<Value>,
    /// Free length a plug wants in front, in m.
    pub plug: Option<Value>,
    /// Whether its metal is insulated from the panel.
    pub insulated: Choice<bool>,
    /// Whether it holds the aerial of a radio link.
    pub radio: Choice<bool>,
    /// What it is electrically.
    pub electric: PanelElectric,
}

/// Kinds of control-panel parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ControlKind {
    /// A volume or tone control.
    Potentiometer,
    /// A switch.
    Switch,
    /// A signal socket.
    Jack,
    /// A charging or supply socket.
    PowerSocket,
    /// A loudspeaker terminal.
    Terminal,
    /// A fuse holder.
    FuseHolder,
    /// A light.
    Light,
    /// A meter.
    Meter,
    /// A radio module.
    Radio,
}

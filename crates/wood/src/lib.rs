//! Carpentry over plain numbers: the box as a solid, what fits into it and
//! comes out again, and how its sheets are sawn.
//!
//! Lengths are metres, angles radians, volumes m³. The box stands in a
//! right-handed frame: x runs to the right as the listener sees it, y backwards,
//! z upwards, from the front, left, bottom corner of the box's outer block.

mod batten;
mod board;
mod body;
mod corner;
mod crossing;
mod edging;
mod fault;
mod fit;
mod flat;
mod form;
mod glue;
mod hole;
mod inspect;
mod ledger;
mod math;
mod panel;
mod plan;
mod polytope;
mod shape;
mod sides;
mod surface;
mod volumes;
mod wall;

pub mod ring;
pub mod sawing;
pub mod vector;

pub use body::Body;
pub use crossing::Crossing;
pub use fault::{Fault, Measure};
pub use fit::{
    Carry, ControlOutline, DriverOutline, FRAME_THICKNESS, Gap, Loose, MAGNET_SHARE, MAGNET_WIDTH,
    Miss, Opening, Other, Scene, Stand, Target, VENT_AIR, Verdict, Wishes, arrange, gaps,
};
pub use glue::JointLine;
pub use ledger::Ledger;
pub use panel::{Frame, Panel, PanelEdge, PanelHole, PanelId};
pub use plan::*;
pub use polytope::{Face, Plane, Polytope};
pub use shape::{Part, Pose, Screw, Shape, Solid};
pub use surface::{DRAWN_CHORD, Mesh, PlanarFace, Surface, SurfaceEdge, SurfaceFace};
pub use volumes::Volumes;

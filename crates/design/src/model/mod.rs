//! What a design and a shelf say, after reading: names resolved, units gone,
//! places kept.

mod brief;
mod carpentry;
mod circuit;
mod control;
mod driver;
mod electric;
mod enclosure;
mod finish;
mod panel_electric;
mod passive;
mod power;
mod shelf;
mod usual;
mod wiring;

pub use brief::*;
pub use carpentry::*;
pub use circuit::*;
pub use control::*;
pub use driver::*;
pub use electric::*;
pub use enclosure::*;
pub use finish::*;
pub use panel_electric::*;
pub use passive::*;
pub use power::*;
pub use shelf::*;
pub use usual::*;
pub use wiring::*;

use crate::Place;

/// Text with the place where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// The text itself.
    pub text: String,
    /// Where it is written.
    pub place: Place,
}

/// A word chosen from a fixed list, with its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choice<T> {
    /// What was chosen.
    pub value: T,
    /// Where it is written; `None` when the default was taken.
    pub place: Option<Place>,
}

impl<T> Choice<T> {
    /// The default, taken because nothing was written.
    #[must_use]
    pub const fn unsaid(value: T) -> Self {
        Self { value, place: None }
    }
}

/// A design and the shelf it was read with.
#[derive(Clone, Debug, PartialEq)]
pub struct Project {
    /// What the maker wants and has.
    pub design: Design,
    /// Every part known, built-in and the maker's own.
    pub shelf: Shelf,
}

/// What the maker wants and has.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    /// Name of the design.
    pub name: Text,
    /// Revision for the title block.
    pub revision: Option<u32>,
    /// What the box must do.
    pub brief: Brief,
    /// Where it stands when played.
    pub place: PlayPlace,
    /// Groups of equal drivers.
    pub drivers: Vec<DriverUse>,
    /// The amplifier board.
    pub amplifier: AmplifierUse,
    /// What feeds the amplifier its signal.
    pub source: SourceUse,
    /// The battery.
    pub battery: BatteryUse,
    /// The box.
    pub enclosure: Enclosure,
    /// Other things that take up air.
    pub inside: Vec<Thing>,
    /// The control panel.
    pub control: Option<Control>,
    /// Boards across the box that stiffen it.
    pub braces: Vec<Brace>,
    /// Strips along inner edges.
    pub cleats: Vec<Cleat>,
    /// The battery's own bay, where its boards are drawn up.
    pub bay: Option<Bay>,
    /// The handle.
    pub handle: Option<Handle>,
    /// The feet.
    pub feet: Option<Feet>,
    /// The grille frame.
    pub grille: Option<Grille>,
    /// The saw.
    pub saw: Saw,
    /// The glue.
    pub glue: Glue,
    /// Electrical parts inside the box, beside amplifier and battery.
    pub modules: Vec<ModuleUse>,
    /// What is said of the wires.
    pub wiring: WiringPlan,
    /// The low-battery indicator.
    pub indicator: Option<IndicatorUse>,
    /// What goes on the wood, in order.
    pub finishes: Vec<FinishUse>,
    /// The instruments to test with.
    pub workshop: Workshop,
}

impl Design {
    /// The fuses named in the design, those of the panel first.
    pub fn fuses(&self) -> impl Iterator<Item = &(FusePart, Place)> {
        let panel = self.control.iter().flat_map(|control| &control.parts);
        let panel = panel.filter_map(|used| used.fuse.as_ref());
        panel.chain(self.modules.iter().filter_map(|used| used.fuse.as_ref()))
    }
}

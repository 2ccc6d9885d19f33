//! What in the design wants a hole or a board.

use super::super::model::Origin;
use design::{Design, EnclosureKind, Place};
use wood::{Board, BoardKind};

/// What wants a hole or a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Source {
    /// A driver: group and index in it.
    Driver(usize, usize),
    /// A passive radiator.
    Radiator(usize),
    /// A vent.
    Vent(usize),
    /// The handle.
    Handle,
    /// The feet.
    Feet,
    /// The battery's bay.
    Bay,
    /// The control panel.
    Control,
    /// A brace.
    Brace(usize),
    /// A cleat.
    Cleat(usize),
    /// The divider between chambers.
    Divider,
    /// The screws of the wall that comes off.
    Closing,
}

impl Source {
    /// Of the boards of a plan, which come in the order of the design.
    pub(super) fn of_boards(boards: &[Board]) -> Vec<Self> {
        let (mut braces, mut cleats) = (0, 0);
        let next = |count: &mut usize| {
            *count += 1;
            *count - 1
        };
        boards
            .iter()
            .map(|board| match board.kind {
                BoardKind::Brace => Self::Brace(next(&mut braces)),
                BoardKind::Cleat => Self::Cleat(next(&mut cleats)),
                BoardKind::Divider => Self::Divider,
                BoardKind::BayWall => Self::Bay,
                BoardKind::RecessWall => Self::Control,
            })
            .collect()
    }

    /// Where the design speaks of it.
    pub(crate) fn origin(self, design: &Design) -> Origin {
        let enclosure = &design.enclosure;
        let (place, table, index) = match self {
            Self::Driver(group, index) => (
                Some(design.drivers[group].place),
                format!("drivers.{}", group + 1),
                index,
            ),
            Self::Radiator(index) => (kind_place(design), "box.radiator".into(), index),
            Self::Vent(index) => (kind_place(design), "box.vent".into(), index),
            Self::Handle => (
                design.handle.as_ref().map(|said| said.place),
                "handle".into(),
                0,
            ),
            Self::Feet => (
                design.feet.as_ref().map(|said| said.place),
                "feet".into(),
                0,
            ),
            Self::Bay => (design.bay.as_ref().map(|said| said.place), "bay".into(), 0),
            Self::Control => (
                design.control.as_ref().map(|said| said.place),
                "control".into(),
                0,
            ),
            Self::Brace(index) => (
                Some(design.braces[index].place),
                format!("brace.{}", index + 1),
                0,
            ),
            Self::Cleat(index) => (
                Some(design.cleats[index].place),
                format!("cleat.{}", index + 1),
                0,
            ),
            Self::Divider => (enclosure.chambers.place, "box".into(), 0),
            Self::Closing => (enclosure.carpentry.last_with.place, "box".into(), 0),
        };
        Origin {
            place,
            table,
            index,
        }
    }
}

fn kind_place(design: &Design) -> Option<Place> {
    match &design.enclosure.kind {
        EnclosureKind::Sealed => None,
        EnclosureKind::Vented(vent) => Some(vent.place),
        EnclosureKind::PassiveRadiator(used) => Some(used.place),
    }
}

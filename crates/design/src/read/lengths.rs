//! Several lengths in one text: sizes, sections, and places.

use super::fields::{Element, Fields};
use super::values::{Bounds, checked, unreadable};
use crate::diagnostic::Log;
use crate::fault::{Lengths, Wanted};
use crate::quantity::{self, Dimension};
use crate::{OnWall, Place, Size, Value};

/// Edges of boxes, parts and things: from a tenth of a millimetre to five metres.
const EDGE: Bounds = Bounds::Within(1e-4, 5.0);
/// Distances from an edge or a wall.
const DISTANCE: Bounds = Bounds::Within(0.0, 5.0);

impl Fields<'_> {
    /// Width × height × depth.
    pub(crate) fn size(&self, key: &'static str, log: &mut Log) -> Option<Size> {
        let ([width, height, depth], place) = self.lengths(key, Lengths::Block, EDGE, log)?;
        Some(Size {
            width,
            height,
            depth,
            place,
        })
    }

    /// The same where it must be there.
    pub(crate) fn need_size(&self, key: &'static str, log: &mut Log) -> Option<Size> {
        self.need_lengths(key, Lengths::Block, log);
        self.size(key, log)
    }

    /// Two lengths that make a shape.
    pub(crate) fn two(&self, key: &'static str, of: Lengths, log: &mut Log) -> Option<[Value; 2]> {
        self.lengths(key, of, EDGE, log).map(|(values, _)| values)
    }

    /// The same where they must be there.
    pub(crate) fn need_two(
        &self,
        key: &'static str,
        of: Lengths,
        log: &mut Log,
    ) -> Option<[Value; 2]> {
        self.need_lengths(key, of, log);
        self.two(key, of, log)
    }

    /// A place on a wall or a panel.
    pub(crate) fn position(&self, key: &'static str, log: &mut Log) -> Option<OnWall> {
        let element = self.entry(key)?.element();
        on_wall(&element, key, log)
    }

    /// The same where it must be there.
    pub(crate) fn need_position(&self, key: &'static str, log: &mut Log) -> Option<OnWall> {
        self.need_lengths(key, Lengths::Position, log);
        self.position(key, log)
    }

    /// Places on a wall, in a list or a single one: none where the key is
    /// absent, nothing where one of them cannot be read.
    pub(crate) fn positions(&self, key: &'static str, log: &mut Log) -> Option<Vec<OnWall>> {
        let elements = self.entry(key).map_or_else(Vec::new, |e| e.elements());
        let read: Vec<Option<OnWall>> = elements
            .iter()
            .map(|element| on_wall(element, key, log))
            .collect();
        read.into_iter().collect()
    }

    /// A place inside the box.
    pub(crate) fn corner(&self, key: &'static str, log: &mut Log) -> Option<[Value; 3]> {
        self.lengths(key, Lengths::Corner, DISTANCE, log)
            .map(|(values, _)| values)
    }

    /// The same where it must be there.
    pub(crate) fn need_corner(&self, key: &'static str, log: &mut Log) -> Option<[Value; 3]> {
        self.need_lengths(key, Lengths::Corner, log);
        self.corner(key, log)
    }

    fn need_lengths(&self, key: &'static str, of: Lengths, log: &mut Log) {
        if self.entry(key).is_none() {
            let example = crate::say::example(key, Wanted::Lengths(of));
            self.missing(key, example, log);
        }
    }

    fn lengths<const N: usize>(
        &self,
        key: &'static str,
        of: Lengths,
        bounds: Bounds,
        log: &mut Log,
    ) -> Option<([Value; N], Place)> {
        let element = self.entry(key)?.element();
        let values = several(&element, key, of, bounds, log)?;
        Some((values, element.place()))
    }
}

fn on_wall(element: &Element<'_>, key: &str, log: &mut Log) -> Option<OnWall> {
    let [across, up] = several(element, key, Lengths::Position, DISTANCE, log)?;
    Some(OnWall {
        across,
        up,
        place: element.place(),
    })
}

/// So many lengths in one text.
fn several<const N: usize>(
    element: &Element<'_>,
    key: &str,
    of: Lengths,
    bounds: Bounds,
    log: &mut Log,
) -> Option<[Value; N]> {
    let wanted = Wanted::Lengths(of);
    let text = element.physical_text(key, wanted, log)?;
    let edges = quantity::edges(text, of.count())
        .map_err(|trouble| unreadable(element, key, text, trouble, wanted, log))
        .ok()?;
    let mut values = Vec::with_capacity(N);
    for edge in edges {
        let value = Value {
            si: edge.si,
            tolerance: edge.tolerance,
            place: element.inner_place(text, edge.range),
        };
        values.push(checked(key, value, Dimension::Length, bounds, log));
    }
    let values: Vec<Value> = values.into_iter().collect::<Option<_>>()?;
    values.try_into().ok()
}

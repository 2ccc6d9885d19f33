//! Other things that take up air.

use super::fields::Fields;
use super::placement::{has_no_outline, placement};
use super::values::Bounds::{NotNegative, Positive};
use crate::diagnostic::Log;
use crate::fault::{DesignFault, Lengths};
use crate::quantity::Dimension;
use crate::{Shape, Thing};

/// Most equal things in one box.
const MOST_THINGS: u32 = 1000;

/// The keys that give a shape.
const SHAPES: [&str; 3] = ["block", "cylinder", "volume"];

pub(crate) fn things(top: &Fields<'_>, log: &mut Log) -> Vec<Thing> {
    let layers = top.layers("inside", log);
    layers
        .into_iter()
        .filter_map(|layer| thing(Fields::new("[[inside]]", layer, None), log))
        .collect()
}

fn thing(fields: Fields<'_>, log: &mut Log) -> Option<Thing> {
    let name = fields.need_text("name", "\"brace\"", log);
    let shape = shape(&fields, log);
    let count = fields.count("count", 1, MOST_THINGS, log).unwrap_or(1);
    let weight = fields.value("weight", Dimension::Mass, NotNegative, log);
    let price = fields.money("price", log);
    let placement = placement(&fields, log);
    if matches!(shape, Some(Shape::Volume(_))) {
        has_no_outline(&fields, log);
    }
    fields.finish(log);
    Some(Thing {
        name: name?,
        shape: shape?,
        count,
        weight,
        price,
        placement,
    })
}

fn shape(fields: &Fields<'_>, log: &mut Log) -> Option<Shape> {
    let block = fields.size("block", log).map(Shape::Block);
    let cylinder = fields
        .two("cylinder", Lengths::Cylinder, log)
        .map(|[diameter, length]| Shape::Cylinder { diameter, length });
    let volume = fields
        .value("volume", Dimension::Volume, Positive, log)
        .map(Shape::Volume);
    let mut said = SHAPES.into_iter().filter(|key| !fields.is_absent(key));
    match (said.next(), said.next()) {
        (None, _) => {
            if !fields.is_broken() {
                let fault = DesignFault::ShapeMissing {
                    keys: "`block`, `cylinder` or `volume`",
                    example: "`block = \"20 x 30 x 180 mm\"` or `volume = \"0.3 L\"`",
                };
                log.add(fault, fields.header());
            }
            None
        }
        (Some(first), Some(second)) => {
            let fault = DesignFault::ShapeTwice { first, second };
            log.add(fault, fields.place_of(second));
            None
        }
        _ => block.or(cylinder).or(volume),
    }
}

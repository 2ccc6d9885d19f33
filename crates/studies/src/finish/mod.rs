//! The finish: how much of it, in which order, and what stays bare.

mod area;
mod layers;
mod mask;
mod model;
mod sanding;
mod species;
mod wear;

#[cfg(test)]
mod tests;

pub use model::*;

pub(crate) use layers::{Trouble, troubles};
pub(crate) use species::{Takes, named, takes_colour};

use crate::carpentry::Carpentry;
use crate::subject::Subject;

/// What the finish of a design takes.
pub(crate) fn study(subject: &Subject, carpentry: &Carpentry) -> Finish {
    let design = &subject.project.design;
    let faces = area::faces(&carpentry.body);
    let woods = species::woods(design, &subject.enclosure.plan.sheets);
    let layers = layers::layers(design, &faces);
    Finish {
        sanding: sanding::steps(&layers, &woods),
        offcut: layers::offcut(&layers),
        masks: mask::list(design, carpentry),
        cautions: wear::cautions(&layers),
        woods,
        layers,
        faces,
    }
}

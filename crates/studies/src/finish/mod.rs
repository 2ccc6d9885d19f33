//! The finish: how much of it, in which order, and what stays bare.

mod area;
mod holds;
mod layers;
mod mask;
mod model;
mod offcut;
mod sanding;
mod sequence;
mod species;
mod wear;

#[cfg(test)]
mod tests;

pub use model::*;
pub use species::named;

pub(crate) use holds::{Trouble, shared, troubles};
pub(crate) use species::{Takes, takes_colour};

use crate::carpentry::Carpentry;
use crate::subject::Subject;

/// What the finish of a design takes.
pub(crate) fn study(subject: &Subject, carpentry: &Carpentry) -> Finish {
    let design = &subject.project.design;
    let faces = area::faces(&carpentry.body);
    let woods = woods(subject);
    let layers = layers::layers(design, &faces);
    let sanding = sanding::steps(&layers, &woods);
    let masks = match layers.is_empty() {
        true => Vec::new(),
        false => mask::list(subject, carpentry),
    };
    Finish {
        holds: holds::list(design),
        cans: layers::cans(design, &layers),
        offcut: offcut::words(&layers),
        offcut_wait: offcut::wait(&layers),
        schedule: Vec::new(),
        sequence: sequence::turns(design, &layers),
        air: wear::air(&layers),
        cautions: wear::cautions(&layers),
        wet_weight: layers::wet_weight(design, &layers).filter(|_| !layers.is_empty()),
        raw: wear::raw(design),
        sanding,
        masks,
        woods,
        layers,
        faces,
    }
}

/// What the walls are of, each sheet once.
pub(crate) fn woods(subject: &Subject) -> Vec<Wood> {
    species::woods(&subject.project.design, &subject.enclosure.plan.sheets)
}

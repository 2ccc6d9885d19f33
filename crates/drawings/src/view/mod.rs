//! Solids drawn as lines: parallel views, hidden lines taken out exactly,
//! surfaces painted from far to near, and sections.
//!
//! A [`Scene`] holds things made of plane facets with their edges. An [`Eye`]
//! says from where it is seen. [`Scene::seen`] takes from every edge the
//! stretches that lie behind facets nearer to the eye; no grid of points is
//! involved, so lines end exactly where one thing covers another.

mod chain;
mod cut;
mod draw;
mod eye;
mod flat;
mod hide;
mod paint;
mod scene;
mod solids;

pub(crate) use cut::hatch;
pub(crate) use draw::Place;
pub(crate) use eye::Eye;
pub(crate) use flat::{Flat, Side, side_of};
pub(crate) use scene::{Edge, Look, Scene};
pub(crate) use solids::ring;

#[cfg(test)]
mod tests;

//! What stands in the box, ready to be asked for gaps and free ways.

use super::gap::Placed;
use super::grove::Grove;
use super::motion::Mover;
use super::obstacles::Obstacles;
use super::opening::Opening;
use super::timber::{Wood, timber};
use crate::{Body, PanelId, Part, Wall};
use std::borrow::Cow;

/// The wood of a box and the parts in it, prepared once for many questions.
#[derive(Clone, Debug)]
pub struct Scene<'a> {
    pub(crate) body: &'a Body,
    pub(crate) parts: &'a [Part],
    pub(crate) woods: Cow<'a, [Wood]>,
    pub(crate) placed: Vec<Placed>,
}

impl<'a> Scene<'a> {
    /// Prepares a box and its parts.
    #[must_use]
    pub fn new(body: &'a Body, parts: &'a [Part]) -> Self {
        Self {
            body,
            parts,
            woods: Cow::Owned(timber(body)),
            placed: parts.iter().map(Placed::of).collect(),
        }
    }

    /// The same box with other parts.
    #[must_use]
    pub fn with<'b>(&'b self, parts: &'b [Part]) -> Scene<'b> {
        Scene::of_wood(self.body, parts, &self.woods)
    }

    /// The same with wood that was prepared already.
    pub(crate) fn of_wood(body: &'a Body, parts: &'a [Part], woods: &'a [Wood]) -> Self {
        Self {
            body,
            parts,
            woods: Cow::Borrowed(woods),
            placed: parts.iter().map(Placed::of).collect(),
        }
    }

    /// A part that is moved, and what it must not touch on its way. One that moves straight out
    /// of the wall it sits in passes its own hole.
    pub(crate) fn mover(&self, moving: usize, opening: &Opening, through_own: bool) -> Mover<'_> {
        let part = &self.parts[moving];
        let own = part.sits_in.filter(|_| through_own);
        Mover::new(
            &part.shape.solids,
            self.obstacles(Some(moving), opening, own),
        )
    }

    /// All wood but the panel that is off and a wall that does not count, and all parts but one
    /// and those taken out.
    pub(crate) fn obstacles(
        &self,
        without: Option<usize>,
        opening: &Opening,
        own: Option<Wall>,
    ) -> Obstacles<'_> {
        let off = |id: PanelId| {
            opening.hole.is_none() && id == opening.panel || own.is_some_and(|w| id == of(w))
        };
        let woods = self.woods.iter().filter(|wood| !off(wood.id));
        let woods = woods.map(|wood| &wood.rest).collect();
        self.with_parts(woods, without, &opening.taken_out)
    }

    /// All wood, and all parts but one and those taken out.
    pub(crate) fn all_but(&self, without: usize, taken_out: &[usize]) -> Obstacles<'_> {
        let woods = self.woods.iter().map(|wood| &wood.rest).collect();
        self.with_parts(woods, Some(without), taken_out)
    }

    fn with_parts<'b>(
        &'b self,
        woods: Vec<&'b Grove>,
        without: Option<usize>,
        taken_out: &[usize],
    ) -> Obstacles<'b> {
        let there = |i: &usize| Some(*i) != without && !taken_out.contains(i);
        let parts = (0..self.parts.len()).filter(there);
        Obstacles {
            woods,
            parts: parts.flat_map(|i| self.placed[i].solids.iter()).collect(),
        }
    }
}

fn of(wall: Wall) -> PanelId {
    PanelId::Wall(wall)
}

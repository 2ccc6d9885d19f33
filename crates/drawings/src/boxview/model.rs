//! The solid model of a design as a scene.

use crate::role::Role;
use crate::sheet::pen;
use crate::view::{Eye, Flat, Look, Scene};
use studies::carpentry::{Carpentry, PartKind, PlacedPart};
use wood::vector::Vector;
use wood::{PanelId, Solid};

/// A scene that remembers which thing is what.
pub(crate) struct Model {
    /// Everything.
    pub(crate) scene: Scene,
    /// The thing of every panel.
    pub(crate) panels: Vec<(PanelId, usize)>,
    /// The things of every part.
    pub(crate) parts: Vec<Vec<usize>>,
}

impl Model {
    /// Panels and parts in their places; of some panels only glass is left.
    pub(crate) fn new(carpentry: &Carpentry, glass: &[PanelId]) -> Self {
        let mut scene = Scene::default();
        let mut panels = Vec::new();
        for panel in &carpentry.body.panels {
            let (look, width) = if glass.contains(&panel.id) {
                (Look::Glass, pen::MEDIUM)
            } else {
                (Look::Wood, pen::MEDIUM)
            };
            let thing = scene.thing(look, width);
            scene.panel(thing, panel);
            panels.push((panel.id, thing));
        }
        let parts = carpentry.parts.iter().map(|p| add(&mut scene, p)).collect();
        Self {
            scene,
            panels,
            parts,
        }
    }

    /// The thing of a panel.
    pub(crate) fn panel(&self, id: PanelId) -> Option<usize> {
        let found = self.panels.iter().find(|(panel, _)| *panel == id);
        found.map(|(_, thing)| *thing)
    }

    /// Low and high corner around a part; `None` without solids.
    pub(crate) fn extent(&self, part: usize) -> Option<(Vector, Vector)> {
        let things = &self.parts[part];
        let own = self
            .scene
            .facets
            .iter()
            .filter(|f| things.contains(&f.thing));
        let mut points = own.flat_map(|f| f.loops.iter().flatten()).peekable();
        points.peek()?;
        let start = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
        Some(points.fold(start, |(low, high), p| {
            (
                core::array::from_fn(|i| low[i].min(p[i])),
                core::array::from_fn(|i| high[i].max(p[i])),
            )
        }))
    }

    /// Points of a part that nothing covers, a few of them, as seen.
    pub(crate) fn open_points(&self, part: usize, eye: &Eye) -> Vec<Flat> {
        const FEW: usize = 6;
        self.parts[part]
            .iter()
            .flat_map(|thing| self.scene.open_points(*thing, eye).into_iter().take(FEW))
            .collect()
    }
}

/// Adds a part; gives its things.
fn add(scene: &mut Scene, part: &PlacedPart) -> Vec<usize> {
    let role = match part.kind {
        PartKind::Battery => Role::Cell,
        PartKind::Board => Role::Board,
        PartKind::Foot | PartKind::Vent => Role::MetalDark,
        _ => Role::Metal,
    };
    let driver = matches!(part.kind, PartKind::Driver);
    let mut things: Vec<(Role, usize)> = Vec::new();
    for (i, solid) in part.part.shape.solids.iter().enumerate() {
        let own = if driver && i > 0 && is_cylinder(solid) {
            Role::MetalDark
        } else {
            role
        };
        let thing = match things.iter().find(|(r, _)| *r == own) {
            Some((_, thing)) => *thing,
            None => {
                let thing = scene.thing(Look::Plain(own), pen::THIN);
                things.push((own, thing));
                thing
            }
        };
        scene.solid(thing, solid, &part.part.pose);
    }
    things.into_iter().map(|(_, thing)| thing).collect()
}

/// A magnet is straight, a basket tapers.
fn is_cylinder(solid: &Solid) -> bool {
    matches!(solid, Solid::Frustum { from_radius, to_radius, .. }
        if (from_radius - to_radius).abs() < 1e-9)
}

//! Parts that sit in a wall: drivers, radiators, vents, and the control panel as a whole.

use super::ask::{Among, Ask, Way};
use super::{Site, goes_in, line, names};
use crate::carpentry::model::{AccessLine, PartKind, Passage, Stage};
use crate::carpentry::parts::openings;
use crate::carpentry::plan::wall;
use rayon::prelude::*;
use std::sync::Arc;
use wood::vector::{add, scale};
use wood::{Frame, Opening, PanelId, Part, Pose, Shape, Solid, Wall};

/// What the panel as a whole is called.
const PANEL: &str = "control panel, with its parts";

/// `loose` come out by themselves.
pub(super) fn lines(
    site: &Site<'_>,
    ask: &Ask<'_, '_>,
    closed: &[Opening],
    loose: &[usize],
) -> Vec<AccessLine> {
    let parts = site.parts.par_iter().enumerate();
    let mut lines: Vec<AccessLine> = parts
        .filter(|(_, part)| {
            matches!(
                part.kind,
                PartKind::Driver | PartKind::Radiator | PartKind::Vent
            )
        })
        .map(|(index, _)| in_hole(site, ask, closed, index))
        .collect();
    lines.extend(control_panel(site, ask, closed, loose));
    lines
}

/// Straight out of its own hole; what is bent inside through another opening.
fn in_hole(site: &Site<'_>, ask: &Ask<'_, '_>, closed: &[Opening], index: usize) -> AccessLine {
    let own = openings::own(site.body, site.parts, index);
    let through_own = own
        .as_ref()
        .map(|own| ask.way(index, core::slice::from_ref(own)));
    if let (Some(own), Some(way)) = (&own, &through_own)
        && way.passage == Passage::Out
    {
        let mut line = line(site, index, way, Some(own));
        line.through = Some("its own hole".into());
        line.first = names(site, own.taken_out.iter().copied());
        // It is held from outside while its screws are turned.
        line.hand_reaches = true;
        return line;
    }
    let way = ask.way(index, closed);
    let opening = way.through.map(|index| &closed[index]);
    let mut line = line(site, index, &way, opening);
    if opening.is_none() {
        line.goes_in = goes_in(site, ask, index);
    }
    line
}

/// The control panel with all that is on it: straight off its wall where it lies in it; where
/// it lies behind it, through another opening.
fn control_panel(
    site: &Site<'_>,
    ask: &Ask<'_, '_>,
    closed: &[Opening],
    loose: &[usize],
) -> Option<AccessLine> {
    let panel = Panel::new(site)?;
    if let Some(slack) = panel.drawn_off(ask) {
        let mut line = line(site, panel.own[0], &Way::straight(slack), None);
        let wall = crate::words::wall(panel.wall);
        line.label = PANEL.into();
        line.through = Some(format!("the {wall}, from outside"));
        return Some(line);
    }
    let others: Vec<Opening> = closed
        .iter()
        .filter(|opening| opening.hole.is_none() || opening.panel != PanelId::Wall(panel.wall))
        .map(|opening| panel.without(opening))
        .collect();
    let (way, before) = panel.way(ask, &others, loose);
    let opening = way.through.map(|index| &others[index]);
    let mut line = line(site, panel.own[0], &way, opening);
    line.label = PANEL.into();
    if let Some(opening) = opening {
        let own = opening.hole.map_or(&[][..], |_| &opening.taken_out);
        let own = own.iter().filter(|part| {
            let part = site.parts.get(**part);
            part.is_some_and(|part| part.kind != PartKind::Control)
        });
        line.first = names(site, own.chain(&before).copied());
    } else {
        let last = wall(site.design.enclosure.carpentry.last.value);
        let last = panel.without(&openings::whole(last, site.body, site.parts));
        let way = ask.among(&panel.all, panel.whole, core::slice::from_ref(&last));
        if way.passage == Passage::Out {
            line.goes_in = Stage::BeforeLast;
        }
    }
    Some(line)
}

/// The control panel as solids beside the other parts.
struct Panel {
    wall: Wall,
    /// Its parts, in the list of parts.
    own: Vec<usize>,
    /// All parts, and after them the plate, what is on it, and both together.
    all: Arc<Among>,
    plate: usize,
    bodies: usize,
    whole: usize,
}

impl Panel {
    fn new(site: &Site<'_>) -> Option<Self> {
        let seat = site.seat?;
        let parts = site.parts.iter().enumerate();
        let own = parts.filter(|(_, part)| part.kind == PartKind::Control);
        let own: Vec<usize> = own.map(|(index, _)| index).collect();
        if own.is_empty() {
            return None;
        }
        let block = site.body.plan.block.frame(seat.wall);
        let face = Frame {
            origin: add(block.origin, scale(block.out, -seat.below)),
            ..block
        };
        let half = seat.size.map(|side| side / 2.0);
        let plate = Solid::block([-half[0], 0.0, -half[1]], [half[0], seat.plate, half[1]]);
        let plate = in_place(&plate, &Pose::in_panel(&face, seat.at));
        let bodies: Vec<Solid> = own
            .iter()
            .map(|index| &site.solids[*index])
            .flat_map(|part| part.shape.solids.iter().map(|s| in_place(s, &part.pose)))
            .collect();
        let both = bodies.iter().cloned().chain([plate.clone()]).collect();
        let count = site.parts.len();
        let more = [vec![plate], bodies, both].map(|solids| Part {
            name: "control panel".into(),
            shape: Shape::of(solids),
            pose: Pose::at([0.0; 3]),
            sits_in: None,
        });
        Some(Self {
            wall: seat.wall,
            own,
            all: Among::of(site, site.solids.iter().cloned().chain(more).collect()),
            plate: count,
            bodies: count + 1,
            whole: count + 2,
        })
    }

    /// The smallest gap around what is on the plate as it is drawn off its wall, the plate
    /// sliding in its seat; `None` where that is not possible.
    fn drawn_off(&self, ask: &Ask<'_, '_>) -> Option<f64> {
        let alone = |moving: usize| {
            let more = [self.plate, self.bodies, self.whole];
            let out: Vec<usize> = self.own.iter().copied().chain(more).collect();
            ask.drawn_off(&self.all, moving, self.wall, &out)
        };
        alone(self.plate).and_then(|_| alone(self.bodies))
    }

    /// The way of the whole, and which of the parts that come out by themselves have to be out
    /// before.
    fn way(
        &self,
        ask: &Ask<'_, '_>,
        openings: &[Opening],
        loose: &[usize],
    ) -> (Arc<Way>, Vec<usize>) {
        let after = |out: &[usize]| {
            let mut openings = openings.to_vec();
            for opening in &mut openings {
                opening.taken_out.extend(out);
            }
            ask.among(&self.all, self.whole, &openings)
        };
        // A way that is not found with the loose parts out is not found with them in either.
        let way = after(loose);
        if way.passage != Passage::Out {
            return (way, Vec::new());
        }
        ask.with_fewest_out(way, loose.to_vec(), after)
    }

    /// An opening with nothing of the panel in the way of the whole.
    fn without(&self, opening: &Opening) -> Opening {
        let mut opening = opening.clone();
        opening.taken_out.extend(&self.own);
        opening.taken_out.extend([self.plate, self.bodies]);
        opening
    }
}

/// A solid of a part in the frame of the box.
fn in_place(solid: &Solid, pose: &Pose) -> Solid {
    match solid {
        Solid::Hull(points) => Solid::Hull(points.iter().map(|p| pose.point(*p)).collect()),
        Solid::Frustum {
            from,
            to,
            from_radius,
            to_radius,
        } => Solid::Frustum {
            from: pose.point(*from),
            to: pose.point(*to),
            from_radius: *from_radius,
            to_radius: *to_radius,
        },
    }
}

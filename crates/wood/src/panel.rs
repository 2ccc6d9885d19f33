//! One piece of wood.

use crate::math;
use crate::plan::{EdgeForm, Outline, Purpose, Wall};
use crate::polytope::{Polytope, TOUCH};
use crate::vector::{Vector, add, scale};

/// Which panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PanelId {
    /// A wall.
    Wall(Wall),
    /// A board, by its index in the plan.
    Board(usize),
}

/// One piece of wood.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// Which.
    pub id: PanelId,
    /// What it is called.
    pub name: String,
    /// Where its outer face lies.
    pub frame: Frame,
    /// Thickness in m.
    pub thickness: f64,
    /// Convex pieces that fill it without overlap, holes not taken off.
    pub pieces: Vec<Polytope>,
    /// Its edges, counter-clockwise from the lower one as seen from outside.
    pub edges: Vec<PanelEdge>,
    /// Its holes, in its own frame.
    pub holes: Vec<PanelHole>,
    /// Length and width of the blank it is cut from, in m, along and across the frame: the
    /// rectangle around it over all its long points.
    pub blank: [f64; 2],
}

/// The frame of a panel: its datum corner, where the left and the lower edge of the blank meet
/// as seen from outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// The datum corner, on the outer face.
    pub origin: Vector,
    /// To the right as seen from outside; of length 1.
    pub across: Vector,
    /// Upwards as seen from outside; of length 1.
    pub up: Vector,
    /// Out of the outer face; of length 1.
    pub out: Vector,
}

/// One edge of a panel.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelEdge {
    /// Ends on the outer face, in the frame of the panel, in m.
    pub outer: [[f64; 2]; 2],
    /// Ends on the inner face.
    pub inner: [[f64; 2]; 2],
    /// The wall it meets; `None` at a free edge.
    pub meets: Option<Wall>,
    /// Angle by which the saw is tilted out of square, in rad: positive where the inner
    /// face is the shorter.
    pub tilt: f64,
    /// A step along the inner face: its width and depth in m.
    pub step: Option<[f64; 2]>,
    /// What is done to the outer edge.
    pub form: Option<EdgeForm>,
}

/// A hole in the frame of its panel.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelHole {
    /// Its middle on the outer face, from the datum corner, in m.
    pub at: [f64; 2],
    /// Its form.
    pub outline: Outline,
    /// Depth of a pocket from the outer face in m; `None` through the panel.
    pub pocket: Option<f64>,
    /// What it is for; `None` for the window of a board.
    pub purpose: Option<Purpose>,
    /// What is written beside it.
    pub label: String,
}

impl PanelEdge {
    /// Angle in the plane of the board between the edge, on the outer face, and the nearer
    /// side of its blank, in rad.
    #[must_use]
    pub fn slant(&self) -> f64 {
        let [from, to] = self.outer;
        let [x, y] = [0, 1].map(|axis| (to[axis] - from[axis]).abs());
        math::atan2(x.min(y), x.max(y))
    }

    /// Its ends at a depth below the outer face of a panel so thick.
    pub(crate) fn at_depth(&self, thickness: f64, depth: f64) -> [[f64; 2]; 2] {
        if let Some([_, step]) = self.step {
            let below = depth > thickness - step + TOUCH;
            return if below { self.inner } else { self.outer };
        }
        let share = depth / thickness;
        [0, 1].map(|k| {
            let (outer, inner) = (self.outer[k], self.inner[k]);
            [0, 1].map(|axis| outer[axis] + share * (inner[axis] - outer[axis]))
        })
    }
}

impl Panel {
    /// Volume of the wood in m³, holes and windows taken off. Holes of walls count with
    /// their closed forms even where a fault says that they reach over an edge.
    #[must_use]
    pub fn volume(&self) -> f64 {
        self.solid_volume()
            - self
                .taken()
                .into_iter()
                .map(|(_, volume)| volume)
                .sum::<f64>()
    }

    /// Volume before holes and windows are cut, in m³.
    #[must_use]
    pub fn solid_volume(&self) -> f64 {
        self.pieces.iter().map(Polytope::volume).sum()
    }

    /// Centre of mass in the frame of the box, in m, the wood being alike throughout.
    #[must_use]
    pub fn centroid(&self) -> Vector {
        let solid = self
            .pieces
            .iter()
            .map(|piece| (piece.centroid(), piece.volume()));
        let (moment, volume) = solid
            .chain(
                self.taken()
                    .into_iter()
                    .map(|(middle, volume)| (middle, -volume)),
            )
            .fold(([0.0; 3], 0.0), |(moment, sum), (middle, volume)| {
                (add(moment, scale(middle, volume)), sum + volume)
            });
        scale(moment, 1.0 / volume)
    }

    /// Middle and volume of what holes and windows take.
    fn taken(&self) -> Vec<(Vector, f64)> {
        match self.id {
            PanelId::Wall(_) => self.hole_moments(),
            PanelId::Board(_) => self.window_moments(),
        }
    }

    /// Area of the outer face in m², holes and windows taken off, before its edges are rounded.
    #[must_use]
    pub fn net_area(&self) -> f64 {
        let open = self.holes.iter().zip(self.hole_depths());
        let open = open
            .filter(|(_, depths)| depths[0] == 0.0)
            .map(|(hole, _)| hole.outline.area());
        self.face_area(|edge| edge.outer) - open.sum::<f64>()
    }

    /// Area of a face between the ends of the edges on it.
    fn face_area(&self, ends: impl Fn(&PanelEdge) -> [[f64; 2]; 2]) -> f64 {
        let corners: Vec<[f64; 2]> = self.edges.iter().map(|edge| ends(edge)[0]).collect();
        let pairs = corners.iter().zip(corners.iter().cycle().skip(1));
        0.5 * pairs.map(|(a, b)| a[0] * b[1] - a[1] * b[0]).sum::<f64>()
    }

    /// Along and across over the long points, in m.
    #[must_use]
    pub const fn long(&self) -> [f64; 2] {
        self.blank
    }

    /// Along and across over the short points, in m: of the smaller of its two faces, steps
    /// not taken off.
    #[must_use]
    pub fn short(&self) -> [f64; 2] {
        let own = |edge: &PanelEdge| {
            if edge.step.is_some() {
                edge.outer
            } else {
                edge.inner
            }
        };
        let [outer, inner] = [self.span(|edge| edge.outer), self.span(own)];
        [outer[0].min(inner[0]), outer[1].min(inner[1])]
    }

    fn span(&self, ends: impl Fn(&PanelEdge) -> [[f64; 2]; 2]) -> [f64; 2] {
        [0, 1].map(|axis| {
            let at = self.edges.iter().flat_map(&ends).map(|end| end[axis]);
            let (low, high) = at.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), c| {
                (low.min(c), high.max(c))
            });
            high - low
        })
    }
}

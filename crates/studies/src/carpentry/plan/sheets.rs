//! Which sheet every wall and board is cut from, and how thick it really is.

use super::wall;
use crate::vary::{Causes, Draw, Uncertain, spreads};
use design::{Design, SheetPart};
use wood::{Board, BoardKind, Wall};

/// The sheets of a design: that of the walls first, each once.
#[derive(Clone, Debug)]
pub(crate) struct Sheets {
    /// Each kind of sheet with its thickness and density.
    kinds: Vec<Kind>,
    /// The kind of each wall.
    walls: [usize; 6],
    /// Thickness of a wall that was measured by itself.
    measured: [Option<Uncertain>; 6],
    braces: Vec<usize>,
    bay: usize,
    plate: Option<usize>,
}

#[derive(Clone, Debug)]
struct Kind {
    part: SheetPart,
    thickness: Uncertain,
    density: Option<Uncertain>,
}

/// Thickness of all that is sawn, of one build, in m.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Thicknesses {
    /// Of each wall.
    pub(crate) walls: [f64; 6],
    /// Of boards that name no sheet: that of the walls.
    pub(crate) main: f64,
    /// Of each brace.
    pub(crate) braces: Vec<f64>,
    /// Of the walls of the bay.
    pub(crate) bay: f64,
    /// Of the control panel; 0 without one.
    pub(crate) plate: f64,
}

impl Sheets {
    /// The sheet of the walls, whose causes come first.
    pub(crate) fn new(causes: &mut Causes, design: &Design) -> Self {
        let enclosure = &design.enclosure;
        let thickness = enclosure.thickness.unwrap_or(enclosure.wall.thickness);
        let main = Kind {
            part: enclosure.wall.clone(),
            thickness: causes.value(
                "box.thickness",
                "wall thickness",
                "m",
                &thickness,
                &spreads::THICKNESS,
            ),
            density: None,
        };
        Self {
            kinds: vec![main],
            walls: [0; 6],
            measured: [None; 6],
            braces: Vec::new(),
            bay: 0,
            plate: None,
        }
    }

    /// Everything that differs from the walls.
    pub(crate) fn complete(&mut self, causes: &mut Causes, design: &Design) {
        for own in &design.enclosure.carpentry.walls {
            let index = wall(own.side).index();
            if let Some((sheet, _)) = &own.sheet {
                self.walls[index] = self.kind(causes, sheet);
            }
            if let Some(thickness) = &own.thickness {
                let words = crate::words::wall(wall(own.side));
                self.measured[index] = Some(causes.value(
                    format!("wall.{words}.thickness"),
                    format!("thickness of the {words}"),
                    "m",
                    thickness,
                    &spreads::THICKNESS,
                ));
            }
        }
        for brace in &design.braces {
            let sheet = brace.sheet.as_ref().map(|(sheet, _)| sheet);
            let kind = sheet.map_or(0, |sheet| self.kind(causes, sheet));
            self.braces.push(kind);
        }
        let bay = design.bay.as_ref().and_then(|bay| bay.sheet.as_ref());
        if let Some((sheet, _)) = bay {
            self.bay = self.kind(causes, sheet);
        }
        if let Some(control) = &design.control {
            self.plate = Some(self.kind(causes, &control.plate));
        }
    }

    /// Densities, whose causes come with the other weights.
    pub(crate) fn weigh(&mut self, causes: &mut Causes) {
        for (index, kind) in self.kinds.iter_mut().enumerate() {
            let (id, words) = if index == 0 {
                ("sheet.density".into(), "density of the walls".into())
            } else {
                let name = &kind.part.common.name.text;
                (
                    format!("sheet.{}.density", index + 1),
                    format!("density of {name}"),
                )
            };
            let density = &kind.part.density;
            kind.density = Some(causes.value(id, words, "kg/m³", density, &spreads::DENSITY));
        }
    }

    fn kind(&mut self, causes: &mut Causes, sheet: &SheetPart) -> usize {
        let name = &sheet.common.name.text;
        let mut known = self.kinds.iter();
        if let Some(index) = known.position(|kind| kind.part.common.name.text == *name) {
            return index;
        }
        let index = self.kinds.len();
        let thickness = causes.value(
            format!("sheet.{}.thickness", index + 1),
            format!("thickness of {name}"),
            "m",
            &sheet.thickness,
            &spreads::THICKNESS,
        );
        self.kinds.push(Kind {
            part: sheet.clone(),
            thickness,
            density: None,
        });
        index
    }

    /// How thick everything is in one build.
    pub(crate) fn at(&self, draw: &Draw) -> Thicknesses {
        let of = |kind: usize| self.kinds[kind].thickness.at(draw);
        let mut walls = self.walls.map(of);
        for (thickness, own) in walls.iter_mut().zip(&self.measured) {
            if let Some(own) = own {
                *thickness = own.at(draw);
            }
        }
        Thicknesses {
            walls,
            main: of(0),
            braces: self.braces.iter().map(|kind| of(*kind)).collect(),
            bay: of(self.bay),
            plate: self.plate.map_or(0.0, of),
        }
    }

    /// How many kinds there are; the first is that of the walls.
    pub(crate) const fn count(&self) -> usize {
        self.kinds.len()
    }

    /// A kind of sheet.
    pub(crate) fn part(&self, kind: usize) -> &SheetPart {
        &self.kinds[kind].part
    }

    /// Density of a kind of sheet in one build, in kg/m³.
    pub(crate) fn density(&self, kind: usize, draw: &Draw) -> f64 {
        let kind = &self.kinds[kind];
        kind.density
            .map_or(kind.part.density.si, |density| density.at(draw))
    }

    /// The kind a wall is cut from.
    pub(crate) const fn of_wall(&self, wall: Wall) -> usize {
        self.walls[wall.index()]
    }

    /// The kind a board of a plan is cut from; braces come first among its boards.
    pub(crate) fn of_board(&self, boards: &[Board], board: usize) -> usize {
        match boards[board].kind {
            BoardKind::Brace => self.braces.get(board).copied().unwrap_or(0),
            BoardKind::BayWall => self.bay,
            BoardKind::Cleat | BoardKind::Divider | BoardKind::RecessWall => 0,
        }
    }

    /// The kind the control panel is cut from.
    pub(crate) const fn of_plate(&self) -> Option<usize> {
        self.plate
    }
}

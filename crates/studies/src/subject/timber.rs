//! The wood of one build in numbers: the light route, for thousands of builds.

use super::AirLine;
use crate::carpentry::{Hull, PlanSubject, Sheets, Thicknesses};
use crate::vary::Draw;
use wood::{BoardKind, Plan, Volumes, Wall};

/// The wood of one build.
pub(super) struct Timber {
    pub(super) hull: Hull,
    pub(super) thick: Thicknesses,
    plan: Plan,
    /// Volume between the walls in m³.
    pub(super) room: f64,
    walls: [f64; 6],
    boards: Vec<f64>,
    /// Air within a bay and within a boxed recess, in m³.
    rooms: [f64; 2],
    /// Volume of the plate of the control panel in m³.
    plate: f64,
}

impl Timber {
    pub(super) fn of(subject: &PlanSubject, draw: &Draw) -> Self {
        let thick = subject.sheets.at(draw);
        let hull = subject.hull_of(draw, &thick);
        let plan = subject.plan(&hull, &thick);
        let volumes = Volumes::of(&plan);
        let walls = Wall::ALL.map(|wall| volumes.walls[wall.index()] - volumes.holes[wall.index()]);
        Self {
            // Volumes of a box without an inside mean nothing.
            room: if hull.has_inside() { volumes.room } else { 0.0 },
            walls,
            boards: volumes.boards,
            rooms: subject.rooms(&hull, &thick),
            plate: subject
                .seat(&hull, &thick)
                .map_or(0.0, |seat| seat.plate_volume()),
            hull,
            thick,
            plan,
        }
    }

    /// Wood of walls and boards in m³, holes taken off.
    pub(super) fn volume(&self) -> f64 {
        self.walls.iter().sum::<f64>() + self.boards.iter().sum::<f64>()
    }

    /// Weight in kg of walls, of boards inside, and of the plate of the control panel.
    pub(super) fn weights(&self, sheets: &Sheets, draw: &Draw) -> [f64; 3] {
        let walls = Wall::ALL.into_iter().zip(self.walls);
        let walls: f64 = walls
            .map(|(wall, volume)| volume * sheets.density(sheets.of_wall(wall), draw))
            .sum();
        let boards: f64 = self
            .boards
            .iter()
            .enumerate()
            .map(|(index, volume)| volume * sheets.density(self.kind_of(sheets, index), draw))
            .sum();
        let plate = sheets
            .of_plate()
            .map_or(0.0, |kind| self.plate * sheets.density(kind, draw));
        [walls, boards, plate]
    }

    /// The kind of sheet a board is cut from.
    fn kind_of(&self, sheets: &Sheets, board: usize) -> usize {
        sheets.of_board(&self.plan.boards, board)
    }

    /// Boards by what they are, with the air they take up.
    fn of_kind(&self, kind: BoardKind) -> f64 {
        let boards = self.plan.boards.iter().zip(&self.boards);
        boards
            .filter(|(board, _)| board.kind == kind)
            .map(|(_, volume)| volume)
            .sum()
    }

    /// Air taken up by boards, and by the rooms they wall off, in m³.
    pub(super) fn taken(&self) -> f64 {
        self.lines().into_iter().map(|(_, volume)| volume).sum()
    }

    fn lines(&self) -> [(&'static str, f64); 5] {
        [
            ("braces", self.of_kind(BoardKind::Brace)),
            ("cleats", self.of_kind(BoardKind::Cleat)),
            ("dividing panel", self.of_kind(BoardKind::Divider)),
            (
                "battery bay with its walls",
                self.of_kind(BoardKind::BayWall) + self.rooms[0],
            ),
            (
                "control panel recess",
                self.of_kind(BoardKind::RecessWall) + self.rooms[1],
            ),
        ]
    }

    /// The same as lines of the account.
    pub(super) fn ledger(&self) -> impl Iterator<Item = AirLine> {
        self.lines().into_iter().map(|(label, volume)| AirLine {
            label: label.into(),
            volume,
        })
    }
}

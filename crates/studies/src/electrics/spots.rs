//! Where electrical parts sit in the box.

use super::model::ElectricPart;
use super::route::{Obstacle, Space};
use crate::carpentry::{Carpentry, PartKind};
use wiring::{Kind, System};
use wood::vector::{Vector, add, scale};

/// The space for wires, from the box and what stands in it.
pub(super) fn space(carpentry: &Carpentry, inside: (Vector, Vector)) -> Space {
    let solid = [
        PartKind::Battery,
        PartKind::Driver,
        PartKind::Radiator,
        PartKind::Vent,
        PartKind::Other,
        PartKind::Board,
    ];
    let parts = carpentry.parts.iter();
    let standing = parts.filter(|part| solid.contains(&part.kind));
    Space {
        low: inside.0,
        high: inside.1,
        blocks: standing
            .map(|part| part.part.shape.bounds(&part.part.pose))
            .collect(),
        boards: carpentry
            .body
            .plan
            .boards
            .iter()
            .map(|board| {
                let windows = board.windows.iter().map(|own| [own.low, own.high]);
                Obstacle::new((board.low, board.high), board.across, windows)
            })
            .collect(),
    }
}

/// How far beside its neighbour a part sits that is placed nowhere, in m.
const BESIDE: f64 = 0.03;

/// Gives every part its place: those of the list of parts where they stand, the others
/// beside what they belong to.
pub(super) fn place(
    system: &System,
    parts: &mut [ElectricPart],
    carpentry: &Carpentry,
    (low, high): (Vector, Vector),
) {
    let mut taken = vec![false; carpentry.parts.len()];
    for (index, part) in parts.iter_mut().enumerate() {
        let table = part.table.as_str();
        let mut placed = carpentry.parts.iter().enumerate();
        let own = placed
            .find(|(other, placed)| !taken[*other] && !table.is_empty() && placed.table == table);
        let Some((other, placed)) = own else {
            continue;
        };
        if system.parts[index].kind == Kind::Plate {
            continue;
        }
        taken[other] = true;
        let (from, to) = placed.part.shape.bounds(&placed.part.pose);
        let middle = scale(add(from, to), 0.5);
        part.at = core::array::from_fn(|axis| middle[axis].clamp(low[axis], high[axis]));
        part.placed = Some(other);
    }
    let middle = scale(add(low, high), 0.5);
    let spot = |parts: &[ElectricPart], kind: Kind| {
        let found = (0..parts.len())
            .find(|index| system.parts[*index].kind == kind && parts[*index].placed.is_some());
        found.map(|index| parts[index].at)
    };
    let board = spot(parts, Kind::Amplifier).unwrap_or(middle);
    let battery = spot(parts, Kind::Battery).unwrap_or(middle);
    let panel = panel(parts).unwrap_or([middle[0], high[1], middle[2]]);
    let mut beside = 0.0;
    for (own, part) in system.parts.iter().zip(parts.iter_mut()) {
        if part.placed.is_some() {
            continue;
        }
        let kind = own.kind;
        let near = match kind {
            Kind::Battery | Kind::Fuse => battery,
            Kind::Switch | Kind::ChargeSocket | Kind::Jack | Kind::Potentiometer => panel,
            Kind::Light | Kind::Meter | Kind::Plate | Kind::Post => panel,
            Kind::Resistor if own.name == "light resistor" => panel,
            _ => board,
        };
        let step = match kind {
            Kind::Amplifier | Kind::Battery | Kind::Plate => 0.0,
            _ => {
                beside += 1.0;
                BESIDE * (1.0 + beside % 3.0)
            }
        };
        let moved = [near[0] + step, near[1], near[2]];
        part.at = core::array::from_fn(|axis| moved[axis].clamp(low[axis], high[axis]));
    }
}

/// Middle of the parts that sit in the control panel.
fn panel(parts: &[ElectricPart]) -> Option<Vector> {
    let own = parts
        .iter()
        .filter(|part| part.placed.is_some() && part.table.starts_with("control.part."));
    let spots: Vec<Vector> = own.map(|part| part.at).collect();
    let count = spots.len() as f64;
    let sum = spots.into_iter().reduce(add)?;
    Some(scale(sum, 1.0 / count))
}

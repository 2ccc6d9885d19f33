//! Every wall that wires end at, seen from inside.

use super::list::{cut, shown};
use crate::boxview::{Fixed, Run, WireEnd, height_wanted, home, inside, wall_scale};
use crate::geometry::Rect;
use crate::layout::content_area;
use crate::pack::Page;
use crate::paper::Paper;
use crate::schematic::stroke_of;
use crate::sheet::Drawing;
use studies::carpentry::Carpentry;
use studies::electrics::{Electrics, colour};
use wiring::Carries;
use wood::Wall;

/// Between two walls on a sheet, mm.
const GAP: f64 = 6.0;
/// A wall gets a sheet of its own where it would shrink more than this for sharing one.
const SHRUNK: f64 = 1.3;
const NOTE: &str = "Terminals of a part are drawn side by side about its middle: which is which \
     stands on the part. Wires that run together are drawn apart. A ring: the wire goes on along \
     another wall or through the air.";

pub(super) fn pages(electrics: &Electrics, carpentry: &Carpentry, paper: Paper) -> Vec<Page> {
    let area = content_area(paper);
    let half = Rect {
        h: (area.h - GAP) / 2.0,
        ..area
    };
    let parts = fixed(electrics);
    let homes: Vec<Wall> = parts.iter().map(|p| home(carpentry, p)).collect();
    let runs: Vec<Run> = cut(electrics)
        .map(|wire| Run {
            label: wire.label.clone(),
            corners: wire.run.clone(),
            stroke: stroke_of(wire.colour),
        })
        .collect();
    let mut sheets: Vec<(Vec<Wall>, Drawing, f64)> = Vec::new();
    for wall in Wall::ALL {
        let own = parts.iter().zip(&homes).filter(|(_, home)| **home == wall);
        let own: Vec<&Fixed> = own.map(|(part, _)| part).collect();
        if own.is_empty() {
            continue;
        }
        let panel = carpentry.body.wall(wall);
        let small = wall_scale(panel, &own, half);
        let shares = small <= SHRUNK * wall_scale(panel, &own, area)
            && height_wanted(panel, small, &own, half.w) <= half.h;
        let room = if shares { half } else { area };
        let fits = |(_, _, used): &&mut (_, _, f64)| used + GAP + room.h <= area.h + 1e-9;
        if let Some((walls, drawing, used)) = sheets.last_mut().filter(|s| fits(s)) {
            let below = Rect {
                y: area.y + *used + GAP,
                ..room
            };
            drawing.append(inside(carpentry, wall, &own, &runs, below));
            walls.push(wall);
            *used += GAP + room.h;
        } else {
            let drawing = inside(carpentry, wall, &own, &runs, room);
            sheets.push((vec![wall], drawing, room.h));
        }
    }
    let pages = sheets.into_iter().map(|(walls, drawing, _)| {
        let names: Vec<&str> = walls.into_iter().map(studies::words::wall).collect();
        let title = format!("Wires on the walls: {}", names.join(" and "));
        Page {
            scale: "as said at each".to_owned(),
            ..Page::new(title, drawing)
        }
        .noted(NOTE)
    });
    pages.collect()
}

/// The parts with the ends of wires at each.
fn fixed(electrics: &Electrics) -> Vec<Fixed> {
    let parts = electrics.parts.iter().zip(&electrics.system.parts);
    let mut out: Vec<Fixed> = parts
        .map(|(made, part)| Fixed {
            name: part.name.clone(),
            at: made.at,
            placed: made.placed,
            ends: Vec::new(),
        })
        .collect();
    let wires = electrics.system.wires.iter().zip(&electrics.harness);
    let lying = wires.filter(|(_, made)| made.carries != Carries::Touch);
    for (run, (joined, made)) in lying.enumerate() {
        let ends = [
            (joined.from, &made.from, &made.to),
            (joined.to, &made.to, &made.from),
        ];
        for (place, (end, here, there)) in ends.into_iter().enumerate() {
            let letters = colour::letters(made.colour);
            let label = format!("{} {letters}", made.label);
            let words = format!("{label}: {} to {}", shown(here), shown(there));
            out[end.part].ends.push(WireEnd {
                run,
                last: place == 1,
                terminal: end.terminal,
                label,
                words,
            });
        }
    }
    out.retain(|part| !part.ends.is_empty());
    out
}

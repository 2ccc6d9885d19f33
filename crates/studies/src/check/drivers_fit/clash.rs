//! Frames that overlap or reach over the edge of their wall.

use super::super::timber::{listed, mm};
use super::walls::Faces;
use crate::carpentry::Opening;
use physics::math::hypot;

/// What counts as touching, in m.
const TOUCHES: f64 = 1e-6;

/// Two frames that overlap, or one that reaches over the edge of its wall.
pub(super) struct Clash {
    pub(super) first: usize,
    pub(super) second: Option<usize>,
    /// By how much, in m.
    pub(super) by: f64,
    /// How the first, or the second of two, is to be moved, in m.
    pub(super) shift: [f64; 2],
}

impl Clash {
    pub(super) fn ends(&self) -> impl Iterator<Item = usize> + use<> {
        [Some(self.first), self.second].into_iter().flatten()
    }
}

pub(super) fn clashes(openings: &[Opening], faces: &Faces) -> Vec<Clash> {
    let mut found = Vec::new();
    for (index, opening) in openings.iter().enumerate() {
        let [low, high] = faces[opening.wall.index()];
        let radius = opening.diameter / 2.0;
        let shift = [0, 1].map(|axis| {
            let under = (low[axis] - (opening.at[axis] - radius)).max(0.0);
            let over = (opening.at[axis] + radius - high[axis]).max(0.0);
            under - over
        });
        let by = shift[0].abs().max(shift[1].abs());
        if by > TOUCHES {
            found.push(Clash {
                first: index,
                second: None,
                by,
                shift,
            });
        }
        for (earlier, other) in openings[..index].iter().enumerate() {
            let way = [0, 1].map(|axis| opening.at[axis] - other.at[axis]);
            let apart = hypot(way[0], way[1]);
            let by = radius + other.diameter / 2.0 - apart;
            if other.wall == opening.wall && by > TOUCHES {
                let unit = if apart > 0.0 {
                    way.map(|part| part / apart)
                } else {
                    [1.0, 0.0]
                };
                found.push(Clash {
                    first: earlier,
                    second: Some(index),
                    by,
                    shift: unit.map(|part| part * by),
                });
            }
        }
    }
    found
}

/// Over which edges a frame reaches and how far: "29 mm over the upper edge".
pub(super) fn edges(clash: &Clash) -> String {
    let words = [["left", "right"], ["lower", "upper"]];
    let reaching = clash
        .shift
        .iter()
        .zip(words)
        .filter(|(by, _)| by.abs() > TOUCHES);
    let clauses = reaching.map(|(by, [low, high])| {
        let edge = if *by > 0.0 { low } else { high };
        format!("{} over the {edge} edge", mm(by.abs()))
    });
    listed(&clauses.collect::<Vec<_>>())
}

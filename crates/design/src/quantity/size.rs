//! Sizes: `380 x 220 x 220 mm`.

use super::Dimension;
use super::nominal::Nominal;
use super::parse::{self, Piece};
use super::trouble::{BadNumber, Trouble};
use crate::value::Tolerance;
use std::ops::Range;

/// One side of a size: metres, tolerance, and the bytes it stands on.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Edge {
    pub(crate) si: f64,
    pub(crate) tolerance: Tolerance,
    pub(crate) range: Range<usize>,
}

/// Reads `wanted` lengths parted by ×. A unit behind the last one serves those
/// that have none of their own; a tolerance or "about" holds for each.
pub(crate) fn edges(text: &str, wanted: usize) -> Result<Vec<Edge>, Trouble> {
    let split = parse::split(text)?;
    let pieces = cut(split.nominal);
    if pieces.len() != wanted {
        return Err(split.nominal.trouble(BadNumber::SizeCount {
            wanted,
            found: pieces.len(),
        }));
    }
    let shared = match pieces.last() {
        Some(last) => parse::nominal(*last, Dimension::Length, None)?.unit,
        None => None,
    };
    let mut edges = Vec::with_capacity(wanted);
    for piece in pieces {
        let nominal = parse::nominal(piece, Dimension::Length, shared)?;
        edges.push(Edge {
            si: nominal.si(),
            tolerance: shared_tolerance(&split, &nominal)?,
            range: piece.range(),
        });
    }
    Ok(edges)
}

fn shared_tolerance(split: &parse::Split<'_>, nominal: &Nominal) -> Result<Tolerance, Trouble> {
    if split.about {
        return Ok(Tolerance::About);
    }
    match split.tolerance {
        None => Ok(Tolerance::Unstated),
        Some(piece) => parse::tolerance(piece, Dimension::Length, nominal).map(Tolerance::Within),
    }
}

pub(crate) fn cut(piece: Piece<'_>) -> Vec<Piece<'_>> {
    let mut pieces = Vec::new();
    let mut from = 0;
    for (at, mark) in piece.text.match_indices(['x', 'X', '×', '*']) {
        pieces.push(piece.part(from..at));
        from = at + mark.len();
    }
    pieces.push(piece.from(from));
    pieces
}

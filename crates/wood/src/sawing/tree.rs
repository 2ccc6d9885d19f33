//! How a rectangle is divided by cuts from edge to edge.

use super::job::{Job, Shape, Um};

/// What a rectangle is divided into. It takes as much room as it needs; what
/// its rectangle offers beyond that is cut off.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Tree {
    /// A blank or a run of this kind.
    Piece { kind: usize, turned: bool },
    /// Room kept free.
    Rest(Shape),
    /// Side by side along the length, parted by cuts across.
    Beside(Vec<Tree>),
    /// One above the other, parted by cuts along the length.
    Stacked(Vec<Tree>),
}

impl Tree {
    pub(super) fn beside(first: Self, second: Self) -> Self {
        Self::Beside(joined(first, second, |tree| match tree {
            Self::Beside(parts) => Ok(parts),
            other => Err(other),
        }))
    }

    pub(super) fn stacked(first: Self, second: Self) -> Self {
        Self::Stacked(joined(first, second, |tree| match tree {
            Self::Stacked(parts) => Ok(parts),
            other => Err(other),
        }))
    }

    /// The room it needs.
    pub(super) fn shape(&self, job: &Job) -> Shape {
        let sum = |parts: &[Self], extent: fn(Shape) -> Um| -> Um {
            parts.iter().map(|part| extent(part.shape(job))).sum()
        };
        let most = |parts: &[Self], extent: fn(Shape) -> Um| -> Um {
            let extents = parts.iter().map(|part| extent(part.shape(job)));
            extents.max().unwrap_or(0)
        };
        match self {
            Self::Piece { kind, turned } => {
                let shape = job.kinds[*kind].shape;
                if *turned {
                    Shape {
                        length: shape.width,
                        width: shape.length,
                    }
                } else {
                    shape
                }
            }
            Self::Rest(shape) => *shape,
            Self::Beside(parts) => Shape {
                length: sum(parts, |shape| shape.length),
                width: most(parts, |shape| shape.width),
            },
            Self::Stacked(parts) => Shape {
                length: most(parts, |shape| shape.length),
                width: sum(parts, |shape| shape.width),
            },
        }
    }

    /// Kinds of all its pieces.
    pub(super) fn kinds(&self, found: &mut Vec<usize>) {
        match self {
            Self::Piece { kind, .. } => found.push(*kind),
            Self::Rest(_) => {}
            Self::Beside(parts) | Self::Stacked(parts) => {
                for part in parts {
                    part.kinds(found);
                }
            }
        }
    }
}

fn joined(first: Tree, second: Tree, open: fn(Tree) -> Result<Vec<Tree>, Tree>) -> Vec<Tree> {
    let mut parts = open(first).unwrap_or_else(|tree| vec![tree]);
    match open(second) {
        Ok(more) => parts.extend(more),
        Err(tree) => parts.push(tree),
    }
    parts
}

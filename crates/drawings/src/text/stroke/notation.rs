//! The notation glyphs are written in: `M x y` sets the tool down, `L x y`
//! draws on, `A x y d` goes on around a centre by degrees against the clock.

/// A glyph on the grid: x to the right, y upwards from the base line.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Glyph {
    /// From its left to its right edge.
    pub(super) width: f64,
    pub(super) steps: Vec<Step>,
}

/// One step of the tool.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Step {
    Move((f64, f64)),
    Line((f64, f64)),
    Arc((f64, f64), f64),
}

impl Step {
    /// The step of a glyph made smaller or larger, then moved.
    pub(super) fn placed(self, scale: f64, (dx, dy): (f64, f64)) -> Self {
        let set = |(x, y): (f64, f64)| (x * scale + dx, y * scale + dy);
        match self {
            Self::Move(p) => Self::Move(set(p)),
            Self::Line(p) => Self::Line(set(p)),
            Self::Arc(centre, degrees) => Self::Arc(set(centre), degrees),
        }
    }
}

/// The steps a notation stands for.
pub(super) fn steps(notation: &str) -> Vec<Step> {
    let mut words = notation.split_ascii_whitespace();
    let mut out = Vec::new();
    while let Some(word) = words.next() {
        let mut number = || -> f64 {
            let word = words.next().expect("a step has all its numbers");
            word.parse().expect("a coordinate is a number")
        };
        let point = (number(), number());
        out.push(match word {
            "M" => Step::Move(point),
            "L" => Step::Line(point),
            "A" => Step::Arc(point, number()),
            other => unreachable!("no step is called {other}"),
        });
    }
    out
}

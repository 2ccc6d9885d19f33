//! Which wires run along which stretch of a net.

use super::Wire;
use crate::sheet::Stroke;

type Point = [f64; 2];

/// How every run of a net is drawn: as its wire where it serves one, or several drawn
/// alike, else as the whole net. `at` gives where an end of a wire is on the drawing.
pub(super) fn strokes(
    runs: &[Vec<Point>],
    whole: Stroke,
    wires: &[Wire],
    at: impl Fn(&Wire, usize) -> Option<Point>,
) -> Vec<Stroke> {
    let mut serving: Vec<Vec<Stroke>> = vec![Vec::new(); runs.len()];
    for wire in wires {
        let [Some(from), Some(to)] = [0, 1].map(|end| at(wire, end)) else {
            continue;
        };
        for run in between(runs, from, to).unwrap_or_default() {
            serving[run].push(wire.stroke);
        }
    }
    let own = serving.iter().map(|strokes| match &strokes[..] {
        [first, rest @ ..] if rest.iter().all(|s| s == first) => *first,
        _ => whole,
    });
    own.collect()
}

/// The runs of a tree on the way from one of its points to another.
fn between(runs: &[Vec<Point>], from: Point, to: Point) -> Option<Vec<usize>> {
    let mut ways: Vec<(Point, Vec<usize>)> = vec![(from, Vec::new())];
    let mut next = 0;
    while let Some((at, way)) = ways.get(next).cloned() {
        if same(at, to) {
            return Some(way);
        }
        for (i, run) in runs.iter().enumerate().filter(|(i, _)| !way.contains(i)) {
            let [Some(a), Some(b)] = [run.first(), run.last()] else {
                continue;
            };
            let far = match (same(*a, at), same(*b, at)) {
                (true, _) => b,
                (_, true) => a,
                _ => continue,
            };
            if !ways.iter().any(|(p, _)| same(*p, *far)) {
                ways.push((*far, way.iter().copied().chain([i]).collect()));
            }
        }
        next += 1;
    }
    None
}

fn same(a: Point, b: Point) -> bool {
    a.iter().zip(b).all(|(p, q)| (p - q).abs() < 1e-6)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::role::Role;

    #[test]
    fn a_stretch_of_one_wire_is_drawn_as_that_wire() {
        // Three pins about a branch; the stem carries both wires.
        let branch = [5.0, 0.0];
        let pins = [[0.0, 0.0], [9.0, 0.0], [9.0, 6.0]];
        let runs = vec![
            vec![pins[0], branch],
            vec![branch, pins[1]],
            vec![branch, [5.0, 6.0], pins[2]],
        ];
        let [whole, red, brown] =
            [Role::Ink, Role::WireRed, Role::WireBrown].map(|r| Stroke::new(r, 0.5));
        let wire = |to, stroke| Wire {
            name: String::new(),
            ends: [0, to],
            stroke,
        };
        let wires = [wire(1, red), wire(2, brown)];
        let at = |wire: &Wire, end: usize| Some(pins[wire.ends[end]]);
        assert_eq!(strokes(&runs, whole, &wires, at), [whole, red, brown]);
        assert_eq!(strokes(&runs, whole, &wires[..1], at), [red, red, whole]);
    }
}

//! The outline a panel is cut to: over its long points.

use wood::{Panel, PanelEdge};

/// Corners of a panel over its long points, in its frame in m, counter-clockwise
/// as seen from outside: along every edge the farther out of its outer and its
/// inner face, which is where a saw square to the board runs before the edge
/// is bevelled.
pub(crate) fn long_points(panel: &Panel) -> Vec<[f64; 2]> {
    let lines: Vec<Line> = panel.edges.iter().filter_map(farthest).collect();
    let count = lines.len();
    (0..count)
        .filter_map(|i| lines[(i + count - 1) % count].meet(&lines[i]))
        .collect()
}

/// A line n · p = offset, n outwards.
struct Line {
    normal: [f64; 2],
    offset: f64,
}

impl Line {
    fn meet(&self, other: &Self) -> Option<[f64; 2]> {
        let ([a, b], [c, d]) = (self.normal, other.normal);
        let det = a * d - b * c;
        (det.abs() > 1e-9).then(|| {
            [
                (self.offset * d - b * other.offset) / det,
                (a * other.offset - c * self.offset) / det,
            ]
        })
    }
}

fn farthest(edge: &PanelEdge) -> Option<Line> {
    // Both faces are parallel, so are the edges on them.
    let [from, to] = [edge.outer, edge.inner]
        .into_iter()
        .max_by(|a, b| length(a).total_cmp(&length(b)))?;
    let long = length(&[from, to]);
    if long <= 0.0 {
        return None;
    }
    let normal = [(to[1] - from[1]) / long, -(to[0] - from[0]) / long];
    let reach = |p: [f64; 2]| normal[0] * p[0] + normal[1] * p[1];
    Some(Line {
        normal,
        offset: reach(edge.outer[0]).max(reach(edge.inner[0])),
    })
}

fn length([from, to]: &[[f64; 2]; 2]) -> f64 {
    crate::math::hypot(to[0] - from[0], to[1] - from[1])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo_wood::{demo_body, leaning_body};
    use wood::Wall;

    fn extent(corners: &[[f64; 2]]) -> [f64; 2] {
        [0, 1].map(|axis| {
            let at = corners.iter().map(|c| c[axis]);
            at.clone().fold(f64::MIN, f64::max) - at.fold(f64::MAX, f64::min)
        })
    }

    #[test]
    fn the_outline_fills_the_blank() {
        for body in [demo_body(), leaning_body()] {
            for panel in &body.panels {
                let corners = long_points(panel);
                assert_eq!(corners.len(), 4, "{}", panel.name);
                let size = extent(&corners);
                for (found, blank) in size.into_iter().zip(panel.blank) {
                    assert!(
                        (found - blank).abs() < 1e-9,
                        "{}: {found} {blank}",
                        panel.name
                    );
                }
                assert!(
                    corners.iter().flatten().all(|c| *c > -1e-9),
                    "{} starts at its datum corner",
                    panel.name
                );
            }
        }
    }

    #[test]
    fn a_side_of_a_leaning_box_is_no_rectangle() {
        let body = leaning_body();
        let corners = long_points(body.wall(Wall::Left));
        let square = corners
            .iter()
            .filter(|c| c[0].abs() < 1e-6 || (c[0] - body.wall(Wall::Left).blank[0]).abs() < 1e-6)
            .count();
        assert!(square < 4, "{corners:?}");
    }
}

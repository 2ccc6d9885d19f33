use super::flat::{Flat, Side, along, side_of};
use super::hide::{covers, stretches};
use super::paint::painted;
use super::*;
use crate::demo_wood::{demo_body, leaning_body};
use crate::geometry::Point;
use crate::role::Role;
use crate::sheet::{Drawing, Sheet, pen};
use proptest::prelude::*;
use wood::vector::Vector;
use wood::{Pose, Solid};

pub(crate) const HERE: Pose = Pose {
    turn: [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
    at: [0.0; 3],
};

/// Corners of an upright block.
fn block(low: Vector, high: Vector) -> Solid {
    let corner =
        |i: usize| core::array::from_fn(|k| if i >> k & 1 == 1 { high[k] } else { low[k] });
    Solid::Hull((0..8).map(corner).collect())
}

fn scene(solids: &[Solid]) -> Scene {
    let mut scene = Scene::default();
    for solid in solids {
        let thing = scene.thing(Look::Plain(Role::Metal), pen::MEDIUM);
        scene.solid(thing, solid, &HERE);
    }
    scene
}

/// Nearness of the nearest cover over a point that lies within its outline.
fn ray(scene: &Scene, eye: &Eye, p: Flat) -> Option<f64> {
    nearest(scene, eye, p, |side| side == Side::Inside)
}

fn nearest(scene: &Scene, eye: &Eye, p: Flat, over: impl Fn(Side) -> bool) -> Option<f64> {
    covers(scene, eye)
        .iter()
        .filter(|c| over(side_of(&c.loops, p)))
        .map(|c| c.near(p))
        .max_by(f64::total_cmp)
}

/// Every stretch judged by rays at some of its points: nothing lies nearer than
/// a seen one, something lies nearer than a hidden one.
fn judged(scene: &Scene, eye: &Eye) {
    let edges: Vec<_> = scene.edges.iter().filter(|e| e.shows(eye)).collect();
    let mut lengths = [0.0_f64; 2];
    for s in stretches(scene, eye) {
        let long = flat::apart(s.ends[0], s.ends[1]);
        lengths[usize::from(s.seen)] += long;
        for t in [0.1, 0.31, 0.5, 0.77, 0.9] {
            let p = along(s.ends[0], s.ends[1], t);
            // Of edges seen on the same line, one explains the stretch.
            let own = edges.iter().filter(|e| e.thing == s.thing).filter_map(|e| {
                let [a, b] = e.ends.map(|p| eye.see(p));
                let d = [b[0] - a[0], b[1] - a[1]];
                let square = d[0] * d[0] + d[1] * d[1];
                let t = ((p[0] - a[0]) * d[0] + (p[1] - a[1]) * d[1]) / square;
                let foot = [a[0] + t * d[0], a[1] + t * d[1]];
                let on = flat::apart(foot, p) < 1e-9 && (-1e-9..=1.0 + 1e-9).contains(&t);
                on.then(|| a[2] + t * (b[2] - a[2]))
            });
            let own: Vec<f64> = own.collect();
            // What hides a stretch may do so by two facets, the point on the side they share.
            let over = |side| side == Side::Inside || (!s.seen && side == Side::On);
            let nearest = nearest(scene, eye, p, over).unwrap_or(f64::MIN);
            let explained = own.iter().any(|near| {
                if s.seen {
                    nearest <= near + 2e-7
                } else {
                    nearest > near + 0.5e-7
                }
            });
            assert!(explained, "{s:?} at {p:?}: {own:?} against {nearest}");
        }
    }
    assert!(lengths[1] > 0.0, "something is seen");
}

#[test]
fn a_block_shows_nine_edges_and_hides_three() {
    let scene = scene(&[block([0.0; 3], [0.3, 0.2, 0.1])]);
    let shown = scene.seen(&Eye::raised(31.0, 27.0));
    let edges = stretches(&scene, &Eye::raised(31.0, 27.0));
    assert_eq!(edges.iter().filter(|s| s.seen).count(), 9);
    assert_eq!(edges.iter().filter(|s| !s.seen).count(), 3);
    assert_eq!(shown.patches.len(), 3);
}

#[test]
fn a_block_before_another_cuts_its_edge_exactly() {
    let scene = scene(&[
        block([0.0, 0.1, 0.0], [0.4, 0.2, 0.1]),
        block([0.1, 0.0, -0.1], [0.2, 0.05, 0.3]),
    ]);
    let mut cut: Vec<[f64; 2]> = stretches(&scene, &Eye::FRONT)
        .iter()
        .filter(|s| s.thing == 0 && s.seen && s.ends.iter().all(|p| p[1].abs() < 1e-12))
        .map(|s| {
            [
                s.ends[0][0].min(s.ends[1][0]),
                s.ends[0][0].max(s.ends[1][0]),
            ]
        })
        .collect();
    cut.sort_by(|a, b| a[0].total_cmp(&b[0]));
    cut.dedup_by(|a, b| (a[0] - b[0]).abs() < 1e-9);
    assert_eq!(cut.len(), 2, "{cut:?}");
    assert!((cut[0][1] - 0.1).abs() < 1e-9 && (cut[1][0] - 0.2).abs() < 1e-9);
}

#[test]
fn nothing_is_drawn_twice() {
    let scene = scene(&[block([0.0; 3], [0.3, 0.2, 0.1])]);
    let shown = scene.seen(&Eye::FRONT);
    let length: f64 = shown
        .lines
        .iter()
        .flat_map(|l| l.points.windows(2))
        .map(|w| flat::apart(w[0], w[1]))
        .sum();
    assert!((length - 0.8).abs() < 1e-6, "{length}");
}

#[test]
fn a_tube_shows_its_sides_and_half_its_far_end() {
    let tube = Solid::Frustum {
        from: [0.0; 3],
        to: [0.3, 0.0, 0.0],
        from_radius: 0.05,
        to_radius: 0.05,
    };
    let scene = scene(&[tube]);
    let seen: f64 = stretches(&scene, &Eye::FRONT)
        .iter()
        .filter(|s| s.seen)
        .filter(|s| (s.ends[0][0] - s.ends[1][0]).abs() > 0.29)
        .map(|s| s.ends[0][1].abs())
        .sum();
    // Two sides, each within the thickness that the facets leave off.
    assert!((seen - 0.1).abs() < 0.1 * 0.003, "{seen}");
}

#[test]
fn a_section_through_a_block_is_closed() {
    let mut scene = Scene::default();
    let a = scene.thing(Look::Wood, pen::MEDIUM);
    scene.solid(a, &block([0.0; 3], [0.3, 0.2, 0.1]), &HERE);
    let cut = scene.cut([0.15, 0.0, 0.0], [1.0, 0.0, 0.0]);
    let caps: Vec<_> = cut.facets.iter().filter(|f| f.cut).collect();
    assert_eq!(caps.len(), 1);
    let flat = caps[0].flat(&Eye::RIGHT);
    let area: f64 = flat::sides(&flat)
        .map(|(a, b)| flat::wedge(a, b))
        .sum::<f64>()
        / 2.0;
    assert!((area - 0.02).abs() < 1e-9, "{area}");
    let hatched: f64 = hatch(&flat, 0.7, 0.002)
        .iter()
        .map(|[a, b]| flat::apart(*a, *b) * 0.002)
        .sum();
    assert!((hatched - 0.02).abs() < 2e-4, "{hatched}");
}

#[test]
fn rays_agree_with_a_whole_box() {
    for body in [demo_body(), leaning_body()] {
        let mut scene = Scene::default();
        for panel in &body.panels {
            let thing = scene.thing(Look::Wood, pen::MEDIUM);
            scene.panel(thing, panel);
        }
        for eye in [Eye::FRONT, Eye::TOP, Eye::raised(31.0, 27.0)] {
            judged(&scene, &eye);
            assert!(painted(&scene, &eye).is_some());
        }
        let cut = scene.cut([0.09, 0.0, 0.0], [1.0, 0.0, 0.0]);
        judged(&cut, &Eye::RIGHT);
        assert!(painted(&cut, &Eye::RIGHT).is_some());
    }
}

#[test]
fn the_wood_in_all_sections_adds_up_to_its_volume() {
    let body = demo_body();
    let mut scene = Scene::default();
    for panel in &body.panels {
        let thing = scene.thing(Look::Wood, pen::MEDIUM);
        scene.panel(thing, panel);
    }
    const SLICES: u32 = 400;
    let width = body.plan.block.width;
    let sum: f64 = (0..SLICES)
        .map(|i| {
            let x = width * (f64::from(i) + 0.5) / f64::from(SLICES);
            let cut = scene.cut([x, 0.0, 0.0], [1.0, 0.0, 0.0]);
            let caps = cut.facets.iter().filter(|f| f.cut);
            let area: f64 = caps
                .flat_map(|f| f.flat(&Eye::RIGHT))
                .map(|l| {
                    flat::sides(&[l])
                        .map(|(a, b)| flat::wedge(a, b))
                        .sum::<f64>()
                        / 2.0
                })
                .sum();
            area * width / f64::from(SLICES)
        })
        .sum();
    let volume: f64 = body.panels.iter().map(wood::Panel::volume).sum();
    // Polygons for round holes leave less than 0.3 % of the holes, slices as little.
    assert!((sum / volume - 1.0).abs() < 0.005, "{sum} against {volume}");
}

fn solids() -> impl Strategy<Value = Vec<Solid>> {
    let span = || (0.0_f64..0.3, 0.02_f64..0.25);
    let block = (span(), span(), span())
        .prop_map(|(x, y, z)| block([x.0, y.0, z.0], [x.0 + x.1, y.0 + y.1, z.0 + z.1]));
    let round = (
        prop::array::uniform3(0.0_f64..0.4),
        prop::array::uniform3(-0.2_f64..0.2),
        0.01_f64..0.1,
        0.0_f64..0.1,
    )
        .prop_filter("long enough", |(_, d, _, _)| {
            wood::vector::length(*d) > 0.03
        })
        .prop_map(|(from, d, from_radius, to_radius)| Solid::Frustum {
            from,
            to: wood::vector::add(from, d),
            from_radius,
            to_radius,
        });
    prop::collection::vec(prop_oneof![2 => block, 1 => round], 1..5)
}

fn eyes() -> impl Strategy<Value = Eye> {
    prop_oneof![
        Just(Eye::FRONT),
        Just(Eye::TOP),
        Just(Eye::RIGHT),
        (-170.0_f64..170.0, -80.0_f64..80.0).prop_map(|(a, e)| Eye::raised(a, e)),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn rays_agree_with_every_drawn_stretch(solids in solids(), eye in eyes()) {
        judged(&scene(&solids), &eye);
    }

    #[test]
    fn rays_agree_with_the_paint(
        solids in solids(),
        eye in eyes(),
        spots in prop::collection::vec((0.0_f64..1.0, 0.0_f64..1.0), 60),
    ) {
        let scene = scene(&solids);
        if let Some(patches) = painted(&scene, &eye) {
            let b = scene.bounds(&eye).unwrap();
            for (u, v) in spots {
                let p = [
                    b.low[0] + u * (b.high[0] - b.low[0]),
                    b.low[1] + v * (b.high[1] - b.low[1]),
                ];
                let on_edge = patches.iter().any(|q| side_of(&q.loops, p) == Side::On);
                if on_edge {
                    continue;
                }
                let last = patches.iter().rev().find(|q| side_of(&q.loops, p) == Side::Inside);
                let (painted, cast) = (last.map(|q| q.near(p)), ray(&scene, &eye, p));
                match (painted, cast) {
                    (Some(a), Some(b)) => prop_assert!((a - b).abs() < 3e-6, "{a} {b}"),
                    (a, b) => prop_assert_eq!(a, b),
                }
            }
        }
    }
}

#[test]
fn a_few_things_as_text() {
    let mut scene = scene(&[
        block([0.0; 3], [0.3, 0.2, 0.02]),
        block([0.05, 0.05, 0.02], [0.15, 0.15, 0.1]),
        Solid::Frustum {
            from: [0.22, 0.1, 0.02],
            to: [0.22, 0.1, 0.12],
            from_radius: 0.04,
            to_radius: 0.02,
        },
    ]);
    scene.things[0].look = Look::Wood;
    scene.things[1].dashed = true;
    let mut sheet = Sheet::sized(100.0, 80.0, "view");
    let place = Place {
        origin: Point::new(5.0, 60.0),
        scale: 200.0,
    };
    let mut drawing = Drawing::default();
    scene
        .seen(&Eye::raised(31.0, 27.0))
        .draw(&scene, &place, &mut drawing);
    sheet.drawing = drawing;
    let text = crate::export::svg::svg(&sheet, crate::Theme::Paper);
    crate::golden::check("view.svg", &text);
}

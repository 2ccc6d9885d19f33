use super::*;
use crate::Theme;
use crate::demo_wood::{demo_body, leaning_body};
use crate::export::svg::svg;
use crate::geometry::{Point, Rect};
use crate::sheet::{Drawing, Item, Shape, Sheet};
use proptest::prelude::*;
use wood::{Body, Joint, PanelId, Wall};

const AREA: Rect = Rect::new(10.0, 10.0, 150.0, 130.0);

fn on_sheet(drawing: Drawing) -> Sheet {
    let mut sheet = Sheet::sized(170.0, 150.0, "box");
    sheet.drawing = drawing;
    sheet
}

/// The drawing of one wall, its holes numbered one by one.
fn wall(body: &Body, wall: Wall, area: Rect) -> super::panel::PanelView {
    let panel = body.panel(PanelId::Wall(wall)).unwrap();
    let numbers: Vec<usize> = (1..=panel.holes.len()).collect();
    super::panel(panel, &numbers, area)
}

#[test]
fn a_panel_is_true_to_scale_and_clear() {
    for body in [demo_body(), leaning_body()] {
        for which in Wall::ALL {
            let mut view = wall(&body, which, AREA);
            put_name(body.wall(which), "A name", &mut view);
            let bounds = view.drawing.bounds().unwrap();
            assert!(AREA.inset(-0.5).contains(&bounds), "{which:?} {bounds:?}");
            for hole in &body.wall(which).holes {
                if let wood::Outline::Circle { diameter } = hole.outline {
                    let radius = 500.0 * diameter / view.scale;
                    let mm = 1000.0 / view.scale;
                    let centre = Point::new(
                        view.blank.x + hole.at[0] * mm,
                        view.blank.bottom() - hole.at[1] * mm,
                    );
                    let found = view.drawing.items.iter().any(|i| {
                        matches!(i, Item::Shape(Shape::Circle { centre: c, radius: r }, _)
                            if (r - radius).abs() < 1e-9 && c.distance(centre) < 1e-9)
                    });
                    assert!(found, "{which:?} {hole:?}");
                }
            }
            assert_eq!(on_sheet(view.drawing).collisions(), [], "{which:?}");
        }
    }
}

#[test]
fn what_goes_through_is_drawn_over_what_is_let_in() {
    let body = demo_body();
    let view = wall(&body, Wall::Front, AREA);
    let circle = |radius: f64| {
        view.drawing.items.iter().position(|i| {
            matches!(i, Item::Shape(Shape::Circle { radius: r, .. }, _)
                if (r - radius).abs() < 1e-9)
        })
    };
    let (pocket, through) = (circle(59.0 / view.scale), circle(52.0 / view.scale));
    assert!(pocket.unwrap() < through.unwrap());
}

#[test]
fn a_butt_joint_has_the_thickness_to_glue_and_a_mitre_more_by_the_root_of_two() {
    let plain = demo_body().plan;
    for joint in [
        Joint::Mitre,
        Joint::Butt {
            through: Wall::Front,
        },
    ] {
        let mut plan = plain.clone();
        plan.edges.clear();
        plan.holes.clear();
        plan.boards.clear();
        for (edge, own) in wood::Edge::ALL.iter().zip(&mut plan.joints) {
            *own = match joint {
                Joint::Butt { .. } => Joint::Butt {
                    through: edge.first,
                },
                other => other,
            };
        }
        for wall in &mut plan.walls {
            (wall.thickness, wall.setback) = (0.012, 0.0);
        }
        let body = Body::new(&plan).unwrap();
        let kinds = corners(&body, None);
        assert_eq!(kinds.iter().map(|k| k.edges.len()).sum::<usize>(), 12);
        let wanted = match joint {
            Joint::Mitre => 0.012 * core::f64::consts::SQRT_2,
            _ => 0.012,
        };
        for kind in kinds {
            assert!((kind.glue_line - wanted).abs() < 1e-6, "{}", kind.glue_line);
        }
    }
}

#[test]
fn corners_are_clear() {
    for body in [demo_body(), leaning_body()] {
        for corner in corners(&body, None) {
            let mut out = Drawing::default();
            corner.draw(Point::new(20.0, 20.0), |_| "bottom", &mut out);
            assert_eq!(on_sheet(out).collisions(), [], "{:?}", corner.edges);
        }
    }
}

#[test]
fn a_panel_and_a_corner_as_text() {
    let body = demo_body();
    let view = wall(&body, Wall::Front, AREA);
    let text = svg(&on_sheet(view.drawing), Theme::Paper);
    crate::golden::check("panel.svg", &text);
    let mut out = Drawing::default();
    corners(&body, None)[0].draw(Point::new(20.0, 20.0), |_| "wall", &mut out);
    crate::golden::check("corner.svg", &svg(&on_sheet(out), Theme::Paper));
}

proptest! {
    #[test]
    fn figures_of_a_panel_never_meet(
        holes in prop::collection::vec((0.03_f64..0.33, 0.03_f64..0.17, 0.003_f64..0.03), 0..40),
        w in 60.0_f64..200.0,
        h in 60.0_f64..160.0,
    ) {
        let mut panel = demo_body().wall(Wall::Front).clone();
        let pattern = panel.holes[0].clone();
        panel.holes = holes
            .iter()
            .map(|(x, y, diameter)| wood::PanelHole {
                at: [*x, *y],
                outline: wood::Outline::Circle { diameter: *diameter },
                pocket: None,
                ..pattern.clone()
            })
            .collect();
        let numbers: Vec<usize> = (1..=holes.len()).collect();
        let mut view = super::panel(&panel, &numbers, Rect::new(30.0, 30.0, w, h));
        put_name(&panel, "A panel with a name", &mut view);
        let mut sheet = Sheet::sized(300.0, 300.0, "panel");
        sheet.drawing = view.drawing;
        prop_assert_eq!(sheet.collisions(), []);
    }
}

/// The kind that an edge belongs to.
fn kind_of(kinds: &[Corner], a: Wall, b: Wall) -> usize {
    let edge = wood::Edge::between(a, b).unwrap();
    kinds.iter().position(|k| k.edges.contains(&edge)).unwrap()
}

#[test]
fn corners_of_other_angles_are_other_kinds() {
    let mut plan = leaning_body().plan;
    (plan.block.front_lean, plan.block.depth) = (30_f64.to_radians(), 0.4);
    plan.holes.clear();
    plan.boards.clear();
    let kinds = corners(&Body::new(&plan).unwrap(), None);
    let above = kind_of(&kinds, Wall::Front, Wall::Top);
    let below = kind_of(&kinds, Wall::Front, Wall::Bottom);
    let square = kind_of(&kinds, Wall::Back, Wall::Top);
    for (kind, angle) in [(above, 120.0), (below, 60.0), (square, 90.0)] {
        let found = kinds[kind].angle.to_degrees();
        assert!((found - angle).abs() < 1e-9, "{found}");
    }
    assert_eq!(square, kind_of(&kinds, Wall::Left, Wall::Bottom));
    // A mitre's glue line: thickness over the sine of half the angle.
    for kind in &kinds {
        let wanted = 0.012 / crate::math::sin(kind.angle / 2.0);
        assert!((kind.glue_line - wanted).abs() < 1e-6);
    }
}

#[test]
fn a_flush_back_is_another_corner_than_a_front_set_back() {
    let mut plan = demo_body().plan;
    plan.edges.clear();
    plan.holes.clear();
    plan.boards.clear();
    plan.walls[Wall::Front.index()].setback = 0.008;
    for (edge, joint) in wood::Edge::ALL.iter().zip(&mut plan.joints) {
        let closing = matches!(edge.first, Wall::Front | Wall::Back);
        *joint = match closing {
            true => Joint::Butt {
                through: edge.second,
            },
            false => Joint::Mitre,
        };
    }
    let body = Body::new(&plan).unwrap();
    let kinds = corners(&body, Some(Wall::Back));
    let edges: Vec<usize> = kinds.iter().map(|k| k.edges.len()).collect();
    assert_eq!(edges, [4, 4, 4]);
    let back = &kinds[kind_of(&kinds, Wall::Back, Wall::Left)];
    assert_eq!((back.loose, back.setback), (Some(Wall::Back), [0.0; 2]));
    let front = &kinds[kind_of(&kinds, Wall::Front, Wall::Left)];
    assert_eq!((front.loose, front.setback), (None, [0.008, 0.0]));
    let glued = |corner: &Corner| {
        let mut out = Drawing::default();
        corner.draw(Point::new(20.0, 20.0), |_| "wall", &mut out);
        svg(&on_sheet(out), Theme::Paper).contains("stroke-width=\"0.5\"")
    };
    assert!(glued(front) && !glued(back));
}

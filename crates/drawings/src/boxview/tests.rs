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
        let kinds = corners(&body);
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
        for corner in corners(&body) {
            let mut out = Drawing::default();
            corner.draw(Point::new(20.0, 20.0), &mut out);
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
    corners(&body)[0].draw(Point::new(20.0, 20.0), &mut out);
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

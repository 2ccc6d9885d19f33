use super::*;
use crate::sheet::Sheet;
use proptest::prelude::*;

/// An invented box.
pub(crate) fn demo() -> BoxPicture {
    let driver = |x: f64| PicturePart {
        number: 1,
        label: "driver, 4 in · 2 pieces".to_owned(),
        shape: PictureShape::Driver {
            centre: [x, 0.01],
            frame: 0.118,
            cutout: 0.104,
            magnet: 0.07,
            depth: 0.062,
        },
    };
    BoxPicture {
        outside: [0.36, 0.2, 0.18],
        wall: 0.012,
        parts: vec![
            driver(-0.1),
            PicturePart {
                number: 2,
                label: "battery".to_owned(),
                shape: PictureShape::Block {
                    size: [0.15, 0.09, 0.065],
                    centre: [0.0, -0.04, 0.12],
                    stuff: Stuff::Cell,
                },
            },
            PicturePart {
                number: 3,
                label: "amplifier board, bridged, two channels".to_owned(),
                shape: PictureShape::Block {
                    size: [0.08, 0.025, 0.06],
                    centre: [0.0, 0.05, 0.12],
                    stuff: Stuff::Board,
                },
            },
            driver(0.1),
            PicturePart {
                number: 4,
                label: "vent".to_owned(),
                shape: PictureShape::Vent {
                    centre: [0.0, 0.01],
                    diameter: 0.032,
                    cutout: 0.036,
                    length: 0.1,
                },
            },
        ],
    }
}

fn on_sheet(drawing: Drawing) -> Sheet {
    let mut sheet = Sheet::sized(200.0, 150.0, "box");
    sheet.drawing = drawing;
    sheet
}

const AREA: Rect = Rect::new(10.0, 10.0, 180.0, 130.0);

#[test]
fn the_demo_box_is_clear_and_within_its_area() {
    let picture = demo();
    let drawing = picture.axonometric(AREA);
    let bounds = drawing.bounds().unwrap();
    assert!(AREA.inset(-0.3).contains(&bounds), "{bounds:?}");
    assert_eq!(on_sheet(drawing).collisions(), []);
}

#[test]
fn the_front_is_true_to_scale() {
    let view = demo().front_view(AREA);
    assert_eq!(view.scale_text(), "1 : 2.5");
    let found = view.drawing.items.iter().any(|i| {
        matches!(i, crate::sheet::Item::Shape(crate::sheet::Shape::Circle { radius, .. }, _)
            if (radius - 104.0 / 2.0 / 2.5).abs() < 1e-9)
    });
    assert!(found, "the 104 mm hole is 41.6 mm on paper");
    assert_eq!(on_sheet(view.drawing).collisions(), []);
}

#[test]
fn parts_too_large_for_the_box_leave_its_dimensions_readable() {
    let mut picture = demo();
    picture.outside = [0.12, 0.12, 0.1];
    assert_eq!(on_sheet(picture.axonometric(AREA)).collisions(), []);
}

proptest! {
    #[test]
    fn any_box_is_clear(
        w in 0.12_f64..0.9, h in 0.12_f64..0.5, d in 0.1_f64..0.4,
        wall in 0.006_f64..0.02,
        part in 0.2_f64..0.8,
    ) {
        let mut picture = demo();
        picture.outside = [w, h, d];
        picture.wall = wall;
        for p in &mut picture.parts {
            if let PictureShape::Driver { centre, frame, cutout, magnet, depth } = &mut p.shape {
                let size = part * h.min(w / 2.0);
                *centre = [centre[0].signum() * w / 4.0, 0.0];
                (*frame, *cutout, *magnet, *depth) = (size, 0.88 * size, 0.6 * size, 0.5 * d);
            }
        }
        prop_assert_eq!(on_sheet(picture.axonometric(AREA)).collisions(), []);
        prop_assert_eq!(on_sheet(picture.front_view(AREA).drawing).collisions(), []);
    }
}

use super::face::Face;
use super::*;
use crate::demo_wood::demo_control;
use crate::layout::TitleBlock;
use crate::paper::Paper;
use crate::sheet::{Item, Shape, Sheet};
use studies::carpentry::ControlHole;

fn framed(view: &View, paper: Paper) -> Sheet {
    let mut sheet = TitleBlock {
        project: "Invented box".to_owned(),
        title: view.title.to_owned(),
        number: 1,
        count: 1,
        scale: view.scale.clone(),
        revision: String::new(),
        date: String::new(),
        paper,
    }
    .sheet();
    sheet.drawing.append(view.drawing.clone());
    sheet
}

#[test]
fn nothing_collides_and_everything_finds_room() {
    let plan = demo_control();
    let face = Face::of(&plan);
    assert_eq!(face.left_out, Vec::<String>::new());
    for paper in [Paper::A4, Paper::Letter] {
        for view in pages(&plan, paper) {
            assert_eq!(framed(&view, paper).collisions(), [], "{}", view.scale);
        }
    }
}

#[test]
fn letters_can_be_read() {
    let face = Face::of(&demo_control());
    let labels: Vec<&str> = face.words.iter().map(|word| word.text.as_str()).collect();
    for wanted in ["Volume", "Power", "Battery ½", "Line in", "0", "10"] {
        assert!(labels.contains(&wanted), "{labels:?}");
    }
    assert!(face.words.iter().all(|word| word.cap >= 2.5));
}

/// Ten steps over 300°, four marks between: 51 marks, the outer two at 30°
/// from straight down.
#[test]
fn a_scale_spans_three_hundred_degrees() {
    let plan = demo_control();
    let face = Face::of(&plan);
    assert_eq!(face.ticks.len(), 51);
    let hole = &plan.holes[0];
    let middle = crate::Point::new(1e3 * hole.at[0], 1e3 * (plan.size[1] - hole.at[1]));
    let [inner, outer] = face.ticks[0];
    assert!(
        (inner.distance(middle) - 11.0).abs() < 1e-9,
        "knob radius and a gap of 1 mm"
    );
    let (dx, dy) = (outer.x - middle.x, outer.y - middle.y);
    let angle = crate::math::atan2(-dx, dy).to_degrees();
    assert!((angle - 30.0).abs() < 1e-9, "{angle}");
}

#[test]
fn what_finds_no_room_is_said() {
    let mut plan = demo_control();
    plan.holes[1].label =
        Some("a label far longer than the whole of this plate can hold".repeat(3));
    let face = Face::of(&plan);
    assert_eq!(face.left_out.len(), 1);
    let views = pages(&plan, Paper::A4);
    assert!(
        views[0]
            .notes
            .iter()
            .any(|note| note.contains("No room for: label"))
    );
}

/// Twelve parts in a tight row, each with a name wider than its place: below, above, in two
/// lines, or on a line of its own, every name finds room, and none meets anything.
#[test]
fn names_of_a_crowded_plate_find_room() {
    let mut plan = demo_control();
    let pattern = plan.holes[1].clone();
    plan.holes = (0..12)
        .map(|i| ControlHole {
            at: [
                0.0125 + 0.025 * f64::from(i % 6),
                0.028 + 0.03 * f64::from(i / 6),
            ],
            label: Some(
                [
                    "Left input from the mixer",
                    "Charge at 14.6 V only",
                    "Bass",
                    "Battery",
                ][i as usize % 4]
                    .into(),
            ),
            ..pattern.clone()
        })
        .collect();
    assert_eq!(super::left_out(&plan), Vec::<String>::new());
    let face = Face::of(&plan);
    assert!(face.words.len() > 12 && face.words.iter().all(|word| word.cap >= 2.5));
    for view in pages(&plan, Paper::A4) {
        assert_eq!(framed(&view, Paper::A4).collisions(), []);
    }
}

/// One part in a narrow corner: its name stands apart and a line joins both.
#[test]
fn a_name_that_stands_apart_is_joined_to_its_part() {
    let mut plan = demo_control();
    let pattern = plan.holes[1].clone();
    let part = |at, front, label: Option<&str>| ControlHole {
        at,
        front,
        label: label.map(str::to_owned),
        scale: None,
        ..pattern.clone()
    };
    let around = [[0.02, 0.0], [-0.02, 0.0], [0.0, 0.02], [0.0, -0.02]];
    plan.holes = vec![part([0.05, 0.04], 0.016, Some("Loudness"))];
    plan.holes
        .extend(around.map(|[x, y]| part([0.05 + x, 0.04 + y], 0.018, None)));
    let face = Face::of(&plan);
    assert_eq!(face.left_out, Vec::<String>::new());
    let [[from, to]] = face.leaders[..] else {
        panic!("{:?}", face.leaders)
    };
    let middle = crate::Point::new(50.0, 40.0);
    assert!(from.distance(middle) < 10.0 && to.distance(middle) > 11.0);
}

#[test]
fn a_wide_scale_shows_fewer_numbers_and_marks() {
    let mut plan = demo_control();
    plan.holes[0].scale = Some((0, 1000, 9));
    let face = Face::of(&plan);
    assert!(face.ticks.len() <= 101, "{}", face.ticks.len());
    let numbers = face
        .words
        .iter()
        .filter(|word| word.text.parse::<u32>().is_ok());
    assert!(numbers.count() >= 3);
    plan.holes[0].scale = Some((i32::MIN, i32::MAX, u32::MAX));
    Face::of(&plan);
    plan.holes[0].scale = Some((5, -5, 0));
    let face = Face::of(&plan);
    assert!(face.words.iter().any(|word| word.text == "−5"));
    assert_eq!(face.ticks.len(), 11);
}

#[test]
fn a_large_plate_is_drawn_smaller_and_says_so() {
    let mut plan = demo_control();
    plan.size = [0.4, 0.3];
    let views = pages(&plan, Paper::A4);
    assert_eq!(views[0].scale, "1 : 2");
    assert!(views[0].notes[0].contains("templates"));
    for view in &views {
        assert_eq!(framed(view, Paper::A4).collisions(), []);
    }
}

/// The volume control sits left from outside, and as far to the right from behind.
#[test]
fn the_view_from_behind_is_mirrored() {
    let plan = demo_control();
    let area = crate::layout::content_area(Paper::A4);
    let views = pages(&plan, Paper::A4);
    let found: Vec<(f64, f64)> = views
        .iter()
        .flat_map(|view| &view.drawing.items)
        .filter_map(|item| match item {
            Item::Shape(Shape::Circle { centre, radius }, _) if (radius - 3.75).abs() < 1e-9 => {
                Some((centre.x - area.x, centre.y))
            }
            _ => None,
        })
        .collect();
    let [(outside, y), (behind, below)] = found[..] else {
        panic!("{found:?}")
    };
    assert!((y - below).abs() < 1e-9);
    assert!((outside - 35.0).abs() < 1e-9 && (behind - (150.0 - 35.0)).abs() < 1e-9);
}

#[test]
fn a_small_plate_shows_both_views_on_one_page() {
    let mut plan = demo_control();
    plan.size = [0.126, 0.08];
    plan.screws.clear();
    assert_eq!(pages(&plan, Paper::A4).len(), 1);
}

//! Areas of whole boxes against sums by hand.

use super::*;
use crate::carpentry::Carpentry;
use wood::Wall;

const BASE: &str = r#"format = 1
name = "plain"
[brief]
programme = "music"
distance = "2 m"
[place]
stands = "ground"
[[drivers]]
part = "full-range 4 in, 4 ohm"
count = 2
side = "both"
[amplifier]
part = "amplifier 2 x 15 W, 12 V"
[battery]
part = "iron phosphate 12.8 V 6 Ah"
[box]
outside = "360 x 200 x 180 mm"
wall = "birch plywood 12 mm"
kind = "sealed"
"#;

fn studied(design: &str) -> (Carpentry, Finish) {
    let project = design::read(design, None).unwrap_or_else(|errors| panic!("{errors:#?}"));
    let subject = Subject::new(project, 1.0).unwrap_or_else(|errors| panic!("{errors:#?}"));
    let carpentry = crate::carpentry::study(&subject);
    let finish = study(&subject, &carpentry);
    (carpentry, finish)
}

fn area(finish: &Finish, wall: Wall) -> f64 {
    let own = finish.faces.iter().find(|face| face.wall == wall);
    own.expect("every wall has one").area
}

/// Butt joints: the ends of the running boards are seen from the sides they end at, so each side
/// of the box shows its whole rectangle, whatever the joints.
#[test]
fn a_plain_block_shows_its_six_rectangles() {
    for joints in ["butt", "mitred ring", "mitred", "rebated"] {
        let text = format!("{BASE}joints = \"{joints}\"\n");
        let (carpentry, finish) = studied(&text);
        let holes = |wall: Wall| -> f64 {
            let own = carpentry.body.wall(wall).holes.iter();
            own.filter(|hole| hole.pocket.is_none())
                .map(|hole| hole.outline.area())
                .sum()
        };
        for (wall, whole) in [
            (Wall::Front, 0.36 * 0.20),
            (Wall::Back, 0.36 * 0.20),
            (Wall::Left, 0.18 * 0.20),
            (Wall::Right, 0.18 * 0.20),
            (Wall::Top, 0.36 * 0.18),
            (Wall::Bottom, 0.36 * 0.18),
        ] {
            let found = area(&finish, wall);
            let wanted = whole - holes(wall);
            // Round holes are polygons within a tenth of a millimetre.
            assert!(
                (found - wanted).abs() < 1e-4,
                "{joints} {wall:?} {found} {wanted}"
            );
        }
    }
}

/// By hand: rounding by r turns the corner's two strips of r into a quarter circle of π/2 · r,
/// so an edge of length l loses (2 − π/2) · r · l; chords of the drawn arc lose a little more.
#[test]
fn rounded_edges_take_off_what_a_quarter_circle_is_shorter() {
    let whole = |text: &str| -> f64 {
        let (_, finish) = studied(text);
        finish.faces.iter().map(|face| face.area).sum()
    };
    let plain = whole(BASE);
    let rounded = whole(&format!(
        "{BASE}joints = \"mitred ring\"\nround = \"6 mm\"\nround_edges = \"ring\"\n"
    ));
    let lost = 4.0 * 0.18 * 0.006 * (2.0 - core::f64::consts::FRAC_PI_2);
    assert!(
        (plain - rounded - lost).abs() < 0.05 * lost,
        "{plain} {rounded} {lost}"
    );
}

/// A front set back by 8 mm shows the rim of the ring in its place, and a lip of 8 mm around.
#[test]
fn a_front_set_back_shows_a_lip_around_it() {
    let inset = format!("{BASE}joints = \"mitred ring\"\nfront = \"inset\"\n");
    let (_, flush) = studied(&inset);
    let (carpentry, back) = studied(&format!("{inset}setback = \"8 mm\"\n"));
    let panel = carpentry.body.wall(Wall::Front);
    let around = 2.0 * (panel.long()[0] + panel.long()[1]);
    let more = area(&back, Wall::Front) - area(&flush, Wall::Front);
    assert!((more - 0.008 * around).abs() < 1e-6, "{more}");
}

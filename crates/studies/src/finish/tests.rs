//! Finishes of whole boxes against sums by hand and against the surface in triangles.

use super::*;
use crate::carpentry::Carpentry;
use proptest::prelude::*;
use wood::vector::{Vector, add, cross, dot, scale, sub};
use wood::{DRAWN_CHORD, Wall};

pub(super) const BASE: &str = r#"format = 1
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

fn holes(carpentry: &Carpentry, wall: Wall) -> f64 {
    let own = carpentry.body.wall(wall).holes.iter();
    own.filter(|hole| hole.pocket.is_none())
        .map(|hole| hole.outline.area())
        .sum()
}

/// Whatever the joints, each side of the box shows its whole rectangle.
#[test]
fn a_plain_block_shows_its_six_rectangles() {
    for joints in ["butt", "mitred ring", "mitred", "rebated"] {
        let (carpentry, finish) = studied(&format!("{BASE}joints = \"{joints}\"\n"));
        for (wall, whole) in [
            (Wall::Front, 0.36 * 0.20),
            (Wall::Back, 0.36 * 0.20),
            (Wall::Left, 0.18 * 0.20),
            (Wall::Right, 0.18 * 0.20),
            (Wall::Top, 0.36 * 0.18),
            (Wall::Bottom, 0.36 * 0.18),
        ] {
            let found = area(&finish, wall);
            let wanted = whole - holes(&carpentry, wall);
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
    let ring = format!("{BASE}joints = \"mitred ring\"\n");
    let plain = whole(&ring);
    let rounded = whole(&format!("{ring}round = \"6 mm\"\nround_edges = \"ring\"\n"));
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
    let around: f64 = panel
        .edges
        .iter()
        .map(|edge| {
            (0..2)
                .map(|k| (edge.outer[0][k] - edge.outer[1][k]).abs())
                .sum::<f64>()
        })
        .sum();
    let more = area(&back, Wall::Front) - area(&flush, Wall::Front);
    assert!((more - 0.008 * around).abs() < 1e-6, "{more}");
}

/// Area of all triangles of the panels whose other side is open air: out of the plain block.
fn outside_in_triangles(carpentry: &Carpentry) -> f64 {
    let body = &carpentry.body;
    let block = &body.plan.block;
    let size = [block.width, block.depth, block.height];
    let mut sum = 0.0;
    for panel in &body.panels {
        let mesh = panel.mesh(DRAWN_CHORD);
        for [a, b, c] in mesh.corners() {
            let normal: Vector = cross(sub(b, a), sub(c, a));
            let twice = dot(normal, normal).sqrt();
            if twice < 1e-12 {
                continue;
            }
            let middle = scale(add(add(a, b), c), 1.0 / 3.0);
            let beyond = add(middle, scale(normal, 1e-5 / twice));
            if (0..3).any(|axis| beyond[axis] < -1e-9 || beyond[axis] > size[axis] + 1e-9) {
                sum += twice / 2.0;
            }
        }
    }
    sum
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    /// The same by another route, for boxes of any size with their holes.
    #[test]
    fn areas_are_those_of_the_surface_in_triangles(
        size in [300_u32..500, 180_u32..300, 170_u32..300],
        joints in prop::sample::select(&["butt", "mitred ring", "mitred", "rebated"][..]),
    ) {
        let [w, h, d] = size;
        let text = BASE.replace("360 x 200 x 180", &format!("{w} x {h} x {d}"));
        let (carpentry, finish) = studied(&format!("{text}joints = \"{joints}\"\n"));
        let found: f64 = finish.faces.iter().map(|face| face.area).sum();
        let other = outside_in_triangles(&carpentry);
        prop_assert!((found - other).abs() < 1e-6 * other, "{found} {other}");
        let [w, h, d] = size.map(|mm| 1e-3 * f64::from(mm));
        let whole = 2.0 * (w * h + w * d + h * d);
        let cut: f64 = Wall::ALL.into_iter().map(|wall| holes(&carpentry, wall)).sum();
        prop_assert!((found - whole + cut).abs() < 1e-3 * whole, "{found} {whole} {cut}");
    }
}

const LACQUER: &str = "[[finish]]\npart = \"water-based lacquer\"\n";

/// By hand: area / 10 m²/L, 15 % lost, and a quarter less coverage for the most.
#[test]
fn litres_and_cans_by_hand() {
    let (_, finish) = studied(&format!("{BASE}{LACQUER}coats = 3\n"));
    let layer = &finish.layers[0];
    let all: f64 = finish.faces.iter().map(|face| face.area).sum();
    assert_eq!(layer.area, all);
    let litres = 3.0 * all / 10.0 / 0.85;
    assert!((1e3 * layer.volume - litres).abs() < 1e-12, "{litres}");
    assert!((1e3 * layer.volume_band.1 - litres / 0.75).abs() < 1e-12);
    assert!((layer.wet_thickness - 0.3e-3).abs() < 1e-12);
    let cans = &finish.cans[0];
    assert_eq!(cans.wanted, (litres / 0.75 / 0.375_f64).ceil() as u32);
    assert_eq!(cans.to_buy, cans.wanted, "none lies on the built-in shelf");
}

#[test]
fn more_coats_never_need_less() {
    let of = |coats: u32| studied(&format!("{BASE}{LACQUER}coats = {coats}\n")).1;
    let all: Vec<Finish> = (1..6).map(of).collect();
    for pair in all.windows(2) {
        let [few, more] = pair else { unreachable!() };
        assert!(more.layers[0].volume > few.layers[0].volume);
        assert!(more.cans[0].wanted >= few.cans[0].wanted);
    }
}

#[test]
fn one_can_serves_layers_of_one_name() {
    let twice = format!("{BASE}{LACQUER}coats = 1\n{LACQUER}coats = 1\non = [\"front\"]\n");
    let (_, finish) = studied(&twice);
    assert_eq!(finish.layers.len(), 2);
    assert_eq!(finish.cans.len(), 1);
    let sum: f64 = finish.layers.iter().map(|layer| layer.volume).sum();
    assert!((finish.cans[0].volume - sum).abs() < 1e-15);
}

#[test]
fn what_is_left_raw_is_said_to_be() {
    let (_, finish) = studied(BASE);
    assert!(finish.layers.is_empty() && finish.masks.is_empty() && finish.schedule.is_empty());
    let outdoors = finish.raw.expect("nothing goes on");
    assert!(outdoors.contains("out of doors"), "{outdoors}");
    let (_, indoors) = studied(&BASE.replace("\"ground\"", "\"indoors\""));
    assert!(
        !indoors
            .raw
            .expect("nothing goes on")
            .contains("out of doors")
    );
    assert_eq!(studied(&format!("{BASE}{LACQUER}")).1.raw, None);
}

/// Cautions stand where they apply and nowhere else.
#[test]
fn cautions_go_with_what_is_used() {
    let said = |part: &str| {
        let (_, finish) = studied(&format!("{BASE}[[finish]]\npart = \"{part}\"\n"));
        finish.cautions.join(" ")
    };
    for (part, rags, spray, vapour) in [
        ("drying oil", true, false, false),
        ("water-based lacquer", false, false, false),
        ("solvent lacquer, spray", false, true, false),
        ("shellac", false, false, true),
    ] {
        let said = said(part);
        assert_eq!(said.contains("rags"), rags, "{part}: {said}");
        assert_eq!(said.contains("Spray out of doors"), spray, "{part}: {said}");
        assert_eq!(said.contains("Vapour of solvent"), vapour, "{part}: {said}");
        assert!(said.contains("dust harms lungs"), "{part}: {said}");
    }
}

/// Every hole of the outside that something lies on or passes is masked, each once.
#[test]
fn every_hole_is_masked_once() {
    let text = format!("{BASE}last_with = \"screws\"\n{LACQUER}");
    let (carpentry, finish) = studied(&text);
    for wall in Wall::ALL {
        let own = finish.masks.iter().filter(|mask| mask.wall == wall);
        let mut bare: Vec<usize> = own.flat_map(|mask| &mask.bare).map(|b| b.hole).collect();
        bare.sort_unstable();
        let all: Vec<usize> = (0..carpentry.body.wall(wall).holes.len()).collect();
        assert_eq!(bare, all, "{wall:?}");
    }
    assert_eq!(finish.masks.iter().filter(|mask| mask.around).count(), 1);
    let seats = finish.masks.iter().flat_map(|mask| &mask.bare);
    let widest = seats.map(|bare| bare.rim).fold(0.0, f64::max);
    assert!(
        widest > 0.001 && widest < 0.05,
        "a driver's frame covers its rim: {widest}"
    );
}

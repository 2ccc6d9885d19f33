//! Joints of whole boxes, against areas worked out by hand.

use super::*;
use crate::carpentry::study;
use crate::subject::Subject;
use physics::math;
use wood::BoardKind;

const BEACH: &str = include_str!("../../../../../examples/bathing-beach/design.toml");
const MONO: &str = include_str!("../../../../../examples/workshop-mono/design.toml");
const PARTY: (&str, &str) = (
    include_str!("../../../../../examples/salvage-party/design.toml"),
    include_str!("../../../../../examples/salvage-party/shelf.toml"),
);

fn subject(design: &str, shelf: Option<&str>) -> Subject {
    let project = design::read(design, shelf).unwrap_or_else(|errors| panic!("{errors:#?}"));
    Subject::new(project, 1.0).unwrap_or_else(|errors| panic!("{errors:#?}"))
}

fn edge(body: &Body, a: Wall, b: Wall) -> f64 {
    Joints::of(body.wall(a), body.wall(b)).area
}

/// The ring runs past the inset front and back: 188 mm, less what the rounded ends take,
/// on what rounding leaves of the mitre. All joints together were worked out apart from
/// this program as 503 cm².
#[test]
fn mitres_of_an_inset_box_are_as_deep_as_the_box() {
    let carpentry = study(&subject(BEACH, None));
    let (body, plan) = (&carpentry.body, &carpentry.body.plan);
    let left_top = Edge::between(Wall::Left, Wall::Top).unwrap();
    let length = edge(body, Wall::Left, Wall::Top) / plan.joint_line(left_top).left;
    assert!((length - 0.188).abs() < 0.0005, "{length}");
    let area = carpentry.glue_up.area;
    assert!((area - 0.0503).abs() < 0.0001, "{area}");
}

/// A tape hooks into the rim of the rebates, 7 mm wider on each side than the inside of
/// 570.8 x 330.8 mm.
#[test]
fn diagonals_are_measured_in_the_rim() {
    let carpentry = study(&subject(PARTY.0, Some(PARTY.1)));
    let rim = math::hypot(0.5848, 0.3448);
    let found = carpentry.glue_up.diagonal;
    assert!((found - rim).abs() < 1e-9, "{found} {rim}");
}

/// The stick between top and bottom holds front and back along its length and top and bottom
/// at its ends: a point of support leaves the lower bound where it is without the stick, and
/// raises the upper one.
#[test]
fn a_point_of_support_raises_the_upper_bound_alone() {
    let mode = |design: &str| {
        let carpentry = study(&subject(design, Some(PARTY.1)));
        let mut modes = carpentry.modes.into_iter();
        modes
            .find(|mode| mode.wall == Wall::Top)
            .expect("its modulus is known")
    };
    let from = PARTY.0.find("[[brace]]").expect("it has a stick");
    let stick = &PARTY.0[from..];
    let to = stick[1..].find("\n[").expect("more follows");
    let without = [&PARTY.0[..from], &stick[to + 1..]].concat();
    let (with, without) = (mode(PARTY.0), mode(&without));
    assert_eq!(with.supported, without.supported);
    assert!(with.clamped > 1.2 * without.clamped, "{with:?} {without:?}");
}

/// The leaning front leaves the upper edges 125.5 mm and the lower ones 155 mm. By hand with
/// walls of 8.95 mm: sides 2 · 8.95 · (125.5 + 155), front
/// 2 · 8.95 · (210 + 167.9) over the cosine of the lean; the back is screwed on.
#[test]
fn a_leaning_front_shortens_the_upper_edges() {
    let carpentry = study(&subject(MONO, None));
    let body = &carpentry.body;
    for (wall, length) in [(Wall::Top, 0.1255), (Wall::Bottom, 0.155)] {
        let found = edge(body, Wall::Left, wall) / 0.00895;
        assert!((found - length).abs() < 0.0001, "{wall:?} {found}");
    }
    let lean = 1.0 / math::cos(body.plan.block.front_lean);
    let front = 2.0 * 0.00895 * lean * (0.210 + 0.1679);
    let sides = 2.0 * 0.00895 * (0.1255 + 0.155);
    let area = carpentry.glue_up.area;
    assert!((area - front - sides).abs() < 0.5e-4, "{area}");
}

#[test]
fn every_cleat_and_bay_wall_has_its_step() {
    let carpentry = study(&subject(PARTY.0, Some(PARTY.1)));
    for board in &carpentry.body.plan.boards {
        let name = capital(&board.name);
        let steps = &carpentry.glue_up.steps;
        assert!(
            steps.iter().any(|step| step.words.starts_with(&name)),
            "{name}"
        );
    }
}

/// Screws on the back of an example: their places, and what the glue-up says.
fn screwed(design: &str, shelf: Option<&str>) -> (Vec<[f64; 2]>, String) {
    let carpentry = study(&subject(design, shelf));
    let holes = carpentry.body.plan.holes.iter();
    let screws = holes.filter(|hole| hole.purpose == wood::Purpose::Closing);
    let at = screws.map(|hole| hole.at).collect();
    let steps = &carpentry.glue_up.steps;
    let words = steps.last().map(|step| step.words.clone());
    (at, words.unwrap_or_default())
}

/// Cleats on all four sides of 336 x 176 mm: 4 + 3 screws, twice. The overlaid back of the
/// small box goes into the edges around 150 x 210 mm, and the rebated one has only two cleats.
#[test]
fn a_wall_that_comes_off_says_its_screws() {
    let (beach, said) = screwed(BEACH, None);
    assert_eq!(beach.len(), 14, "{said}");
    assert!(said.contains("with 14 screws"), "{said}");
    assert!(
        said.contains("12 mm deep through its holes into the cleats"),
        "{said}"
    );
    let (mono, said) = screwed(MONO, None);
    assert_eq!(mono.len(), 10, "{said}");
    assert!(
        said.contains("20 mm deep through its holes into the edges"),
        "{said}"
    );
    let (_, said) = screwed(PARTY.0, Some(PARTY.1));
    assert!(said.contains("the cleats at"), "{said}");
}

/// By hand: walls of 11.8 mm and cleats of 15 mm put the upper row 200 - 11.8 - 7.5 mm up, its
/// ends 11.8 + 25 mm from the sides; walls of 8.95 mm have their edges' middle at 4.475 mm.
#[test]
fn screws_stand_in_the_middle_of_what_they_bite_into() {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
    let (beach, _) = screwed(BEACH, None);
    let mut upper: Vec<f64> = beach
        .iter()
        .filter(|at| near(at[1], 0.1807))
        .map(|at| at[0])
        .collect();
    upper.sort_by(f64::total_cmp);
    assert_eq!(upper.len(), 4, "{beach:?}");
    let step = (0.360 - 2.0 * 0.0368) / 3.0;
    for (k, at) in upper.iter().enumerate() {
        assert!(near(*at, 0.0368 + step * k as f64), "{upper:?}");
    }
    let (mono, _) = screwed(MONO, None);
    let right = 0.150 + 2.0 * 0.00895;
    for edge in [0.004_475, right - 0.004_475] {
        let here = mono.iter().filter(|at| near(at[0], edge));
        assert_eq!(here.count(), 3, "{mono:?}");
    }
}

/// Screws that a bolt of the handle is in the way of give way, and nothing else moves.
#[test]
fn a_screw_keeps_off_what_is_in_its_way() {
    let handle = "\n[handle]\non = \"back\"\nat = \"132 x 180.7 mm\"\nspacing = \"200 mm\"\nbolt = \"5 mm\"\n";
    let (plain, _) = screwed(BEACH, None);
    let start = BEACH.find("[handle]").expect("it has one");
    let rest = &BEACH[start + 1..];
    let end = rest.find("\n[").expect("more follows") + start + 1;
    let text = format!("{}{}{handle}", &BEACH[..start], &BEACH[end..]);
    let (moved, _) = screwed(&text, None);
    let off = plain.iter().zip(&moved).filter(|(a, b)| a != b);
    let by: Vec<f64> = off.map(|(a, b)| (a[0] - b[0]).abs()).collect();
    // Bolts' holes of 5.5 mm at 32 and 232 mm, and screws at 36.8 and 227.7 mm, which must keep
    // 2.75 + 4 mm off: 4.8 mm want two whole millimetres more, 4.3 mm three.
    assert_eq!(by.len(), 2, "{plain:?} {moved:?}");
    for (by, whole) in by.iter().zip([0.003, 0.002]) {
        assert!((by - whole).abs() < 1e-9, "{by:?}");
    }
}

/// A strip in the corner of right and back wall touches both, whichever of its sides is
/// taken for its thickness; one more wall or strip at its end is one more joint.
#[test]
fn a_strip_is_glued_by_every_side() {
    let mut plan = study(&subject(PARTY.0, Some(PARTY.1))).body.plan;
    plan.boards.clear();
    let [low, high] = Body::new(&plan).unwrap().room.bounds();
    let strip = |wide: f64, deep: f64, across: usize, foot: f64| Board {
        name: "strip".to_owned(),
        kind: BoardKind::Cleat,
        low: [high[0] - wide, high[1] - deep, foot],
        high: [high[0], high[1], foot + 0.1],
        across,
        windows: Vec::new(),
    };
    for (wide, deep, across) in [
        (0.02, 0.02, 0),
        (0.02, 0.02, 1),
        (0.04, 0.01, 1),
        (0.01, 0.04, 0),
    ] {
        plan.boards = [0.05, 0.15]
            .map(|foot| strip(wide, deep, across, low[2] + foot))
            .to_vec();
        let body = Body::new(&plan).unwrap();
        let [first, second] = [0, 1].map(|board| of_board(&body, board, Wall::Front));
        assert_eq!((first.count, second.count), (2, 3));
        assert!((first.area - 0.1 * (wide + deep)).abs() < 1e-9);
        assert!((second.area - first.area - wide * deep).abs() < 1e-9);
        let screwed = of_board(&body, 0, Wall::Back);
        assert_eq!(screwed.count, 1);
        assert!((screwed.area - 0.1 * deep).abs() < 1e-9);
        assert_eq!(with_boards(&body, Wall::Back).count, 2);
    }
}

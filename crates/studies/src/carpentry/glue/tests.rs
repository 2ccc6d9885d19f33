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

/// Cleats on all four sides of 336 x 176 mm: 4 + 3 screws, twice. The overlaid back of the
/// small box goes into the edges around 150 x 210 mm, and the rebated one has only two cleats.
#[test]
fn a_wall_that_comes_off_says_its_screws() {
    let count = |design: &str, shelf: Option<&str>| -> (usize, String) {
        let carpentry = study(&subject(design, shelf));
        let rows = screws::rows(&carpentry.body, Wall::Back);
        let steps = &carpentry.glue_up.steps;
        let words = steps.last().map(|step| step.words.clone());
        let count = rows.iter().map(|row| row.count).sum();
        (count, words.unwrap_or_default())
    };
    let (beach, said) = count(BEACH, None);
    assert_eq!(beach, 14, "{said}");
    assert!(said.contains("12 mm deep into the cleats"), "{said}");
    let (mono, said) = count(MONO, None);
    assert_eq!(mono, 10, "{said}");
    assert!(said.contains("20 mm deep into the edges"), "{said}");
    let (_, said) = count(PARTY.0, Some(PARTY.1));
    assert!(said.contains("the cleats at"), "{said}");
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

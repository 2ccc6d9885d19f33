//! What the carpentry of whole designs gives.

use super::{Near, study};
use crate::apply;
use crate::check::Edit;
use crate::subject::Subject;
use crate::vary::{Draw, draw};
use proptest::prelude::*;
use wood::{Body, Ledger, Volumes};

const BEACH: &str = include_str!("../../../../examples/bathing-beach/design.toml");
const MONO: &str = include_str!("../../../../examples/workshop-mono/design.toml");
const PARTY: (&str, &str) = (
    include_str!("../../../../examples/salvage-party/design.toml"),
    include_str!("../../../../examples/salvage-party/shelf.toml"),
);

/// A box of which nothing of wood is said but its size and its sheet.
const PLAIN: &str = r#"
format = 1
name = "Plain"
[brief]
programme = "music"
distance = "2 m"
[[drivers]]
part = "full-range 4 in, 4 ohm"
count = 2
side = "both"
[amplifier]
part = "amplifier 2 x 15 W, 12 V"
[battery]
part = "iron phosphate 12.8 V 6 Ah"
[box]
outside = "400 x 240 x 200 mm"
wall = "birch plywood 12 mm"
thickness = "12 mm"
kind = "sealed"
"#;

fn subject(design: &str, shelf: Option<&str>) -> Subject {
    let project = design::read(design, shelf).unwrap_or_else(|errors| panic!("{errors:#?}"));
    Subject::new(project, 1.0).unwrap_or_else(|errors| panic!("{errors:#?}"))
}

fn plain(keys: &[(&str, &str)]) -> Subject {
    let edits: Vec<Edit> = keys.iter().map(|(key, to)| Edit::set(*key, *to)).collect();
    subject(&apply(PLAIN, &edits).unwrap(), None)
}

fn examples() -> [Subject; 3] {
    [
        subject(BEACH, None),
        subject(MONO, None),
        subject(PARTY.0, Some(PARTY.1)),
    ]
}

/// Volume and wood of a plain box by hand: outside less inside, less two round cut-outs and
/// the pilot holes of their screws.
#[test]
fn a_plain_box_has_the_volume_of_its_sides() {
    let subject = plain(&[]);
    let build = subject.build(&Draw::Nominal).enclosure;
    let (outside, inside) = (0.4 * 0.24 * 0.2, 0.376 * 0.216 * 0.176);
    assert!((build.gross - inside).abs() < 1e-12, "{}", build.gross);
    let part = &subject.project.design.drivers[0].part;
    let cutout = part.cutout.unwrap().si;
    let pilot = 0.7 * part.screw.map_or(0.004, |screw| screw.si);
    let screws = f64::from(part.screws.unwrap());
    let squares = cutout * cutout + screws * pilot * pilot;
    let holes = 2.0 * core::f64::consts::FRAC_PI_4 * squares * 0.012;
    let wood = outside - inside - holes;
    assert!((build.wood - wood).abs() < 1e-12, "{} {wood}", build.wood);
}

#[test]
fn a_thicker_wall_changes_air_weight_and_cuts_together() {
    let [thin, thick] = ["12 mm", "15 mm"].map(|t| plain(&[("box.thickness", t)]));
    let [a, b] = [&thin, &thick].map(|subject| subject.build(&Draw::Nominal));
    assert!(b.enclosure.net < a.enclosure.net && b.weight > a.weight);
    // Left and right end at the inner faces of top and bottom, front and back.
    let side = |subject: &Subject| {
        let left = subject
            .cut_list
            .iter()
            .find(|line| line.name.contains("left"));
        left.unwrap().long
    };
    let [was, is] = [&thin, &thick].map(side);
    assert!((was[0] - is[0] - 0.006).abs() < 1e-9 && (was[1] - is[1] - 0.006).abs() < 1e-9);
}

#[test]
fn whole_sheets_are_bought() {
    let sheets = |outside: &str| {
        let subject = plain(&[("box.outside", outside)]);
        let lines = subject.cost.lines();
        let line = lines
            .iter()
            .find(|line| line.label == "birch plywood 12 mm");
        line.unwrap().needed
    };
    assert_eq!(sheets("400 x 240 x 200 mm"), 1.0);
    assert!(sheets("1200 x 1100 x 700 mm") >= 2.0);
}

/// The light route of drawn builds and the solid model are two ways to the same volumes.
#[test]
fn drawn_builds_have_the_volumes_of_their_solids() {
    for subject in examples() {
        let dimensions = subject.causes.list().len();
        for index in 0..20 {
            let plan = subject.enclosure.plan.at(&draw(index, dimensions));
            let (light, solid) = (Volumes::of(&plan), Ledger::of(&Body::new(&plan).unwrap()));
            assert!((light.room - solid.room).abs() < 1e-9 * solid.room);
            assert!((light.wood() - solid.wood()).abs() < 1e-6 * solid.wood());
        }
    }
}

#[test]
fn shipped_examples_can_be_built() {
    for subject in examples() {
        let name = &subject.project.design.name.text;
        let carpentry = study(&subject);
        assert!(
            carpentry.body.faults.is_empty(),
            "{name}: {:?}",
            carpentry.body.faults
        );
        for plan in &carpentry.sheets {
            assert!(plan.layout.left_over.is_empty(), "{name}: {}", plan.sheet);
            assert!((0.0..=1.0).contains(&plan.waste), "{name}: {}", plan.waste);
        }
        let collides = carpentry.gaps.iter().find(|line| line.gap < 0.0);
        assert!(collides.is_none(), "{name}: {collides:?}");
        let account = subject.build(&Draw::Nominal).weight;
        let balance = &carpentry.balance;
        assert!((balance.weight - account).abs() < 1e-12);
        let block = carpentry.body.plan.block;
        let ends = [block.width, block.depth, block.height];
        assert!((0..3).all(|axis| (0.0..ends[axis]).contains(&balance.centre[axis])));
        assert_eq!(carpentry.holes.len(), carpentry.body.plan.holes.len());
        assert_eq!(carpentry.boards.len(), carpentry.body.plan.boards.len());
    }
}

#[test]
fn the_same_wood_is_worked_out_once() {
    let subject = subject(MONO, None);
    let (first, again) = (study(&subject), study(&subject));
    assert_eq!(first.access, again.access);
    assert_eq!(first.gaps, again.gaps);
}

/// Odds in a hundred that more than 1 mm is used up by two places, each even within 2 mm either
/// way, and a length that is even within so many millimetres: the tail of two even numbers is
/// a parabola, that of the third is summed up.
fn by_hand(within: f64) -> f64 {
    let tail = |x: f64| {
        let left = (4.0 - x.abs()).max(0.0);
        let beyond = left * left / 32.0;
        if x < 0.0 { 1.0 - beyond } else { beyond }
    };
    let steps = 2000;
    let shares = (0..steps).map(|i| (f64::from(i) + 0.5) / f64::from(steps));
    let each = shares.map(|share| tail(1.0 - within * (2.0 * share - 1.0)));
    100.0 * each.sum::<f64>() / f64::from(steps)
}

/// Two blocks side by side, 1 mm apart, the first between two lengths.
#[test]
fn odds_of_a_collision_follow_the_tolerances() {
    let odds = |width: &str| {
        let mut text = String::from(PLAIN);
        for (name, size, at) in [
            ("first", width, "100 x 0 x 80 mm"),
            ("second", "40 x 30 x 30 mm", "161 x 0 x 80 mm"),
        ] {
            text += &format!(
                "[[inside]]\nname = \"{name}\"\nblock = \"{size}\"\nat = \"{at}\"\nturn = \"as stated\"\n"
            );
        }
        let carpentry = study(&subject(&text, None));
        let name = |part: usize| carpentry.parts[part].label.as_str();
        let line = carpentry.gaps.iter().find(|line| {
            let near = matches!(line.near, Near::Part(other) if name(other) == "second");
            name(line.part) == "first" && near
        });
        let line = line.expect("they are near");
        assert!((line.gap - 0.001).abs() < 1e-9, "{line:?}");
        100.0 * line.odds
    };
    // 200 builds: three times the deviation of a share near a half is eleven in a hundred, and
    // evenly spread builds stay well within it.
    let mut before = 0.0;
    for (width, within) in [
        ("60 x 30 x 30 mm", 0.0),
        ("60 x 30 x 30 mm ± 2 mm", 2.0),
        ("60 x 30 x 30 mm ± 6 mm", 6.0),
    ] {
        let (found, wanted) = (odds(width), by_hand(within));
        assert!((found - wanted).abs() < 5.0, "{width}: {found} {wanted}");
        assert!(found > before && found < 100.0, "{width}: {found}");
        before = found;
    }
}

/// A handle nobody placed hangs level.
#[test]
fn a_handle_finds_the_middle_of_the_weight() {
    let subject = plain(&[
        ("handle.on", "top"),
        ("handle.spacing", "120 mm"),
        ("handle.bolt", "5 mm"),
    ]);
    let hang = study(&subject).balance.hang.unwrap();
    assert!(hang < 0.5_f64.to_radians(), "{}", hang.to_degrees());
}

/// A grille weighs before the box, where it is: the centre of
/// mass is that of the box without it and of the grille together.
#[test]
fn a_grille_weighs_where_it_is() {
    let without = study(&plain(&[])).balance;
    let keys = [
        ("grille.gap", "3 mm"),
        ("grille.strip", "20 mm"),
        ("grille.thickness", "9 mm"),
    ];
    let with = study(&plain(&keys)).balance;
    let own = with.weight - without.weight;
    assert!(own > 0.1, "{own}");
    let at = [0.2, -0.0045, 0.12];
    for (axis, at) in at.into_iter().enumerate() {
        let both = without.weight * without.centre[axis] + own * at;
        let off = with.centre[axis] - both / with.weight;
        assert!(off.abs() < 1e-6, "{axis} {off}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    /// Whatever a file may say of the box, it is studied or refused with a place.
    #[test]
    fn any_box_is_studied_or_refused(
        size in prop::array::uniform3(60_u32..700),
        thickness in 3_u32..40,
        joints in prop::sample::select(vec!["butt", "mitred ring", "mitred", "rebated"]),
        lean in prop::array::uniform2(0_u32..40),
        round in 1_u32..30,
    ) {
        let [w, h, d] = size;
        let edits = [
            Edit::set("box.outside", format!("{w} x {h} x {d} mm")),
            Edit::set("box.thickness", format!("{thickness} mm")),
            Edit::set("box.joints", joints),
            Edit::set("box.front_lean", format!("{} deg", lean[0])),
            Edit::set("box.back_lean", format!("{} deg", lean[1])),
            Edit::set("box.round", format!("{round} mm")),
        ];
        let text = apply(PLAIN, &edits).unwrap();
        let studied = design::read(&text, None).and_then(|project| Subject::new(project, 1.0));
        match studied {
            Ok(subject) => {
                let carpentry = study(&subject);
                prop_assert!(carpentry.balance.weight.is_finite());
                prop_assert!(carpentry.glue_up.area >= 0.0);
                prop_assert!(carpentry.cut_list.iter().all(|line| line.long.iter().all(|l| *l > 0.0)));
            }
            Err(errors) => prop_assert!(!errors.is_empty()),
        }
    }
}

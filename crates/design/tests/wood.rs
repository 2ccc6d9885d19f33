//! What a design and a shelf say of wood, from text to model: every key once.

use boxwright_design::{
    BraceForm, Closing, ControlKind, Design, EdgeJointKind, EnclosureKind, Fitting, Grain, Joints,
    OuterEdge, OuterEdges, SawKind, Turn, Value, Wall, read, read_shelf,
};
use core::f64::consts::PI;
use proptest::prelude::*;

const START: &str = r#"
format = 1
name = "all of wood"
[brief]
distance = "3 m"
"#;

const DRIVERS: &str = r#"
[[drivers]]
part = "woofer 4 in, 4 ohm"
count = 2
on = "top"
at = ["90 x 100 mm", "270 mm x 10 cm"]
flush = true
"#;

const ELECTRIC: &str = r#"
[amplifier]
part = "amplifier 2 x 15 W, 12 V"
at = "20 x 8 x 60 mm"
turn = "on its side"
fixed_to = "left"
standoff = "8 mm"
[battery]
part = "lead-acid 12 V 7 Ah"
vented_bay = true
place = "auto"
turn = "end up"
"#;

const BOX: &str = r#"
[box]
outside = "500 x 300 x 280 mm"
wall = "birch plywood 12 mm"
kind = "vented"
joints = "mitred ring"
front = "inset"
back = "overlaid"
setback = "8 mm"
rebate = "5 mm"
chamfer = "3 mm"
round_edges = "front"
front_lean = "8° ± 0.5°"
back_lean = "2 deg"
last = "bottom"
last_with = "screws"
[box.vent]
diameter = "50 mm"
length = "160 mm"
count = 1
on = "back"
at = "250 x 150 mm"
bent = "80 mm"
[[box.joint]]
edge = "top-left"
kind = "butt"
through = "left"
[[box.joint]]
edge = "front-top"
kind = "mitre"
[[box.joint]]
edge = "back-bottom"
kind = "rebate"
within = "bottom"
depth = "4 mm"
[[box.panel]]
side = "front"
wall = "MDF 16 mm"
thickness = "16.1 mm"
grain = "upright"
"#;

const INSIDE: &str = r#"
[[inside]]
name = "board"
block = "60 x 20 x 40 mm"
at = "0 x 0 x 0 mm"
turn = "sideways"
fixed_to = "back"
[[brace]]
name = "window"
parallel = "left"
at = "162 mm"
window = "120 x 80 mm"
wall = "MDF 10 mm"
[[brace]]
name = "stick"
from = "front"
section = "20 x 30 mm"
at = "250 x 150 mm"
[[cleat]]
name = "strip"
along = "bottom-back"
section = "15 x 12 mm"
length = "200 mm"
offset = "2 mm"
[bay]
inside = "160 x 110 x 80 mm"
at = "5 x 0 x 90 mm"
wall = "poplar plywood 10 mm"
opens = "left"
hole = "12 mm"
holes = 4
"#;

const OUTSIDE: &str = r#"
[handle]
on = "left"
at = "120 x 200 mm"
spacing = "110 mm"
bolt = "6 mm"
weight = "90 g"
[feet]
count = 3
diameter = "25 mm"
height = "10 mm"
inset = "30 mm"
screw = "4 mm"
[grille]
strip = "18 mm"
thickness = "6 mm"
gap = "2 mm"
[control]
on = "right"
at = "120 x 150 mm"
size = "90 x 60 mm"
plate = "acrylic plate 3 mm"
recess = "20 mm"
boxed = true
ledge = "9 mm"
screw = "3.5 mm"
[[control.part]]
part = "rotary potentiometer, M7"
at = "30 x 32 mm"
label = "VOLUME"
scale = "-5 to 5"
between = 4
[[control.part]]
part = "binding post, insulated"
at = "70 x 32 mm"
bridged_output = true
[saw]
kind = "track saw"
kerf = "2.1 mm"
trim = "6 mm"
longest = "1.4 m"
narrowest = "40 mm"
angle_error = "0.25°"
length_error = "0.4 mm"
[glue]
gap = "0.15 mm"
open_time = "6 min"
per_joint = "30 s"
spread = "0.16 kg/m²"
clamp_time = "90 min"
"#;

fn design() -> Design {
    let text = [START, DRIVERS, ELECTRIC, BOX, INSIDE, OUTSIDE].concat();
    match read(&text, None) {
        Ok(project) => project.design,
        Err(found) => panic!("{found:#?}"),
    }
}

#[track_caller]
fn si<const N: usize>(values: [Value; N], expected: [f64; N]) {
    for (value, expected) in values.into_iter().zip(expected) {
        assert!(
            (value.si - expected).abs() < 1e-12,
            "{} not {expected}",
            value.si
        );
    }
}

#[track_caller]
fn said(value: Option<Value>, expected: f64) {
    si([value.expect("it is said")], [expected]);
}

#[test]
fn joints_fittings_and_leans() {
    let wood = design().enclosure.carpentry;
    assert_eq!(wood.joints.value, Joints::MitredRing);
    assert_eq!(
        (wood.front.value, wood.back.value),
        (Fitting::Inset, Fitting::Overlaid)
    );
    said(wood.setback, 0.008);
    said(wood.rebate, 0.005);
    assert!(matches!(wood.outer, Some(OuterEdge::Chamfer(off)) if off.si == 0.003));
    assert_eq!(wood.outer_edges.value, OuterEdges::Front);
    said(wood.front_lean, 8.0 * PI / 180.0);
    said(wood.back_lean, 2.0 * PI / 180.0);
    assert_eq!(
        (wood.last.value, wood.last_with.value),
        (Wall::Bottom, Closing::Screws)
    );
}

#[test]
fn single_edges_and_walls() {
    let wood = design().enclosure.carpentry;
    assert_eq!(wood.edges[0].between, (Wall::Top, Wall::Left));
    assert_eq!(
        wood.edges[0].kind,
        EdgeJointKind::Butt {
            through: Wall::Left
        }
    );
    assert_eq!(wood.edges[1].kind, EdgeJointKind::Mitre);
    let EdgeJointKind::Rebate { within, depth } = wood.edges[2].kind else {
        panic!("{:?}", wood.edges[2]);
    };
    assert_eq!(within, Wall::Bottom);
    said(depth, 0.004);
    let front = &wood.walls[0];
    assert_eq!(front.side, Wall::Front);
    let (sheet, _) = front.sheet.as_ref().expect("it is said");
    assert_eq!(sheet.common.name.text, "MDF 16 mm");
    said(front.thickness, 0.0161);
    assert_eq!(front.grain.map(|grain| grain.value), Some(Grain::Upright));
}

#[test]
fn openings_and_parts_in_their_places() {
    let design = design();
    let drivers = &design.drivers[0];
    assert_eq!(drivers.mounting.on.value, Wall::Top);
    assert!(drivers.flush.value);
    let second = drivers.mounting.at[1];
    si([second.across, second.up], [0.27, 0.1]);
    let EnclosureKind::Vented(vent) = &design.enclosure.kind else {
        panic!("it is vented");
    };
    assert_eq!(
        (vent.mounting.on.value, vent.mounting.at.len()),
        (Wall::Back, 1)
    );
    said(vent.bent, 0.08);
    let board = &design.amplifier.placement;
    si(board.at.expect("it is said"), [0.02, 0.008, 0.06]);
    assert_eq!(board.turn.map(|turn| turn.value), Some(Turn::OnItsSide));
    assert_eq!(board.fixed_to.map(|wall| wall.value), Some(Wall::Left));
    said(design.amplifier.standoff, 0.008);
    let battery = &design.battery.placement;
    assert_eq!((battery.at, battery.fixed_to), (None, None));
    assert_eq!(battery.turn.map(|turn| turn.value), Some(Turn::EndUp));
    let thing = &design.inside[0].placement;
    si(thing.at.expect("it is said"), [0.0; 3]);
    assert_eq!(thing.turn.map(|turn| turn.value), Some(Turn::Sideways));
}

#[test]
fn boards_inside() {
    let design = design();
    let BraceForm::Frame {
        parallel,
        at,
        window,
    } = &design.braces[0].form
    else {
        panic!("{:?}", design.braces[0]);
    };
    assert_eq!(*parallel, Wall::Left);
    si([*at], [0.162]);
    si(window.expect("it is said"), [0.12, 0.08]);
    assert!(design.braces[0].sheet.is_some());
    let BraceForm::Stick { from, section, at } = &design.braces[1].form else {
        panic!("{:?}", design.braces[1]);
    };
    assert_eq!(*from, Wall::Front);
    si(*section, [0.02, 0.03]);
    si([at.across, at.up], [0.25, 0.15]);
    let cleat = &design.cleats[0];
    assert_eq!(cleat.along, (Wall::Bottom, Wall::Back));
    si(cleat.section, [0.015, 0.012]);
    said(cleat.length, 0.2);
    said(cleat.offset, 0.002);
    let bay = design.bay.expect("it is said");
    si(bay.at, [0.005, 0.0, 0.09]);
    si(
        [bay.size.width, bay.size.height, bay.size.depth],
        [0.16, 0.11, 0.08],
    );
    assert_eq!((bay.opens.value, bay.holes), (Wall::Left, 4));
    si([bay.hole], [0.012]);
}

#[test]
fn what_is_on_the_outside() {
    let design = design();
    let handle = design.handle.expect("it is said");
    let at = handle.at.expect("it is said");
    si(
        [at.across, at.up, handle.spacing, handle.bolt],
        [0.12, 0.2, 0.11, 0.006],
    );
    said(handle.weight, 0.09);
    let feet = design.feet.expect("it is said");
    assert_eq!(feet.count, 3);
    si(
        [feet.diameter, feet.height, feet.inset],
        [0.025, 0.01, 0.03],
    );
    let grille = design.grille.expect("it is said");
    si(
        [grille.strip, grille.thickness, grille.gap],
        [0.018, 0.006, 0.002],
    );
}

#[test]
fn the_control_panel_and_its_parts() {
    let control = design().control.expect("it is said");
    assert_eq!(control.on.value, Wall::Right);
    si([control.at.across, control.at.up], [0.12, 0.15]);
    si(control.size, [0.09, 0.06]);
    assert_eq!(control.plate.common.name.text, "acrylic plate 3 mm");
    said(control.recess, 0.02);
    said(control.ledge, 0.009);
    said(control.screw, 0.0035);
    assert!(control.boxed.value);
    let volume = &control.parts[0];
    si(volume.at, [0.03, 0.032]);
    assert_eq!(volume.part.kind.value, ControlKind::Potentiometer);
    assert_eq!(
        volume.label.as_ref().map(|label| label.text.as_str()),
        Some("VOLUME")
    );
    let scale = volume.scale.as_ref().expect("it is said");
    assert_eq!((scale.from, scale.to, scale.between), (-5, 5, 4));
    assert!(control.parts[1].bridged_output.value && control.parts[1].part.insulated.value);
}

#[test]
fn saw_and_glue() {
    let design = design();
    let saw = &design.saw;
    assert_eq!(saw.kind.value, SawKind::Track);
    said(saw.kerf, 0.0021);
    said(saw.trim, 0.006);
    said(saw.longest, 1.4);
    said(saw.narrowest, 0.04);
    said(saw.angle_error, PI / 720.0);
    said(saw.length_error, 0.0004);
    let glue = &design.glue;
    said(glue.gap, 0.00015);
    said(glue.open_time, 360.0);
    said(glue.per_joint, 30.0);
    said(glue.spread, 0.16);
    said(glue.clamp_time, 5400.0);
}

#[test]
fn a_shelf_has_panel_parts_and_offcuts() {
    let shelf = "\
format = 1
[[control]]
name = \"rotary potentiometer, M7\"
thread = \"M9 x 0.75\"
hole = \"9.2 mm\"
[[control]]
name = \"mine\"
kind = \"radio\"
cutout = \"30 x 20 mm\"
radio = true
[[offcut]]
sheet = \"my board\"
length = \"80 cm\"
width = \"40 cm\"
[[sheet]]
name = \"my board\"
thickness = \"1 mm\"
density = \"7.8 g/cm³\"
modulus_across = \"200 GPa\"
metal = true
length = \"1 m\"
width = \"1 m\"
[[driver]]
name = \"woofer 4 in, 4 ohm\"
cutout = \"104 mm\"
";
    let shelf = read_shelf(Some(shelf)).unwrap_or_else(|found| panic!("{found:#?}"));
    let named = |name: &str| {
        let mut parts = shelf.controls.iter();
        parts
            .find(|part| part.common.name.text == name)
            .expect("it is there")
    };
    let own = named("rotary potentiometer, M7");
    said(own.thread, 0.009);
    said(own.knob, 0.02);
    assert!(!own.common.generic, "a measured hole was said");
    assert!(named("mine").radio.value);
    assert_eq!(shelf.offcuts[0].sheet.text, "my board");
    assert_eq!(shelf.offcuts[0].count, 1);
    let sheet = shelf.sheets.last().expect("there is one");
    assert!(sheet.metal.value);
    said(sheet.modulus_across, 2e11);
    let mut drivers = shelf.drivers.iter();
    let woofer = drivers.find(|part| part.common.name.text == "woofer 4 in, 4 ohm");
    let woofer = woofer.expect("it is built in");
    assert_eq!(woofer.screws, Some(4));
    assert_eq!(
        woofer.screw_circle, None,
        "the built-in circle is within the maker's own hole"
    );
}

const WALLS: [(&str, Wall); 6] = [
    ("front", Wall::Front),
    ("back", Wall::Back),
    ("left", Wall::Left),
    ("right", Wall::Right),
    ("top", Wall::Top),
    ("bottom", Wall::Bottom),
];

/// Pairs of [`WALLS`] that follow one another face each other.
fn meet(a: usize, b: usize) -> bool {
    a / 2 != b / 2
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Any two walls that meet are an edge, in the order written; no others are.
    #[test]
    fn edges_are_pairs_of_walls_that_meet(a in 0usize..6, b in 0usize..6) {
        let along = format!("{}-{}", WALLS[a].0, WALLS[b].0);
        let inside = INSIDE
            .replacen("bottom-back", &along, 1)
            .replacen("offset = \"2 mm\"\n", "", 1);
        let text = [START, DRIVERS, ELECTRIC, BOX, &inside, OUTSIDE].concat();
        match read(&text, None) {
            Ok(project) => {
                prop_assert!(meet(a, b));
                prop_assert_eq!(project.design.cleats[0].along, (WALLS[a].1, WALLS[b].1));
            }
            Err(found) => {
                prop_assert!(!meet(a, b));
                prop_assert_eq!(found[0].code, "walls-apart");
                prop_assert_eq!(&text[found[0].place.start..found[0].place.end], format!("\"{along}\""));
            }
        }
    }

    /// Places of a list come back as written, each with its own place in the text.
    #[test]
    fn places_in_a_list_keep_their_order(
        places in prop::collection::vec((0u32..5000, 0u32..5000), 1..16),
    ) {
        let list: Vec<String> = places.iter().map(|(a, b)| format!("\"{a} x {b} mm\"")).collect();
        let drivers = format!(
            "[[drivers]]\npart = \"woofer 4 in, 4 ohm\"\nside = \"left\"\ncount = {}\nat = [{}]\n",
            places.len(),
            list.join(", "),
        );
        let text = [START, &drivers, ELECTRIC, BOX, INSIDE, OUTSIDE].concat();
        let design = read(&text, None).map_err(|f| TestCaseError::fail(format!("{f:?}")))?.design;
        let at = &design.drivers[0].mounting.at;
        prop_assert_eq!(at.len(), places.len());
        for ((read, (across, up)), written) in at.iter().zip(&places).zip(&list) {
            prop_assert!((1e3 * read.across.si - f64::from(*across)).abs() < 1e-9);
            prop_assert!((1e3 * read.up.si - f64::from(*up)).abs() < 1e-9);
            prop_assert_eq!(&text[read.place.start..read.place.end], written);
        }
    }
}

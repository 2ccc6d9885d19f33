//! The shipped examples and the built-in shelf read without a word.

use boxwright_design::{
    BUILT_IN_SHELF, BraceForm, Carpentry, Chambers, Closing, Diagnostic, EnclosureKind, FileId,
    Fitting, Glue, Joints, Leak, Mounting, OuterEdge, Programme, Project, Saw, Side, Stands,
    Tolerance, Wall, built_in_shelf, read,
};

const EXAMPLES: [(&str, &str, Option<&str>); 3] = [
    (
        "bathing-beach",
        include_str!("../../../examples/bathing-beach/design.toml"),
        None,
    ),
    (
        "workshop-mono",
        include_str!("../../../examples/workshop-mono/design.toml"),
        None,
    ),
    (
        "salvage-party",
        include_str!("../../../examples/salvage-party/design.toml"),
        Some(include_str!("../../../examples/salvage-party/shelf.toml")),
    ),
];

fn told(found: &[Diagnostic], text: &str) -> String {
    let line = |d: &Diagnostic| text[..d.place.start.min(text.len())].lines().count();
    found
        .iter()
        .map(|d| {
            format!(
                "\n  line {}: {}: {} ({})",
                line(d),
                d.code,
                d.message,
                d.mend
            )
        })
        .collect()
}

fn example(name: &str) -> Project {
    let (_, design, shelf) = EXAMPLES
        .into_iter()
        .find(|(n, _, _)| *n == name)
        .expect("known example");
    read(design, shelf).unwrap_or_else(|found| panic!("{name}:{}", told(&found, design)))
}

#[test]
fn every_example_reads_clean() {
    for (name, _, _) in EXAMPLES {
        example(name);
    }
}

#[test]
fn the_beach_box_is_what_its_file_says() {
    let design = example("bathing-beach").design;
    assert_eq!(design.drivers[0].count, 2);
    assert_eq!(design.enclosure.kind, EnclosureKind::Sealed);
    assert_eq!(design.enclosure.thickness.unwrap().si, 0.0118);
    assert_eq!(design.brief.currency, "EUR");
    assert_eq!(design.brief.largest.unwrap().height.si, 0.24);
    assert_eq!(design.inside.len(), 1);
    let carpentry = &design.enclosure.carpentry;
    assert_eq!(carpentry.joints.value, Joints::MitredRing);
    assert_eq!(carpentry.front.value, Fitting::Inset);
    assert_eq!(carpentry.setback.unwrap().si, 0.008);
    assert!(matches!(carpentry.outer, Some(OuterEdge::Round(radius)) if radius.si == 0.006));
    assert_eq!(carpentry.last_with.value, Closing::Screws);
    assert_eq!(design.drivers[0].mounting.at[1].across.si, 0.27);
    assert!(design.drivers[0].flush.value);
    let BraceForm::Frame { window, .. } = &design.braces[0].form else {
        panic!("the brace has a window");
    };
    assert_eq!(window.unwrap()[1].si, 0.136);
    assert_eq!(design.cleats[2].along, (Wall::Left, Wall::Back));
    let control = design.control.as_ref().unwrap();
    assert!(control.plate.metal.value);
    assert_eq!(control.parts.len(), 6);
    assert_eq!(control.parts[0].scale.as_ref().unwrap().to, 10);
    assert_eq!(control.parts[0].part.thread.unwrap().si, 0.007);
}

#[test]
fn the_workshop_box_is_mono() {
    let design = example("workshop-mono").design;
    assert_eq!(design.drivers[0].side.value, Side::Mono);
    assert!(matches!(
        design.enclosure.kind,
        EnclosureKind::PassiveRadiator(_)
    ));
}

#[test]
fn the_workshop_box_leans() {
    let design = example("workshop-mono").design;
    let lean = design.enclosure.carpentry.front_lean.unwrap().si;
    assert!((lean - 8.0 * core::f64::consts::PI / 180.0).abs() < 1e-15);
}

#[test]
fn the_party_box_has_a_bay_and_offcuts() {
    let project = example("salvage-party");
    let bay = project.design.bay.as_ref().unwrap();
    assert_eq!((bay.opens.value, bay.holes), (Wall::Back, 4));
    assert!(matches!(
        project.design.braces[0].form,
        BraceForm::Stick {
            from: Wall::Top,
            ..
        }
    ));
    let offcuts: Vec<u32> = project.shelf.offcuts.iter().map(|o| o.count).collect();
    assert_eq!(offcuts, [1, 2]);
}

#[test]
fn the_maker_s_shelf_overrides_key_by_key() {
    let project = example("salvage-party");
    let battery = &project.design.battery.part;
    assert!(battery.common.generic, "only price and stock were said");
    assert_eq!(battery.common.on_hand, 1);
    assert_eq!(
        battery.common.price.as_ref().unwrap().amount.place.file,
        FileId::Shelf
    );
    assert_eq!(battery.capacity.place.file, FileId::BuiltIn);
    assert_eq!(battery.capacity.si, 12.0 * 3600.0);

    let sheet = &project.design.enclosure.wall;
    assert!(!sheet.common.generic, "a measured thickness was said");
    assert_eq!(sheet.thickness.si, 0.0146);
    assert_eq!(sheet.density.place.file, FileId::BuiltIn);

    let driver = &project.design.drivers[0].part;
    assert!(!driver.common.generic);
    assert_eq!(driver.fs, None);
}

/// The least a design may say; the defaults fill the rest.
const LEAST: &str = r#"
format = 1
name = "least"
[brief]
distance = "10 ft"
loudness = "80 dB(A)"
[[drivers]]
part = "woofer 4 in, 4 ohm"
count = 2
[amplifier]
part = "amplifier 2 x 15 W, 12 V"
[battery]
part = "lead-acid 12 V 7 Ah"
[box]
inside = "12 x 8 x 7 1/2 in"
wall = "plywood 1/2 in"
kind = "sealed"
"#;

#[test]
fn what_is_not_said_has_its_default() {
    let design = read(LEAST, None)
        .unwrap_or_else(|f| panic!("{}", told(&f, LEAST)))
        .design;
    assert_eq!(design.brief.programme.value, Programme::Music);
    assert_eq!(design.brief.programme.place, None);
    assert!((design.brief.distance.si - 3.048).abs() < 1e-12);
    assert!(design.brief.loudness.is_some_and(|l| l.a_weighted));
    assert_eq!(design.place.stands.value, Stands::Free);
    assert_eq!(design.drivers[0].side.value, Side::Both);
    assert_eq!(design.battery.count, 1);
    assert!(
        design.battery.charged_inside.value,
        "the more dangerous case"
    );
    assert!(!design.battery.vented_bay.value);
    assert_eq!(design.enclosure.leak.value, Leak::Usual);
    assert_eq!(design.enclosure.chambers.value, Chambers::Shared);
    assert_eq!(design.enclosure.carpentry, Carpentry::plain());
    assert_eq!(design.drivers[0].mounting, Mounting::row_on_the_front());
    assert_eq!(design.battery.placement.at, None);
    assert!(design.control.is_none() && design.bay.is_none() && design.handle.is_none());
    assert!(design.braces.is_empty() && design.cleats.is_empty());
    assert_eq!((design.saw, design.glue), (Saw::usual(), Glue::usual()));
    let Tolerance::Within(half_width) = design.enclosure.wall.thickness.tolerance else {
        panic!("plywood is sold with a tolerance");
    };
    assert!((half_width - 0.0254 / 64.0).abs() < 1e-9);
}

#[test]
fn tables_between_braces_are_tables_too() {
    let braces = LEAST
        .replace("[[drivers]]\n", "[x]\n")
        .replace("[x]\npart = \"woofer 4 in, 4 ohm\"\ncount = 2\n", "")
        .replace(
            "[brief]",
            "drivers = [{ part = \"woofer 4 in, 4 ohm\", count = 2 }]\n[brief]",
        );
    let from_braces = read(&braces, None).unwrap_or_else(|f| panic!("{}", told(&f, &braces)));
    assert_eq!(from_braces.design.drivers.len(), 1);
}

#[test]
fn a_shelf_with_errors_does_not_make_its_parts_unknown() {
    let shelf =
        "format = 1\n[[driver]]\nname = \"mine\"\nkind = \"woofer\"\nsize = \"4 in\"\nre = 3.4\n";
    let design = LEAST.replace("woofer 4 in, 4 ohm", "mine");
    let found = read(&design, Some(shelf)).unwrap_err();
    let codes: Vec<_> = found.iter().map(|d| (d.code, d.place.file)).collect();
    assert_eq!(codes, [("unit-missing", FileId::Shelf)]);
}

#[test]
fn the_built_in_shelf_has_enough_to_start_with() {
    let shelf = built_in_shelf();
    assert!(shelf.drivers.len() >= 12);
    assert!(shelf.radiators.len() >= 4);
    assert!(shelf.amplifiers.len() >= 6);
    assert!(shelf.batteries.len() >= 8);
    assert!(shelf.sheets.len() >= 10);
    assert!(BUILT_IN_SHELF.starts_with('#'));
}

//! The shipped examples and the built-in shelf read without a word.

use boxwright_design::{
    BUILT_IN_SHELF, Diagnostic, EnclosureKind, FileId, Project, Side, built_in_shelf, read,
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
    assert_eq!(design.brief.largest.unwrap().height.si, 0.22);
    assert_eq!(design.inside.len(), 3);
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

//! What a design and a shelf say of fuses, wires, drawers and finishes.

use boxwright_design::{
    ChargePath, CutOff, Design, Does, FuseForm, Ground, Instrument, Shelf, Sum, SwitchingKind,
    VoltageReference, Wall, WireColour, built_in_shelf, read, read_shelf,
};

const SHORT: &str = r#"
format = 1
name = "Test box"

[brief]
distance = "3 m"

[[drivers]]
part = "woofer 4 in, 4 ohm"
count = 2

[amplifier]
part = "amplifier 2 x 15 W, 12 V"

[battery]
part = "iron phosphate 12.8 V 6 Ah"

[box]
outside = "360 x 200 x 180 mm"
wall = "birch plywood 12 mm"
kind = "sealed"
"#;

fn design(tail: &str) -> Design {
    let read = read(&format!("{SHORT}\n{tail}"), None);
    read.unwrap_or_else(|found| panic!("{found:#?}")).design
}

fn shelf(text: &str) -> Shelf {
    read_shelf(Some(&format!("format = 1\n{text}"))).unwrap_or_else(|found| panic!("{found:#?}"))
}

#[test]
fn a_file_that_says_nothing_of_wires_reads_as_before() {
    let design = design("");
    assert!(design.modules.is_empty() && design.finishes.is_empty());
    assert_eq!(design.indicator, None);
    assert_eq!(design.wiring.ground.value, Ground::Star);
    assert_eq!(design.wiring.charging.value, ChargePath::Separate);
    assert_eq!((design.wiring.wires.len(), design.wiring.place), (0, None));
    assert_eq!(design.source.sum.value, Sum::None);
    assert!(design.workshop.has(Instrument::Multimeter));
    assert!(!design.workshop.has(Instrument::Oscilloscope));
    assert_eq!(design.fuses().count(), 0);
}

#[test]
fn modules_and_wires_come_with_their_parts() {
    let design = design(
        r#"
[[module]]
part = "inline holder for a blade fuse"
name = "battery fuse"
fuse = "blade fuse 7.5 A"

[wiring]
ground = "isolated converter"
charging = "shared"
slack = "15 %"
loop = "8 cm"
usual = "flexible wire 1 mm²"

[[wiring.wire]]
from = "battery   +"
to = "fuse 1"
wire = "flexible wire 1.5 mm²"
colour = "red"
length = "120 mm"

[[wiring.without]]
from = "power light +"
to = "supply strip 3"
"#,
    );
    let module = &design.modules[0];
    assert_eq!(module.name.as_ref().unwrap().text, "battery fuse");
    let (fuse, _) = module.fuse.as_ref().unwrap();
    assert_eq!((fuse.current.si, fuse.form.value), (7.5, FuseForm::Blade));
    assert_eq!(design.fuses().count(), 1);
    let plan = &design.wiring;
    assert_eq!(plan.ground.value, Ground::IsolatedConverter);
    assert_eq!(plan.charging.value, ChargePath::Shared);
    assert_eq!(plan.slack.unwrap().si, 0.15);
    assert_eq!(plan.service_loop.unwrap().si, 0.08);
    assert_eq!(plan.usual.as_ref().unwrap().0.section.si, 1e-6);
    let wire = &plan.wires[0];
    assert_eq!(
        (wire.from.text.as_str(), wire.to.text.as_str()),
        ("battery +", "fuse 1")
    );
    assert_eq!(wire.wire.as_ref().unwrap().0.section.si, 1.5e-6);
    assert_eq!(wire.colour.unwrap().value, WireColour::Red);
    assert_eq!(wire.length.unwrap().si, 0.12);
    assert_eq!(plan.without[0].to.text, "supply strip 3");
}

#[test]
fn a_reference_may_be_a_zener_or_a_shunt() {
    let with = |name: &str| {
        let text = format!("[indicator]\ncut_off = \"relay\"\nreference = \"{name}\"\n");
        design(&text).indicator.expect("it is there")
    };
    let zener = with("zener 6.2 V, 5 %");
    assert_eq!(zener.cut_off.value, CutOff::Relay);
    assert!(
        matches!(zener.reference, Some((VoltageReference::Zener(part), _)) if part.voltage.si == 6.2)
    );
    let shunt = with("shunt reference 2.5 V, 1 %").reference;
    assert!(matches!(shunt, Some((VoltageReference::Shunt(part), _)) if part.tolerance.si == 0.01));
}

#[test]
fn finishes_keep_their_order_and_their_faces() {
    let text = r#"
[[finish]]
part = "water-based primer"
on = "front"

[[finish]]
part = "water-based paint"
coats = 3
on = ["front", "top"]
"#;
    let finishes = design(text).finishes;
    assert_eq!(finishes[0].on, [Wall::Front]);
    assert_eq!((finishes[0].coats, finishes[0].part.coats), (None, 2));
    assert_eq!(finishes[1].on, [Wall::Front, Wall::Top]);
    assert_eq!(finishes[1].coats, Some(3));
    // 10 m²/L is 10,000 m²/m³.
    assert_eq!(finishes[1].part.coverage.si, 1e4);
}

#[test]
fn what_a_panel_part_is_for_stands_with_it() {
    let text = r#"
[control]
at = "180 x 100 mm"
size = "60 x 100 mm"
plate = "birch plywood 4 mm"

[[control.part]]
part = "toggle switch, centre off, M12"
at = "30 x 60 mm"
does = "charge selector"
"#;
    let control = design(text).control.expect("it is there");
    let used = &control.parts[0];
    assert_eq!(used.does.unwrap().value, Does::ChargeSelector);
    let contacts = used.part.electric.contacts.unwrap().value;
    assert_eq!((contacts.poles(), contacts.throws()), (2, 2));
}

#[test]
fn drawers_hold_series_or_lists() {
    let own = shelf(
        r#"
[[resistor]]
name = "by series"
series = "E12"
from = "1 kΩ"
to = "10 kΩ"
tolerance = "5 %"
power = "0.25 W"

[[resistor]]
name = "by list"
values = ["4k7", "100 ohm", "4.7 kΩ"]
tolerance = "1 %"
power = "0.25 W"
"#,
    );
    let of = |name: &str| {
        let mut drawers = own.resistors.iter();
        drawers
            .find(|drawer| drawer.common.name.text == name)
            .unwrap()
    };
    assert_eq!(of("by series").values.len(), 13);
    assert_eq!(of("by list").values, [100.0, 4700.0]);
}

/// A list of the maker's replaces the series of the built-in drawer, and a series its list.
#[test]
fn what_lies_in_a_drawer_replaces_what_the_built_in_one_holds() {
    let text = r#"
[[resistor]]
name = "carbon-film resistors, 5 %"
values = ["220 ohm", "1 kΩ"]
on_hand = 4

[[capacitor]]
name = "film capacitors, 10 %"
series = "E3"
to = "1 µF"
"#;
    let own = shelf(text);
    let carbon = own
        .resistors
        .iter()
        .find(|d| d.common.on_hand == 4)
        .unwrap();
    assert_eq!(carbon.values, [220.0, 1000.0]);
    assert_eq!(carbon.tolerance.si, 0.05);
    let film = &own.capacitors[0];
    assert_eq!(film.common.name.text, "film capacitors, 10 %");
    // From 1 nF, where the built-in drawer begins, to 1 µF: three decades of three and one.
    assert_eq!(film.values.len(), 10);
}

#[test]
fn the_built_in_shelf_has_what_a_box_is_wired_with() {
    let shelf = built_in_shelf();
    let values: usize = shelf
        .resistors
        .iter()
        .map(|drawer| drawer.values.len())
        .max()
        .unwrap();
    assert_eq!(values, 121, "E24 over five decades, both ends");
    let currents: Vec<f64> = shelf.fuses.iter().map(|fuse| fuse.current.si).collect();
    assert!(currents.contains(&1.0) && currents.contains(&15.0));
    assert!(shelf.fuses.iter().all(|fuse| fuse.dc_voltage.is_some()));
    let sections: Vec<f64> = shelf.wires.iter().map(|wire| wire.section.si).collect();
    assert_eq!(sections, [0.25e-6, 0.5e-6, 0.75e-6, 1e-6, 1.5e-6, 2.5e-6]);
    assert!(shelf.modules.iter().any(|module| module.isolated.value));
    assert!(
        shelf
            .switching
            .iter()
            .any(|part| matches!(part.kind, SwitchingKind::Relay { .. }))
    );
    assert!(
        shelf
            .finishes
            .iter()
            .any(|finish| finish.self_heating.value)
    );
}

/// Whatever can be in a build has a price: an account without one is not a sum.
#[test]
fn every_new_part_of_the_built_in_shelf_has_a_price() {
    let shelf = built_in_shelf();
    let priced = |common: &boxwright_design::Common| common.price.is_some();
    assert!(shelf.fuses.iter().all(|part| priced(&part.common)));
    assert!(shelf.modules.iter().all(|part| priced(&part.common)));
    assert!(shelf.wires.iter().all(|part| priced(&part.common)));
    assert!(shelf.resistors.iter().all(|part| priced(&part.common)));
    assert!(shelf.capacitors.iter().all(|part| priced(&part.common)));
    assert!(shelf.zeners.iter().all(|part| priced(&part.common)));
    assert!(shelf.references.iter().all(|part| priced(&part.common)));
    assert!(shelf.comparators.iter().all(|part| priced(&part.common)));
    assert!(shelf.leds.iter().all(|part| priced(&part.common)));
    assert!(shelf.switching.iter().all(|part| priced(&part.common)));
    assert!(shelf.finishes.iter().all(|part| priced(&part.common)));
}

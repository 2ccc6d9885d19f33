//! Texts to a project: every name resolved, every unit gone, every error
//! found.

mod amplifier;
mod battery;
mod boards;
mod brief;
mod carpentry;
mod circuit_part;
mod control;
mod control_part;
mod drawer;
mod driver;
mod drivers;
mod edge;
mod electric;
mod enclosure;
mod fields;
mod finish;
mod format;
mod fuse;
mod indicator;
mod inside;
mod lengths;
mod module;
mod nearest;
mod offcut;
mod outside;
mod panel_electric;
mod part;
mod placement;
mod plain;
mod radiator;
mod role;
mod sense;
mod sheet;
mod shelf;
mod tools;
mod values;
mod wire;
mod wiring;
mod words;

pub use shelf::{BUILT_IN_SHELF, built_in_shelf};
pub use words::Word;

use crate::diagnostic::Log;
use crate::fault::{DesignFault, TextFault};
use crate::source::Source;
use crate::{AmplifierUse, Design, Diagnostic, FileId, Project, Shelf, Side};
use fields::Fields;
use shelf::ReadShelf;

/// Reads a design, and the maker's own shelf beside it.
///
/// ```
/// let wrong = "format = 1\nname = \"Lido\"\n[brief]\ndistance = \"3 L\"\n";
/// let found = boxwright_design::read(wrong, None).unwrap_err();
/// let of_value = found.iter().find(|d| d.code == "unit-wrong").unwrap();
/// assert_eq!(of_value.message, "`distance` is a length, but \"L\" measures a volume");
/// assert_eq!(&wrong[of_value.place.start..of_value.place.end], "L");
/// ```
///
/// # Errors
///
/// Everything that is wrong with either text, in the order of the texts.
pub fn read(design_text: &str, shelf_text: Option<&str>) -> Result<Project, Vec<Diagnostic>> {
    let mut log = Log::default();
    let shelf = shelf::read(shelf_text, &mut log);
    let source = Source::read(FileId::Design, design_text, &mut log);
    let design = if source.misplaced {
        None
    } else {
        design(&source, &shelf, &mut log)
    };
    let found = log.into_sorted();
    match design {
        Some(design) if found.is_empty() => Ok(Project {
            design,
            shelf: shelf.shelf,
        }),
        _ => Err(found),
    }
}

/// Reads the maker's own shelf over the built-in one.
///
/// # Errors
///
/// Everything that is wrong with the text.
pub fn read_shelf(shelf_text: Option<&str>) -> Result<Shelf, Vec<Diagnostic>> {
    let mut log = Log::default();
    let shelf = shelf::read(shelf_text, &mut log);
    let found = log.into_sorted();
    if found.is_empty() {
        Ok(shelf.shelf)
    } else {
        Err(found)
    }
}

fn design(source: &Source<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<Design> {
    let top = Fields::top(source, "the design file");
    if !format::is_known(&top, log) {
        return None;
    }
    let name = top.need_text("name", "\"my box\"", log);
    let revision = top.count("revision", 0, u32::MAX, log);
    let brief = needed(&top, "brief", "distance = \"3 m\"", log)
        .and_then(|fields| brief::brief(fields, log));
    let place = brief::play_place(top.table("place", log), log);
    let drivers = drivers::drivers(&top, shelf, log);
    let amplifier = needed(
        &top,
        "amplifier",
        "part = \"amplifier 2 x 15 W, 12 V\"",
        log,
    )
    .and_then(|fields| electric::amplifier(fields, shelf, log));
    let feed = electric::source(top.table("source", log), log);
    let battery = needed(&top, "battery", "part = \"lead-acid 12 V 7 Ah\"", log)
        .and_then(|fields| electric::battery(fields, shelf, log));
    let enclosure = needed(&top, "box", "outside = \"360 x 200 x 180 mm\"", log)
        .and_then(|fields| enclosure::enclosure(fields, shelf, log));
    let inside = inside::things(&top, log);
    let table = |key, log: &mut Log| top.table(key, log);
    let control = table("control", log).and_then(|f| control::control(f, shelf, log));
    let braces = boards::braces(&top, shelf, log);
    let cleats = boards::cleats(&top, log);
    let bay = table("bay", log).and_then(|f| boards::bay(f, shelf, log));
    let handle = table("handle", log).and_then(|f| outside::handle(f, log));
    let feet = table("feet", log).and_then(|f| outside::feet(f, log));
    let grille = table("grille", log).and_then(|f| outside::grille(f, log));
    let saw = tools::saw(top.table("saw", log), log);
    let glue = tools::glue(top.table("glue", log), log);
    let modules = module::modules(&top, shelf, log);
    let wiring = wiring::wiring(table("wiring", log), shelf, log);
    let indicator = table("indicator", log).map(|f| indicator::indicator(f, shelf, log));
    let finishes = finish::finishes(&top, shelf, log);
    let workshop = tools::workshop(table("workshop", log), log);
    top.finish(log);

    let mono = drivers.sides.iter().all(|(side, _)| *side == Side::Mono);
    if let Some(amplifier) = &amplifier {
        channels_suffice(amplifier, &drivers.sides, log);
    }
    if let Some(enclosure) = &enclosure {
        let has_drivers = !drivers.sides.is_empty();
        enclosure::chambers_fit(enclosure.chambers, mono && has_drivers, log);
        if let Some(control) = &control {
            sense::recess_ends_inside(control, enclosure, log);
        }
    }
    if let (Some(bay), Some(battery)) = (&bay, &battery) {
        sense::bay_is_used(bay, battery, log);
    }
    Some(Design {
        name: name?,
        revision,
        brief: brief?,
        place,
        drivers: drivers.uses,
        amplifier: amplifier?,
        source: feed,
        battery: battery?,
        enclosure: enclosure?,
        inside,
        control,
        braces,
        cleats,
        bay,
        handle,
        feet,
        grille,
        saw,
        glue,
        modules,
        wiring,
        indicator,
        finishes,
        workshop,
    })
}

/// A table that must be there.
fn needed<'a>(
    top: &Fields<'a>,
    key: &'static str,
    example: &str,
    log: &mut Log,
) -> Option<Fields<'a>> {
    if top.is_absent(key) && !top.is_broken() {
        let fault = TextFault::TableMissing {
            header: format!("[{key}]"),
            example: example.to_owned(),
        };
        log.add(fault, top.header());
    }
    top.table(key, log)
}

fn channels_suffice(amplifier: &AmplifierUse, sides: &[(Side, crate::Place)], log: &mut Log) {
    let on = |wanted: Side| {
        sides
            .iter()
            .any(|(side, _)| *side == wanted || *side == Side::Both)
    };
    if amplifier.part.channels < 2 && on(Side::Left) && on(Side::Right) {
        let name = amplifier.part.common.name.text.clone();
        log.add(DesignFault::AmplifierChannels { name }, amplifier.place);
    }
}

//! What is made on the bench while the wood dries: control panel, harness, indicator.

use super::Site;
use crate::order::draft::{Draft, Drafts};
use crate::order::model::{Why, Work};
use crate::order::times;
use crate::words::prefixed;

pub(super) fn add(drafts: &mut Drafts, site: &Site<'_>) {
    control(drafts, site);
    harness(drafts, site);
    indicator(drafts, site);
}

fn control(drafts: &mut Drafts, site: &Site<'_>) {
    let Some(control) = &site.carpentry.control else {
        return;
    };
    let holes = control.holes.len() + control.screws.len();
    let draft = Draft::new(
        Work::Panel,
        "Cut the control panel",
        times::PLATE + holes as f64 * times::PLATE_HOLE,
    )
    .say(format!(
        "{}: template on, check its bar of 100 mm, centre-punch, small drill first, then each size",
        control.plate
    ))
    .say("try every part in its hole; file, do not force")
    .with([
        "fine saw or shear",
        "drill",
        "step drill or files",
        "centre punch",
    ]);
    drafts.add("plate", draft);
    let written = control
        .holes
        .iter()
        .any(|hole| hole.label.is_some() || hole.scale.is_some());
    if written {
        let draft = Draft::new(Work::Panel, "Letter the control panel", times::LETTERING);
        let draft = letter(draft, site)
            .say("as the file for it shows; not mirrored: hold it up to the plate first")
            .say("degrease before, seal after");
        drafts.add("lettering", draft);
        drafts.after("lettering", ["plate"], Why::Work);
    }
    let count = control.holes.len();
    let draft = Draft::new(
        Work::Panel,
        "Mount the parts of the panel",
        count as f64 * times::PANEL_PART,
    )
    .say("bodies stop at their nuts, washers as drawn; insulate what must not touch a metal plate")
    .with(["spanners", "soldering iron"]);
    drafts.add("panel-parts", draft);
    drafts.after("panel-parts", ["plate", "lettering"], Why::Work);
}

/// Electrical things that are wired to one another.
fn electrical_parts(site: &Site<'_>) -> usize {
    let drivers: u32 = site.design.drivers.iter().map(|group| group.count).sum();
    let panel = site
        .design
        .control
        .as_ref()
        .map_or(0, |control| control.parts.len());
    // Amplifier and battery are always there.
    2 + drivers as usize + panel + site.design.modules.len()
}

fn wires(site: &Site<'_>) -> f64 {
    let guess = times::WIRES_OF_PART * electrical_parts(site) as f64 / 2.0;
    site.wires.map_or(guess, |wires| wires as f64)
}

/// How words come onto the plate: only metal is etched.
fn letter(draft: Draft, site: &Site<'_>) -> Draft {
    let control = site.design.control.as_ref();
    if control.is_some_and(|control| control.plate.metal.value) {
        draft
            .say("etch, engrave or transfer")
            .with(["etching, engraving or transfer set", "gloves and glasses"])
    } else {
        draft
            .say("engrave or transfer; no solvent on it that is not tried on a scrap")
            .with(["engraving or transfer set", "glasses"])
    }
}

/// What the design puts across the outputs of its amplifier.
fn damping(site: &Site<'_>) -> Option<String> {
    let used = &site.design.amplifier;
    let (resistor, capacitor) = (used.damping_resistor?, used.damping_capacitor?);
    Some(format!(
        "at the amplifier, {} and {} in series across the two legs of each output that is used, \
leads short and sleeved: they damp its filter",
        prefixed(resistor.si, "Ω"),
        prefixed(capacitor.si, "F")
    ))
}

fn harness(drafts: &mut Drafts, site: &Site<'_>) {
    let mut draft = Draft::new(Work::Wiring, "Make the harness", wires(site) * times::WIRE)
        .say("cut, strip and label each wire as the list says; sleeves on before the ends")
        .say("fuse holder at the battery's end of its wire, the fuse still out")
        .say("pull at every end; then each wire must conduct from end to end")
        .with([
            "side cutters and stripper",
            "soldering iron",
            "crimping tool",
            "labels",
        ]);
    let inline = inline(site);
    if !inline.is_empty() {
        draft = draft.say(format!("spliced into the wires: {}", inline.join(", ")));
    }
    if let Some(words) = damping(site) {
        draft = draft.say(words);
    }
    drafts.add("harness", draft);
}

/// Modules that hang in the wires: they have no outline to be fitted in a place of their own.
fn inline(site: &Site<'_>) -> Vec<String> {
    let modules = site.design.modules.iter();
    let loose = modules.filter(|used| used.part.size.is_none());
    loose
        .map(|used| {
            let part = &used.part.common.name.text;
            match &used.name {
                Some(name) => format!("{} ({part})", name.text),
                None => part.clone(),
            }
        })
        .collect()
}

fn indicator(drafts: &mut Drafts, site: &Site<'_>) {
    if !site.has_indicator() {
        return;
    }
    let built = site.design.indicator.is_some();
    let draft = if built {
        Draft::new(
            Work::Wiring,
            "Build the low-battery indicator",
            times::INDICATOR,
        )
        .say("on a small board, values as its sheet says; measure each resistor before it goes in")
        .with(["soldering iron", "side cutters"])
    } else {
        Draft::new(
            Work::Wiring,
            "Prepare the low-battery indicator",
            times::SMALL_PART,
        )
        .say("leads on its board, set as its own leaflet says")
        .with(["soldering iron"])
    };
    drafts.add("indicator", draft);
    if site.cuts_off {
        cut_off(drafts);
    }
}

fn cut_off(drafts: &mut Drafts) {
    let draft = Draft::new(Work::Wiring, "Build the cut-off", times::INDICATOR)
        .say("on a board of its own, values as its sheet says; measure each resistor before it goes in")
        .say("transistor and diode as drawn: the ring of a diode across a coil goes to plus")
        .say(
            "its start button on two wires, where a finger reaches it from outside: in a hole of its \
own, which no drawing shows, sealed like the others",
        )
        .with(["soldering iron", "side cutters", "hand drill"]);
    drafts.add("cut-off", draft);
}

/// Time to join the harness in the box.
pub(super) fn joining(site: &Site<'_>) -> f64 {
    2.0 * wires(site) * times::JOIN
}

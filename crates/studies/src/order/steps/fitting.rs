//! Parts into the box, and the wires that join them.

use super::{Site, bench};
use crate::carpentry::{PartKind, PlacedPart, Stage};
use crate::order::draft::{Draft, Drafts};
use crate::order::model::{Why, Work};
use crate::order::times;
use crate::words;
use design::FinishBase;
use std::collections::BTreeMap;

/// Some parts that go in together.
struct Group<'a> {
    title: String,
    kind: PartKind,
    parts: Vec<(usize, &'a PlacedPart)>,
}

pub(super) fn add(drafts: &mut Drafts, site: &Site<'_>) {
    let groups = groups(site);
    for (id, group) in &groups {
        drafts.add(id, draft(site, group));
        keep_clean(drafts, site, id, group);
    }
    for (id, group) in &groups {
        link(drafts, site, id, group, &groups);
    }
    wiring(drafts, site, &groups);
    filling(drafts, site);
}

/// Parts by the step that fits them; vents are glued in with the wood.
fn groups<'a>(site: &Site<'a>) -> BTreeMap<String, Group<'a>> {
    let mut groups: BTreeMap<String, Group<'a>> = BTreeMap::new();
    for (index, part) in site.carpentry.parts.iter().enumerate() {
        let (id, title) = match part.kind {
            PartKind::Vent => continue,
            PartKind::Driver => ("fit-drivers".into(), "Drivers".into()),
            PartKind::Radiator => ("fit-radiator".into(), "Passive radiator".into()),
            PartKind::Battery => ("fit-battery".into(), "Battery".into()),
            PartKind::Board => ("fit-amplifier".into(), "Amplifier".into()),
            PartKind::Control => ("fit-panel".into(), "Control panel".into()),
            PartKind::Handle => ("fit-handle".into(), "Handle".into()),
            PartKind::Foot => ("fit-feet".into(), "Feet".into()),
            PartKind::Grille => ("fit-grille".into(), "Grille".into()),
            PartKind::Other => (
                format!("fit-{}", part.table.replace('.', "-")),
                part.label.clone(),
            ),
        };
        let group = groups.entry(id).or_insert(Group {
            title,
            kind: part.kind,
            parts: Vec::new(),
        });
        group.parts.push((index, part));
    }
    groups
}

/// Whether any part of a group is fixed to the wall that comes off.
fn on_last(site: &Site<'_>, group: &Group<'_>) -> bool {
    let panel = site.carpentry.body.wall(site.last);
    let mut parts = group.parts.iter();
    site.screwed
        && parts
            .any(|(_, part)| part.part.sits_in == Some(site.last) || part.part.is_screwed_to(panel))
}

/// The last stage at which all parts of a group still go in.
fn goes_in(site: &Site<'_>, group: &Group<'_>) -> Stage {
    let own = site.carpentry.access.iter();
    let own = own.filter(|line| group.parts.iter().any(|(index, _)| *index == line.part));
    own.map(|line| line.goes_in).min().unwrap_or(Stage::Closed)
}

fn draft(site: &Site<'_>, group: &Group<'_>) -> Draft {
    let count = group.parts.len();
    let small = matches!(group.kind, PartKind::Foot | PartKind::Other);
    let each = if small {
        times::SMALL_PART
    } else {
        times::PART
    };
    let title = match count {
        // Its parts are mounted on it already.
        _ if group.kind == PartKind::Control => format!("Fit: {}", group.title.to_lowercase()),
        1 => format!("Fit: {}", group.title.to_lowercase()),
        count => format!("Fit: {count} × {}", group.title.to_lowercase()),
    };
    let pieces = if group.kind == PartKind::Control {
        1
    } else {
        count
    };
    let mut draft = Draft::new(Work::Fitting, title, pieces as f64 * each);
    if on_last(site, group) {
        draft = draft.say(format!(
            "on the {}, as it lies on the bench",
            words::wall(site.last)
        ));
    }
    let said = match group.kind {
        PartKind::Driver => {
            "wires through first, gasket under the frame, screws a little at a time crosswise; a hand \
over the cone"
        }
        PartKind::Radiator => {
            "gasket under the frame, added mass on its screw, locked with a drop of glue"
        }
        PartKind::Battery => {
            "fuse out; strapped so that it cannot move when the box falls on any side, nothing sharp near"
        }
        PartKind::Board => {
            "on its pillars, nothing of the board near wood or wire; the fuse stays out"
        }
        PartKind::Control => "its wires labelled, sealed all around from inside",
        PartKind::Handle => {
            "nuts inside with large washers, locked; lift it once with twice the weight"
        }
        PartKind::Foot => "screws shorter than foot and wall together",
        PartKind::Grille => "cloth tight, away from the cones",
        PartKind::Vent | PartKind::Other => "fixed so that nothing rattles or wanders",
    };
    let ways = site.carpentry.access.iter();
    let own = ways.filter(|line| group.parts.iter().any(|(index, _)| *index == line.part));
    for line in own {
        if line.goes_in == Stage::Closed && !line.how.is_empty() && line.how != "straight" {
            draft = draft.say(format!("{}: {}", line.label, line.how));
        }
    }
    draft.say(said).with(["screwdriver", "hand drill"])
}

/// Dust and coats keep off parts that can wait; what cannot is masked where it stands.
fn keep_clean(drafts: &mut Drafts, site: &Site<'_>, id: &str, group: &Group<'_>) {
    let stage = goes_in(site, group);
    if stage == Stage::Open {
        drafts.after("glue-01", [id], Why::Access);
        return;
    }
    if !site.screwed && stage == Stage::BeforeLast {
        drafts.after("close", [id], Why::Access);
        let glued = drafts.like("glue-");
        drafts.after(id, glued.iter().map(String::as_str), Why::Access);
        drafts.after(id, ["seal", "vents"], Why::Clean);
        return;
    }
    drafts.after(
        id,
        ["seal", "vents", "pilots", "drill-last", "round"],
        Why::Clean,
    );
    drafts.after(id, ["unmask", "handled"], Why::Clean);
    let vapour = site
        .finish
        .layers
        .iter()
        .any(|layer| layer.base != FinishBase::Water);
    let sensitive = matches!(group.kind, PartKind::Battery);
    let pressed = matches!(group.kind, PartKind::Foot | PartKind::Grille);
    if (vapour && sensitive) || pressed {
        drafts.after(id, ["cured"], Why::Drying);
    }
    if !site.screwed {
        drafts.after(id, ["close"], Why::Drying);
    }
}

fn link(
    drafts: &mut Drafts,
    site: &Site<'_>,
    id: &str,
    group: &Group<'_>,
    groups: &BTreeMap<String, Group<'_>>,
) {
    if group.kind == PartKind::Control {
        drafts.after(id, ["panel-parts"], Why::Work);
    }
    let by_name = |name: &str| -> Option<&String> {
        groups.iter().find_map(|(id, group)| {
            let known = match group.kind {
                PartKind::Battery => name == "the battery",
                PartKind::Board => name == "the amplifier",
                PartKind::Control => name == "the control panel",
                PartKind::Grille => name == "the grille",
                _ => group.parts.iter().any(|(_, part)| part.label == name),
            };
            known.then_some(id)
        })
    };
    // What must be out before it comes out goes in after it.
    let ways = site.carpentry.access.iter();
    let own = ways.filter(|line| group.parts.iter().any(|(index, _)| *index == line.part));
    for name in own.flat_map(|line| &line.first) {
        if let Some(later) = by_name(name).filter(|later| later.as_str() != id) {
            // Where each stands in the other's way, the dry fit decides.
            if !drafts.graph.follows(id, later) {
                drafts.after(later, [id], Why::Access);
            }
        }
    }
    if matches!(group.kind, PartKind::Grille) {
        drafts.after(id, ["fit-drivers"], Why::Access);
    }
}

/// Outputs to the drivers first, so that they are tested before the board is joined to them.
fn wiring(drafts: &mut Drafts, site: &Site<'_>, groups: &BTreeMap<String, Group<'_>>) {
    let joining = bench::joining(site);
    let outputs = Draft::new(Work::Wiring, "Wire the drivers", 0.3 * joining)
        .say("both wires of one output side by side; plus to plus on every driver")
        .say("their other ends stay off the amplifier until they are tested")
        .with(["soldering iron", "crimping tool", "screwdriver"]);
    drafts.add("wire-outputs", outputs);
    drafts.after("wire-outputs", ["harness"], Why::Wiring);
    let supply = Draft::new(Work::Wiring, "Wire the rest", 0.7 * joining)
        .say("as the wiring diagram shows, label by label; the fuse still out")
        .say("tie and strap everything: what hangs loose rattles and chafes through")
        .with([
            "soldering iron",
            "crimping tool",
            "screwdriver",
            "cable ties",
        ]);
    drafts.add("wire", supply);
    drafts.after(
        "wire",
        ["harness", "panel-parts", "indicator", "cut-off"],
        Why::Wiring,
    );
    drafts.after("wire", ["wire-outputs"], Why::Work);
    for (id, group) in groups {
        let late = !site.screwed && goes_in(site, group) == Stage::Closed;
        match group.kind {
            // Where the box is glued shut, their holes are the way in: they lie beside it.
            PartKind::Driver if site.screwed => {
                drafts.after("wire-outputs", [id.as_str()], Why::Wiring);
            }
            PartKind::Driver => {
                drafts.after(id, ["wire-outputs", "wire"], Why::Access);
            }
            PartKind::Battery | PartKind::Board | PartKind::Control | PartKind::Other => {
                // What goes in after the box is shut was wired and tested beside it.
                if late && site.is_hidden_for_good() {
                    drafts.after(id, ["wire"], Why::Wiring);
                } else {
                    drafts.after("wire", [id.as_str()], Why::Wiring);
                }
            }
            _ => {}
        }
    }
}

fn filling(drafts: &mut Drafts, site: &Site<'_>) {
    let share = site.design.enclosure.filling.map_or(0.0, |value| value.si);
    if share <= 0.0 {
        return;
    }
    let litres = 1e3 * share * site.carpentry.body.room.volume();
    let draft = Draft::new(
        Work::Fitting,
        "Lay in the filling",
        times::SMALL_PART + litres * times::FILLING_PER_LITRE,
    )
    .say(format!(
        "teased so that it fills {:.0} % of the space evenly; clear of cones, vents and the amplifier",
        100.0 * share
    ))
    .with(["gloves", "dust mask"]);
    drafts.add("filling", draft);
    drafts.after("filling", ["wire"], Why::Access);
}

//! Closing the box: nothing it hides is still to be put in or tested.

use super::Site;
use crate::carpentry::{PartKind, Stage};
use crate::order::draft::{Draft, Drafts};
use crate::order::model::{Why, Work};
use crate::order::times;
use crate::words;

/// What stands or runs in the box.
fn hidden(site: &Site<'_>) -> Vec<String> {
    let mut names = vec!["the wires".to_owned()];
    for line in &site.carpentry.access {
        let kind = site.carpentry.parts.get(line.part).map(|part| part.kind);
        let inside = matches!(
            kind,
            Some(PartKind::Battery | PartKind::Board | PartKind::Other)
        );
        let stays = line.goes_in < Stage::Closed;
        if inside && (site.screwed || stays) && !names.contains(&line.label) {
            names.push(line.label.clone());
        }
    }
    names
}

pub(super) fn add(drafts: &mut Drafts, site: &Site<'_>) {
    let shutting = site.shutting();
    if site.screwed {
        let name = words::wall(site.last);
        let close = Draft::new(
            Work::Fitting,
            format!("Close the box: {name}"),
            times::CLOSE,
        )
        .say("a strip of foam all around, every hole of shafts and wires sealed from inside")
        .say("screws by hand, crosswise, no more than snug")
        .with(["screwdriver", "sealing strip"]);
        drafts.add("close", close);
    }
    if let Some(draft) = drafts.steps.get_mut(shutting) {
        draft.hides.extend(hidden(site));
    }
    let inside = ["wire", "filling", "vents", "seal"];
    drafts.after(shutting, inside, Why::Access);
    if !site.screwed && shutting == "close" {
        // Glue on a finish does not hold; coats come after it.
        drafts.after("sand", ["close"], Why::Drying);
    }
    let parts: Vec<String> = drafts.like("fit-");
    for id in &parts {
        let outside = matches!(id.as_str(), "fit-feet" | "fit-grille");
        if site.screwed && !outside {
            drafts.after("close", [id.as_str()], Why::Access);
        }
    }
    if site.screwed {
        drafts.after("close", ["cured", "pilots"], Why::Drying);
    }
    for id in ["fit-feet", "fit-grille"] {
        drafts.after(id, ["close"], Why::Work);
    }
}

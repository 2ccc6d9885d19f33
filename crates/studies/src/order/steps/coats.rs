//! Sanding, masking, coats, and waiting for them.

use super::Site;
use crate::order::draft::{Draft, Drafts};
use crate::order::model::{Why, Work};
use crate::order::times;

/// Work in wood that raises dust or wants bare wood.
const BARE: [&str; 5] = ["seal", "vents", "round", "pilots", "drill-last"];

pub(super) fn add(drafts: &mut Drafts, site: &Site<'_>) {
    let finish = site.finish;
    if finish.layers.is_empty() {
        return;
    }
    offcut(drafts, site);
    let mut sand = Draft::new(
        Work::Finish,
        "Sand",
        finish.sanding.iter().map(|round| round.time).sum(),
    );
    for round in &finish.sanding {
        sand = sand.say(format!("P{}: {}", round.grit, round.words));
    }
    drafts.add(
        "sand",
        sand.with(["sanding block", "paper", "dust mask", "vacuum cleaner"]),
    );
    let glued = drafts.like("glue-");
    drafts.after("sand", glued.iter().map(String::as_str), Why::Drying);
    drafts.after(
        "sand",
        BARE.into_iter().chain(["drill-before", "drill-flat"]),
        Why::Work,
    );
    if !site.screwed {
        drafts.after("sand", ["close"], Why::Drying);
    }
    let mask = Draft::new(
        Work::Finish,
        "Mask",
        finish.masks.len() as f64 * times::MASK,
    )
    .say(format!(
        "{} places, as the finish sheet lists them",
        finish.masks.len()
    ))
    .with(["masking tape", "card", "knife"]);
    drafts.add("mask", mask);
    drafts.after("mask", ["sand"], Why::Work);
    coats(drafts, site);
}

fn offcut(drafts: &mut Drafts, site: &Site<'_>) {
    let layers = &site.finish.layers;
    let coats: u32 = layers.iter().map(|layer| layer.coats).sum();
    let wait = layers.iter().map(|layer| {
        let between = f64::from(layer.coats - 1) * layer.recoat;
        between + layer.before_next
    });
    let wait: f64 = wait.sum();
    let mut draft = Draft::new(
        Work::Finish,
        "Finish an offcut",
        f64::from(coats) * times::OFFCUT_COAT + times::TEST,
    )
    .wait(wait, "the coats on the offcut");
    for said in &site.finish.offcut {
        draft = draft.say(said.as_str());
    }
    drafts.add(
        "offcut",
        draft.with(["offcut of the same sheet", "paper", "brush"]),
    );
    drafts.after("offcut", ["saw"], Why::Work);
}

fn coats(drafts: &mut Drafts, site: &Site<'_>) {
    let layers = &site.finish.layers;
    let mut before = "mask".to_owned();
    for (index, layer) in layers.iter().enumerate() {
        let last_layer = index + 1 == layers.len();
        for coat in 1..=layer.coats {
            let last = coat == layer.coats;
            let id = format!("coat-{}-{coat:02}", index + 1);
            let title = match layer.coats {
                1 => capital(&layer.name),
                count => format!("{}, coat {coat} of {count}", capital(&layer.name)),
            };
            let sanded = layer.sand.filter(|_| coat > 1);
            let hands = layer.coat_time + sanded.map_or(0.0, |_| layer.sand_time);
            let mut draft = Draft::new(Work::Finish, title, hands);
            if let Some(grit) = sanded {
                draft = draft.say(format!("P{grit} lightly along the grain, dust off"));
            }
            let wait = if last && last_layer {
                layer.recoat.max(times::HANDLED)
            } else if last {
                layer.before_next
            } else {
                layer.recoat
            };
            let thin = if layer.sprayed {
                "thin and wet on wet edges, from beyond one edge to beyond the other"
            } else {
                "thin, along the grain; look along the light for runs after five minutes"
            };
            let tool = if layer.sprayed {
                "mask for vapour"
            } else {
                "brush or cloth"
            };
            draft = draft
                .say(thin)
                .wait(wait, "the coat to dry")
                .with([tool, "gloves"]);
            drafts.add(&id, draft);
            drafts.after(&id, [before.as_str()], Why::Drying);
            before = id;
        }
    }
    drafts.after("coat-1-01", ["offcut"], Why::Test);
    let unmask = Draft::new(Work::Finish, "Take the masks off", times::TEST)
        .say("cut along the edges of the tape with a sharp knife first")
        .with(["knife"]);
    drafts.add("unmask", unmask);
    drafts.after("unmask", [before.as_str()], Why::Drying);
    let Some(top) = layers.last() else { return };
    let cure = (top.cure - top.recoat.max(times::HANDLED)).max(0.0);
    let cured = Draft::new(Work::Finish, "Leave it to cure", 0.0)
        .say("warm and airy, on blocks; nothing soft against it")
        .wait(cure, "the finish to cure");
    drafts.add("cured", cured);
    drafts.after("cured", ["unmask"], Why::Drying);
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

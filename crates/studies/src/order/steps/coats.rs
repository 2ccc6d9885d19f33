//! Sanding, masking, coats, and waiting for them: no coat before what lies under it is dry,
//! none after its window unless that is sanded.

use super::Site;
use crate::finish::{Finish, Layer, Task};
use crate::order::draft::{Draft, Drafts};
use crate::order::graph::Graph;
use crate::order::model::{Why, Work};
use crate::order::schedule::Slot;
use crate::order::times;
use std::collections::BTreeSet;

/// Work in wood that raises dust or wants bare wood.
const BARE: [&str; 7] = [
    "seal",
    "vents",
    "round",
    "pilots",
    "drill-last",
    "drill-before",
    "drill-flat",
];
/// Grit that dulls a film where its can names none; common practice, no source.
const DULL: u32 = 320;

/// Steps of the coats that come so late that what lies under them wants sanding.
pub(crate) type Late = BTreeSet<String>;

pub(super) fn add(drafts: &mut Drafts, site: &Site<'_>, late: &Late) {
    let finish = site.finish;
    if finish.layers.is_empty() {
        return;
    }
    offcut(drafts, finish);
    layers(drafts, finish, late);
    let glued = drafts.like("glue-");
    drafts.after("sand", glued.iter().map(String::as_str), Why::Drying);
    drafts.after("sand", BARE, Why::Work);
    if !site.screwed {
        drafts.after("sand", ["close"], Why::Drying);
    }
    drafts.after("coat-1-01", ["offcut"], Why::Test);
}

fn offcut(drafts: &mut Drafts, finish: &Finish) {
    let coats: u32 = finish.layers.iter().map(|layer| layer.coats).sum();
    let mut draft = Draft::new(
        Work::Finish,
        "Finish an offcut",
        f64::from(coats) * times::OFFCUT_COAT + times::TEST,
    )
    .wait(finish.offcut_wait, "the coats on the offcut");
    for said in &finish.offcut {
        draft = draft.say(said.as_str());
    }
    drafts.add(
        "offcut",
        draft.with(["offcut of the same sheet", "sandpaper", "brush or cloth"]),
    );
    drafts.after("offcut", ["saw"], Why::Work);
}

/// From the bare wood to the cured finish.
fn layers(drafts: &mut Drafts, finish: &Finish, late: &Late) {
    let time = finish.sanding.iter().map(|round| round.time).sum();
    let mut sand = Draft::new(Work::Finish, "Sand", time).of_finish([(Task::Sand, time)]);
    for round in &finish.sanding {
        sand = sand.say(format!("P{}: {}", round.grit, round.words));
    }
    drafts.add(
        "sand",
        sand.with(["sanding block", "sandpaper", "dust mask", "vacuum cleaner"]),
    );
    let places = finish.masks.len();
    let mask = Draft::new(Work::Finish, "Mask", 0.0)
        .of_finish([(Task::Mask, places as f64 * times::MASK)])
        .say(format!("{places} places, as the finish sheet lists them"))
        .with(["masking tape", "card", "knife"]);
    drafts.add("mask", mask);
    drafts.after("mask", ["sand"], Why::Work);
    let coats = coats(&finish.layers);
    for (at, coat) in coats.iter().enumerate() {
        drafts.add(&coat.id(), coat.draft(&coats, at, late));
        drafts.after(&coat.id(), ["mask"], Why::Work);
        for (before, wait) in coat.waits(&coats[..at]) {
            drafts.waiting(&coat.id(), &before.id(), wait);
        }
    }
    dry(drafts, &coats, places);
}

/// Masks off, then what the finish bears.
fn dry(drafts: &mut Drafts, coats: &[Coat<'_>], places: usize) {
    let Some(last) = coats.last() else { return };
    let unmask = Draft::new(Work::Finish, "Take the masks off", 0.0)
        .of_finish([(
            Task::Unmask,
            times::UNMASKED + places as f64 * times::UNMASK,
        )])
        .say("cut along the edges of the tape with a sharp knife first")
        .with(["knife"]);
    drafts.add("unmask", unmask);
    let handled = Draft::new(Work::Finish, "Dry enough to be fitted out", 0.0)
        .of_finish([(Task::Handle, 0.0)])
        .say("nothing to do but to wait; a finger nail leaves no mark where nobody looks");
    drafts.add("handled", handled);
    let cured = Draft::new(Work::Finish, "The finish has cured", 0.0)
        .of_finish([(Task::Cured, 0.0)])
        .say("warm and airy until then, on blocks; nothing soft against it");
    drafts.add("cured", cured);
    for coat in coats {
        let layer = coat.layer;
        let handled = if coat.id() == last.id() {
            layer.recoat.max(times::HANDLED)
        } else {
            layer.recoat
        };
        drafts.waiting("unmask", &coat.id(), layer.touch_dry);
        drafts.waiting("handled", &coat.id(), handled);
        drafts.waiting("cured", &coat.id(), layer.cure);
    }
    drafts.after("handled", ["unmask"], Why::Work);
    drafts.after("cured", ["handled"], Why::Drying);
}

/// One coat of one layer.
struct Coat<'a> {
    layer: &'a Layer,
    /// Index of the layer.
    of: usize,
    /// Which coat of it, from 1.
    number: u32,
}

/// Every coat in the order in which they go on.
fn coats(layers: &[Layer]) -> Vec<Coat<'_>> {
    let each = layers
        .iter()
        .enumerate()
        .flat_map(|(of, layer)| (1..=layer.coats).map(move |number| Coat { layer, of, number }));
    each.collect()
}

impl<'a> Coat<'a> {
    fn id(&self) -> String {
        format!("coat-{}-{:02}", self.of + 1, self.number)
    }

    fn meets(&self, other: &Self) -> bool {
        let mut on = self.layer.on.iter();
        on.any(|wall| other.layer.on.contains(wall))
    }

    /// What it waits for after an earlier coat, in s.
    fn wait(&self, before: &Self) -> f64 {
        match (self.meets(before), before.of == self.of) {
            (false, _) => before.layer.touch_dry,
            (true, true) => before.layer.recoat,
            (true, false) => before.layer.before_next,
        }
    }

    /// All earlier coats with what it waits for after each, in s.
    fn waits<'b>(&self, before: &'b [Coat<'a>]) -> impl Iterator<Item = (&'b Coat<'a>, f64)> {
        before.iter().map(|before| (before, self.wait(before)))
    }

    /// The coat that lies right under it.
    fn under<'b>(&self, before: &'b [Coat<'a>]) -> Option<&'b Coat<'a>> {
        before.iter().rev().find(|before| self.meets(before))
    }

    /// The layer that is sanded before this coat, where one is.
    fn sanded<'b>(&self, before: &'b [Coat<'a>], late: &Late) -> Option<&'b Coat<'a>> {
        let under = self.under(before)?;
        let usual =
            under.layer.sand.is_some() && (under.of == self.of || self.layer.sand.is_some());
        (usual || late.contains(&self.id())).then_some(under)
    }

    fn draft(&self, all: &[Self], at: usize, late: &Late) -> Draft {
        let layer = self.layer;
        let title = match layer.coats {
            1 => capital(&layer.name),
            count => format!("{}, coat {} of {count}", capital(&layer.name), self.number),
        };
        let mut draft = Draft::new(Work::Finish, title, 0.0);
        if let Some(under) = self.sanded(&all[..at], late) {
            let grit = under.layer.sand.unwrap_or(DULL);
            let task = Task::Dull {
                layer: under.of,
                grit,
            };
            draft = draft
                .of_finish([(task, under.layer.sand_time)])
                .say(format!("P{grit} lightly along the grain, dust off"))
                .with(["sandpaper", "dust mask"]);
        }
        let task = Task::Coat {
            layer: self.of,
            coat: self.number,
        };
        let (words, tool) = if layer.sprayed {
            let words = "thin and wet on wet edges, from beyond one edge to beyond the other";
            (words, "mask for vapour")
        } else {
            let words = "thin, along the grain; look along the light for runs after five minutes";
            (words, "brush or cloth")
        };
        let wait = all
            .get(at + 1)
            .map_or(layer.touch_dry, |next| next.wait(self));
        draft
            .of_finish([(task, layer.coat_time)])
            .say(words)
            .wait(wait, "the coat to dry")
            .with([tool, "gloves"])
    }
}

/// Coats that these slots lay on what lies longer than its window, and that is not sanded: those
/// that are to be sanded as well.
pub(crate) fn late(finish: &Finish, drafts: &Drafts, slots: &[Slot]) -> Late {
    let slot = |id: &str| slots.iter().find(|slot| slot.name == id);
    let coats = coats(&finish.layers);
    let each = coats.iter().enumerate().filter_map(|(at, coat)| {
        let id = coat.id();
        let under = coat.under(&coats[..at])?;
        let apart = slot(&id)?.begins - slot(&under.id())?.ends;
        let tasks = &drafts.steps.get(&id)?.finish;
        let sanded = tasks
            .iter()
            .any(|(task, _)| matches!(task, Task::Dull { .. }));
        (!sanded && apart > under.layer.window).then_some(id)
    });
    each.collect()
}

impl Drafts {
    /// A step dries for so many s under another.
    fn waiting(&mut self, later: &str, before: &str, wait: f64) {
        let graph: &mut Graph = &mut self.graph;
        graph.after_waiting(later, before, Why::Drying, wait);
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

#[cfg(test)]
mod tests;

//! What is said of the wires.

use super::fields::Fields;
use super::shelf::ReadShelf;
use super::values::Bounds::{NotNegative, Positive, Within};
use super::words::{CHARGE_PATHS, GROUNDS, WIRE_COLOURS};
use crate::diagnostic::Log;
use crate::fault::ElectricFault;
use crate::quantity::Dimension as D;
use crate::{ChargePath, Ground, Text, WireLeftOut, WirePart, WireUse, WiringPlan};

/// More than a metre of loop is no loop.
const LONGEST_LOOP: f64 = 1.0;

pub(crate) fn wiring(fields: Option<Fields<'_>>, shelf: &ReadShelf, log: &mut Log) -> WiringPlan {
    let Some(fields) = fields else {
        return WiringPlan::proposed();
    };
    let plan = WiringPlan {
        ground: fields.word_or("ground", GROUNDS, Ground::Star, log),
        charging: fields.word_or("charging", CHARGE_PATHS, ChargePath::Separate, log),
        slack: fields.value("slack", D::Share, NotNegative, log),
        service_loop: fields.value("loop", D::Length, Within(0.0, LONGEST_LOOP), log),
        usual: shelf.part_if_named::<WirePart>(&fields, "usual", log),
        wires: wires(&fields, shelf, log),
        without: left_out(&fields, log),
        place: Some(fields.header()),
    };
    fields.finish(log);
    plan
}

fn wires(fields: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Vec<WireUse> {
    let layers = fields.layers("wire", log);
    layers
        .into_iter()
        .filter_map(|layer| wire(Fields::new("[[wiring.wire]]", layer, None), shelf, log))
        .collect()
}

fn wire(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<WireUse> {
    let ends = ends(&fields, log);
    let wire = shelf.part_if_named::<WirePart>(&fields, "wire", log);
    let colour = fields.word("colour", WIRE_COLOURS, log);
    let length = fields.value("length", D::Length, Positive, log);
    let place = fields.header();
    fields.finish(log);
    let (from, to) = ends?;
    Some(WireUse {
        from,
        to,
        wire,
        colour,
        length,
        place,
    })
}

fn left_out(fields: &Fields<'_>, log: &mut Log) -> Vec<WireLeftOut> {
    let layers = fields.layers("without", log);
    layers
        .into_iter()
        .filter_map(|layer| {
            let fields = Fields::new("[[wiring.without]]", layer, None);
            let ends = ends(&fields, log);
            let place = fields.header();
            fields.finish(log);
            let (from, to) = ends?;
            Some(WireLeftOut { from, to, place })
        })
        .collect()
}

/// Both ends of a wire.
fn ends(fields: &Fields<'_>, log: &mut Log) -> Option<(Text, Text)> {
    let from = terminal(fields, "from", "\"battery +\"", log);
    let to = terminal(fields, "to", "\"main switch 1\"", log);
    let (from, to) = (from?, to?);
    if from.text == to.text {
        log.add(ElectricFault::EndsSame, to.place);
        return None;
    }
    Some((from, to))
}

/// A terminal written as the name of a part and that of its terminal.
fn terminal(
    fields: &Fields<'_>,
    key: &'static str,
    example: &'static str,
    log: &mut Log,
) -> Option<Text> {
    let mut text = fields.need_text(key, example, log)?;
    let words: Vec<&str> = text.text.split_whitespace().collect();
    if words.len() < 2 {
        let found = text.text;
        log.add(ElectricFault::TerminalBad { key, found }, text.place);
        return None;
    }
    text.text = words.join(" ");
    Some(text)
}

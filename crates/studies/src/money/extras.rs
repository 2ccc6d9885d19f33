//! What is needed too but stands on no shelf: glue, screws, strips, filling.

use super::circuit;
use super::found::Studied;
use super::model::Extra;
use crate::carpentry::{Carpentry, CutLine, STRIP};
use crate::electrics::{Assumed, Electrics, EndingKind};
use crate::subject::Subject;
use crate::vary::Draw;
use wood::{Outline, Purpose};

/// Glue, screws and bolts, strips of wood and filling, as far as the design tells.
pub(super) fn extras(
    subject: &Subject,
    carpentry: &Carpentry,
    studied: &Studied<'_>,
) -> Vec<Extra> {
    let glue = Extra {
        label: "wood glue".into(),
        amount: 1e3 * carpentry.glue_up.glue,
        unit: "g",
        about: format!("{:.2} m² of joints", carpentry.glue_up.area),
    };
    let mut all = vec![glue];
    all.retain(|extra| extra.amount > 0.0);
    all.extend(fastenings(carpentry));
    all.extend(strips(&subject.cut_list));
    all.extend(filling(subject));
    let electrics = studied.electrics;
    all.extend(electrics.assumed.iter().map(assumed));
    all.extend(endings(electrics));
    if let Some(indicator) = studied.indicator {
        all.extend(circuit::strangers(
            &subject.project.shelf,
            electrics,
            indicator,
        ));
    }
    all
}

/// Strips of wood that no sheet is as thick as, by their section.
fn strips(cut_list: &[CutLine]) -> Vec<Extra> {
    let mut all: Vec<Extra> = Vec::new();
    for line in cut_list.iter().filter(|line| line.sheet == STRIP) {
        let [a, b] = line.long;
        let section = [line.thickness, a.min(b)].map(|side| decimal(1e3 * side));
        let label = format!("{STRIP}, {} x {} mm", section[0], section[1]);
        let length = a.max(b) * line.panels.len().max(1) as f64;
        match all.iter_mut().find(|extra| extra.label == label) {
            Some(extra) => extra.amount += length,
            None => all.push(Extra {
                label,
                amount: length,
                unit: "m",
                about: "cleats, braces and frames, saw cuts not counted".into(),
            }),
        }
    }
    all
}

/// To a tenth, without a needless zero.
fn decimal(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or(text.clone(), Into::into)
}

/// Screws and bolts by what they hold.
fn fastenings(carpentry: &Carpentry) -> Vec<Extra> {
    let holes = carpentry.body.plan.holes.iter();
    let screws = holes.filter(|hole| matches!(hole.purpose, Purpose::Fastening | Purpose::Closing));
    let mut all: Vec<Extra> = Vec::new();
    for hole in screws {
        match all.iter_mut().find(|extra| extra.label == hole.label) {
            Some(extra) => extra.amount += 1.0,
            None => all.push(Extra {
                label: hole.label.clone(),
                amount: 1.0,
                unit: "",
                about: match hole.outline {
                    Outline::Circle { diameter } => {
                        format!("holes of {} mm", decimal(1e3 * diameter))
                    }
                    Outline::Rectangle { .. } => String::new(),
                },
            }),
        }
    }
    all
}

/// Fibre for the filling.
fn filling(subject: &Subject) -> Option<Extra> {
    let enclosure = subject.build(&Draw::Nominal).enclosure;
    (enclosure.filling > 0.0).then(|| Extra {
        label: "fibre filling".into(),
        amount: 1e3 * enclosure.filling * enclosure.net,
        unit: "L",
        about: "space it fills when loose".into(),
    })
}

/// What the design does not name although its wires need it.
fn assumed(assumed: &Assumed) -> Extra {
    Extra {
        label: assumed.words.clone(),
        amount: 1.0,
        unit: "",
        about: "assumed: name it in the design to have it counted".into(),
    }
}

/// What is put on the ends of the wires.
fn endings(electrics: &Electrics) -> Vec<Extra> {
    let kinds = [
        (EndingKind::PushOn, "push-on sleeve"),
        (EndingKind::Ring, "ring to crimp"),
        (EndingKind::Ferrule, "ferrule"),
        (EndingKind::Plug, "contact of the pack's plug"),
    ];
    let ends = || electrics.harness.iter().flat_map(|wire| wire.endings);
    let extra = |(kind, label): (EndingKind, &str)| Extra {
        label: label.into(),
        amount: ends().filter(|end| end.kind == kind).count() as f64,
        unit: "",
        about: "ends of wires".into(),
    };
    let all = kinds.into_iter().map(extra);
    all.filter(|extra| extra.amount > 0.0).collect()
}

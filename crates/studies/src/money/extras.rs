//! What is needed too but stands on no shelf: glue, screws, strips, filling.

use super::circuit;
use super::found::Studied;
use super::model::Extra;
use crate::carpentry::{Carpentry, CutLine, STRIP};
use crate::electrics::{Assumed, Electrics, EndingKind};
use crate::subject::Subject;
use crate::vary::Draw;
use crate::words::prefixed;
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
        part: false,
    };
    let mut all = vec![glue];
    all.retain(|extra| extra.amount > 0.0);
    all.extend(fastenings(carpentry));
    all.extend(strips(&subject.cut_list));
    all.extend(filling(subject));
    let electrics = studied.electrics;
    all.extend(electrics.assumed.iter().map(assumed));
    all.extend(small_goods(electrics));
    all.extend(damping(subject));
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
                part: false,
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
                part: false,
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
        part: false,
    })
}

/// What the design does not name although its wires need it.
fn assumed(assumed: &Assumed) -> Extra {
    Extra {
        label: assumed.words.clone(),
        amount: 1.0,
        unit: "",
        about: "assumed: name it in the design to have it counted".into(),
        part: true,
    }
}

/// Strips and resistors between the wires, equal ones together.
fn small_goods(electrics: &Electrics) -> Vec<Extra> {
    let mut all: Vec<Extra> = Vec::new();
    for (part, behind) in electrics.small_goods() {
        match all.iter_mut().find(|extra| extra.label == behind.label) {
            Some(extra) => {
                extra.amount += 1.0;
                extra.about += &format!(", {}", part.name);
            }
            None => all.push(Extra {
                label: behind.label.clone(),
                amount: 1.0,
                unit: "",
                about: part.name.clone(),
                part: true,
            }),
        }
    }
    all
}

/// What damps the filter at each output of the board.
fn damping(subject: &Subject) -> Vec<Extra> {
    let used = &subject.project.design.amplifier;
    let (Some(resistor), Some(capacitor)) = (&used.damping_resistor, &used.damping_capacitor)
    else {
        return Vec::new();
    };
    let extra = |label: String| Extra {
        label,
        amount: f64::from(subject.channels_used()),
        unit: "",
        about: "across each output, in series: damps its filter".into(),
        part: true,
    };
    vec![
        extra(format!("resistor {}", prefixed(resistor.si, "Ω"))),
        extra(format!("film capacitor {}", prefixed(capacitor.si, "F"))),
    ]
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
        part: false,
    };
    let all = kinds.into_iter().map(extra);
    all.filter(|extra| extra.amount > 0.0).collect()
}

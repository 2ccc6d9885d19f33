//! What the low-battery light takes from the battery.

use super::{Candidate, Check, Edit, Evidence, Verdict};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "indicator-drains",
    title: "What the low-battery light draws",
    what: "What the indicator draws while the box is on and the lamp dark, against what the box draws \
at the brief's loudness.",
    why: "Reference, comparator and divider draw all the time the box is on. Wired behind the main \
switch they draw nothing when it is off; before it they would empty the battery in the cupboard.",
    limits: "Takes it as wired behind the main switch.",
    bad: "a zener at five milliamperes in a box that plays quietly for days",
    good: "a micropower reference and comparator",
    sources: &["common practice, no source"],
    run,
};

/// Share of what the box draws that the indicator may draw.
const MOST: f64 = 0.03;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(indicator) = evidence.indicator() else {
        return Vec::new();
    };
    let Some(built) = &indicator.built else {
        return Vec::new();
    };
    let place = evidence.design().indicator.as_ref().map(|used| used.place);
    let share = built.dark / indicator.sag.mean_current;
    let milli = |amperes: f64| number(1000.0 * amperes, "mA");
    let cause = format!(
        "It draws {} with the lamp dark and {} lit, the box {} at the brief's loudness: {} of it. Switched off it draws nothing, wired behind the main switch.",
        milli(built.dark),
        milli(built.lit),
        milli(indicator.sag.mean_current),
        format_args!("{:.1} %", 100.0 * share)
    );
    if share <= MOST {
        return vec![
            Verdict::good("Low-battery light draws little", cause).measured(
                100.0 * share,
                100.0 * MOST,
                "%",
            ),
        ];
    }
    vec![
        Verdict::caution("Low-battery light drains the battery", cause)
            .measured(100.0 * share, 100.0 * MOST, "%")
            .advice("take a reference and a comparator that want less current")
            .at(place)
            .mends(thrifty(evidence)),
    ]
}

/// The most frugal comparator and reference of the shelf.
fn thrifty(evidence: &Evidence<'_>) -> Vec<Candidate> {
    let shelf = &evidence.subject.project.shelf;
    let comparators = shelf.comparators.iter();
    let comparator = comparators.min_by(|a, b| a.supply_current.si.total_cmp(&b.supply_current.si));
    let references = shelf.references.iter();
    let reference = references.min_by(|a, b| a.least_current.si.total_cmp(&b.least_current.si));
    let comparator = comparator.map(|part| part.common.name.text.clone());
    let reference = reference.map(|part| part.common.name.text.clone());
    let set = |key: &str, name: &String| Edit::set(key, name.clone());
    let one = |key: &str, name: &Option<String>| {
        name.as_ref()
            .map(|name| Candidate::new(name.clone(), [set(key, name)]))
    };
    let both = comparator.as_ref().zip(reference.as_ref()).map(|(a, b)| {
        Candidate::new(
            format!("{a} and {b}"),
            [
                set("indicator.comparator", a),
                set("indicator.reference", b),
            ],
        )
    });
    one("indicator.reference", &reference)
        .into_iter()
        .chain(one("indicator.comparator", &comparator))
        .chain(both)
        .collect()
}

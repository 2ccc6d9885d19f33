//! Wires thick enough.

use super::{Candidate, Check, Evidence, Verdict};
use crate::electrics::{DROP_SHARE, Electrics, HarnessWire, amplifier_drop, section};
use crate::words::number;
use wiring::Carries;

pub(super) const CHECK: Check = Check {
    id: "wire-size",
    title: "Section of the wires",
    what: "Whether every wire carries its long-term current without heating, stands being pulled, \
and the way from battery to amplifier and back loses at most 3 % of the voltage at full output.",
    why: "Thin wires cost loudness on every bass note, switch the indicator on too early, and get \
hot inside a box full of wadding.",
    limits: "Heating by the rows for supply cords; 0.5 mm² at least for what carries power, \
0.14 mm² for signals, because thinner wires break at their ends.",
    bad: "[wiring] usual = \"flexible wire 0.25 mm²\"",
    good: "[wiring] usual = \"flexible wire 0.75 mm²\"",
    sources: &[
        "iec-60335-1",
        "iec-60228",
        "astm-b258",
        "common practice, no source",
    ],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let mends = thicker(evidence);
    let mut found = Vec::new();
    found.extend(thin(
        electrics,
        "Wires too thin for their current",
        "carries",
        |wire| section::least(wire.continuous),
    ));
    found.extend(thin(
        electrics,
        "Wires too thin to be handled",
        "is",
        |wire| section::mechanical(wire.carries),
    ));
    let drop = amplifier_drop(electrics);
    let limit = DROP_SHARE * electrics.supply.volts[1];
    let told = format!(
        "At full output the wires between battery and amplifier lose {} of {}, there and back.",
        number(drop, "V"),
        number(electrics.supply.volts[1], "V")
    );
    if drop > limit {
        found.push(
            Verdict::caution("Wires lose much voltage", told.clone())
                .measured(drop, limit, "V")
                .advice("take thicker or shorter wires from battery to amplifier"),
        );
    }
    if found.is_empty() {
        return vec![Verdict::good("Wires are thick enough", told).measured(drop, limit, "V")];
    }
    let with = |verdict: Verdict| verdict.mends(mends.clone());
    found.into_iter().map(with).collect()
}

/// Wires below what is needed, in one verdict; the worst is measured.
fn thin(
    electrics: &Electrics,
    title: &str,
    verb: &str,
    least: impl Fn(&HarnessWire) -> f64,
) -> Option<Verdict> {
    let wires = electrics.harness.iter();
    let thin: Vec<&HarnessWire> = wires
        .filter(|wire| wire.carries != Carries::Touch && wire.section < least(wire) - 1e-12)
        .collect();
    let ratio = |wire: &&HarnessWire| wire.section / least(wire);
    let worst = thin
        .iter()
        .copied()
        .min_by(|a, b| ratio(a).total_cmp(&ratio(b)))?;
    let square = |value: f64| number(1e6 * value, "mm²");
    let more = match thin.len() {
        1 => String::new(),
        2 => ", and one more is too thin".into(),
        count => format!(", and {} more are too thin", count - 1),
    };
    let current = if verb == "carries" {
        format!("carries {} and is", number(worst.continuous, "A"))
    } else {
        "is".into()
    };
    let gauge = physics::wire::gauge_for(least(worst));
    let gauge = gauge.map_or_else(String::new, |gauge| format!(" (or {gauge} AWG)"));
    let cause = format!(
        "{} from {} to {} {current} {} thick; {}{gauge} is the least{more}.",
        worst.label,
        worst.from,
        worst.to,
        square(worst.section),
        square(least(worst))
    );
    let verdict = Verdict::stop(title, cause)
        .measured(1e6 * worst.section, 1e6 * least(worst), "mm²")
        .advice("take a thicker wire")
        .at(worst.place);
    Some(verdict)
}

/// Thicker wires of the shelf, where the design names which to take.
fn thicker(evidence: &Evidence<'_>) -> Vec<Candidate> {
    let plan = &evidence.design().wiring;
    let mut wires: Vec<_> = evidence.subject.project.shelf.wires.iter().collect();
    wires.sort_by(|a, b| a.section.si.total_cmp(&b.section.si));
    let above = |square: f64, key: &str| -> Vec<Candidate> {
        let thicker = wires.iter().filter(|part| part.section.si > square + 1e-12);
        let names = thicker.map(|part| part.common.name.text.as_str());
        names.map(|name| Candidate::set(name, key, name)).collect()
    };
    let mut mends = Vec::new();
    if let Some((part, _)) = &plan.usual {
        mends.extend(above(part.section.si, "wiring.usual"));
    }
    for (index, own) in plan.wires.iter().enumerate() {
        if let Some((part, _)) = &own.wire {
            mends.extend(above(
                part.section.si,
                &format!("wiring.wire.{}.wire", index + 1),
            ));
        }
    }
    mends
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn thin_wires_are_found_and_thicker_offered() {
        check(CHECK.id, &[], &[Good]);
        let found = check(
            CHECK.id,
            &[("wiring.usual", "flexible wire 0.25 mm²")],
            &[Stop, Caution],
        );
        assert!(found[0].mend.is_some());
    }
}

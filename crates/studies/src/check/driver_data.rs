//! Whether a driver's stated data agree with one another.

use super::{Check, Evidence, Severity, Verdict};
use crate::subject::DriverSubject;
use crate::words::number;
use physics::driver::Conflict;

pub(super) const CHECK: Check = Check {
    id: "driver-data",
    title: "Driver data that contradict each other",
    what: "Whether the stated values of each driver fit together by the usual relations between \
resonance, Q, mass, compliance, area, force factor and sensitivity.",
    why: "Data sheets hold slips of units and digits, and values from different batches. What is \
computed from a wrong set is wrong, and nobody sees it.",
    limits: "Which of the values is wrong cannot be told: the one measured least directly is set \
aside. Published sensitivity is often higher than the other values allow, so it alone never is a stop.",
    bad: "fs = \"80 Hz\", vas = \"3.8 L\", mms = \"14.6 g\", sd = \"57 cm²\" (mms should be 4.8 g)",
    good: "the same with mms = \"4.8 g\", or without mms",
    sources: &["small-1972"],
    run,
};

/// Differences in per cent below which data sheets merely round: common practice, no source.
const ROUNDING: f64 = 5.0;

/// Differences in per cent that no rounding or batch explains: common practice, no source.
const WRONG: f64 = 20.0;

/// Difference in per cent of sound pressure allowed to published sensitivity, 1 dB.
const SENSITIVITY: f64 = 12.2;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let mut verdicts = Vec::new();
    let drivers = evidence.subject.drivers.iter();
    for (driver, group) in drivers.zip(&evidence.design().drivers) {
        let name = &group.part.common.name.text;
        let conflicts = &driver.conflicts;
        let weighed = conflicts
            .iter()
            .map(|conflict| (severity(driver, conflict), conflict));
        let worst = weighed
            .filter(|(severity, _)| *severity < Severity::Good)
            .max_by(|a, b| {
                let size = |c: &Conflict| c.percent.abs();
                b.0.cmp(&a.0).then(size(a.1).total_cmp(&size(b.1)))
            });
        verdicts.push(match worst {
            Some((severity, conflict)) => said(driver, name, severity, conflict),
            None => Verdict::good(
                format!("Data of {name} fit together"),
                match conflicts.len() {
                    0 => "No stated value contradicts the others.",
                    _ => "The stated values differ by no more than rounding.",
                },
            ),
        });
    }
    verdicts
}

/// Whether some of the values were measured and others only published, so that
/// they are not of one and the same driver.
fn is_mixed(driver: &DriverSubject, conflict: &Conflict) -> bool {
    let measured = conflict
        .names
        .iter()
        .filter(|name| driver.is_measured(name))
        .count();
    measured > 0 && measured < conflict.names.len()
}

fn severity(driver: &DriverSubject, conflict: &Conflict) -> Severity {
    let off = conflict.percent.abs();
    let sensitivity = conflict.names.last() == Some(&"sensitivity");
    match off {
        _ if !matters(conflict) => Severity::Good,
        _ if !sensitivity && off > WRONG && !is_mixed(driver, conflict) => Severity::Stop,
        _ => Severity::Caution,
    }
}

/// Whether no rounding of published values explains a contradiction.
pub(crate) fn matters(conflict: &Conflict) -> bool {
    let rounding = match conflict.names.last() {
        Some(&"sensitivity") => SENSITIVITY,
        _ => ROUNDING,
    };
    conflict.percent.abs() > rounding
}

/// A contradiction in a sentence.
pub(crate) fn cause(conflict: &Conflict) -> String {
    let (doubted, grounds) = match conflict.names.split_last() {
        Some((last, grounds)) => (*last, grounds.join(", ")),
        None => ("value", String::new()),
    };
    format!(
        "{doubted} is stated as {}, but {grounds} imply {} ({}): {:.0} % off.",
        shown(doubted, conflict.stated),
        shown(doubted, conflict.implied),
        conflict.relation,
        conflict.percent.abs()
    )
}

fn said(driver: &DriverSubject, name: &str, severity: Severity, conflict: &Conflict) -> Verdict {
    let doubted = conflict.names.last().copied().unwrap_or("value");
    let cause = cause(conflict);
    let title = if is_mixed(driver, conflict) {
        format!("{name} differs from its published data")
    } else {
        format!("Data of {name} contradict each other")
    };
    let (_, unit) = scale(doubted);
    let by = scale(doubted).0;
    Verdict::new(severity, title, cause)
        .measured(by * conflict.stated, by * conflict.implied, unit)
        .advice(if is_mixed(driver, conflict) {
            "what was measured counts, published values it contradicts were set aside; measure the others too where it matters".to_owned()
        } else {
            format!(
                "look for a slipped unit or digit among {}, or measure; {doubted} was set aside here",
                conflict.names.join(", ")
            )
        })
}

/// A parameter as data sheets state it.
pub(crate) fn shown(name: &str, si: f64) -> String {
    let (by, unit) = scale(name);
    number(by * si, unit)
}

/// From SI to the unit in which data sheets state a parameter.
fn scale(name: &str) -> (f64, &'static str) {
    match name {
        "re" => (1.0, "Ω"),
        "fs" => (1.0, "Hz"),
        "vas" => (1e3, "L"),
        "sd" => (1e4, "cm²"),
        "bl" => (1.0, "T·m"),
        "mms" => (1e3, "g"),
        "cms" => (1e3, "mm/N"),
        "rms" => (1.0, "kg/s"),
        "sensitivity" => (1.0, "dB"),
        _ => (1.0, ""),
    }
}

#[cfg(test)]
mod tests {
    use super::super::probe::{Probe, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    /// The clean design's driver with one value changed.
    fn stating(value: &str) -> Probe {
        let part = "[[driver]]\nname = \"full-range 4 in, 4 ohm\"\n";
        with(&[]).shelf(&format!("{part}{value}"))
    }

    #[test]
    fn how_far_off_decides() {
        check(CHECK.id, &[], &[Good]);
        stating("mms = \"4.7 g\"").check(CHECK.id, &[Good]);
        let found = stating("mms = \"5.1 g\"").check(CHECK.id, &[Caution]);
        assert!(
            found[0].cause.contains("mms is stated as 5.10 g"),
            "{}",
            found[0].cause
        );
        stating("mms = \"46 g\"").check(CHECK.id, &[Stop]);
    }

    #[test]
    fn flattering_sensitivity_is_no_stop() {
        stating("sensitivity = \"91.9 dB\"").check(CHECK.id, &[Good]);
        stating("sensitivity = \"97 dB\"").check(CHECK.id, &[Caution]);
    }
}

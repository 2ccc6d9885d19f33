//! Drivers of which something had to be guessed.

use super::{Check, Evidence, Verdict};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "driver-unknown",
    title: "Drivers with unknown data",
    what: "Whether something about a driver had to be guessed from its size and kind, and which \
single measurement would narrow the promises most.",
    why: "Salvaged drivers come without data. A guess by size and kind is honest only with wide \
bands; half an hour with a meter and a signal generator narrows them more than anything else.",
    limits: "The expected values are medians over drivers of one size and kind, from experience. \
How much a measurement narrows is estimated from the drawn builds whose reading would be alike.",
    bad: "a coaxial out of a car with size and DC resistance only",
    good: "the same with fs, qts and vas measured",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let drivers = evidence.subject.drivers.iter();
    drivers
        .zip(&evidence.design().drivers)
        .map(|(driver, group)| {
            let name = &group.part.common.name.text;
            if driver.guessed.is_empty() {
                return Verdict::good(
                    format!("Data of {name} are known"),
                    "Nothing about its motor and suspension had to be guessed.",
                );
            }
            let guessed: Vec<&str> = driver
                .guessed
                .iter()
                .map(|parameter| parameter.words().1)
                .collect();
            let cause = format!(
                "{} guessed from size and kind: {}.",
                if guessed.len() == 1 {
                    "This is"
                } else {
                    "These are"
                },
                guessed.join(", ")
            );
            let verdict = Verdict::caution(format!("Data of {name} are guessed"), cause);
            verdict.advice(advice(evidence, name))
        })
        .collect()
}

fn advice(evidence: &Evidence<'_>, name: &str) -> String {
    let Some(measurement) = evidence.measurement.filter(|best| best.part == *name) else {
        return "measure resonance, total Q and equivalent volume, and write them on the shelf"
            .into();
    };
    let width = |band: (f64, f64)| band.1 - band.0;
    format!(
        "measure one thing: {}; eight of ten builds would then lie within {} instead of {} in the bass, and within {} instead of {} in loudness. Write it on the shelf as {}",
        measurement.what,
        number(measurement.low_width_then, "Hz"),
        number(width(measurement.low_now), "Hz"),
        number(measurement.loud_width_then, "dB"),
        number(width(measurement.loud_now), "dB"),
        measurement.key
    )
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn the_best_measurement_is_named() {
        check(CHECK.id, &[], &[Good]);
        let salvaged = [("drivers.1.part", "salvaged full-range 4 in, unknown")];
        check(CHECK.id, &salvaged, &[Caution]);
        let found = with(&salvaged).builds(200).check(CHECK.id, &[Caution]);
        let advice = found[0].advice.as_ref().unwrap();
        assert!(advice.starts_with("measure one thing: "), "{advice}");
    }
}

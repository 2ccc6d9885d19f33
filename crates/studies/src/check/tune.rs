//! Candidates that change the opening of a box: its tuning, its tubes, its kind.

use super::{Candidate, Edit, Evidence};
use crate::build::VentBuild;
use physics::loudspeaker::{vent_length, vent_tuning};

/// Steps of tuning tried downwards, as shares of the present one.
const LOWER: [f64; 8] = [0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6];

/// Inner diameters of plastic and card tubes in m: common practice, no source.
const DIAMETERS: [f64; 8] = [0.025, 0.032, 0.036, 0.046, 0.057, 0.071, 0.094, 0.104];

/// Lower and lower tuning: longer tubes, or mass on the radiators.
pub(super) fn lower(evidence: &Evidence<'_>) -> Vec<Candidate> {
    if let Some(radiator) = evidence.build.radiator {
        let added = evidence
            .radiator()
            .and_then(|used| used.added_mass)
            .map_or(0.0, |mass| mass.si);
        return LOWER
            .into_iter()
            .map(|share| {
                // The tuning goes with the root of the mass.
                let mass = added + radiator.mms * (1.0 / (share * share) - 1.0);
                let grams = (1e3 * mass).ceil();
                let words = format!(
                    "mass added to each radiator {:.0} → {grams:.0} g",
                    1e3 * added
                );
                Candidate::set(words, "box.radiator.added_mass", format!("{grams:.0} g"))
            })
            .collect();
    }
    let Some(vent) = evidence.build.enclosure.vent else {
        return Vec::new();
    };
    LOWER
        .into_iter()
        .filter_map(|share| with_length(evidence, vent, share))
        .map(|longer| {
            let words = format!(
                "vent length {:.0} → {:.0} mm",
                1e3 * vent.length,
                1e3 * longer.length
            );
            Candidate::new(words, [length_of(longer)])
        })
        .collect()
}

/// A vent of this diameter and count whose length gives a share of the present tuning.
fn with_length(evidence: &Evidence<'_>, vent: VentBuild, share: f64) -> Option<VentBuild> {
    let enclosure = &evidence.build.enclosure;
    let air = &evidence.build.air;
    let tuning = evidence.outcome.tuning;
    // Filling makes the box act larger: as large as the present tuning says.
    let present = vent_tuning(enclosure.net, &enclosure.vent?.duct(), air) / tuning;
    let volume = enclosure.net * present * present;
    let length = vent_length(volume, share * tuning, &vent.duct(), air)?;
    let length = (1e3 * length).round() / 1e3;
    // A tube cannot be shorter than the wall it sits in.
    (length >= enclosure.thickness).then_some(VentBuild { length, ..vent })
}

fn length_of(vent: VentBuild) -> Edit {
    Edit::set("box.vent.length", format!("{:.0} mm", 1e3 * vent.length))
}

/// Tubes of other diameters with the same tuning, those nearest to the present one first.
pub(super) fn other_tubes(evidence: &Evidence<'_>, passes: impl Fn(f64) -> bool) -> Vec<Candidate> {
    let Some(vent) = evidence.build.enclosure.vent else {
        return Vec::new();
    };
    let mut diameters: Vec<f64> = DIAMETERS.into_iter().filter(|d| passes(*d)).collect();
    diameters.sort_by(|a, b| {
        (a - vent.diameter)
            .abs()
            .total_cmp(&(b - vent.diameter).abs())
    });
    diameters
        .into_iter()
        .filter_map(|diameter| with_length(evidence, VentBuild { diameter, ..vent }, 1.0))
        .map(|other| {
            let millimetres = |length: f64| format!("{:.0}", 1e3 * length);
            let words = format!(
                "vent {} × {} → {} × {} mm (diameter × length, same tuning)",
                millimetres(vent.diameter),
                millimetres(vent.length),
                millimetres(other.diameter),
                millimetres(other.length)
            );
            let diameter = Edit::set(
                "box.vent.diameter",
                format!("{} mm", millimetres(other.diameter)),
            );
            Candidate::new(words, [diameter, length_of(other)])
        })
        .collect()
}

/// The box closed.
pub(super) fn sealed(evidence: &Evidence<'_>) -> Candidate {
    let table = if evidence.vent().is_some() {
        "box.vent"
    } else {
        "box.radiator"
    };
    Candidate::new(
        "close the box",
        [Edit::set("box.kind", "sealed"), Edit::remove(table)],
    )
}

/// The vent that a comparison of sealed and vented found best for this box.
pub(super) fn vented(evidence: &Evidence<'_>) -> Option<Candidate> {
    let versus = evidence.versus?;
    if evidence.vent().is_some() {
        return None;
    }
    let millimetres = |length: f64| format!("{:.0} mm", 1e3 * length);
    let (diameter, length) = (
        millimetres(versus.vent_diameter),
        millimetres(versus.vent_length),
    );
    let words = format!(
        "vent it: {} of {diameter}, {length} long, ends flared",
        if versus.vent_count == 1 {
            "one tube".to_owned()
        } else {
            format!("{} tubes", versus.vent_count)
        }
    );
    let mut edits = vec![
        Edit::set("box.kind", "vented"),
        Edit::set("box.vent.diameter", diameter),
        Edit::set("box.vent.length", length),
        Edit::set("box.vent.count", versus.vent_count.to_string()),
        Edit::set("box.vent.flared", "true"),
    ];
    if evidence.radiator().is_some() {
        edits.push(Edit::remove("box.radiator"));
    }
    Some(Candidate::new(words, edits))
}

/// Passive radiators from the shelf, without added mass, in place of what the box has now.
pub(super) fn radiators(evidence: &Evidence<'_>) -> Vec<Candidate> {
    if evidence.radiator().is_some() {
        return Vec::new();
    }
    let sides = evidence.subject.channels_used();
    let shelf = &evidence.subject.project.shelf.radiators;
    let list = shelf.iter().flat_map(|part| {
        let name = &part.common.name.text;
        [1, 2]
            .into_iter()
            .filter(|count| *count <= sides)
            .map(move |count| {
                let mut edits = vec![Edit::set("box.kind", "passive radiator")];
                if evidence.vent().is_some() {
                    edits.push(Edit::remove("box.vent"));
                }
                edits.push(Edit::set("box.radiator.part", name));
                edits.push(Edit::set("box.radiator.count", count.to_string()));
                Candidate::new(format!("{count} × {name} as passive radiator"), edits)
            })
    });
    list.collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{RADIATOR, VENT, with};
    use crate::{Options, Texts, apply, run};

    fn tuning(design: &str) -> f64 {
        let texts = Texts {
            design,
            shelf: None,
        };
        let options = Options {
            builds: 0,
            spread: 1.0,
            progress: &|_| {},
        };
        let report = run(texts, options).unwrap();
        let figure = report.figures.iter().find(|figure| figure.id == "tuning");
        figure.unwrap().value
    }

    #[test]
    fn another_tube_keeps_the_tuning() {
        let long = with(VENT).with(&[
            ("box.vent.diameter", "25 mm"),
            ("box.vent.length", "30 mm"),
            ("brief.loudness", "88 dB"),
        ]);
        let findings = long.findings("vent-speed");
        let mend = findings[0].mend.as_ref().unwrap();
        assert!(mend.words.contains("same tuning"), "{}", mend.words);
        let before = tuning(long.design());
        let after = tuning(&apply(long.design(), &mend.edits).unwrap());
        // Another tube takes up some hundredths of the air: half as much of the tuning.
        assert!((after / before - 1.0).abs() < 0.012, "{before} {after}");
    }

    #[test]
    fn mass_lowers_the_tuning_by_its_root() {
        let heavier = |grams| {
            let mass = ("box.radiator.added_mass", grams);
            tuning(with(RADIATOR).with(&[mass]).design())
        };
        // 32 g of radiator and 96 g more are four times the mass.
        assert!((heavier("0 g") / heavier("96 g") - 2.0).abs() < 1e-6);
    }
}

//! How checks are tested: a clean design of which exactly one thing is changed.

use super::{Edit, Finding, Severity};
use crate::{Options, Texts, apply, run};

/// A design in which nothing is wrong.
pub(super) const CLEAN: &str = r#"
format = 1
name = "Clean"

[brief]
programme = "music"
distance = "2 m"
loudness = "80 dB"
lowest = "90 Hz"
runtime = "6 h"
largest = "420 x 260 x 240 mm"
weight = "9 kg"
cost = "200 €"

[place]
stands = "wall"

[[drivers]]
part = "full-range 4 in, 4 ohm"
count = 2
side = "both"
wiring = "parallel"

[amplifier]
part = "amplifier 2 x 15 W, 12 V"

[source]
level = "0.9 V"
loss = "3 dB"

[battery]
part = "iron phosphate 12.8 V 6 Ah"
count = 1
charged_inside = false

[wiring]
slack = "10 %"

[box]
outside = "400 x 240 x 200 mm"
wall = "birch plywood 12 mm"
kind = "sealed"
filling = "40 %"
leak = "tight"
chambers = "shared"
last_with = "screws"
"#;

/// A clean design with a vent.
pub(super) const VENT: &[(&str, &str)] = &[
    ("box.kind", "vented"),
    ("box.filling", "10 %"),
    ("box.vent.diameter", "46 mm"),
    ("box.vent.length", "90 mm"),
    ("box.vent.count", "1"),
    ("box.vent.flared", "true"),
];

/// A clean design with a passive radiator.
pub(super) const RADIATOR: &[(&str, &str)] = &[
    ("box.kind", "passive radiator"),
    ("box.filling", "10 %"),
    ("box.radiator.part", "radiator 5.25 in"),
    ("box.radiator.count", "1"),
];

/// A clean design with a control panel in its back.
pub(super) const PANEL: &[(&str, &str)] = &[
    ("control.on", "back"),
    ("control.at", "200 x 180 mm"),
    ("control.size", "140 x 70 mm"),
    ("control.plate", "aluminium plate 2 mm"),
    ("control.part.1.part", "rotary potentiometer, M7"),
    ("control.part.1.at", "35 x 35 mm"),
    ("control.part.2.part", "toggle switch, M6"),
    ("control.part.2.at", "75 x 35 mm"),
    ("control.part.3.part", "3.5 mm jack, M6"),
    ("control.part.3.at", "110 x 35 mm"),
];

/// The clean design, changed.
#[derive(Clone)]
pub(super) struct Probe {
    design: String,
    shelf: Option<String>,
    builds: usize,
}

/// The clean design with some keys set.
pub(super) fn with(keys: &[(&str, &str)]) -> Probe {
    Probe {
        design: CLEAN.into(),
        shelf: None,
        builds: 0,
    }
    .with(keys)
}

impl Probe {
    pub(super) fn with(mut self, keys: &[(&str, &str)]) -> Self {
        for (key, value) in keys {
            let edit = Edit::set(*key, *value);
            self.design = apply(&self.design, &[edit])
                .unwrap_or_else(|error| panic!("{key} = {value}: {error}"));
        }
        self
    }

    pub(super) fn without(mut self, key: &str) -> Self {
        self.design = apply(&self.design, &[Edit::remove(key)]).unwrap();
        self
    }

    /// The text of the design.
    pub(super) fn design(&self) -> &str {
        &self.design
    }

    /// With a shelf of one's own, given without its format line.
    pub(super) fn shelf(mut self, text: &str) -> Self {
        self.shelf = Some(format!("format = 1\n{text}"));
        self
    }

    /// With so many drawn builds.
    pub(super) fn builds(mut self, builds: usize) -> Self {
        self.builds = builds;
        self
    }

    /// What one check finds.
    pub(super) fn findings(&self, id: &str) -> Vec<Finding> {
        let own = self.all().into_iter();
        own.filter(|finding| finding.id == id).collect()
    }

    fn all(&self) -> Vec<Finding> {
        let texts = Texts {
            design: &self.design,
            shelf: self.shelf.as_deref(),
        };
        let options = Options {
            builds: self.builds,
            spread: 1.0,
            progress: &|_| {},
        };
        let report = run(texts, options).unwrap_or_else(|errors| panic!("{errors:#?}"));
        report.findings
    }

    /// Holds what a check finds against what it should find, worst first.
    pub(super) fn check(&self, id: &str, expected: &[Severity]) -> Vec<Finding> {
        let findings = self.findings(id);
        let found: Vec<Severity> = findings.iter().map(|finding| finding.severity).collect();
        assert_eq!(found, expected, "{id}: {findings:#?}");
        findings
    }
}

/// Holds what one check finds in the clean design with some keys set against
/// what it should find, worst first.
pub(super) fn check(id: &str, keys: &[(&str, &str)], expected: &[Severity]) -> Vec<Finding> {
    with(keys).check(id, expected)
}

#[test]
fn the_clean_designs_are_clean() {
    for keys in [&[][..], VENT, RADIATOR] {
        let probe = with(keys).builds(200);
        for finding in probe.all() {
            assert_eq!(finding.severity, Severity::Good, "{keys:?} {finding:#?}");
        }
    }
}

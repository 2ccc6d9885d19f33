//! A radio link behind metal.

use super::panel_bush::plates;
use super::{Check, Evidence, Verdict};

pub(super) const CHECK: Check = Check {
    id: "metal-radio",
    title: "Radio link behind metal",
    what: "Whether a part with an aerial sits behind a metal control panel.",
    why: "A metal plate shields the aerial: the link drops out as soon as somebody stands between phone \
and box.",
    limits: "The plate of the control panel only, not metal grilles nor foil under a veneer. An aerial \
brought out through the plate is not known of.",
    bad: "a radio module behind a plate of aluminium",
    good: "the same module behind plywood, or its aerial on the wooden side",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(control) = &evidence.design().control else {
        return Vec::new();
    };
    let mut radios = control.parts.iter().filter(|used| used.part.radio.value);
    let Some(radio) = radios.next() else {
        return Vec::new();
    };
    let name = &radio.part.common.name.text;
    let plate = &control.plate.common.name.text;
    if !control.plate.metal.value {
        let cause = format!("{name} sits in {plate}, which lets radio pass.");
        return vec![Verdict::good("Nothing shields the radio link", cause)];
    }
    let cause = format!("{name} sits in {plate}, which shields its aerial.");
    let thin = control.plate.thickness.si;
    let wooden = plates(evidence, control, |sheet| {
        !sheet.metal.value && sheet.thickness.si <= thin.max(THIN)
    });
    vec![
        Verdict::caution("A metal panel shields the radio link", cause)
            .advice("take a panel that is not metal, or move the aerial behind wood")
            .at(control.plate_place)
            .mends(wooden),
    ]
}

/// Plates up to here take most bushes, in m.
const THIN: f64 = 0.004;

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn an_aerial_wants_no_metal_before_it() {
        check(CHECK.id, PANEL, &[]);
        let radio = ("control.part.3.part", "radio module, aerial on its board");
        let found = with(PANEL).with(&[radio]).check(CHECK.id, &[Caution]);
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].key, "control.plate");
        let wood = ("control.plate", "birch plywood 4 mm");
        with(PANEL).with(&[radio, wood]).check(CHECK.id, &[Good]);
    }
}

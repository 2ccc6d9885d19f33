//! Tests that cannot be taken with the tools there are, in whatever way.

use design::{CutOff, IndicatorUse, Instrument, Workshop};

/// A test that cannot do without some instrument.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Lacking {
    /// Its name.
    pub(crate) id: &'static str,
    /// What it is, within a sentence.
    pub(crate) test: &'static str,
    /// What it takes.
    pub(crate) wants: &'static str,
}

const METER: &str = "a multimeter";
const CURRENT: &str = "a multimeter, clamp meter or bench supply";
const SUPPLY: &str = "a bench supply and a multimeter";
const SINE: &str = "something that plays a sine, such as a phone";

/// What each test of a design lacks; an indicator and its cut-off are tested only where there is
/// one.
pub(crate) fn lacking(tools: &Workshop, indicator: Option<&IndicatorUse>) -> Vec<Lacking> {
    let cuts_off = indicator.is_some_and(|used| used.cut_off.value != CutOff::None);
    let metered = tools.has(Instrument::Multimeter);
    let current =
        metered || tools.has(Instrument::ClampMeter) || tools.has(Instrument::BenchSupply);
    let sine = tools.has(Instrument::Phone) || tools.has(Instrument::SineSource);
    let both = match (metered, sine) {
        (false, _) => Some(METER),
        (true, false) => Some(SINE),
        (true, true) => None,
    };
    let want =
        |id, test, wants: Option<&'static str>| wants.map(|wants| Lacking { id, test, wants });
    [
        want(
            "test-idle",
            "the idle current",
            (!current).then_some(CURRENT),
        ),
        want(
            "test-sine",
            "a sine at the terminals",
            (!sine).then_some(SINE),
        ),
        want("test-sag", "the sag of the battery", both),
        want("test-impedance", "the impedance of the closed box", both),
        want(
            "test-indicator",
            "the trip points of the indicator",
            (indicator.is_some() && !metered).then_some(METER),
        ),
        want(
            "test-cut-off",
            "the trip point of the cut-off",
            (cuts_off && !(metered && tools.has(Instrument::BenchSupply))).then_some(SUPPLY),
        ),
    ]
    .into_iter()
    .flatten()
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_test_can_be_taken_with_what_nearly_everybody_has() {
        let design = design::read(
            include_str!("../../../../../examples/bathing-beach/design.toml"),
            None,
        );
        let indicator = design.expect("a sound design").design.indicator;
        let indicator = indicator.expect("an indicator");
        let mut cuts_off = indicator.clone();
        cuts_off.cut_off.value = CutOff::Relay;
        assert_eq!(lacking(&Workshop::usual(), Some(&indicator)), Vec::new());
        let ears = Workshop {
            tools: vec![Instrument::Phone],
            place: None,
        };
        let lacks = |indicator| lacking(&ears, indicator).len();
        let each = [None, Some(&indicator), Some(&cuts_off)].map(lacks);
        assert_eq!(each, [3, 4, 5]);
    }
}

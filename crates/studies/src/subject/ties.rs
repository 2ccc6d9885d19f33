//! Unit-to-unit factors on the physical causes of a driver, and how a stated
//! tolerance on a derived value ties them.

use super::parameter::Parameter;
use crate::vary::{Draw, Uncertain};
use physics::driver::Partial;

/// Unit-to-unit factors on the physical causes; 1 in the nominal build.
#[derive(Clone, Copy, Debug)]
pub(super) struct Factors {
    pub(super) re: Uncertain,
    pub(super) sd: Uncertain,
    pub(super) mass: Uncertain,
    pub(super) compliance: Uncertain,
    pub(super) bl: Uncertain,
    pub(super) rms: Uncertain,
}

/// Factors of one example, stated tolerances honoured.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tied {
    pub(super) re: f64,
    pub(super) sd: f64,
    pub(super) mass: f64,
    pub(super) compliance: f64,
    pub(super) bl: f64,
    pub(super) rms: f64,
}

impl Factors {
    /// The factors of one example, `values` being what its stated and expected
    /// values alone come to.
    ///
    /// A value in `pinned` already varies as its stated tolerance says, so the
    /// cause that would move it further is held, or follows the others:
    /// compliance follows mass under a stated resonance, force factor follows
    /// both under a stated electrical or total Q.
    pub(super) fn tied(&self, draw: &Draw, pinned: &[Parameter], values: &Partial) -> Tied {
        let has = |parameter| pinned.contains(&parameter);
        let free = |held: bool, factor: &Uncertain| if held { 1.0 } else { factor.at(draw) };
        let re = free(has(Parameter::Re), &self.re);
        let sd = free(has(Parameter::Sd), &self.sd);
        let (mass, compliance) = self.mass_and_compliance(draw, pinned, sd);
        let impedance = (mass / compliance).sqrt();
        let rms = if has(Parameter::Qms) {
            impedance
        } else {
            self.rms.at(draw)
        };
        let bl = if has(Parameter::Qes) {
            (impedance * re).sqrt()
        } else if has(Parameter::Qts) && !has(Parameter::Bl) {
            under_total_q(values, impedance, re, rms).unwrap_or_else(|| self.bl.at(draw))
        } else {
            free(has(Parameter::Bl), &self.bl)
        };
        Tied {
            re,
            sd,
            mass,
            compliance,
            bl,
            rms,
        }
    }

    fn mass_and_compliance(&self, draw: &Draw, pinned: &[Parameter], sd: f64) -> (f64, f64) {
        let has = |parameter| pinned.contains(&parameter);
        let mass = if has(Parameter::Mms) {
            1.0
        } else {
            self.mass.at(draw)
        };
        let compliance = if has(Parameter::Vas) {
            // V_AS goes with C·S².
            1.0 / (sd * sd)
        } else if has(Parameter::Cms) {
            1.0
        } else {
            self.compliance.at(draw)
        };
        let held = has(Parameter::Cms) || has(Parameter::Vas);
        match has(Parameter::Fs) {
            true if held && !has(Parameter::Mms) => (1.0 / compliance, compliance),
            true => (mass, 1.0 / mass),
            false => (mass, compliance),
        }
    }
}

/// Force factor under a stated total Q: 1/Q_TS = 1/Q_MS + 1/Q_ES, with Q_MS as
/// it came out; nothing where that alone is below Q_TS.
fn under_total_q(values: &Partial, impedance: f64, re: f64, rms: f64) -> Option<f64> {
    let qes = values.qes?;
    let wanted = 1.0 / values.qts? - rms / (impedance * values.qms?);
    (wanted > 0.0).then(|| (qes * wanted * impedance * re).sqrt())
}

#[cfg(test)]
mod tests {
    use crate::build::DriverBuild;
    use crate::subject::Subject;
    use crate::vary::draw;

    const DESIGN: &str = include_str!("../../../../examples/bathing-beach/design.toml");

    /// Drawn examples of the driver of an example design, some of its data measured.
    fn examples(measured: &str) -> Vec<DriverBuild> {
        let shelf =
            format!("format = 1\n[[driver]]\nname = \"full-range 4 in, 4 ohm\"\n{measured}\n");
        let project = design::read(DESIGN, Some(&shelf)).expect("a sound design and shelf");
        let subject = Subject::new(project, 1.0).expect("a design that can be studied");
        let dimensions = subject.causes.list().len();
        let one = |index| subject.build(&draw(index, dimensions)).drivers[0];
        (0..500).map(one).collect()
    }

    /// Least and greatest of a reading over the examples.
    fn range(examples: &[DriverBuild], read: fn(&DriverBuild) -> f64) -> (f64, f64) {
        let readings = examples.iter().map(read);
        readings.fold((f64::MAX, f64::MIN), |(low, high), x| {
            (low.min(x), high.max(x))
        })
    }

    #[test]
    fn nothing_measured_spreads_as_usual() {
        let (low, high) = range(&examples(""), DriverBuild::fs);
        assert!(low < 70.0 && high > 94.0, "{low} to {high}");
    }

    #[test]
    fn a_measured_resonance_holds_while_mass_and_compliance_vary() {
        let examples = examples("fs = \"85 Hz ± 1 %\"");
        let (low, high) = range(&examples, DriverBuild::fs);
        assert!(
            low >= 84.15 - 1e-9 && high <= 85.85 + 1e-9,
            "{low} to {high}"
        );
        assert!(high - low > 1.5);
        let (light, heavy) = range(&examples, |example| example.mms);
        assert!(heavy / light > 1.15);
    }

    #[test]
    fn measured_qs_hold() {
        let examples = examples("qts = \"0.55 ± 0.01\"\nqms = \"4 ± 0.2\"");
        let (low, high) = range(&examples, DriverBuild::qms);
        assert!(low >= 3.8 - 1e-9 && high <= 4.2 + 1e-9, "{low} to {high}");
        let (low, high) = range(&examples, DriverBuild::qts);
        assert!(low >= 0.54 - 1e-9 && high <= 0.56 + 1e-9, "{low} to {high}");
    }

    #[test]
    fn a_measured_mass_and_resonance_leave_only_their_own_tolerance() {
        let examples = examples("mms = \"4.6 g ± 0.1 g\"\nfs = \"82 Hz ± 1 Hz\"");
        let (light, heavy) = range(&examples, |example| example.mms);
        assert!(light >= 4.5e-3 - 1e-12 && heavy <= 4.7e-3 + 1e-12);
        let (low, high) = range(&examples, DriverBuild::fs);
        assert!(low >= 81.0 - 1e-9 && high <= 83.0 + 1e-9, "{low} to {high}");
    }
}

//! A loudspeaker's network as a SPICE netlist.

use super::network::Network;
use super::system::AirLoad;
use crate::circuit::Analysis;

/// The frequencies of [`Network::netlist`]: four decades, forty steps each.
const WHOLE_RANGE: Analysis = Analysis::Decades {
    steps: 40,
    from: 2.0,
    to: 20_000.0,
};

impl Network {
    /// The network as a SPICE netlist from 2 Hz to 20 kHz.
    ///
    /// Radiation, ducts and lossy inductance are tables over the variable
    /// `hertz` of behavioural sources, exact at the netlist's own frequencies
    /// and straight lines between them (within 0.01 dB unless a vent's pipe
    /// resonance is near); not every SPICE knows `hertz`.
    #[must_use]
    pub fn netlist(&self, title: &str) -> String {
        self.written(title, &WHOLE_RANGE)
    }

    /// The network as a netlist for one frequency in Hz, with all that depends
    /// on frequency frozen there as plain R, L and C.
    #[must_use]
    pub fn netlist_at(&self, title: &str, frequency: f64) -> String {
        self.written(title, &Analysis::Single(frequency))
    }

    fn written(&self, title: &str, analysis: &Analysis) -> String {
        self.circuit
            .netlist(title, &self.remarks(analysis), analysis)
    }

    fn remarks(&self, analysis: &Analysis) -> Vec<String> {
        let mut remarks: Vec<String> = [
            "",
            "Electrical, mechanical and acoustical parts in one network of SI units:",
            "  electrical   volt = V, ampere = A",
            "  mechanical   volt = force in N, ampere = velocity in m/s",
            "  acoustical   volt = pressure in Pa, ampere = volume velocity in m3/s",
            "so that R, L, C are resistance, mass and compliance there.",
            "Names: chN channel, groupN equal drivers taken as one, boxN chamber, outletN vents or radiators.",
            "Currents are those of the ammeters V...: chN_groupN_motion is the velocity of the cone,",
            "boxN_outletN_mouth the volume velocity of all vents, outwards positive.",
            "One volt rms of source is one volt rms of open-circuit amplifier output.",
        ]
        .map(String::from)
        .into();
        remarks.push(
            match self.system().air_load {
                AirLoad::InMass => "The air load is part of the moving masses.",
                AirLoad::Piston => "The air load on cones is that of pistons in a wall.",
            }
            .into(),
        );
        remarks.push(match analysis {
            Analysis::Single(frequency) => {
                format!("Frozen at {frequency} Hz: not for other frequencies.")
            }
            Analysis::Decades { .. } => {
                "Tables over hertz are exact at the frequencies of the .ac line.".into()
            }
        });
        remarks.push(String::new());
        remarks
    }
}

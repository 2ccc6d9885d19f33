//! The voltage where several resistors meet.

/// Voltage of a node in V that hangs on several sources, each of a voltage (V)
/// behind a resistance (Ω), while a current (A) is drawn from it: ΣV/R less the
/// current, over Σ1/R (nodal analysis).
#[must_use]
pub fn node_voltage(sources: &[(f64, f64)], drawn: f64) -> f64 {
    let (mut current, mut conductance) = (-drawn, 0.0);
    for (volts, ohms) in sources {
        current += volts / ohms;
        conductance += 1.0 / ohms;
    }
    current / conductance
}

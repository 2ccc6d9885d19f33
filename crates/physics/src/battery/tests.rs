use super::*;
use proptest::prelude::*;

const CHEMISTRIES: [Chemistry; 4] = [
    Chemistry::LeadAcid,
    Chemistry::IronPhosphate,
    Chemistry::LithiumIon,
    Chemistry::NickelMetalHydride,
];

fn battery(chemistry: Chemistry, cells: u32) -> Battery {
    let lead = chemistry == Chemistry::LeadAcid;
    Battery {
        chemistry,
        cells,
        capacity_ah: 7.0,
        rated_hours: if lead { 20.0 } else { 5.0 },
        peukert: if lead { 1.15 } else { 1.0 },
        resistance: 0.03 * f64::from(cells) / 6.0,
        end_voltage: f64::from(cells) * chemistry.end_voltage_per_cell(),
    }
}

/// A 12 V lead-acid battery is empty at 10.5 V (common practice, no source).
#[test]
fn lead_acid_is_empty_at_10_5_volts() {
    let block = battery(Chemistry::LeadAcid, 6);
    assert!((block.end_voltage - 10.5).abs() < 1e-12);
    assert!((block.full_voltage() - 12.75).abs() < 1e-9);
    let slow = block.discharge(&|volts| 0.35 * volts);
    assert_eq!(slow.ended_by, Ended::EndVoltage);
    let (_, last) = slow.curve[slow.curve.len() - 1];
    assert!((last - 10.5).abs() < 1e-9);
    assert!(
        (slow.charge_ah / 7.0 - 1.0).abs() < 0.01,
        "{}",
        slow.charge_ah
    );
}

#[test]
fn charging_voltages() {
    for (chemistry, cells, volts) in [
        (Chemistry::LithiumIon, 3, 12.6),
        (Chemistry::IronPhosphate, 4, 14.6),
        (Chemistry::LeadAcid, 6, 14.7),
        (Chemistry::NickelMetalHydride, 10, 15.0),
    ] {
        assert!((battery(chemistry, cells).charge_voltage() - volts).abs() < 1e-9);
    }
}

#[test]
fn a_load_that_draws_nothing_lasts_for_ever() {
    let endurance = battery(Chemistry::LithiumIon, 3).endurance(&|_| 0.0);
    assert_eq!(endurance.seconds, f64::INFINITY);
    assert_eq!(endurance.ended_by, Ended::LoadOff);
}

#[test]
fn too_much_asked_is_a_brown_out() {
    let small = Battery {
        resistance: 1.0,
        ..battery(Chemistry::LithiumIon, 3)
    };
    let endurance = small.endurance(&|_| 60.0);
    assert_eq!(endurance.ended_by, Ended::BrownOut);
    assert_eq!(endurance.seconds, 0.0);
}

#[test]
fn a_load_may_switch_itself_off() {
    let pack = battery(Chemistry::LithiumIon, 3);
    let fussy = pack.discharge(&|volts| if volts > 11.0 { 10.0 } else { 0.0 });
    assert_eq!(fussy.ended_by, Ended::LoadOff);
    assert!(fussy.seconds > 0.0 && fussy.seconds.is_finite());
    assert!(fussy.curve.iter().all(|&(_, volts)| volts > 11.0));
}

proptest! {
    #[test]
    fn voltage_rises_with_charge(charge in 0.0_f64..0.99) {
        for chemistry in CHEMISTRIES {
            let pack = battery(chemistry, 4);
            prop_assert!(pack.open_circuit(charge + 0.01) > pack.open_circuit(charge));
            prop_assert!(pack.emf(charge + 0.01) > pack.emf(charge));
        }
    }

    /// What the cells give up is what arrives plus what heats the battery:
    /// C·∫E dq by Simpson's rule over the charge that was used.
    #[test]
    fn energy_balances(watts in 1.0_f64..20.0, resistance in 0.001_f64..0.25) {
        for chemistry in [Chemistry::IronPhosphate, Chemistry::LithiumIon, Chemistry::NickelMetalHydride] {
            let pack = Battery { resistance, ..battery(chemistry, 4) };
            let end = pack.endurance(&|_| watts);
            let used = end.charge_ah / pack.capacity_ah;
            let steps = 2000;
            let at = |i: i32| pack.open_circuit(1.0 - used * f64::from(i) / f64::from(steps));
            let mut sum = at(0) + at(steps);
            for i in 1..steps {
                sum += at(i) * if i % 2 == 1 { 4.0 } else { 2.0 };
            }
            let given = sum / f64::from(3 * steps) * end.charge_ah;
            prop_assert!(((end.energy_wh + end.loss_wh) / given - 1.0).abs() < 2e-3);
            prop_assert!((end.seconds * watts / 3600.0 / end.energy_wh - 1.0).abs() < 1e-3);
        }
    }

    /// Draw more: less time, never more charge. Age: less time.
    #[test]
    fn more_load_and_more_age_cost_time(watts in 1.0_f64..40.0) {
        for chemistry in CHEMISTRIES {
            let pack = battery(chemistry, 6);
            let easy = pack.endurance(&|_| watts);
            let hard = pack.endurance(&|_| 1.2 * watts);
            prop_assert!(hard.seconds < easy.seconds);
            prop_assert!(hard.charge_ah <= easy.charge_ah * (1.0 + 1e-9));
            let old = pack.aged(0.8, 1.5).endurance(&|_| watts);
            prop_assert!(old.seconds < 0.81 * easy.seconds);
        }
    }

    /// Twice the battery at twice the load behaves the same.
    #[test]
    fn two_in_parallel_share(watts in 1.0_f64..40.0) {
        for chemistry in CHEMISTRIES {
            let one = battery(chemistry, 6);
            let two = Battery { capacity_ah: 14.0, resistance: one.resistance / 2.0, ..one };
            let (a, b) = (one.endurance(&|_| watts), two.endurance(&|_| 2.0 * watts));
            prop_assert!((a.seconds / b.seconds - 1.0).abs() < 1e-9);
        }
    }

    /// The curve falls in voltage and runs forward in time.
    #[test]
    fn the_curve_is_in_order(watts in 1.0_f64..40.0) {
        for chemistry in CHEMISTRIES {
            let run = battery(chemistry, 6).discharge(&|_| watts);
            for pair in run.curve.windows(2) {
                prop_assert!(pair[1].0 > pair[0].0 && pair[1].1 < pair[0].1);
            }
        }
    }

    #[test]
    fn charging_is_faster_with_more_current(current in 0.2_f64..3.0) {
        for chemistry in CHEMISTRIES {
            let pack = battery(chemistry, 4);
            let seconds = pack.charge_seconds(current);
            prop_assert!(seconds >= 3600.0 * pack.capacity_ah / current);
            prop_assert!(pack.charge_seconds(1.1 * current) < seconds);
        }
    }
}

//! Cells and lead-acid against published voltage curves and porous-electrode models.

mod table;

use boxwright_physics::battery::{Battery, Chemistry, Ended};
use boxwright_physics::math::{ln, pow};

fn cell(chemistry: Chemistry, capacity_ah: f64, resistance: f64, end_voltage: f64) -> Battery {
    let rated_hours = 1.0;
    Battery {
        chemistry,
        cells: 1,
        capacity_ah,
        rated_hours,
        peukert: 1.0,
        resistance,
        end_voltage,
    }
}

/// Open-circuit voltage: iron phosphate is the published cell's; lithium-ion
/// is the mean of two, so it lies within half their distance (0.09 V) of each.
#[test]
fn open_circuit_voltage() {
    let lithium = cell(Chemistry::LithiumIon, 5.0, 0.0, 2.5);
    let phosphate = cell(Chemistry::IronPhosphate, 2.3, 0.0, 2.0);
    for row in table::numbers(include_str!("../../../reference/cell_voltage.csv")) {
        assert!((phosphate.open_circuit(row[0]) - row[2]).abs() < 1e-4);
        assert!((lithium.open_circuit(row[0]) - row[1]).abs() < 0.09);
        assert!((lithium.open_circuit(row[0]) - row[3]).abs() < 0.09);
    }
}

/// Worst relative error in time, charge and energy over the discharges of one cell.
fn worst_error(set: &str, cell: &Battery) -> f64 {
    let table = table::rows(include_str!("../../../reference/cell_discharge.csv"));
    let mut worst = 0.0_f64;
    for row in table.iter().filter(|row| row[0] == set) {
        let [value, hours, charge, energy] = [2, 4, 5, 6].map(|column| table::number(row[column]));
        let run = cell.endurance(&|volts| if row[1] == "W" { value } else { value * volts });
        assert_eq!(run.ended_by, Ended::EndVoltage);
        for (got, expected) in [
            (run.seconds / 3600.0, hours),
            (run.charge_ah, charge),
            (run.energy_wh, energy),
        ] {
            worst = worst.max((got / expected - 1.0).abs());
        }
    }
    assert!(worst > 0.0, "no rows of {set}");
    worst
}

/// A table of voltages and one plausible resistance against a
/// porous-electrode model, from 20 h to 70 min: within 3 %.
#[test]
fn discharge_of_lithium_ion() {
    let worst = worst_error("Chen2020", &cell(Chemistry::LithiumIon, 5.15, 0.040, 2.5));
    assert!(worst < 0.03, "{:.1} %", 100.0 * worst);
}

/// The published iron-phosphate model loses 7 % of its charge from 10 h to
/// 2 h, which a resistance cannot tell: within 7 % as it stands, within 2.5 %
/// with a small Peukert exponent.
#[test]
fn discharge_of_iron_phosphate() {
    let plain = cell(Chemistry::IronPhosphate, 2.27, 0.060, 2.0);
    let worst = worst_error("Prada2013", &plain);
    assert!(worst < 0.07, "{:.1} %", 100.0 * worst);
    let fitted = Battery {
        peukert: 1.042,
        rated_hours: 10.0,
        ..plain
    };
    let worst = worst_error("Prada2013", &fitted);
    assert!(worst < 0.025, "{:.1} %", 100.0 * worst);
}

fn lead_acid(capacity_ah: f64, peukert: f64, resistance: f64, end_voltage: f64) -> Battery {
    let (chemistry, cells, rated_hours) = (Chemistry::LeadAcid, 6, 20.0);
    Battery {
        chemistry,
        cells,
        capacity_ah,
        rated_hours,
        peukert,
        resistance,
        end_voltage,
    }
}

/// `peukert-1897`, ten digits in the table.
#[test]
fn peukert_hours() {
    for row in table::numbers(include_str!("../../../reference/peukert.csv")) {
        let [capacity, hours, exponent, current] = row[..4] else {
            panic!("{row:?}")
        };
        let battery = Battery {
            rated_hours: hours,
            ..lead_acid(capacity, exponent, 0.01, 10.5)
        };
        let got = battery.hours_at(current);
        assert!((got / row[4] - 1.0).abs() < 1e-8, "{row:?}: {got}");
        assert!((got * current / row[5] - 1.0).abs() < 1e-8, "{row:?}");
    }
}

/// A porous-electrode model against Peukert's law with the exponent fitted to
/// its rows from 20 h to 2 h (1.053): within 2 % from 40 h to 2 h. Faster,
/// the acid in the plates cannot follow and no such law holds: 20 % too long
/// at half an hour.
#[test]
fn lead_acid_over_rates() {
    let battery = lead_acid(21.76, 1.0531, 0.012, 10.5);
    for row in table::numbers(include_str!("../../../reference/lead_acid_model.csv")) {
        let [nominal, current, hours] = row[..3] else {
            panic!("{row:?}")
        };
        let run = battery.endurance(&|volts| current * volts);
        let error = run.seconds / 3600.0 / hours - 1.0;
        let allowed = if nominal >= 2.0 { 0.02 } else { 0.20 };
        assert!(
            error.abs() < allowed,
            "{nominal} h: {:+.1} %",
            100.0 * error
        );
    }
}

/// A published rate table, each row to its own end voltage: the fitted
/// exponent brings every row within 12 %, as the table's own fit does.
#[test]
fn lead_acid_rate_table() {
    let rows = table::numbers(include_str!("../../../reference/lead_acid_rates.csv"));
    let exponent = fitted_exponent(&rows);
    assert!((exponent - 1.2094).abs() < 1e-4, "{exponent}");
    for row in rows {
        let [hours, capacity, current, _, predicted] = row[..5] else {
            panic!("{row:?}")
        };
        let battery = lead_acid(40.0, exponent, 0.0, 9.6);
        let got = battery.hours_at(current);
        assert!((got / predicted - 1.0).abs() < 1e-4, "{row:?}: {got}");
        assert!((got / hours - 1.0).abs() < 0.12, "{capacity} Ah: {got}");
    }
}

/// Least squares of ln t over ln I.
fn fitted_exponent(rows: &[Vec<f64>]) -> f64 {
    let points: Vec<(f64, f64)> = rows.iter().map(|row| (ln(row[2]), ln(row[0]))).collect();
    let n = points.len() as f64;
    let (x, y) = points
        .iter()
        .fold((0.0, 0.0), |sum, p| (sum.0 + p.0 / n, sum.1 + p.1 / n));
    let cross: f64 = points.iter().map(|p| (p.0 - x) * (p.1 - y)).sum();
    -cross / points.iter().map(|p| (p.0 - x) * (p.0 - x)).sum::<f64>()
}

/// Usual end voltages lie within the published ones of each chemistry.
#[test]
fn end_voltages_are_among_the_published() {
    for (name, chemistry, cells) in [
        ("NiMH", Chemistry::NickelMetalHydride, 1.0),
        ("lithium-ion", Chemistry::LithiumIon, 1.0),
        ("iron phosphate", Chemistry::IronPhosphate, 1.0),
        ("lead-acid", Chemistry::LeadAcid, 6.0),
    ] {
        let rows = table::rows(include_str!("../../../reference/end_voltage.csv"));
        let usual = cells * chemistry.end_voltage_per_cell();
        let known = rows.iter().filter(|row| row[0] == name);
        assert!(
            known
                .map(|row| table::number(row[1]))
                .any(|volts| (volts - usual).abs() < 1e-9)
        );
    }
}

/// Hours at full volume are true of music, far fewer of sine: an eighth of
/// the power lasts more than six times as long (common practice, no source).
#[test]
fn music_outlasts_a_sine() {
    let battery = lead_acid(7.0, 1.15, 0.03, 10.5);
    let draw = |share: f64| {
        battery
            .endurance(&move |_| 0.3 + share * 30.0 / 0.9)
            .seconds
    };
    let share = pow(10.0, (3.01 - 12.04) / 10.0);
    assert!(draw(share) > 6.0 * draw(1.0), "{}", draw(share) / draw(1.0));
}

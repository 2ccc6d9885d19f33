//! Driver parameters against sets computed elsewhere from `small-1972`, and
//! what must hold of any completion.

mod table;

use boxwright_physics::air::Air;
use boxwright_physics::driver::{
    ImpedancePoints, Partial, added_mass, complete, efficiency, efficiency_of_resonance,
    free_air_mass, known_volume, known_volume_with_quality, level_of_power, total_quality,
};
use proptest::prelude::*;

const AIR: Air = Air::with(1.2, 343.0);

/// The tables carry ten significant digits.
fn check(what: &str, got: f64, expected: f64) {
    assert!(
        (got - expected).abs() <= 2e-9 * expected.abs(),
        "{what}: {got} is not {expected}"
    );
}

/// A full consistent set from the tables' row.
fn row_set(row: &[f64]) -> Partial {
    Partial {
        fs: Some(row[0]),
        qms: Some(row[1]),
        qes: Some(row[2]),
        qts: Some(row[3]),
        re: Some(row[4]),
        sd: Some(row[5]),
        mms: Some(row[6]),
        cms: Some(row[7]),
        vas: Some(row[8]),
        bl: Some(row[9]),
        rms: Some(row[10]),
        sensitivity: Some(row[13]),
    }
}

fn table_rows() -> Vec<Vec<f64>> {
    table::numbers(include_str!("../../../reference/driver_relations.csv"))
}

fn expect(got: Option<f64>, expected: Option<f64>, what: &str) {
    let got = got.unwrap_or_else(|| panic!("{what} was not derived"));
    check(what, got, expected.expect("the table is full"));
}

fn expect_all(got: &Partial, expected: &Partial) {
    expect(got.re, expected.re, "re");
    expect(got.fs, expected.fs, "fs");
    expect(got.qms, expected.qms, "qms");
    expect(got.qes, expected.qes, "qes");
    expect(got.qts, expected.qts, "qts");
    expect(got.vas, expected.vas, "vas");
    expect(got.sd, expected.sd, "sd");
    expect(got.bl, expected.bl, "bl");
    expect(got.mms, expected.mms, "mms");
    expect(got.cms, expected.cms, "cms");
    expect(got.rms, expected.rms, "rms");
    expect(got.sensitivity, expected.sensitivity, "sensitivity");
}

#[test]
fn relations_of_the_table() {
    let rows = table_rows();
    assert_eq!(rows.len(), 2);
    for row in rows {
        check("qts", total_quality(row[1], row[2]), row[3]);
        let eta = efficiency(row[9], row[5], row[4], row[6], &AIR);
        check("eta0", eta, row[11]);
        check(
            "eta0 of resonance",
            efficiency_of_resonance(row[0], row[8], row[2], &AIR),
            row[11],
        );
        check("1 W", level_of_power(eta, &AIR), row[12]);
    }
}

/// Each of these subsets is enough; together they use every relation both ways.
#[test]
fn sufficient_subsets_give_the_whole_set() {
    let keep = |set: &Partial, names: &str| {
        let has = |name: &str| names.split(' ').any(|other| other == name);
        let pick = |name: &str, value: Option<f64>| value.filter(|_| has(name));
        Partial {
            re: pick("re", set.re),
            fs: pick("fs", set.fs),
            qms: pick("qms", set.qms),
            qes: pick("qes", set.qes),
            qts: pick("qts", set.qts),
            vas: pick("vas", set.vas),
            sd: pick("sd", set.sd),
            bl: pick("bl", set.bl),
            mms: pick("mms", set.mms),
            cms: pick("cms", set.cms),
            rms: pick("rms", set.rms),
            sensitivity: pick("sensitivity", set.sensitivity),
        }
    };
    for row in table_rows() {
        let full = row_set(&row);
        for names in [
            "re fs qms qes vas sd",
            "re fs qms qts vas sd",
            "re fs qes qts mms sd",
            "re fs qms bl mms sd",
            "re qms qes mms cms sd",
            "re bl rms mms cms sd",
            "re fs qms qes vas mms",
            "re fs rms qes cms sd",
            "re fs qms qes sensitivity sd",
            "re fs qms vas sensitivity sd",
            "re fs qms mms sensitivity sd",
            "fs qms qes bl cms sd",
        ] {
            let completion = complete(&keep(&full, names), &AIR);
            assert!(
                completion.conflicts.is_empty(),
                "{names}: {:?}",
                completion.conflicts
            );
            assert!(
                completion.missing.is_empty(),
                "{names}: {:?}",
                completion.missing
            );
            expect_all(&completion.values, &full);
            assert_eq!(completion.derived.len(), 12 - names.split(' ').count());
        }
    }
}

#[test]
fn what_cannot_be_had_is_named() {
    let known = Partial {
        re: Some(3.6),
        fs: Some(55.0),
        qts: Some(0.38),
        ..Partial::default()
    };
    let completion = complete(&known, &AIR);
    assert_eq!(completion.missing, ["sd", "mms", "cms", "bl", "rms"]);
    assert!(completion.derived.is_empty());
    assert!(complete(&Partial::default(), &AIR).missing.len() == 6);
}

#[test]
fn a_contradiction_names_the_least_trusted_and_what_it_contradicts() {
    let mut set = row_set(&table_rows()[0]);
    set.bl = set.bl.map(|bl| 1.1 * bl);
    let completion = complete(&set, &AIR);
    let [bl] = &completion.conflicts[..] else {
        panic!("one conflict expected: {:?}", completion.conflicts);
    };
    assert_eq!(bl.names, ["re", "fs", "qes", "sd", "vas", "bl"]);
    assert!((bl.percent - 10.0).abs() < 1e-6);
    check("bl kept", completion.values.bl.expect("known"), bl.implied);
}

#[test]
fn a_total_q_above_a_partial_one_is_a_contradiction_not_a_negative_q() {
    let stated = Partial {
        qms: Some(0.4),
        qts: Some(0.5),
        ..Partial::default()
    };
    let completion = complete(&stated, &AIR);
    assert_eq!(completion.conflicts[0].names, ["qms", "qts"]);
    assert_eq!(completion.values.qes, None);
}

#[test]
fn nonsense_counts_as_not_stated() {
    let stated = Partial {
        re: Some(-3.0),
        fs: Some(f64::NAN),
        ..Partial::default()
    };
    assert_eq!(complete(&stated, &AIR).values, Partial::default());
}

#[test]
fn test_methods() {
    for row in table::numbers(include_str!("../../../reference/driver_test_methods.csv")) {
        check("added mass", added_mass(row[2], row[0], row[3]), row[4]);
        check("known volume", known_volume(row[6], row[0], row[7]), row[8]);
        // With the air load unchanged, Qes rises as the resonance does.
        let qec = 0.5 * row[7] / row[0];
        let with_quality = known_volume_with_quality(row[6], row[0], 0.5, row[7], qec);
        check("known volume with Q", with_quality, row[8]);
    }
    for row in table::numbers(include_str!(
        "../../../reference/driver_impedance_method.csv"
    )) {
        check(
            "search level",
            ImpedancePoints::search_level(row[0], row[1]),
            row[3],
        );
        let reading = ImpedancePoints {
            re: row[0],
            peak: row[1],
            below: row[4],
            above: row[5],
        }
        .reading();
        check("fs", reading.fs, row[6]);
        check("qms", reading.qms, row[7]);
        check("qes", reading.qes, row[8]);
        check("qts", reading.qts, row[9]);
    }
}

/// `lamb-1932`, article 102: 8ρa³/3 for a disc in free fluid.
#[test]
fn free_air_mass_of_a_disc() {
    let radius: f64 = 0.05;
    let area = core::f64::consts::PI * radius * radius;
    check("mass", free_air_mass(area, &AIR), 8.0 / 3.0 * 1.2 * 1.25e-4);
}

proptest! {
    /// Completing a completed set changes nothing and finds no contradiction.
    #[test]
    fn completion_is_idempotent(
        re in 2.0..16.0_f64,
        fs in 20.0..300.0_f64,
        qms in 1.0..12.0_f64,
        qes in 0.2..1.5_f64,
        vas in 1e-4..0.2_f64,
        sd in 1e-3..0.06_f64,
    ) {
        let stated = Partial {
            re: Some(re),
            fs: Some(fs),
            qms: Some(qms),
            qes: Some(qes),
            vas: Some(vas),
            sd: Some(sd),
            ..Partial::default()
        };
        let once = complete(&stated, &AIR);
        prop_assert!(once.missing.is_empty());
        let twice = complete(&once.values, &AIR);
        prop_assert!(twice.conflicts.is_empty(), "{:?}", twice.conflicts);
        expect_all(&twice.values, &once.values);
    }

    /// A stated sensitivity that is off by x dB is reported as just that.
    #[test]
    fn an_optimistic_sensitivity_is_reported_in_full(boast in 0.1..6.0_f64) {
        let mut set = row_set(&table_rows()[0]);
        set.sensitivity = set.sensitivity.map(|level| level + boast);
        let completion = complete(&set, &AIR);
        prop_assert_eq!(completion.conflicts.len(), 1);
        let conflict = &completion.conflicts[0];
        prop_assert!((conflict.stated - conflict.implied - boast).abs() < 1e-6);
    }
}

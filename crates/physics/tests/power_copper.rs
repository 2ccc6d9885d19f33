//! Warm copper and cables.

mod table;

use boxwright_physics::fuse::{Family, Make, rush};
use boxwright_physics::heat::{level_loss_db, resistance_ratio};
use boxwright_physics::math::db_power;
use boxwright_physics::wire::{
    COPPER_RESISTIVITY, cable_loop, gauge_diameter, gauge_for, gauge_section, resistance,
};

/// Coefficient of `iec-60028`; ten digits in the table.
#[test]
fn warm_coil() {
    for row in table::numbers(include_str!("../../../reference/coil_heating.csv")) {
        let ratio = resistance_ratio(row[0]);
        assert!((ratio - row[1]).abs() < 1e-9);
        assert!((-db_power(ratio) - row[2]).abs() < 1e-8);
        assert!((-level_loss_db(row[0]) - row[3]).abs() < 1e-8);
    }
}

/// Limits of `iec-60228` class 5 against one excess over ideal copper for all
/// sections: within 4 %, never counted on to be better than that.
#[test]
fn flexible_cable() {
    for row in table::numbers(include_str!("../../../reference/flexible_conductors.csv")) {
        let per_km = cable_loop(500.0, 1e-6 * row[0], 20.0);
        assert!((per_km / row[1] - 1.0).abs() < 0.04, "{row:?}: {per_km}");
    }
}

/// Drops of out-and-return runs at the limits of `iec-60228`, by the same excess: within 4 %.
#[test]
fn drop_along_a_cable() {
    let rows = table::numbers(include_str!("../../../reference/wire_drop.csv"));
    assert!(rows.len() > 3);
    for row in rows {
        let [volts, amperes, run, square, ohms, drop, percent, heat] = row[..] else {
            panic!("{row:?}");
        };
        let own = cable_loop(run, 1e-6 * square, 20.0);
        for (own, other) in [
            (own, ohms),
            (amperes * own, drop),
            (100.0 * amperes * own / volts, percent),
            (amperes * amperes * own, heat),
        ] {
            assert!((own / other - 1.0).abs() < 0.04, "{row:?}: {own} {other}");
        }
    }
}

/// Diameters and sections by `astm-b258` to the ten digits printed; the table's resistivity of
/// 0.017241 Ω·mm²/m is that of `iec-60028` rounded, so resistances agree to 1e-4.
#[test]
fn american_gauges() {
    for row in table::numbers(include_str!("../../../reference/awg.csv")) {
        let gauge = row[0] as i32;
        let section = gauge_section(gauge);
        assert!((1e3 * gauge_diameter(gauge) / row[1] - 1.0).abs() < 1e-9);
        assert!((1e6 * section / row[2] - 1.0).abs() < 1e-9);
        let ohms = resistance(1000.0, section, 20.0);
        assert!((ohms / row[3] - 1.0).abs() < 1e-4, "{row:?}: {ohms}");
        // Every gauge of the table that is sold as flexible wire is found again by its section.
        assert_eq!(gauge_for(section), Some(gauge));
        assert!((COPPER_RESISTIVITY * 1e6 / 0.017_241 - 1.0).abs() < 1e-4);
    }
    assert_eq!(gauge_for(0.75e-6), Some(18));
    assert_eq!(gauge_for(9e-6), None);
}

/// Every limit of the standards, blanks as none.
#[test]
fn opening_times() {
    let rows = table::rows(include_str!("../../../reference/fuse_points.csv"));
    assert!(rows.len() > 8);
    for row in rows {
        let family = match row[0] {
            "ul-248-14 0-30 A" => Family::General,
            "ul-248-14 fast 50 mA-6.3 A" => Family::GeneralFast,
            "iec-60127 fast 125 mA-10 A" => Family::TubeFast,
            other => panic!("{other}"),
        };
        let multiple = table::number(row[1]);
        let limit = |cell: &str| (!cell.is_empty()).then(|| table::number(cell));
        let (least, most) = (limit(row[2]), limit(row[3]));
        if let Some(least) = least {
            assert_eq!(family.shortest(multiple), Some(least), "{row:?}");
        }
        if let Some(most) = most {
            assert_eq!(family.longest(multiple), Some(most), "{row:?}");
        }
        // At its rating it carries for good.
        assert!(multiple > 1.0 || family.longest(multiple).is_none());
    }
}

/// A fast tube lets pass what the last point of the standard with a least time promises, and
/// an exponential rush has half the heat of a steady one over its time constant.
#[test]
fn a_rush_against_the_standard() {
    let rows = table::rows(include_str!("../../../reference/fuse_points.csv"));
    let tube = rows.iter().filter(|row| row[0].starts_with("iec-60127"));
    let promised = tube.filter_map(|row| {
        let [multiple, least] = [1, 2].map(|cell| row[cell].parse::<f64>().ok());
        Some((multiple?, least?))
    });
    let (multiple, least) = promised.fold((0.0, 0.0), |a, b| if b.0 > a.0 { b } else { a });
    assert!((Make::FastTube.passes() - multiple * multiple * least).abs() < 1e-12);
    let steps = 200_000;
    let (peak, time) = (117.0, 0.123e-3);
    let step = 20.0 * time / f64::from(steps);
    let summed: f64 = (0..steps)
        .map(|index| {
            let at = (f64::from(index) + 0.5) * step;
            let now = peak * boxwright_physics::math::exp(-at / time);
            now * now * step
        })
        .sum();
    assert!((rush(peak, time) / summed - 1.0).abs() < 1e-6);
}

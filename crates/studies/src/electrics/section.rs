//! How thick a wire must be.

use wiring::Carries;

/// Sections that are sold, in mm² (`iec-60228`, class 5; 0.14 and 0.25 mm² as equipment wire).
pub const SECTIONS: [f64; 9] = [0.14, 0.25, 0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0];

/// Current up to which a section serves, in A and mm²: table 11 of `iec-60335-1`.
const RATED: [(f64, f64); 7] = [
    (3.0, 0.5),
    (6.0, 0.75),
    (10.0, 1.0),
    (16.0, 1.5),
    (25.0, 2.5),
    (32.0, 4.0),
    (40.0, 6.0),
];

/// Current density below the table, in A/mm²: that of its first row.
const DENSITY: f64 = 6.0;

/// Long-term current in A that a section (m²) carries: the row of `iec-60335-1` table 11
/// it reaches; below 0.5 mm² in proportion to it (common practice, no source).
#[must_use]
pub fn carries(section: f64) -> f64 {
    let square = 1e6 * section + 1e-9;
    let reached = RATED.iter().rev().find(|(_, least)| *least <= square);
    reached.map_or(DENSITY * square, |(current, _)| *current)
}

/// Least section in m² that carries a current (A).
#[must_use]
pub fn least(current: f64) -> f64 {
    let fits = SECTIONS
        .into_iter()
        .find(|square| carries(1e-6 * square) >= current);
    1e-6 * fits.unwrap_or(SECTIONS[SECTIONS.len() - 1])
}

/// Thinnest wire in m² that stands being pulled through a box by hand: 0.5 mm² for what
/// carries power, 0.14 mm² for signals. Common practice, no source.
#[must_use]
pub const fn mechanical(carries: Carries) -> f64 {
    match carries {
        Carries::Supply | Carries::Charge | Carries::Output => 0.5e-6,
        Carries::Signal | Carries::Touch => 0.14e-6,
    }
}

/// The next section that is sold above one, in m².
pub(super) fn next(section: f64) -> Option<f64> {
    let square = 1e6 * section + 1e-9;
    let above = SECTIONS.into_iter().find(|other| *other > square);
    above.map(|square| 1e-6 * square)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every row of the table of `iec-60335-1`.
    #[test]
    fn the_standards_rows_are_kept() {
        let table = include_str!("../../../../reference/appliance_min_section.csv");
        let rows = table
            .lines()
            .filter_map(|line| line.strip_prefix("60335-1,"));
        let mut count = 0;
        for row in rows {
            let cells: Vec<f64> = row.split(',').map(|cell| cell.parse().unwrap()).collect();
            let (current, square) = (cells[0], cells[1]);
            if square > 6.0 {
                continue;
            }
            assert!((carries(1e-6 * square) - current).abs() < 1e-9, "{row}");
            assert!((1e6 * least(current) - square).abs() < 1e-9, "{row}");
            // A little more current wants the next row.
            assert!(
                current >= 40.0 || 1e6 * least(current + 0.01) > square,
                "{row}"
            );
            count += 1;
        }
        assert_eq!(count, RATED.len());
    }

    /// How much more a wire alone carries than each of three together in a conduit, at least:
    /// between the methods B2 and F of `iec-60364-5-52`, from memory.
    const ALONE: f64 = 1.25;

    /// Hottest copper in PVC, in °C, and the air its ratings hold in.
    const PVC: [f64; 2] = [70.0, 30.0];

    /// Rows of `iec-60364-5-52`, three loaded wires in a conduit (method B2): what is said of a
    /// wire alone stays within what they allow for it in air of 30 °C, and in warmer air they
    /// fall as the root of what is left to the hottest copper, within the ampere they are
    /// printed to.
    #[test]
    fn installed_wires_carry_as_much() {
        let table = include_str!("../../../../reference/appliance_min_section.csv");
        let rows = table.lines().filter_map(|line| line.strip_prefix("B2_"));
        let rows: Vec<[f64; 3]> = rows
            .map(|row| {
                let (air, rest) = row.split_once("C,").unwrap();
                let (current, square) = rest.split_once(',').unwrap();
                [air, current, square].map(|cell| cell.parse().unwrap())
            })
            .collect();
        assert_eq!(rows.len(), 8);
        for [air, current, square] in &rows {
            let own = |row: &&[f64; 3]| row[0] == PVC[1] && row[2] == *square;
            let [_, cool, _] = rows.iter().find(own).unwrap();
            let left = (PVC[0] - air) / (PVC[0] - PVC[1]);
            assert!(
                (current * current - cool * cool * left).abs() <= 2.0 * current,
                "{air} {square}"
            );
            assert!(carries(1e-6 * square) <= ALONE * cool, "{square}");
        }
    }

    #[test]
    fn thicker_wires_carry_more() {
        for pair in SECTIONS.windows(2) {
            assert!(carries(1e-6 * pair[0]) < carries(1e-6 * pair[1]));
        }
    }
}

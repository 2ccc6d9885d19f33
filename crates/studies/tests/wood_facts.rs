//! The sheets of the built-in shelf, whose data are invented, beside what wood
//! and boards really are. The tables are in `reference/` with their sources
//! (`wood-handbook`, `en-312`).

use design::{SheetPart, Tolerance, Value, built_in_shelf};

/// Rows of a table, split at commas.
fn rows(text: &str) -> Vec<Vec<&str>> {
    let lines = text.lines().filter(|line| !line.starts_with('#'));
    lines
        .skip(1)
        .map(|line| line.split(',').collect())
        .collect()
}

fn number(cell: &str) -> f64 {
    cell.parse().expect("a number")
}

fn species() -> Vec<Vec<&'static str>> {
    rows(include_str!("../../../reference/wood_species.csv"))
}

fn sizes(row: &str) -> Vec<[f64; 3]> {
    rows(include_str!("../../../reference/sheet_sizes.csv"))
        .into_iter()
        .filter(|cells| cells[1] == row)
        .map(|cells| [2, 3, 4].map(|cell| number(cells[cell])))
        .collect()
}

/// Sheets of the shelf whose name begins so.
fn sheets(name: &str) -> Vec<&'static SheetPart> {
    let all = built_in_shelf().sheets.iter();
    let found: Vec<_> = all
        .filter(|sheet| sheet.common.name.text.starts_with(name))
        .collect();
    assert!(!found.is_empty(), "no {name} on the shelf");
    found
}

fn modulus(sheet: &SheetPart) -> f64 {
    sheet.modulus.expect("a modulus").si
}

fn across(sheet: &SheetPart) -> f64 {
    sheet.modulus_across.expect("a modulus across").si
}

fn range(value: &Value) -> [f64; 2] {
    let Tolerance::Within(either_way) = value.tolerance else {
        panic!("the shelf says within what the thickness is");
    };
    [value.si - either_way, value.si + either_way]
}

/// The table's own two units of the modulus, to the digits it has.
#[test]
fn the_table_of_woods_is_sound() {
    for row in species() {
        let (megapounds, gigapascals) = (number(row[2]), number(row[3]));
        let difference = (megapounds * 6.894_757 - gigapascals).abs();
        assert!(difference < 1e-5, "{}", row[0]);
    }
}

/// Plies lie crosswise, so what a plywood bears along and across adds up to what
/// its wood bears in both directions: along, and a twentieth of that across (yellow
/// birch, `wood-handbook`). A tenth for trees that differ.
#[test]
fn plywood_is_no_stiffer_than_its_wood() {
    for (name, woods) in [
        ("birch plywood", ["yellow birch", "paper birch"]),
        ("poplar plywood", ["quaking aspen", "quaking aspen"]),
    ] {
        let of = |wood: &str| -> f64 {
            let all = species();
            let row = all.iter().find(|row| row[0] == wood);
            number(row.expect("in the table")[3]) * 1e9
        };
        let [stiffest, softest] = woods.map(of);
        for sheet in sheets(name) {
            let both = modulus(sheet) + across(sheet);
            let named = &sheet.common.name.text;
            assert!(both < 1.1 * 1.05 * stiffest, "{named}: {both}");
            assert!(both > 0.8 * softest, "{named}: {both}");
        }
    }
}

/// Mass at 12 % moisture is 1.12 times that of the oven-dry wood; glue and
/// pressing add up to a tenth.
#[test]
fn plywood_weighs_what_its_wood_does() {
    for (name, woods) in [
        ("birch plywood", ["paper birch", "yellow birch"]),
        ("poplar plywood", ["quaking aspen", "quaking aspen"]),
    ] {
        let [light, heavy] = woods.map(|wood| {
            let all = species();
            let row = all.iter().find(|row| row[0] == wood);
            number(row.expect("in the table")[1]) * 1120.0
        });
        for sheet in sheets(name) {
            let density = sheet.density.si;
            assert!(
                (0.95 * light..1.1 * heavy).contains(&density),
                "{}: {density}",
                sheet.common.name.text
            );
        }
    }
}

/// A board of solid wood lies among the woods of the table; across the grain it is
/// far softer than along.
#[test]
fn a_board_is_wood() {
    let table = species();
    let column = |cell: usize| table.iter().map(move |row| number(row[cell]));
    let stiffest = column(3).fold(0.0, f64::max) * 1e9;
    let softest = column(3).fold(f64::INFINITY, f64::min) * 1e9;
    let heaviest = column(1).fold(0.0, f64::max) * 1120.0;
    let lightest = column(1).fold(f64::INFINITY, f64::min) * 1120.0;
    for board in sheets("pine board") {
        assert!((softest..stiffest).contains(&modulus(board)));
        assert!((lightest..heaviest).contains(&board.density.si));
        assert!(across(board) < modulus(board) / 8.0);
    }
}

/// Fibreboard is stiffer than particleboard need be, stiffer than no plywood along
/// its grain, and alike in all directions.
#[test]
fn fibreboard_lies_between_particleboard_and_plywood() {
    let boards = rows(include_str!("../../../reference/panel_moduli.csv"));
    let particles = boards
        .iter()
        .filter(|row| row[0].starts_with("particleboard"));
    let least = particles.map(|row| number(row[3])).fold(0.0, f64::max) * 1e9;
    let stiffest = sheets("birch plywood").into_iter().map(modulus);
    let most = stiffest.fold(f64::INFINITY, f64::min);
    for sheet in sheets("MDF") {
        assert!((least..most).contains(&modulus(sheet)));
        assert!((modulus(sheet) - across(sheet)).abs() < 1.0);
    }
}

/// Whole sheets come in formats of the trade, within their tolerance.
#[test]
fn whole_sheets_have_formats_of_the_trade() {
    let formats = sizes("format");
    let mut known = 0;
    for sheet in sheets("").into_iter().filter(|sheet| sheet.length.si > 2.2) {
        let fits = formats.iter().any(|[length, width, tolerance]| {
            let within = |value: &Value, size: f64| (value.si * 1e3 - size).abs() <= *tolerance;
            within(&sheet.length, *length) && within(&sheet.width, *width)
        });
        assert!(fits, "{}", sheet.common.name.text);
        known += 1;
    }
    assert!(known >= 10);
}

/// What the shelf says birch plywood of a nominal thickness measures is what the
/// trade allows, to a hundredth of a millimetre.
#[test]
fn birch_plywood_is_as_thick_as_the_trade_allows() {
    for [nominal, below, above] in sizes("thickness") {
        for sheet in sheets(&format!("birch plywood {nominal} mm")) {
            let [least, most] = range(&sheet.thickness).map(|thickness| thickness * 1e3);
            assert!(least >= nominal - below - 0.01, "{nominal}: {least}");
            assert!(most <= nominal + above + 0.01, "{nominal}: {most}");
        }
    }
}

//! Reads the tables of `reference/`: `#` comments, a line of names, then rows.
#![allow(dead_code, reason = "each test file uses the part it needs")]

/// Rows of a table, split at commas.
pub(crate) fn rows(text: &str) -> Vec<Vec<&str>> {
    let lines = text
        .lines()
        .filter(|line| !line.starts_with('#') && !line.is_empty());
    lines
        .skip(1)
        .map(|line| line.split(',').collect())
        .collect()
}

/// A table of numbers only.
pub(crate) fn numbers(text: &str) -> Vec<Vec<f64>> {
    let parse = |row: Vec<&str>| row.iter().map(|cell| number(cell)).collect();
    rows(text).into_iter().map(parse).collect()
}

/// A table of named values.
pub(crate) fn items(text: &str) -> Vec<(String, f64)> {
    rows(text)
        .into_iter()
        .map(|row| (row[0].to_owned(), number(row[1])))
        .collect()
}

/// One cell as a number.
pub(crate) fn number(cell: &str) -> f64 {
    cell.trim()
        .parse()
        .unwrap_or_else(|_| panic!("{cell:?} is no number"))
}

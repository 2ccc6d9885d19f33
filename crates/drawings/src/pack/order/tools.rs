//! Tools, and the steps that want them.

use crate::layout::{Align, Cell, Column, Table};
use studies::order::Order;

pub(super) fn table(order: &Order) -> Table {
    let rows = order.tools.iter().map(|(tool, steps)| {
        let numbers: Vec<String> = steps.iter().map(|step| (step + 1).to_string()).collect();
        vec![
            Cell::from(tool.as_str()),
            Cell::from(numbers.join(", ")).muted(),
        ]
    });
    Table {
        columns: vec![
            Column::new("tool", Align::Left, 3.0),
            Column::new("steps", Align::Left, 2.0),
        ],
        rows: rows.collect(),
    }
}

//! Whatever the job, the layout can be sawn as it says.

use crate::jobs;
use boxwright_wood::sawing::{Effort, Layout, faults, lay_out};
use proptest::prelude::*;

/// The numbers of a layout that must agree with one another.
fn consistent(layout: &Layout) {
    let largest = layout
        .sheets
        .iter()
        .filter_map(|sheet| sheet.offcuts.first())
        .map(|rest| rest[2] * rest[3])
        .fold(0.0, f64::max);
    assert!(layout.fewest <= layout.bought, "{layout:?}");
    assert!(layout.least_area <= layout.area + 1e-9, "{layout:?}");
    assert!(largest <= layout.offcut_bound + 1e-9, "{layout:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn small_jobs_can_be_sawn(
        blanks in jobs::blanks(5),
        stock in jobs::stock(),
        saw in jobs::saws(),
    ) {
        let layout = lay_out(&blanks, &stock, &saw, Effort::QUICK);
        prop_assert_eq!(faults(&blanks, &stock, &saw, &layout), []);
        consistent(&layout);
    }

    #[test]
    fn larger_jobs_can_be_sawn(
        blanks in jobs::blanks(20),
        stock in jobs::stock(),
        saw in jobs::saws(),
    ) {
        let effort = Effort { pairs: 500, rounds: 20, blocks: 40 };
        let layout = lay_out(&blanks, &stock, &saw, effort);
        prop_assert_eq!(faults(&blanks, &stock, &saw, &layout), []);
        consistent(&layout);
    }

    /// What can be said to be left over fits on nothing or is more than there is.
    #[test]
    fn with_endless_large_sheets_nothing_is_left_over(blanks in jobs::blanks(12)) {
        let stock = [jobs::sheet(2.5, 1.25)];
        let layout = lay_out(&blanks, &stock, &jobs::saw(0.003, 0.01), Effort::QUICK);
        prop_assert_eq!(layout.left_over, Vec::<usize>::new());
    }
}

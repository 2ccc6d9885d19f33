//! Thirty generated jobs beside a general solver (`or-tools`): CP-SAT with the same
//! kerf, trim, grain and runs, some seconds for each. What it proves without
//! regard to guillotine cuts bounds ours from below; what it finds in strips can
//! be sawn, so ours is held to be no worse.

use crate::table::{self, Job};
use boxwright_wood::sawing::{Effort, Layout, faults, lay_out};

const RESULTS: &str = include_str!("../../../../reference/sawing_cp_sat.csv");

/// One job as the solver left it: sheets to buy and area in m².
struct Solved {
    sheets_bound: usize,
    /// Where the number of sheets is proven.
    area_bound: Option<f64>,
    free: Option<(usize, f64)>,
    strips: Option<(usize, f64)>,
}

fn solved() -> Vec<Solved> {
    let rows = RESULTS.lines().filter(|line| !line.starts_with('#'));
    let row = |line: &str| {
        let cells: Vec<Option<f64>> = line.split(',').map(|cell| cell.parse().ok()).collect();
        let area = |cell: usize| cells[cell].map(|area| area * 1e-6);
        let found = |cell: usize| Some((cells[cell]? as usize, area(cell + 1)?));
        Solved {
            sheets_bound: cells[2].expect("a bound") as usize,
            area_bound: area(3),
            free: found(4),
            strips: found(6),
        }
    };
    rows.skip(1).map(row).collect()
}

fn layouts() -> Vec<(Job, Layout, Solved)> {
    let jobs = table::jobs();
    assert_eq!(jobs.len(), 30);
    let laid_out = jobs.into_iter().zip(solved()).map(|(job, solved)| {
        let layout = lay_out(&job.blanks, &job.stock, &job.saw, Effort::NORMAL);
        (job, layout, solved)
    });
    laid_out.collect()
}

/// Areas in m² are whole mm².
const SAME: f64 = 0.5e-6;

#[test]
fn thirty_jobs_beside_a_general_solver() {
    let (mut equal, mut within) = (0, 0);
    for (index, (job, layout, solved)) in layouts().into_iter().enumerate() {
        assert_eq!(
            faults(&job.blanks, &job.stock, &job.saw, &layout),
            [],
            "{index}"
        );
        assert_eq!(layout.left_over, Vec::<usize>::new(), "{index}");
        let fewest = layout.fewest.max(solved.sheets_bound);
        assert!(
            layout.bought <= fewest + 1,
            "{index}: not proven within one sheet"
        );
        equal += usize::from(layout.bought == fewest);

        let area_bound = solved
            .area_bound
            .filter(|_| layout.bought == solved.sheets_bound);
        let least = layout.least_area.max(area_bound.unwrap_or(0.0));
        within += usize::from(layout.area <= 1.01 * least);

        // A layout of ours can never beat what is proven.
        assert!(layout.bought >= solved.sheets_bound, "{index}");
        assert!(
            area_bound.is_none_or(|bound| layout.area >= bound - SAME),
            "{index}"
        );
        // Nor may a bound of ours exceed what somebody found.
        for (sheets, area) in solved.free.into_iter().chain(solved.strips) {
            assert!(layout.fewest <= sheets, "{index}");
            let comparable = sheets == layout.bought;
            assert!(!comparable || layout.least_area <= area + SAME, "{index}");
            let better = (sheets, area + SAME) >= (layout.bought, layout.area);
            assert!(
                better,
                "{index}: the solver found {sheets} sheets, {area} m²"
            );
        }
    }
    // Counted; the rest have offcuts on hand that no bound of ours or the
    // solver's tells how full they can be.
    assert!(equal >= 29, "sheets proven fewest in {equal} of 30");
    assert!(
        within >= 24,
        "area within 1 % of the bound in {within} of 30"
    );
}

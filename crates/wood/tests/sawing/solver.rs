//! Thirty generated jobs beside a general solver (`or-tools`): CP-SAT with the same
//! kerf, trim, grain and runs, some seconds for each. What it proves without
//! regard to guillotine cuts bounds ours from below; what it finds in strips can
//! be sawn, so ours is held to be no worse. Where that left the area open, each
//! cheaper choice of stock was put to the solver by itself.

use crate::table::{self, Job};
use boxwright_wood::sawing::{Effort, Layout, faults, lay_out};

const RESULTS: &str = include_str!("../../../../reference/sawing_cp_sat.csv");
const PLANS: &str = include_str!("../../../../reference/sawing_plans.csv");

/// One job as the solver left it: sheets to buy and area in m².
struct Solved {
    sheets_bound: usize,
    /// Where the number of sheets is proven.
    area_bound: Option<f64>,
    free: Option<(usize, f64)>,
    strips: Option<(usize, f64)>,
    /// Layouts of ours that the cheaper choices of stock were looked for beside.
    ours: (usize, f64),
    /// The cheapest choice of stock that is not proven impossible, up to ours.
    cheapest: (usize, f64),
}

fn solved() -> Vec<Solved> {
    let rows = RESULTS.lines().filter(|line| !line.starts_with('#'));
    let row = |(index, line): (usize, &str)| {
        let cells: Vec<Option<f64>> = line.split(',').map(|cell| cell.parse().ok()).collect();
        let area = |cell: usize| cells[cell].map(|area| area * 1e-6);
        let found = |cell: usize| Some((cells[cell]? as usize, area(cell + 1)?));
        let ours = found(8).expect("a layout of ours");
        Solved {
            ours,
            cheapest: cheapest(index, ours),
            sheets_bound: cells[2].expect("a bound") as usize,
            area_bound: area(3),
            free: found(4),
            strips: found(6),
        }
    };
    rows.skip(1).enumerate().map(row).collect()
}

/// The cheapest choice of stock for a job on which its blanks may fit for all that is
/// proven; `ours` if there is none before it.
fn cheapest(job: usize, ours: (usize, f64)) -> (usize, f64) {
    let mut cheapest = ours;
    for line in PLANS.lines() {
        let cells: Vec<&str> = line.split(',').collect();
        if cells[0].parse() != Ok(job) || cells[4] == "impossible" {
            continue;
        }
        let sheets = cells[1].parse().expect("sheets");
        let area: f64 = cells[2].parse().expect("an area");
        if (sheets, area * 1e-6) < cheapest {
            cheapest = (sheets, area * 1e-6);
        }
    }
    cheapest
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
    let (mut equal, mut open) = (0, Vec::new());
    for (index, (job, layout, solved)) in layouts().into_iter().enumerate() {
        assert_eq!(
            faults(&job.blanks, &job.stock, &job.saw, &layout),
            [],
            "{index}"
        );
        assert_eq!(layout.left_over, Vec::<usize>::new(), "{index}");
        let fewest = layout.fewest.max(solved.sheets_bound);
        let fewest = fewest.max(solved.cheapest.0);
        assert!(
            layout.bought <= fewest + 1,
            "{index}: not proven within one sheet"
        );
        equal += usize::from(layout.bought == fewest);

        let area_bound = solved
            .area_bound
            .filter(|_| layout.bought == solved.sheets_bound);
        let least = [
            layout.least_area,
            area_bound.unwrap_or(0.0),
            solved.cheapest.1,
        ];
        let above = layout.area / least.into_iter().fold(0.0, f64::max) - 1.0;
        if above > 0.01 || layout.bought > fewest {
            open.push((index, layout.bought - fewest, (100.0 * above).round()));
        }

        // Nothing cheaper was looked into than what was cheaper than ours then.
        let (sheets, area) = solved.ours;
        assert!(
            (layout.bought, layout.area) <= (sheets, area + SAME),
            "{index}: worse than once"
        );
        let (sheets, area) = solved.cheapest;
        assert!(
            (layout.bought, layout.area + SAME) >= (sheets, area),
            "{index}: a layout on stock that is proven too little"
        );

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
    assert_eq!(equal, 30, "sheets proven fewest");
    // Job, sheets and percent of area above the bound; with thorough effort 3 % of
    // job 5. The bounds are no more than choices of stock large enough: whether they
    // can be sawn, nobody knows.
    assert_eq!(open, [(5, 0, 5.0), (13, 0, 18.0), (23, 0, 16.0)]);
}

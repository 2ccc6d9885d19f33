//! Reads the generated jobs.

use boxwright_wood::sawing::{Blank, SawLimits, Stock};

const JOBS: &str = include_str!("../../../../reference/sawing_jobs.csv");

/// What is cut from what.
#[derive(Clone, Debug)]
pub(crate) struct Job {
    pub(crate) blanks: Vec<Blank>,
    pub(crate) stock: Vec<Stock>,
    pub(crate) saw: SawLimits,
}

/// The jobs with the kerf and trim that the table's header names.
pub(crate) fn jobs() -> Vec<Job> {
    let empty = Job {
        blanks: Vec::new(),
        stock: Vec::new(),
        saw: SawLimits {
            kerf: 0.003,
            trim: 0.010,
            longest: 10.0,
            narrowest: 0.0,
        },
    };
    let mut jobs: Vec<Job> = Vec::new();
    let rows = JOBS.lines().filter(|line| !line.starts_with('#'));
    for line in rows.skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let index: usize = cells[0].parse().expect("a number");
        let metres = |cell: &str| cell.parse::<f64>().expect("a length") / 1000.0;
        let (length, width) = (metres(cells[2]), metres(cells[3]));
        let (flag, number) = (cells[4] == "1", cells[5].parse().ok());
        jobs.resize(jobs.len().max(index + 1), empty.clone());
        let name = String::new();
        if cells[1] == "blank" {
            jobs[index].blanks.push(Blank {
                name,
                length,
                width,
                turns: flag,
                run: number,
            });
        } else {
            jobs[index].stock.push(Stock {
                name,
                length,
                width,
                whole: flag,
                count: number,
            });
        }
    }
    jobs
}

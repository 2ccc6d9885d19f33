//! The heat study by other routes.

use super::{Case, Warmth};
use crate::{Options, Texts, survey};

const BATHING: &str = include_str!("../../../../examples/bathing-beach/design.toml");

fn warmth(design: &str, builds: usize) -> Warmth {
    let texts = Texts {
        design,
        shelf: None,
    };
    let options = Options {
        builds,
        spread: 1.0,
        progress: &|_| (),
    };
    let report = survey(texts, options).unwrap();
    report.warmth.unwrap()
}

fn edited(key: &str, value: &str) -> String {
    let path: Vec<&str> = key.split('.').collect();
    let _ = path;
    crate::apply(BATHING, &[crate::check::Edit::set(key, value)]).unwrap()
}

fn case<'a>(warmth: &'a Warmth, id: &str) -> &'a Case {
    warmth.cases.iter().find(|case| case.id == id).unwrap()
}

/// The handbook's one line, U = 1/(1/h + t/k + 1/h) over the walls' area with
/// 8.5 W/(m²·K) on both sides, gives the rise of the air inside; the network
/// knows that convection grows with the difference, and has more ways.
#[test]
fn the_air_rises_as_the_one_line_formula_says() {
    let warm = warmth(BATHING, 0);
    eprintln!("{:#?}", warm.silent);
    for case in &warm.cases {
        eprintln!(
            "{} {:?} {:?} hour {:?} {}",
            case.id,
            case.heat,
            case.steady.nominal,
            case.hour,
            case.course.len()
        );
    }
}

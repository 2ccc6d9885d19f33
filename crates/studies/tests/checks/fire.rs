//! A check that never finds fault is no check.

use crate::broken::list;
use boxwright_studies::Report;
use boxwright_studies::check::{ALL, Severity};
use std::sync::OnceLock;

/// Every broken design studied once, with the check that must speak.
fn reports() -> &'static [(&'static str, Report)] {
    static REPORTS: OnceLock<Vec<(&'static str, Report)>> = OnceLock::new();
    REPORTS.get_or_init(|| {
        let list = list();
        list.iter()
            .map(|broken| (broken.id, broken.report()))
            .collect()
    })
}

#[test]
fn each_broken_design_is_found_out() {
    let mut missed = Vec::new();
    for (index, (id, report)) in reports().iter().enumerate() {
        let own = report.findings.iter().filter(|f| f.id == *id);
        let own: Vec<_> = own.collect();
        if own.iter().all(|finding| finding.severity == Severity::Good) {
            missed.push((index, id, own));
        }
    }
    assert!(missed.is_empty(), "{missed:#?}");
}

#[test]
fn each_check_has_a_broken_design() {
    for check in ALL {
        assert!(
            list().iter().any(|broken| broken.id == check.id),
            "{}",
            check.id
        );
    }
}

#[test]
fn the_worst_comes_first_and_says_what_to_do() {
    for (_, report) in reports() {
        assert!(report.findings.is_sorted_by_key(|finding| finding.severity));
        for finding in &report.findings {
            let said = [&finding.title, &finding.cause];
            assert!(
                said.iter()
                    .all(|text| !text.is_empty() && !text.contains("NaN")),
                "{finding:#?}"
            );
            assert!(finding.cause.ends_with('.'), "{finding:#?}");
            let told = finding.advice.is_some() || finding.id == "brief-conflict";
            assert!(finding.severity == Severity::Good || told, "{finding:#?}");
        }
    }
}

//! A check that never finds fault is no check.

use crate::broken::list;
use boxwright_studies::check::{ALL, Severity};

#[test]
fn each_broken_design_is_found_out() {
    for broken in list() {
        let report = broken.report(0);
        let own = report.findings.iter().filter(|f| f.id == broken.id);
        assert!(
            own.clone().any(|finding| finding.severity < Severity::Good),
            "{}: {:#?}",
            broken.id,
            own.collect::<Vec<_>>()
        );
    }
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
    for broken in list() {
        let report = broken.report(0);
        assert!(report.findings.is_sorted_by_key(|finding| finding.severity));
        for finding in report.findings.iter() {
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

//! Every mend offered is made, and the whole study run again.

use crate::broken::{list, studied, surveyed};
use boxwright_studies::check::Severity;
use boxwright_studies::{Report, apply};

/// How often a check finds fault with a thing, or with two that meet: alone or under what brings
/// it.
fn faults(report: &Report, id: &str, about: &str) -> usize {
    let wrong = report
        .findings
        .iter()
        .filter(|f| f.severity < Severity::Good);
    let own = wrong.clone().map(|f| (f.id, &f.about));
    let brought = wrong.flat_map(|f| &f.brings).map(|f| (f.id, &f.about));
    own.chain(brought)
        .filter(|(other, _)| *other == id)
        .flat_map(|(_, abouts)| abouts)
        .filter(|other| *other == about)
        .count()
}

/// Checks that stop, alone or under what brings them.
fn stops(report: &Report) -> impl Iterator<Item = &'static str> + '_ {
    let own = report.findings.iter().map(|f| (f.id, f.severity));
    let brought = report.findings.iter().flat_map(|f| &f.brings);
    own.chain(brought.map(|brought| (brought.id, brought.severity)))
        .filter(|(_, severity)| *severity == Severity::Stop)
        .map(|(id, _)| id)
}

/// Makes each mend of a design and looks whether its finding is gone.
pub(crate) fn mends_clear(design: &str, shelf: &str, builds: usize) -> usize {
    let before = studied(design, shelf, builds);
    let mut made = 0;
    for finding in &before.findings {
        let Some(mend) = &finding.mend else { continue };
        assert!(
            finding.severity < Severity::Good,
            "nothing to mend: {finding:#?}"
        );
        let edited = apply(design, &mend.edits).expect("a mend can be made");
        assert_ne!(edited, design);
        for comment in design.lines().filter_map(|line| line.split_once("# ")) {
            let gone = mend.edits.iter().any(|edit| edit.value.is_none());
            assert!(gone || edited.contains(comment.1), "lost: {comment:?}");
        }
        let after = surveyed(&edited, shelf, builds)
            .unwrap_or_else(|errors| panic!("{}: {errors:#?}", mend.words));
        let id = finding.id;
        for about in &finding.about {
            // Only several findings of one check about the same thing go one by one.
            let (was, is) = (faults(&before, id, about), faults(&after, id, about));
            assert!(
                is < was,
                "{}: {id} about {about:?}, {was} before, {is} after: {:#?}",
                mend.words,
                after
                    .findings
                    .iter()
                    .filter(|f| f.id == id)
                    .collect::<Vec<_>>()
            );
        }
        for stop in stops(&after) {
            let was = stops(&before).any(|id| id == stop);
            assert!(was, "{} brings a stop: {stop}", mend.words);
        }
        made += 1;
    }
    made
}

#[test]
fn mends_of_broken_designs_clear_their_findings() {
    let mut mended = 0;
    for broken in list() {
        mended += mends_clear(&broken.design(), &broken.shelf_text(), broken.drawn());
    }
    assert!(mended > 40, "{mended}");
}

#[test]
fn mends_of_the_examples_clear_their_findings() {
    let shelf = include_str!("../../../../examples/salvage-party/shelf.toml");
    for (design, shelf) in [
        (
            include_str!("../../../../examples/bathing-beach/design.toml"),
            "format = 1",
        ),
        (
            include_str!("../../../../examples/workshop-mono/design.toml"),
            "format = 1",
        ),
        (
            include_str!("../../../../examples/salvage-party/design.toml"),
            shelf,
        ),
    ] {
        mends_clear(design, shelf, 400);
    }
}

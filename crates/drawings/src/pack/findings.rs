//! What is wrong and what to change; what the spread comes from; cautions.

use super::{Page, cautions, flowed};
use crate::layout::{Bar, Bars, Block, FindingBlock, Heading, Paragraph, content_area, is_slight};
use crate::paper::Paper;
use design::Project;
use studies::check::{Finding, Severity};
use studies::{Report, words};

/// How much is said of what needs no mending.
#[derive(Clone, Copy)]
struct Detail {
    /// Causes named for each promise at most.
    causes: usize,
    /// Whether the reason stands under what is in order.
    reasons: bool,
}

/// From the fullest to the shortest.
const DETAILS: [Detail; 3] = [
    Detail {
        causes: 3,
        reasons: true,
    },
    Detail {
        causes: 2,
        reasons: true,
    },
    Detail {
        causes: 2,
        reasons: false,
    },
];

/// The sheets with as much detail as does not end on a nearly empty one.
pub(crate) fn pages(project: &Project, report: &Report, paper: Paper) -> Vec<Page> {
    let laid = |detail: Detail| {
        let blocks = blocks(project, report, detail);
        flowed("Findings and mends", &blocks, paper, 2)
    };
    let full = laid(DETAILS[0]);
    let pages = if ends_slight(&full, paper) {
        let mut shorter = DETAILS[1..].iter().map(|d| laid(*d));
        let saved = shorter.find(|p| p.len() < full.len());
        saved.unwrap_or(full)
    } else {
        full
    };
    let note = "Square: do not build it so. Diamond: weigh it. Disc: looked at and in order. A mend \
                was tried: with it the finding is gone, and no stop comes that is not told here.";
    pages.into_iter().map(|p| p.noted(note)).collect()
}

fn ends_slight(pages: &[Page], paper: Paper) -> bool {
    let last = pages.last().map(|page| &page.drawing);
    pages.len() > 1 && last.is_some_and(|last| is_slight(last, content_area(paper)))
}

fn blocks(project: &Project, report: &Report, detail: Detail) -> Vec<Box<dyn Block>> {
    let mut blocks = to_mend(report);
    blocks.push(Box::new(Heading::new("Cautions", "in any case")));
    for caution in cautions::cautions(project) {
        blocks.push(Box::new(Paragraph::new(caution)));
    }
    blocks.extend(in_order(report, detail.reasons));
    blocks.extend(spread(report, detail.causes));
    blocks
}

fn to_mend(report: &Report) -> Vec<Box<dyn Block>> {
    let bad: Vec<&Finding> = report
        .findings
        .iter()
        .filter(|f| f.severity != Severity::Good)
        .collect();
    let remark = format!(
        "{} of {} findings, worst first",
        bad.len(),
        report.findings.len()
    );
    let mut blocks: Vec<Box<dyn Block>> = vec![Box::new(Heading::new("To mend", &remark))];
    if bad.is_empty() {
        blocks.push(Box::new(Paragraph::new("Nothing found wrong.")));
    }
    for finding in bad {
        blocks.push(Box::new(block(finding)));
    }
    blocks
}

fn in_order(report: &Report, reasons: bool) -> Vec<Box<dyn Block>> {
    let good = report
        .findings
        .iter()
        .filter(|f| f.severity == Severity::Good);
    let good: Vec<Box<dyn Block>> = good
        .map(|f| Box::new(brief(f, reasons)) as Box<dyn Block>)
        .collect();
    if good.is_empty() {
        return good;
    }
    let heading: Box<dyn Block> = Box::new(Heading::new("In order", ""));
    std::iter::once(heading).chain(good).collect()
}

/// What is in order, its reason in small letters.
fn brief(finding: &Finding, reasons: bool) -> FindingBlock {
    FindingBlock {
        severity: finding.severity,
        title: finding.title.clone(),
        cause: String::new(),
        measured: if reasons {
            finding.cause.clone()
        } else {
            String::new()
        },
        mend: String::new(),
    }
}

fn block(finding: &Finding) -> FindingBlock {
    let cause = match &finding.advice {
        Some(advice) => format!("{} To do: {advice}.", finding.cause.trim_end()),
        None => finding.cause.clone(),
    };
    let against = match (finding.measured, finding.limit) {
        (Some(m), Some(l)) => format!(
            "{} against {} · ",
            words::number(m, finding.unit),
            words::number(l, finding.unit)
        ),
        _ => String::new(),
    };
    FindingBlock {
        severity: finding.severity,
        title: finding.title.clone(),
        cause: cause.replace(".. ", ". ").replace("..", ".") + &brought(finding),
        measured: format!("{against}{} · {}", finding.name, finding.source.join(", ")),
        mend: finding
            .mend
            .as_ref()
            .map_or(String::new(), |m| m.words.clone()),
    }
}

/// What follows from a finding is named up to so many.
const BROUGHT: usize = 4;

/// What other checks find for the same reason, by their titles.
fn brought(finding: &Finding) -> String {
    let mut titles: Vec<String> = finding
        .brings
        .iter()
        .take(BROUGHT)
        .map(|brought| brought.title.clone())
        .collect();
    let more = finding.brings.len().saturating_sub(BROUGHT);
    if more > 0 {
        titles.push(format!("{more} more"));
    }
    if titles.is_empty() {
        String::new()
    } else {
        format!(" With it: {}.", titles.join("; "))
    }
}

/// What drives the spread of each promise.
fn spread(report: &Report, causes: usize) -> Vec<Box<dyn Block>> {
    let mut blocks: Vec<Box<dyn Block>> = Vec::new();
    for promise in &report.promises {
        let movers = report.movers.iter().filter(|m| m.promise == promise.id);
        let bars: Vec<Bar> = movers
            .take(causes)
            .map(|m| Bar {
                name: m.cause.clone(),
                value: format!("{} %", words::bare(100.0 * m.share, "%")),
                length: m.share,
            })
            .collect();
        if !bars.is_empty() {
            let head = format!("What moves “{}”", promise.title.to_lowercase());
            blocks.push(Box::new(Heading::new(&head, "share of its spread")));
            blocks.push(Box::new(Bars { bars }));
        }
    }
    blocks
}

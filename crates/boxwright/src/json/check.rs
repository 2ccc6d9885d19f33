//! A report in JSON.

use super::accounts::Accounts;
use super::carpentry::Carpentry;
use super::electrics::Electrics;
use super::finish::Finish;
use super::money::Money;
use super::order::Order;
use super::{FORMAT, layout};
use serde::Serialize;
use studies::check::{Finding, Severity};
use studies::indicator::Indicator;
use studies::report::{Assumption, Curve, Discharging, Figure, Measurement, Mover, Promise};
use studies::signal::Signal;
use studies::warmth::Warmth;
use studies::{Report, Versus};

#[derive(Serialize)]
struct Check<'a> {
    format: u32,
    boxwright: &'static str,
    name: &'a str,
    revision: Option<u32>,
    builds: usize,
    /// The worst finding.
    verdict: Severity,
    promises: Vec<Held<'a>>,
    findings: &'a [Finding],
    figures: &'a [Figure],
    curves: &'a [Curve],
    discharge: &'a Discharging,
    movers: &'a [Mover],
    measurement: Option<&'a Measurement>,
    versus: Option<&'a Versus>,
    assumptions: &'a [Assumption],
    warmth: Option<&'a Warmth>,
    signal: &'a Signal,
    indicator: Option<&'a Indicator>,
    accounts: Accounts<'a>,
    money: Money<'a>,
    carpentry: Carpentry<'a>,
    electrics: Electrics<'a>,
    finish: Finish<'a>,
    order: Order<'a>,
}

/// A promise held against the brief.
#[derive(Serialize)]
struct Held<'a> {
    #[serde(flatten)]
    promise: &'a Promise,
    kept: bool,
    sentence: Option<String>,
}

/// A report as the answer of `check --json`.
pub(crate) fn check(report: &Report) -> String {
    let severities = report.findings.iter().map(|finding| finding.severity);
    layout::text(&Check {
        format: FORMAT,
        boxwright: env!("CARGO_PKG_VERSION"),
        name: &report.name,
        revision: report.revision,
        builds: report.builds,
        verdict: severities.min().unwrap_or(Severity::Good),
        promises: report.promises.iter().map(Held::new).collect(),
        findings: &report.findings,
        figures: &report.figures,
        curves: &report.curves,
        discharge: &report.discharge,
        movers: &report.movers,
        measurement: report.measurement.as_ref(),
        versus: report.versus.as_ref(),
        assumptions: &report.assumptions,
        warmth: report.warmth.as_ref(),
        signal: &report.signal,
        indicator: report.indicator.as_deref(),
        accounts: Accounts::new(&report.accounts, &report.money),
        money: Money::new(&report.money, &report.promises),
        carpentry: Carpentry::new(&report.carpentry),
        electrics: Electrics::new(&report.electrics),
        finish: Finish::new(&report.finish),
        order: Order::new(&report.order),
    })
}

impl<'a> Held<'a> {
    fn new(promise: &'a Promise) -> Self {
        Self {
            promise,
            kept: promise.kept(),
            sentence: promise.odds_sentence(),
        }
    }
}

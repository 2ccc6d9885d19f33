//! From the texts of a design to a report.

use crate::carpentry;
use crate::check::Evidence;
use crate::electrics::{self, Asked};
use crate::finish;
use crate::indicator;
use crate::levers;
use crate::memory::Memory;
use crate::mend;
use crate::money::{self, Need};
use crate::odds::Drawn;
use crate::order::{self, Testing};
use crate::outcome::{Bench, Studied};
use crate::report::{self, Accounts, Report};
use crate::signal;
use crate::sound::{Grid, VENT_SPEED};
use crate::subject::Subject;
use crate::texts::Texts;
use crate::vary::Draw;
use crate::versus::versus;
use crate::warmth;
use design::{Diagnostic, EnclosureKind};
use std::sync::{Arc, OnceLock};

/// How thoroughly to study.
#[derive(Clone, Copy)]
pub struct Options<'a> {
    /// Drawn builds behind bands and odds.
    pub builds: usize,
    /// Multiplies every spread; 1 as a rule.
    pub spread: f64,
    /// Hears how many drawn builds have been added to those done; none where something
    /// else is about to be tried. It may unwind: then the study is given up.
    pub progress: &'a (dyn Fn(usize) + Sync),
}

/// Drawn builds for the question sealed or vented, for each one of the main study.
const VERSUS_SHARE: usize = 4;

/// Reads and studies a design. What its levers do is not tried.
///
/// # Errors
/// Everything wrong with the texts, all at once, each with its place.
pub fn run(texts: Texts<'_>, options: Options<'_>) -> Result<Report, Vec<Diagnostic>> {
    let trying = Trying {
        mends: true,
        ..Trying::default()
    };
    studied(texts, options, trying, &Memory::default())
}

/// The same, and what other parts of the shelf would change: the money then holds swaps.
///
/// # Errors
/// Everything wrong with the texts, all at once, each with its place.
pub fn run_with_swaps(texts: Texts<'_>, options: Options<'_>) -> Result<Report, Vec<Diagnostic>> {
    let trying = Trying {
        mends: true,
        swaps: true,
        ..Trying::default()
    };
    studied(texts, options, trying, &Memory::default())
}

/// The same without trying mends: its findings have none, and take a fraction of the time.
///
/// # Errors
/// Everything wrong with the texts, all at once, each with its place.
pub fn survey(texts: Texts<'_>, options: Options<'_>) -> Result<Report, Vec<Diagnostic>> {
    Memory::default().survey(texts, options)
}

/// What is tried on the text of the design.
#[derive(Clone, Copy, Default)]
pub(crate) struct Trying {
    pub(crate) mends: bool,
    /// What one step of each lever does.
    pub(crate) levers: bool,
    /// Other parts of the shelf.
    pub(crate) swaps: bool,
}

/// A report, with what was worked out before and for those that follow.
pub(crate) fn studied(
    texts: Texts<'_>,
    options: Options<'_>,
    trying: Trying,
    memory: &Memory,
) -> Result<Report, Vec<Diagnostic>> {
    let project = design::read(texts.design, texts.shelf)?;
    let subject = Subject::remembering(project, options.spread, memory)?;
    let fine = Grid::fine();
    let mut bench = Bench::new(&subject, fine.clone());
    let mut studied = bench.study(subject.build(&Draw::Nominal));
    let traces = bench.traces(&studied);
    let coarse = Grid::coarse();
    let coarse_bench = Bench::new(&subject, coarse.clone());
    let mut drawn = Drawn::run(&subject, &coarse_bench, options.builds, options.progress);
    let versus = if options.builds > 0 {
        let builds = (options.builds / VERSUS_SHARE).max(1);
        versus(&subject, &studied.outcome, &drawn, builds)
    } else {
        None
    };
    let measurement = report::best_measurement(&subject, &drawn);
    let ceilings = bench.ceilings(&studied);
    (options.progress)(0);
    // Neither asks the other.
    let (warmth, (carpentry, electrics, finish, indicator)) = rayon::join(
        || warmth::study(&subject, &studied, &bench, &coarse_bench, options.builds),
        || {
            let carpentry = Arc::new(carpentry::study(&subject));
            (options.progress)(0);
            let electrics = Arc::new(electrics::study(&Asked {
                subject: &subject,
                build: &studied.build,
                outcome: &studied.outcome,
                gains: &studied.gains,
                scene: &bench.scene,
                carpentry: &carpentry,
            }));
            let finish = finish::study(&subject, &carpentry);
            let indicator = indicator::study(&indicator::Player {
                subject: &subject,
                build: &studied.build,
                outcome: &studied.outcome,
                gains: &studied.gains,
                scene: &bench.scene,
                drawn: &drawn,
                switched: Some(indicator::Switched::of(&electrics)),
            });
            (carpentry, electrics, finish, indicator.map(Arc::new))
        },
    );
    (options.progress)(0);
    let needing = money::Studied {
        electrics: &electrics,
        finish: &finish,
        indicator: indicator.as_deref(),
    };
    let needs = money::found(&subject, &needing);
    let subject = paid(&subject, &needs, &mut studied, &mut drawn);
    let promises = report::promises(&subject, &studied.outcome, &drawn);
    let order = order::study(&Testing {
        subject: &subject,
        carpentry: &carpentry,
        finish: &finish,
        build: &studied.build,
        outcome: &studied.outcome,
        gains: &studied.gains,
        hertz: &fine.hertz,
        drawn: &drawn,
        coarse: &coarse.hertz,
        electrics: Some(&electrics),
        warmth: warmth.as_ref(),
        indicator: indicator.as_deref(),
        builds: OnceLock::new(),
    });
    let money = money::study(&subject, &carpentry, &needing);
    let finish = finish::Finish {
        schedule: order::of_finish(&order),
        ..finish
    };
    let evidence = Evidence {
        subject: &subject,
        build: &studied.build,
        outcome: &studied.outcome,
        scene: &bench.scene,
        gains: &studied.gains,
        ceilings: &ceilings,
        face_loss: bench.face_loss(),
        drawn: &drawn,
        promises: &promises,
        versus: versus.as_ref(),
        measurement: measurement.as_ref(),
        carpentry: Some(&carpentry),
        warmth: OnceLock::new(),
        indicator: OnceLock::from(indicator.clone()),
        electrics: OnceLock::from(Arc::clone(&electrics)),
        trial: false,
    };
    let findings = mend::findings(texts, &evidence, trying.mends, options.progress);
    let money = if trying.swaps {
        money.with_swaps(texts, &evidence, &carpentry, options.progress)
    } else {
        money
    };
    let levers = if trying.levers {
        levers::tried(texts, &evidence, &carpentry, options.progress)
    } else {
        levers::untried(texts, &subject)
    };
    let indicator = evidence.indicator().cloned();
    let design = &subject.project.design;
    let curves = report::curves(&fine, &coarse, &traces, &drawn, &marks(&subject, &bench));
    Ok(Report {
        name: design.name.text.clone(),
        revision: design.revision,
        builds: options.builds,
        figures: report::figures(&studied.outcome, &drawn, bench.face_loss()),
        curves,
        discharge: report::discharging(
            &bench.discharge(&studied),
            studied.build.battery.end_voltage,
        ),
        movers: report::movers(&subject, &drawn, &promises),
        levers,
        measurement,
        versus,
        indicator,
        assumptions: report::assumptions(&subject),
        warmth,
        signal: signal::study(&subject, &studied, &bench.scene),
        money,
        accounts: accounts(&subject),
        promises,
        findings,
        finish,
        order,
        carpentry,
        electrics,
    })
}

/// Counts what only these studies found to be needed, in the nominal build and the drawn ones.
pub(crate) fn paid(
    subject: &Subject,
    needs: &[Need],
    studied: &mut Studied,
    drawn: &mut Drawn,
) -> Subject {
    let mut subject = subject.clone();
    subject.find(needs);
    studied.build.cost = subject.cost.at(&Draw::Nominal);
    studied.outcome.cost = studied.build.cost;
    drawn.priced(&subject);
    subject
}

fn marks(subject: &Subject, bench: &Bench<'_>) -> report::Marks {
    let nominal = subject.build(&Draw::Nominal);
    let design = &subject.project.design;
    let vent_speed = match &design.enclosure.kind {
        EnclosureKind::Vented(vent) if vent.flared.value => Some(VENT_SPEED.1),
        EnclosureKind::Vented(_) => Some(VENT_SPEED.0),
        EnclosureKind::Sealed | EnclosureKind::PassiveRadiator(_) => None,
    };
    report::Marks {
        travel: nominal
            .drivers
            .iter()
            .map(|driver| driver.xmax)
            .fold(f64::INFINITY, f64::min),
        radiator_travel: nominal.radiator.map(|radiator| radiator.xmax),
        vent_speed,
        least_load: design.amplifier.part.minimum_load.si,
        trusted_to: bench.scene.grid.hertz[bench.scene.trusted],
        stereo: subject.channels_used() == 2,
        off_axis: bench.scene.off_axis(subject, report::OFF_AXIS),
        distance: design.brief.distance.si,
        place: crate::words::stands(design.place.stands.value),
    }
}

fn accounts(subject: &Subject) -> Accounts {
    let nominal = subject.build(&Draw::Nominal);
    let enclosure = &nominal.enclosure;
    Accounts {
        outside: enclosure.outside,
        inside: enclosure.inside,
        thickness: enclosure.thickness,
        gross: enclosure.gross,
        air: subject.enclosure.ledger(),
        net: enclosure.net,
        filling_gain: 1.0 + (nominal.air.gamma - 1.0) * enclosure.filling,
        weight: subject.weight.lines(enclosure),
        front: subject.front.clone(),
    }
}

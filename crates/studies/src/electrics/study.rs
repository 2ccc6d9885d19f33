//! The electrics of one design, nominal.

use super::currents::{self, Which};
use super::draft::Draft;
use super::harness;
use super::model::{Electrics, FuseChoice, HarnessWire, Supply, Trouble};
use super::named::What;
use super::overrides::{self, Said};
use super::propose::{Given, propose};
use super::{modes, route, section, spools, spots};
use crate::build::Build;
use crate::carpentry::Carpentry;
use crate::outcome::Outcome;
use crate::power::{Load, Playing, consumption};
use crate::sound::{Caps, Gains, Scene};
use crate::subject::Subject;
use crate::vary::Draw;
use design::{FuseForm, FusePart, FuseSpeed};
use physics::fuse::Make;
use wiring::{Carries, Flow, Kind, Mode, System};

/// What the electrics are studied from.
#[derive(Clone, Copy)]
pub(crate) struct Asked<'a> {
    pub(crate) subject: &'a Subject,
    pub(crate) build: &'a Build,
    pub(crate) outcome: &'a Outcome,
    pub(crate) gains: &'a Gains,
    pub(crate) scene: &'a Scene,
    pub(crate) carpentry: &'a Carpentry,
}

/// Voltage lost on the way from the battery to the amplifier and back at full output, as a
/// share, that the proposed wires keep within: common practice, no source.
pub(crate) const DROP_SHARE: f64 = 0.03;

/// The whole of it.
pub(crate) fn study(asked: &Asked<'_>) -> Electrics {
    let design = &asked.subject.project.design;
    let supply = drawn(asked);
    let given = Given::new(asked.subject, [supply.volts[2], supply.volts[0]]);
    let mut draft = propose(&given);
    let mut troubles = doubts(&draft);
    let said = overrides::apply(&mut draft, &design.wiring, &mut troubles);
    let amplifier = draft.of_kind(Kind::Amplifier);
    for part in amplifier {
        let own = &mut draft.parts[part];
        own.continuous = supply.continuous;
        own.peak = supply.peak;
    }
    let plan = &asked.subject.enclosure.plan;
    let thick = plan.sheets.at(&Draw::Nominal);
    let inside = plan.hull_of(&Draw::Nominal, &thick).inside();
    spots::place(&draft.system, &mut draft.parts, asked.carpentry, inside);
    let harness = harness::wires(&draft, &said, design);
    let mut electrics = Electrics {
        system: draft.system.clone(),
        parts: draft.parts.clone(),
        harness,
        spools: Vec::new(),
        modes: Vec::new(),
        breaches: Vec::new(),
        fuse: None,
        supply,
        assumed: draft.assumed.clone(),
        troubles,
    };
    route::lay(&mut electrics, &spots::space(asked.carpentry, inside));
    harness::lengths(&electrics.system, &mut electrics.harness, &said, design);
    total(&mut electrics);
    // The rush is known when the wires are, and may want a larger fuse and with it thicker wires.
    for _ in 0..2 {
        electrics.fuse = fuse(&electrics, &given, asked);
        size(&mut electrics, asked, &said);
        electrics.supply.inrush = inrush(&electrics);
    }
    electrics.fuse = fuse(&electrics, &given, asked);
    let shelf = &asked.subject.project.shelf.wires;
    electrics.spools = spools::spools(&electrics.harness, shelf);
    let modes: Vec<Mode> = electrics
        .modes
        .iter()
        .map(|state| state.mode.clone())
        .collect();
    electrics.breaches = wiring::rules::breaches(&electrics.system, &modes);
    electrics
}

fn doubts(draft: &Draft) -> Vec<Trouble> {
    let doubts = draft.doubts.iter();
    doubts
        .filter_map(|(part, words, advice)| {
            let own = &draft.parts[*part];
            Some(Trouble {
                words: words.clone(),
                advice: advice.clone(),
                near: Vec::new(),
                key: own.table.clone(),
                place: own.place?,
            })
        })
        .collect()
}

/// What the amplifier draws, from the studies of power.
fn drawn(asked: &Asked<'_>) -> Supply {
    let battery = &asked.build.battery;
    let full = battery.full_voltage();
    let load = Load::of(asked.gains, asked.scene);
    let channels = asked.subject.channels_used();
    // Those beside it are counted where they are wired in.
    let aside = asked.build.aside.amperes(full);
    let at_full = |playing| {
        let watts = consumption(asked.build, &load, asked.scene, channels, playing);
        watts(full) / full - aside
    };
    Supply {
        volts: [full, battery.mid_voltage(), battery.end_voltage],
        ohms: battery.resistance,
        capacity: 3600.0 * battery.capacity_ah,
        continuous: at_full(Playing::ProgrammeAtClip),
        sine: at_full(Playing::SineAtClip),
        peak: asked.outcome.peak_current - aside,
        inrush: (0.0, 0.0),
    }
}

/// Adds what the small loads draw to what the amplifier does.
fn total(electrics: &mut Electrics) {
    let system = &electrics.system;
    let others = |which: Which| -> f64 {
        let parts = (0..system.parts.len()).filter(|part| {
            let own = &system.parts[*part];
            own.kind != Kind::Amplifier && own.fed_by.is_none()
        });
        parts.map(|part| electrics.parts[part].current(which)).sum()
    };
    let more = others(Which::Continuous);
    electrics.supply.continuous += more;
    electrics.supply.sine += more;
    electrics.supply.peak += others(Which::Peak);
}

/// Ratings fuses are made in, in A (blades; common practice, no source).
const RATINGS: [f64; 12] = [
    1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0,
];

/// What a fuse must be rated above the long-term current: common practice, no source, in
/// agreement with fuses that carry their rating but not 1.35 times of it (`ul-248-14`).
const FUSE_MARGIN: f64 = 1.25;

fn fuse(electrics: &Electrics, given: &Given<'_>, asked: &Asked<'_>) -> Option<FuseChoice> {
    let system = &electrics.system;
    let part = system
        .parts
        .iter()
        .position(|part| part.kind == Kind::Fuse)?;
    let table = &electrics.parts[part].table;
    let named = given.named.iter().find(|one| &one.table() == table);
    let said = named.and_then(|one| match one.what {
        What::Panel(used) => used.fuse.as_ref(),
        What::Module(used) => used.fuse.as_ref(),
    });
    // Batteries in parallel share the current.
    let count = f64::from(given.design.battery.count.max(1));
    let flows = electrics.supply.continuous.max(charged(electrics, asked));
    let least = FUSE_MARGIN * flows / count;
    let (amperes, time) = electrics.supply.inrush;
    let rush = physics::fuse::rush(amperes / count, time);
    let thinnest = electrics
        .harness
        .iter()
        .filter(|wire| matches!(wire.carries, Carries::Supply | Carries::Charge))
        .map(|wire| section::carries(wire.section))
        .fold(f64::INFINITY, f64::min);
    let form = named.and_then(|one| match one.what {
        What::Panel(used) => used.part.electric.takes.as_ref().map(|form| form.value),
        What::Module(used) => used.part.takes.as_ref().map(|form| form.value),
    });
    let stock = match said {
        Some((fuse, _)) => Some(fuse.clone()),
        None => from_shelf(asked, electrics, [least, rush], form),
    };
    // A sine at the clip point is part of every first test.
    let wanted = least.max(electrics.supply.sine / count);
    let wanted = wanted.max((rush / Make::Blade.passes()).sqrt());
    let usual = RATINGS.into_iter().find(|rating| *rating >= wanted);
    let current = stock
        .as_ref()
        .map_or(usual.unwrap_or(RATINGS[RATINGS.len() - 1]), |fuse| {
            fuse.current.si
        });
    let passes = stock
        .as_ref()
        .map_or(current * current * Make::Blade.passes(), lets_pass);
    Some(FuseChoice {
        part,
        current,
        stated: said.is_some(),
        stock,
        least,
        most: thinnest,
        reach: reach(electrics, part),
        rush,
        passes,
    })
}

/// How a fuse of the shelf is made.
fn make(fuse: &FusePart) -> Make {
    match (fuse.form.value, fuse.speed.value) {
        (FuseForm::Blade, _) => Make::Blade,
        (FuseForm::Tube, FuseSpeed::Fast) => Make::FastTube,
        (FuseForm::Tube, FuseSpeed::Slow) => Make::SlowTube,
    }
}

/// Heat of a rush in A²·s that a fuse of the shelf surely lets pass.
pub(crate) fn lets_pass(fuse: &FusePart) -> f64 {
    fuse.current.si * fuse.current.si * make(fuse).passes()
}

/// What the charger drives through the fuse in A; 0 where it does not charge in the box.
fn charged(electrics: &Electrics, asked: &Asked<'_>) -> f64 {
    let stated = asked.subject.project.design.battery.charger_current;
    let socket = kind(&electrics.system, Kind::ChargeSocket);
    stated
        .filter(|_| socket.is_some())
        .map_or(0.0, |current| current.si)
}

/// The smallest fuse on the shelf that will do.
fn from_shelf(
    asked: &Asked<'_>,
    electrics: &Electrics,
    [least, rush]: [f64; 2],
    form: Option<FuseForm>,
) -> Option<FusePart> {
    let wanted = least
        .max(electrics.supply.sine / f64::from(asked.subject.project.design.battery.count.max(1)));
    let fits = |fuse: &&FusePart| {
        let volts = fuse
            .dc_voltage
            .is_some_and(|volts| volts.si >= electrics.supply.volts[0]);
        let form = form.unwrap_or(FuseForm::Blade);
        volts && fuse.form.value == form && fuse.current.si >= wanted && lets_pass(fuse) >= rush
    };
    let fuses = asked.subject.project.shelf.fuses.iter().filter(fits);
    fuses
        .min_by(|a, b| a.current.si.total_cmp(&b.current.si))
        .cloned()
}

/// Length of wire between a fuse and the battery it follows, in m.
fn reach(electrics: &Electrics, fuse: usize) -> f64 {
    let system = &electrics.system;
    let ends = |wire: &wiring::Wire| [wire.from.part, wire.to.part];
    let wires = system.wires.iter().zip(&electrics.harness);
    let between = wires.filter(|(wire, _)| {
        let kinds = ends(wire).map(|part| system.parts[part].kind);
        ends(wire).contains(&fuse) && kinds.contains(&Kind::Battery)
    });
    let lengths = between.map(|(_, own)| own.length);
    lengths.fold(f64::INFINITY, f64::min)
}

/// Sections, and what flows: wires grow until the drop is small enough.
fn size(electrics: &mut Electrics, asked: &Asked<'_>, said: &[Said<'_>]) {
    let subject = asked.subject;
    let design = &subject.project.design;
    let shelf = &subject.project.shelf.wires;
    let fuse = electrics.fuse.as_ref().map_or(0.0, |fuse| fuse.current);
    let mut needed = harness::needs(&electrics.harness, fuse);
    for _ in 0..section::SECTIONS.len() {
        harness::sections(&mut electrics.harness, &needed, said, design, shelf);
        resist(&mut electrics.harness);
        carry(electrics, asked);
        let raised = harness::needs(&electrics.harness, fuse);
        let grown = raised
            .iter()
            .zip(&needed)
            .any(|(raised, needed)| raised > needed);
        for (needed, raised) in needed.iter_mut().zip(&raised) {
            *needed = needed.max(*raised);
        }
        let share = amplifier_drop(electrics) / electrics.supply.volts[1];
        if share > DROP_SHARE {
            raise(electrics, &mut needed);
        } else if !grown {
            break;
        }
    }
}

fn resist(harness: &mut [HarnessWire]) {
    for own in harness {
        own.ohms = if own.carries == Carries::Touch {
            0.0
        } else {
            harness::ohms(own.length.max(1e-3), own.section)
        };
    }
}

/// Fills modes and what every wire carries.
fn carry(electrics: &mut Electrics, asked: &Asked<'_>) {
    let ohms: Vec<f64> = electrics.harness.iter().map(|own| own.ohms).collect();
    let charger = asked.subject.project.design.battery.charger_current;
    let charger = charger.map_or(0.0, |current| current.si);
    let system = &electrics.system;
    electrics.modes = currents::states(
        system,
        &electrics.parts,
        modes::modes(system),
        &ohms,
        &electrics.supply,
        charger,
    );
    let peaks = peak_flows(electrics, &ohms, charger);
    let (rms, peak) = channel_currents(asked);
    let mode = electrics.playing();
    let outputs = |amperes: f64| match mode {
        Some(state) => currents::outputs(system, &state.mode, &ohms, amperes),
        None => vec![0.0; ohms.len()],
    };
    let (rms, peak) = (outputs(rms), outputs(peak));
    for (index, own) in electrics.harness.iter_mut().enumerate() {
        let over = |flows: &mut dyn Iterator<Item = &Flow>| {
            flows
                .map(|flow| flow.wires[index].abs())
                .fold(0.0, f64::max)
        };
        let flows = &mut electrics.modes.iter().map(|state| &state.flow);
        own.continuous = over(flows).max(rms[index].abs());
        own.peak = over(&mut peaks.iter()).max(peak[index].abs());
        own.drop = own.peak * own.ohms;
    }
}

/// Flows in all modes at the peaks.
fn peak_flows(electrics: &Electrics, ohms: &[f64], charger: f64) -> Vec<Flow> {
    let system = &electrics.system;
    let states = electrics.modes.iter();
    states
        .map(|state| {
            currents::flows(
                system,
                &electrics.parts,
                &state.mode,
                &state.live,
                ohms,
                at_peaks(electrics, charger),
            )
        })
        .collect()
}

fn at_peaks(electrics: &Electrics, charger: f64) -> currents::Drawn {
    currents::Drawn {
        which: Which::Peak,
        volts: electrics.supply.volts[1],
        charger,
    }
}

/// Current of one channel's output in A: over the long run, and at its peaks.
fn channel_currents(asked: &Asked<'_>) -> (f64, f64) {
    let caps = Caps::of(asked.build, asked.build.battery.full_voltage(), false);
    let programme = Gains::programme_rms(&asked.gains.current, asked.scene);
    let greatest = asked.gains.current.iter().copied().fold(0.0, f64::max);
    let rms = programme * caps.peak_volts / asked.scene.crest;
    (rms, (greatest * caps.peak_volts).min(caps.peak_current))
}

/// What the way from the battery to the amplifier, there and back, costs at full output.
struct Way {
    /// Volts lost in its wires: what they turn into heat over what the amplifier draws.
    wires: f64,
    /// Volts lost in all of it, contacts included.
    all: f64,
}

fn way_to_amplifier(electrics: &Electrics) -> Option<Way> {
    let system = &electrics.system;
    let on = electrics.playing()?;
    let board = kind(system, Kind::Amplifier)?;
    let ohms: Vec<f64> = electrics.harness.iter().map(|own| own.ohms).collect();
    let drawn = at_peaks(electrics, 0.0);
    let flow = currents::flows(system, &electrics.parts, &on.mode, &on.live, &ohms, drawn);
    let wires = system.wires.iter().zip(&flow.wires).zip(&ohms);
    let heat: f64 = wires
        .filter(|((wire, _), _)| wire.carries == Carries::Supply)
        .map(|((_, amperes), ohms)| amperes * amperes * ohms)
        .sum();
    let first: usize = system.parts[..board]
        .iter()
        .map(|part| part.terminals.len())
        .sum();
    let amperes = electrics.parts[board].current(Which::Peak);
    let (plus, minus) = (flow.volts[first]?, flow.volts[first + 1]?);
    (amperes > 0.0).then(|| Way {
        wires: heat / amperes,
        all: drawn.volts - (plus - minus),
    })
}

/// Volts lost in the wires between battery and amplifier, there and back, at full output.
/// Contacts do not count.
pub(crate) fn amplifier_drop(electrics: &Electrics) -> f64 {
    way_to_amplifier(electrics).map_or(0.0, |way| way.wires)
}

fn kind(system: &System, wanted: Kind) -> Option<usize> {
    system.parts.iter().position(|part| part.kind == wanted)
}

/// The supply wire that loses most takes the next section.
fn raise(electrics: &Electrics, needed: &mut [f64]) {
    let wires = electrics.harness.iter().enumerate();
    let supply = wires.filter(|(_, own)| own.carries == Carries::Supply && !own.stated);
    let most = supply.clone().map(|(_, own)| own.drop).fold(0.0, f64::max);
    for (index, own) in supply {
        if own.drop > 0.5 * most
            && let Some(next) = section::next(own.section)
        {
            needed[index] = needed[index].max(next);
        }
    }
}

/// The rush into empty capacitors when the main switch closes: its peak in A, and its time
/// constant in s.
fn inrush(electrics: &Electrics) -> (f64, f64) {
    let on = electrics.playing();
    let Some(on) = on else { return (0.0, 0.0) };
    let farads: f64 = on
        .live
        .iter()
        .map(|part| electrics.parts[*part].capacitance)
        .sum();
    let peak = electrics.supply.peak;
    if farads <= 0.0 || peak <= 0.0 {
        return (0.0, 0.0);
    }
    let way = way_to_amplifier(electrics).map_or(0.0, |way| way.all);
    let ohms = electrics.supply.ohms + way / peak;
    (electrics.supply.volts[0] / ohms, ohms * farads)
}

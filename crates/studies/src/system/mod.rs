//! From the numbers of one box to the network that is solved.

mod resonance;

pub(crate) use resonance::Resonance;

use crate::build::Build;
use crate::subject::{Subject, on_one_channel};
use design::{Chambers, Side, Wiring};
use physics::driver::free_air_mass;
use physics::loudspeaker::{
    AirLoad, Chamber, Channel, DriverGroup, Feed, Filling, Outlet, OutputFilter, Radiator, System,
    Vent, leak_resistance,
};

/// The network of one box.
///
/// Where left and right are alike, one modelled channel stands for both: its
/// source path halved in impedance, its drivers doubled in parallel, and the
/// chamber whole. That is exact for equal signals, shared chamber or not.
/// Beside the network stands, for each of its driver groups, the group of the
/// design it comes from.
pub(crate) fn network_of(subject: &Subject, build: &Build) -> (System, Vec<usize>) {
    let unlike = subject.has_unlike_sides();
    let split = unlike && subject.project.design.enclosure.chambers.value == Chambers::OnePerSide;
    // A side without drivers is neither a channel nor, by itself, a chamber that is heard.
    let sides = [Side::Left, Side::Right].into_iter().map(Some);
    let sides: Vec<Option<Side>> = match unlike {
        true => sides
            .filter(|side| side.is_some_and(|side| subject.plays_on(side)))
            .collect(),
        false => vec![None],
    };
    let (channels, sources): (Vec<Channel>, Vec<Vec<usize>>) = sides
        .iter()
        .enumerate()
        .map(|(index, side)| {
            let chamber = if split { index } else { 0 };
            let (channel, sources) = channel(subject, build, *side, chamber);
            (folded(channel, subject.folds()), sources)
        })
        .unzip();
    let chambers = if split {
        vec![chamber(subject, build, 2); channels.len()]
    } else {
        vec![chamber(subject, build, 1)]
    };
    let system = System {
        air: build.air,
        air_load: AirLoad::Piston,
        channels,
        chambers,
    };
    (system, sources.concat())
}

/// The channel of one side, or the one modelled where sides are alike, before
/// one chamber, and the groups of the design its groups come from.
fn channel(
    subject: &Subject,
    build: &Build,
    only: Option<Side>,
    chamber: usize,
) -> (Channel, Vec<usize>) {
    let (groups, sources) = subject
        .project
        .design
        .drivers
        .iter()
        .zip(&build.drivers)
        .enumerate()
        .filter_map(|(index, (group, example))| {
            let elsewhere =
                only.is_some_and(|only| ![only, Side::Both].contains(&group.side.value));
            let here = if elsewhere { 0 } else { on_one_channel(group) };
            let (series, parallel) = match group.wiring.value {
                Wiring::Parallel => (1, here),
                Wiring::Series => (here, 1),
                Wiring::SeriesParallel => (2, here / 2),
            };
            let group = DriverGroup {
                driver: example.driver,
                series,
                parallel,
                chamber,
            };
            (here > 0).then_some((group, index))
        })
        .unzip();
    (
        Channel {
            feed: build.amplifier.feed,
            drive: 1.0,
            groups,
        },
        sources,
    )
}

fn folded(mut channel: Channel, folds: u32) -> Channel {
    let by = f64::from(folds);
    let feed = channel.feed;
    channel.feed = Feed {
        output_resistance: feed.output_resistance / by,
        output_filter: feed.output_filter.map(|filter| OutputFilter {
            inductance: filter.inductance / by,
            capacitance: filter.capacitance * by,
        }),
        coupling_capacitance: feed
            .coupling_capacitance
            .map(|capacitance| capacitance * by),
        cable_resistance: feed.cable_resistance / by,
    };
    for group in &mut channel.groups {
        group.parallel *= folds;
    }
    channel
}

/// One of `share` equal chambers.
fn chamber(subject: &Subject, build: &Build, share: u32) -> Chamber {
    let enclosure = &build.enclosure;
    let volume = enclosure.net / f64::from(share);
    let frequency = Resonance::of(subject, build).box_frequency();
    let leak = leak_resistance(enclosure.leak_q, frequency, volume, &build.air);
    Chamber {
        volume,
        filling: Filling {
            share: enclosure.filling,
            relaxation: enclosure.relaxation,
        },
        leak_resistance: Some(leak),
        absorption_resistance: 0.0,
        outlets: outlets(subject, build, share),
    }
}

fn outlets(subject: &Subject, build: &Build, share: u32) -> Vec<Outlet> {
    let mut outlets = Vec::new();
    if let Some(vent) = build.enclosure.vent {
        outlets.push(Outlet::Vent(Vent {
            count: vent.count / share,
            ..vent.duct()
        }));
    }
    if let Some(radiator) = build.radiator {
        outlets.push(Outlet::Radiator(Radiator {
            count: radiator.count / share,
            mass: radiator.mms - free_air_mass(radiator.area, &subject.air),
            compliance: radiator.compliance,
            resistance: radiator.resistance,
            area: radiator.area,
        }));
    }
    outlets
}

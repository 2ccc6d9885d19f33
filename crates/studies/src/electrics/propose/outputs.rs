//! From the amplifier's outputs to drivers and posts.

use super::super::colour::Duty;
use super::super::draft::Draft;
use super::super::kinds::{self, side_word, sided};
use super::super::model::ElectricPart;
use super::super::named::{Named, What, single};
use super::Given;
use design::{Does, DriverUse, Side as On, Wiring};
use wiring::{Carries, End, Side, Sign};

pub(super) fn outputs(draft: &mut Draft, given: &Given<'_>, amplifier: usize) {
    for &side in &given.sides {
        let leg = |sign: &str| match side {
            Side::Mono => format!("out {sign}"),
            Side::Left | Side::Right => sided(side, sign),
        };
        let out = [leg("+"), leg("-")].map(|name| draft.end(amplifier, &name));
        drivers(draft, given, side, out);
        posts(draft, given, side, out);
    }
}

/// Joins two legs to two ends, each to its like.
fn pair(draft: &mut Draft, side: Side, from: [End; 2], to: [End; 2]) {
    for (leg, plus) in [(0, true), (1, false)] {
        let duty = Duty::Output(side, plus);
        draft.wire(from[leg], to[leg], Carries::Output, duty);
    }
}

/// How many drivers of a group hang on a channel.
fn count(given: &Given<'_>, group: &DriverUse, side: Side) -> u32 {
    let halves = given.sides.len() == 2;
    match (group.side.value, side) {
        (On::Both, _) if halves => group.count / 2,
        (On::Both | On::Mono, _) => group.count,
        (On::Left, Side::Right) | (On::Right, Side::Left) => 0,
        (On::Left | On::Right, _) => group.count,
    }
}

/// The drivers of one channel: groups and strings in parallel, led from one to the next.
fn drivers(draft: &mut Draft, given: &Given<'_>, side: Side, out: [End; 2]) {
    let mut from = out;
    let mut number = 1;
    for (index, group) in given.design.drivers.iter().enumerate() {
        let own = count(given, group, side) as usize;
        let in_string = match group.wiring.value {
            Wiring::Parallel => 1,
            Wiring::Series => own.max(1),
            Wiring::SeriesParallel => 2,
        };
        let ohms = group.part.re.or(group.part.impedance);
        let ohms = ohms.map_or(4.0, |value| value.si);
        let mut made = Vec::new();
        for _ in 0..own {
            let name = format!("{} driver {number}", side_word(side));
            let behind = ElectricPart {
                table: format!("drivers.{}", index + 1),
                place: Some(group.place),
                assumed: false,
                ..ElectricPart::unnamed(group.part.common.name.text.as_str())
            };
            made.push(draft.add(kinds::driver(name.trim_start(), side, ohms), behind));
            number += 1;
        }
        for string in made.chunks(in_string) {
            for &part in string {
                draft.system.parts[part].share = Some(1.0 / string.len() as f64);
            }
            from = lead(draft, side, from, string);
        }
    }
}

/// Leads a pair to a string of drivers; the next string is led on from its ends.
fn lead(draft: &mut Draft, side: Side, from: [End; 2], string: &[usize]) -> [End; 2] {
    let (Some(&first), Some(&last)) = (string.first(), string.last()) else {
        return from;
    };
    let ends = [draft.end(first, "+"), draft.end(last, "-")];
    pair(draft, side, from, ends);
    for two in string.windows(2) {
        let (minus, plus) = (draft.end(two[0], "-"), draft.end(two[1], "+"));
        let duty = Duty::Output(side, false);
        draft.wire(minus, plus, Carries::Output, duty);
    }
    ends
}

/// Posts and sockets that carry a channel to an outside box.
fn posts(draft: &mut Draft, given: &Given<'_>, side: Side, out: [End; 2]) {
    let does = match side {
        Side::Left | Side::Mono => Does::LeftOutput,
        Side::Right => Does::RightOutput,
    };
    let name = format!("{} output", side_word(side));
    let name = name.trim_start();
    let mut legs = [Sign::Plus, Sign::Minus].into_iter();
    for named in given.all(does) {
        let alone = is_single(named);
        let own: Vec<Sign> = match alone {
            true => legs.next().into_iter().collect(),
            false => vec![Sign::Plus, Sign::Minus],
        };
        if own.is_empty() {
            continue;
        }
        let behind = ElectricPart::named(named);
        let part = draft.add(kinds::post(name, side, &own), behind);
        for sign in own {
            let (leg, end) = match sign {
                Sign::Plus => (0, "+"),
                Sign::Minus => (1, "-"),
            };
            let to = draft.end(part, end);
            let duty = Duty::Output(side, sign == Sign::Plus);
            draft.wire(out[leg], to, Carries::Output, duty);
        }
    }
}

fn is_single(named: &Named<'_>) -> bool {
    match named.what {
        What::Panel(used) => single(used),
        What::Module(_) => false,
    }
}

//! Parts on the shelf that would do in place of another, as far as their data tell.

use super::list::price_in;
use super::model::{Alternative, Kind, Line};
use crate::subject::Subject;
use design::{
    Common, ControlPart, Design, FinishPart, FusePart, ModulePart, Shelf, Value, WirePart,
};

/// Alternatives named for one line at most.
const MOST: usize = 3;

/// Holes that differ by less take the same part, in m.
const HOLE: f64 = 0.000_2;

/// Section over that of a wire up to which another still bends into the same terminals.
const THICKER: f64 = 2.1;

/// What would do in place of the part of a line: what lies in the drawer first, then what is
/// cheapest. Drivers, amplifier, battery and walls are tried, not looked up.
pub(super) fn instead(subject: &Subject, line: &Line) -> Vec<Alternative> {
    let (design, shelf) = (&subject.project.design, &subject.project.shelf);
    let pieces = |common: &Common| offer(design, common, f64::from(common.on_hand), line.needed);
    let mut all: Vec<Alternative> = match line.kind {
        Kind::Sound | Kind::Power | Kind::Wood | Kind::Indicator | Kind::Other => Vec::new(),
        Kind::Control => others(&shelf.controls, line, |part| &part.common, control)
            .map(|part| pieces(&part.common))
            .collect(),
        Kind::Electric => {
            let modules = others(&shelf.modules, line, |part| &part.common, module);
            let fuses = others(&shelf.fuses, line, |part| &part.common, fuse);
            let both = modules
                .map(|part| &part.common)
                .chain(fuses.map(|part| &part.common));
            both.map(pieces).collect()
        }
        Kind::Wire => others(&shelf.wires, line, |part| &part.common, wire)
            .map(|part| {
                let drawer = part.in_drawer.map_or(0.0, |value| value.si);
                offer(design, &part.common, drawer, line.needed)
            })
            .collect(),
        Kind::Finish => finishes(design, shelf, line),
    };
    sort(&mut all);
    all.truncate(MOST);
    all
}

/// What lies in the drawer first, then what costs least; what has no known price last.
fn sort(all: &mut [Alternative]) {
    let till = |of: &Alternative| of.till.unwrap_or(f64::INFINITY);
    all.sort_by(|a, b| till(a).total_cmp(&till(b)).then(a.label.cmp(&b.label)));
}

/// Other parts of a list that do what the part of a line does.
fn others<'a, P>(
    parts: &'a [P],
    line: &Line,
    common: impl Fn(&P) -> &Common + Copy + 'a,
    does: impl Fn(&P, &P) -> bool + 'a,
) -> impl Iterator<Item = &'a P> {
    let is = |part: &&'a P| common(part).name.text == line.label;
    let now = parts.iter().find(is);
    now.into_iter().flat_map(move |now| {
        let own = common(now).name.text.clone();
        let does = &does;
        let all = parts.iter();
        let rest = all.filter(|part| common(part).name.text != own && does(now, part));
        rest.collect::<Vec<_>>()
    })
}

/// A part of which so many are needed and so many lie in the drawer.
fn offer(design: &Design, common: &Common, drawer: f64, needed: f64) -> Alternative {
    let missing = (needed - drawer).max(0.0).ceil();
    let price = price_in(common.price.as_ref(), &design.brief.currency);
    Alternative {
        label: common.name.text.clone(),
        on_hand: drawer.min(needed),
        till: if missing == 0.0 {
            Some(0.0)
        } else {
            price.map(|price| missing * price.si)
        },
    }
}

fn si(value: Option<Value>) -> Option<f64> {
    value.map(|value| value.si)
}

/// Whether the other is rated for as much, where both are known.
fn rated(now: Option<Value>, other: Option<Value>) -> bool {
    match (si(now), si(other)) {
        (Some(now), Some(other)) => other >= now,
        (Some(_), None) => false,
        (None, _) => true,
    }
}

/// A control that sits in the same hole and switches, turns or lights alike.
fn control(now: &ControlPart, other: &ControlPart) -> bool {
    let hole = |part: &ControlPart| si(part.hole.or(part.thread));
    let same_hole = match (hole(now), hole(other)) {
        (Some(now), Some(other)) => (now - other).abs() < HOLE,
        (None, None) => {
            now.cutout.map(|c| c.map(|c| c.si)) == other.cutout.map(|c| c.map(|c| c.si))
        }
        _ => false,
    };
    let (a, b) = (&now.electric, &other.electric);
    let word = |part: &design::PanelElectric| {
        let law = part.law.map(|law| law.value);
        let takes = part.takes.map(|takes| takes.value);
        let contacts = part.contacts.map(|contacts| contacts.value);
        (contacts, law, takes, part.gangs, si(part.resistance))
    };
    now.kind.value == other.kind.value
        && same_hole
        && word(a) == word(b)
        && a.poles
            .is_none_or(|poles| b.poles.is_some_and(|other| other >= poles))
        && rated(a.dc_current, b.dc_current)
        && rated(a.dc_voltage, b.dc_voltage)
}

/// A fuse of the same rating, form and speed that opens at as high a voltage.
fn fuse(now: &FusePart, other: &FusePart) -> bool {
    now.form.value == other.form.value
        && now.speed.value == other.speed.value
        && si(Some(now.current)) == si(Some(other.current))
        && rated(now.dc_voltage, other.dc_voltage)
        && rated(now.breaking_current, other.breaking_current)
}

/// A module that makes the same of the same supply.
fn module(now: &ModulePart, other: &ModulePart) -> bool {
    let least = |part: &ModulePart| si(part.supply_min).unwrap_or(0.0);
    let most = |part: &ModulePart| si(part.supply_max).unwrap_or(f64::INFINITY);
    let takes = |part: &ModulePart| part.takes.map(|takes| takes.value);
    now.kind.value == other.kind.value
        && now.isolated.value == other.isolated.value
        && si(now.output_voltage) == si(other.output_voltage)
        && takes(now) == takes(other)
        && least(other) <= least(now)
        && most(other) >= most(now)
        && rated(now.output_current, other.output_current)
        && rated(now.dc_current, other.dc_current)
        && rated(now.dc_voltage, other.dc_voltage)
}

/// A wire at least as thick, and not so thick that it is stiff; insulated for as much heat.
fn wire(now: &WirePart, other: &WirePart) -> bool {
    let section = other.section.si / now.section.si;
    (1.0..=THICKER).contains(&section) && rated(now.hottest, other.hottest)
}

/// Finishes of the same kind on the same base, by what of them the same coats take.
fn finishes(design: &Design, shelf: &Shelf, line: &Line) -> Vec<Alternative> {
    let alike = |now: &FinishPart, other: &FinishPart| {
        now.kind.value == other.kind.value && now.base.value == other.base.value
    };
    let now = |part: &&FinishPart| part.common.name.text == line.label;
    let Some(now) = shelf.finishes.iter().find(now) else {
        return Vec::new();
    };
    let area = line.uses * now.can.si * now.coverage.si;
    others(&shelf.finishes, line, |part| &part.common, alike)
        .map(|part| {
            let cans = (area / part.coverage.si / part.can.si).ceil();
            offer(design, &part.common, f64::from(part.common.on_hand), cans)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scaled(value: Value, by: f64) -> Value {
        Value {
            si: by * value.si,
            ..value
        }
    }

    #[test]
    fn every_part_of_the_shelf_would_do_in_its_own_place() {
        let shelf = design::built_in_shelf();
        assert!(shelf.controls.iter().all(|part| control(part, part)));
        assert!(shelf.fuses.iter().all(|part| fuse(part, part)));
        assert!(shelf.modules.iter().all(|part| module(part, part)));
        assert!(shelf.wires.iter().all(|part| wire(part, part)));
    }

    #[test]
    fn a_weaker_part_never_would() {
        let shelf = design::built_in_shelf();
        for now in &shelf.fuses {
            let mut weaker = now.clone();
            weaker.current = scaled(now.current, 0.8);
            assert!(!fuse(now, &weaker), "{}", now.common.name.text);
            weaker.current = now.current;
            weaker.dc_voltage = now.dc_voltage.map(|volts| scaled(volts, 0.5));
            assert_eq!(fuse(now, &weaker), now.dc_voltage.is_none());
        }
        for now in &shelf.wires {
            let mut thinner = now.clone();
            thinner.section = scaled(now.section, 0.6);
            assert!(!wire(now, &thinner) && wire(&thinner, now));
        }
        let switch = shelf.controls.iter();
        for now in switch.filter(|part| part.electric.contacts.is_some()) {
            let mut unknown = now.clone();
            unknown.electric.contacts = None;
            assert!(!control(now, &unknown), "{}", now.common.name.text);
        }
    }

    #[test]
    fn what_lies_in_the_drawer_comes_first_and_what_nobody_prices_last() {
        let offer = |label: &str, till| Alternative {
            label: label.into(),
            on_hand: 0.0,
            till,
        };
        let mut all = [
            offer("a", None),
            offer("b", Some(3.0)),
            offer("c", Some(0.0)),
        ];
        sort(&mut all);
        let names = all.each_ref().map(|one| one.label.as_str());
        assert_eq!(names, ["c", "b", "a"]);
    }
}

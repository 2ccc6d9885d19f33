//! The wiring, in a few lines.

use super::layout::{heading, left, wrapped};
use super::plain::plain;
use crate::terminal::Ink;
use studies::Report;
use studies::electrics::{Electrics, HarnessWire};
use studies::words::{number, prefixed};

/// Width of the column of names.
const NAME: usize = 10;

/// The fuse, the thickest wire, the modes checked, and what is drawn when off.
pub(super) fn wiring(report: &Report, ink: Ink) -> String {
    let electrics = &*report.electrics;
    let mut out = heading("Wiring", ink);
    for (name, words) in [
        ("fuse", fuse(electrics)),
        ("wires", wires(electrics)),
        ("modes", modes(electrics)),
        ("when off", off(electrics)),
    ] {
        if !words.is_empty() {
            out += &wrapped(&format!("  {}", left(name, NAME)), &plain(&words));
        }
    }
    out
}

fn fuse(electrics: &Electrics) -> String {
    let Some(fuse) = &electrics.fuse else {
        return String::new();
    };
    let proposed = if fuse.stated { "" } else { ", proposed" };
    let [bears, most] = [fuse.bears(), fuse.most].map(|rating| prefixed(rating, "A"));
    let would_do = if fuse.bears() <= fuse.most {
        format!("{bears} to {most} would do")
    } else {
        format!("{bears} would bear music and rush, {most} protects the wires")
    };
    format!(
        "{}{proposed}; {would_do}, {} of wire from the battery",
        number(fuse.current, "A"),
        prefixed(fuse.reach, "m")
    )
}

fn wires(electrics: &Electrics) -> String {
    let harness = electrics.harness.iter();
    let wires: Vec<&HarnessWire> = harness.filter(|wire| wire.section > 0.0).collect();
    let thickest = wires.iter().max_by(|a, b| a.section.total_cmp(&b.section));
    let Some(thickest) = thickest else {
        return String::new();
    };
    let length = wires.iter().fold(0.0, |sum, wire| sum + wire.length);
    format!(
        "{}, {} in all; the thickest, {}, from {} to {}",
        wires.len(),
        number(length, "m"),
        number(1e6 * thickest.section, "mm²"),
        thickest.from,
        thickest.to
    )
}

fn modes(electrics: &Electrics) -> String {
    let modes = electrics.modes.iter();
    let names: Vec<&str> = modes.map(|state| state.mode.name.as_str()).collect();
    let broken = match electrics.breaches.len() {
        0 => "every rule kept in each".to_owned(),
        1 => "one rule broken".to_owned(),
        count => format!("rules broken at {count} places"),
    };
    format!("{}; {broken}", names.join(", "))
}

fn off(electrics: &Electrics) -> String {
    let drawn = electrics.off().map_or(0.0, |state| state.idle);
    if drawn > 0.0 {
        format!("{} from the battery", prefixed(drawn, "A"))
    } else {
        "nothing is drawn from the battery".to_owned()
    }
}

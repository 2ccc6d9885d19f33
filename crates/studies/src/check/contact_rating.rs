//! Switches, sockets and holders against the current and voltage they see.

use super::{Candidate, Check, Evidence, Verdict};
use crate::electrics::{Electrics, ModeState};
use crate::words::number;
use wiring::{Kind, State};

pub(super) const CHECK: Check = Check {
    id: "contact-rating",
    title: "Ratings of switches and sockets",
    what: "Whether switches, charging sockets and fuse holders are rated for the direct current \
and voltage they see, and switches for the rush into the board's capacitors.",
    why: "The rating printed large is for alternating current. With direct current the arc stays: \
contacts burn, stick, and cannot be switched off any more.",
    limits: "Contacts are taken to stand ten times their rating for the milliseconds of a rush. The \
rush is that of the full battery into empty capacitors through battery and wires; what a board does to \
soften it is not known.",
    bad: "a switch rated 0.5 A before an amplifier that draws 0.6 A and starts with 60 A",
    good: "a rocker switch rated 10 A DC",
    sources: &["common practice, no source"],
    run,
};

/// How many times its rating a contact stands for milliseconds.
const RUSH: f64 = 10.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let mut found = Vec::new();
    let mut judged = 0;
    for part in 0..electrics.parts.len() {
        let kind = electrics.system.parts[part].kind;
        let contact = matches!(kind, Kind::Switch | Kind::ChargeSocket | Kind::Fuse);
        if !contact
            || electrics.parts[part].assumed
            || electrics.system.parts[part].name == "cut-off"
        {
            continue;
        }
        judged += 1;
        found.extend(judge(evidence, electrics, part));
    }
    if found.is_empty() && judged > 0 {
        let cause =
            "Every switch, socket and holder is rated for the direct current and voltage it sees.";
        return vec![Verdict::good("Contacts stand their current", cause)];
    }
    found
}

/// Greatest long-term current through a part in A.
fn current(electrics: &Electrics, part: usize) -> f64 {
    let through = |state: &ModeState| {
        let wires = electrics.system.wires.iter().zip(&state.flow.wires);
        let own = wires.filter(|(wire, _)| [wire.from.part, wire.to.part].contains(&part));
        own.map(|(_, amperes)| amperes.abs()).fold(0.0, f64::max)
    };
    electrics.modes.iter().map(through).fold(0.0, f64::max)
}

fn judge(evidence: &Evidence<'_>, electrics: &Electrics, part: usize) -> Vec<Verdict> {
    let own = &electrics.parts[part];
    let name = &electrics.system.parts[part].name;
    let kind = electrics.system.parts[part].kind;
    let flows = match &electrics.fuse {
        // A holder must carry whatever its fuse does.
        Some(fuse) if kind == Kind::Fuse => fuse.current,
        _ => current(electrics, part),
    };
    let mut found = Vec::new();
    let title = "Contact not rated for it";
    let Some(rated) = own.dc_current else {
        let cause = format!(
            "The shelf states no direct current for {} ({name}); it carries {}.",
            own.label,
            number(flows, "A")
        );
        found.push(
            Verdict::caution("Direct-current rating not known", cause)
                .advice("look for a rating in A DC, and write it on the shelf as dc_current")
                .about([own.table.as_str()], flows)
                .at(own.place),
        );
        return found;
    };
    if flows > rated {
        let cause = format!(
            "{} ({name}) is rated {} of direct current and carries {}.",
            own.label,
            number(rated, "A"),
            number(flows, "A")
        );
        found.push(Verdict::stop(title, cause).measured(flows, rated, "A"));
    }
    let volts = electrics.supply.volts[0];
    if let Some(limit) = own.dc_voltage.filter(|limit| *limit < volts) {
        let cause = format!(
            "{} ({name}) is rated for {} of direct voltage; the full battery has {}.",
            own.label,
            number(limit, "V"),
            number(volts, "V")
        );
        found.push(Verdict::stop(title, cause).measured(volts, limit, "V"));
    }
    let (rush, time) = electrics.supply.inrush;
    if kind == Kind::Switch && switches_all(electrics, part) && rush > RUSH * rated {
        let cause = format!(
            "When it closes, {} rush through {} ({name}) for {}; it is rated {}.",
            number(rush, "A"),
            own.label,
            number(1e3 * time, "ms"),
            number(rated, "A")
        );
        found.push(
            Verdict::caution("Switch may weld when it closes", cause).measured(
                rush,
                RUSH * rated,
                "A",
            ),
        );
    }
    let mends = others(evidence, electrics, part, flows.max(rush / RUSH));
    let with = |verdict: Verdict| {
        verdict
            .advice("take a part that is rated for more direct current")
            .about([own.table.as_str()], flows)
            .at(own.place)
            .mends(mends.clone())
    };
    found.into_iter().map(with).collect()
}

/// Whether the whole current passes a switch.
fn switches_all(electrics: &Electrics, part: usize) -> bool {
    let off = electrics
        .modes
        .iter()
        .find(|state| state.mode.state == State::Off);
    let on = electrics.playing();
    let (Some(off), Some(on)) = (off, on) else {
        return false;
    };
    off.mode.positions[part] != on.mode.positions[part]
}

/// Other switches of the shelf with the same contacts and a higher rating.
fn others(
    evidence: &Evidence<'_>,
    electrics: &Electrics,
    part: usize,
    least: f64,
) -> Vec<Candidate> {
    let table = &electrics.parts[part].table;
    let own = evidence.design().control.as_ref().and_then(|control| {
        let number: usize = table.strip_prefix("control.part.")?.parse().ok()?;
        control.parts.get(number - 1)
    });
    let Some(own) = own else { return Vec::new() };
    let contacts =
        |part: &design::ControlPart| part.electric.contacts.as_ref().map(|own| own.value);
    let shelf = evidence.subject.project.shelf.controls.iter();
    shelf
        .filter(|part| {
            let rated = part.electric.dc_current.map_or(0.0, |value| value.si);
            part.kind.value == own.part.kind.value
                && contacts(part) == contacts(&own.part)
                && rated >= least
        })
        .take(TRIES)
        .map(|part| {
            let name = part.common.name.text.as_str();
            Candidate::set(name, &format!("{table}.part"), name)
        })
        .collect()
}

/// Other parts tried.
const TRIES: usize = 3;

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn a_switch_of_too_little_current_is_found() {
        check(CHECK.id, &[], &[]);
        let switch = "[[control]]\nname = \"own switch\"\nkind = \"switch\"\nthread = \"M6 x 0.75\"\nbush = \"8 mm\"\ncontacts = \"SPST\"\n";
        let part = [("control.part.2.part", "own switch")];
        for (rating, severities) in [
            ("", &[Caution][..]),
            ("dc_current = \"20 A\"\ndc_voltage = \"28 V\"\n", &[Good]),
            ("dc_current = \"20 A\"\ndc_voltage = \"9 V\"\n", &[Stop]),
        ] {
            let shelf = format!("{switch}{rating}");
            with(PANEL)
                .shelf(&shelf)
                .with(&part)
                .check(CHECK.id, severities);
        }
        let weak = format!("{switch}dc_current = \"50 mA\"\n");
        let found = with(PANEL).shelf(&weak).with(&part).findings(CHECK.id);
        assert_eq!(found[0].severity, Stop);
    }
}

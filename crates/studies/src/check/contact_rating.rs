//! Switches, sockets and holders against the current and voltage they see.

use super::{Candidate, Check, Evidence, Verdict};
use crate::electrics::{Electrics, ModeState};
use crate::indicator::{Switched, bears_rush};
use crate::words::number;
use design::SwitchingPart;
use wiring::{Kind, State};

pub(super) const CHECK: Check = Check {
    id: "contact-rating",
    title: "Ratings of switches and sockets",
    what: "Whether switches, charging sockets, fuse holders and the cut-off are rated for the direct \
current and voltage they see, and what closes for the rush into the board's capacitors.",
    why: "The rating printed large is for alternating current. With direct current the arc stays: \
contacts burn, stick, and cannot be switched off any more.",
    limits: "Contacts are taken to stand ten times their rating for the milliseconds of a rush, \
transistors four times. The rush is that of the full battery into empty capacitors through battery and wires; what a board does to \
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
    if let Some(own) = cut_off(evidence, electrics) {
        judged += 1;
        found.extend(own);
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

/// What is wrong with the contact or transistor that cuts the load off; `None` where there is
/// none.
fn cut_off(evidence: &Evidence<'_>, electrics: &Electrics) -> Option<Vec<Verdict>> {
    let used = evidence.design().indicator.as_ref()?;
    if used.cut_off.value == design::CutOff::None {
        return None;
    }
    let chosen = &evidence
        .indicator()?
        .built
        .as_ref()?
        .cut_off
        .as_ref()?
        .switch;
    let shelf = evidence.subject.project.shelf.switching.iter();
    let switch = shelf
        .into_iter()
        .find(|part| &part.common.name.text == chosen)?;
    let found = overloads(switch, Switched::of(electrics), electrics.supply.volts[0]);
    let with = |verdict: Verdict| {
        verdict
            .advice("put a switching part for more direct current on the shelf")
            .about(["cut-off"], electrics.supply.peak)
            .at(used.cut_off.place.unwrap_or(used.place))
    };
    Some(found.into_iter().map(with).collect())
}

/// What a switching part is not rated for, of what passes it and of the full battery in V.
fn overloads(switch: &SwitchingPart, all: Switched, full: f64) -> Vec<Verdict> {
    let chosen = &switch.common.name.text;
    let (rated, bears) = (switch.dc_current.si, bears_rush(switch));
    let carries = format!("{chosen} (cut-off) is rated {}", number(rated, "A"));
    let mut found = Vec::new();
    let title = "Contact not rated for it";
    if all.peak > rated {
        let cause = format!("{carries} and carries {} at peaks.", number(all.peak, "A"));
        found.push(Verdict::stop(title, cause).measured(all.peak, rated, "A"));
    }
    if switch.dc_voltage.si < full {
        let limit = switch.dc_voltage.si;
        let [limit_words, full_words] = [limit, full].map(|volts| number(volts, "V"));
        let cause = format!(
            "{chosen} (cut-off) is rated for {limit_words} of direct voltage; the full battery has {full_words}."
        );
        found.push(Verdict::stop(title, cause).measured(full, limit, "V"));
    }
    if all.fuse > rated {
        let cause = format!(
            "{carries}; the fuse lets {} pass for long: a fault burns the cut-off before the fuse opens.",
            number(all.fuse, "A")
        );
        let title = "Fuse does not save the cut-off";
        found.push(Verdict::caution(title, cause).measured(all.fuse, rated, "A"));
    }
    if all.rush > bears * rated {
        let cause = format!(
            "When it closes, {} rush through it; {carries}.",
            number(all.rush, "A")
        );
        let title = "Cut-off may fail closed when it closes";
        found.push(Verdict::caution(title, cause).measured(all.rush, bears * rated, "A"));
    }
    found
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
    use super::{CHECK, Switched, overloads};
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

    #[test]
    fn the_cut_off_is_judged_too() {
        let project = design::read(with(&[]).design(), None).unwrap();
        let mut shelf = project.shelf.switching.iter();
        let relay = shelf
            .find(|part| part.common.name.text == "relay 12 V, 10 A")
            .unwrap();
        for ([peak, fuse, rush, full], expected) in [
            ([9.0, 10.0, 90.0, 14.4], &[][..]),
            ([11.0, 10.0, 90.0, 14.4], &[Stop]),
            ([9.0, 15.0, 90.0, 14.4], &[Caution]),
            ([9.0, 10.0, 110.0, 14.4], &[Caution]),
            ([9.0, 10.0, 90.0, 36.0], &[Stop]),
        ] {
            let all = Switched { peak, fuse, rush };
            let found = overloads(relay, all, full);
            let found: Vec<_> = found.iter().map(|own| own.severity).collect();
            assert_eq!(found, expected, "{all:?} {full}");
        }
    }
}

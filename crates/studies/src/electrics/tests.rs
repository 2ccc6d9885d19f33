//! Whatever the design, what is proposed keeps every rule, and a wire broken or two exchanged
//! are found.

use super::modes::modes;
use super::overrides;
use super::propose::{Given, propose};
use crate::subject::Subject;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use wiring::rules::{BreachKind, breaches};
use wiring::{Carries, End, Kind, Mode, Nets, Role, State, System, Through, Wire};

/// What a generated design has.
#[derive(Clone, Debug)]
struct Has {
    board: &'static str,
    drivers: (u32, &'static str, &'static str),
    batteries: u32,
    volume: Option<&'static str>,
    input: Option<&'static str>,
    switch: Option<&'static str>,
    radio: Option<&'static str>,
    converter: bool,
    light: bool,
    indicator: bool,
    cut_off: &'static str,
    posts: bool,
    selector: bool,
    charged: bool,
    shared: bool,
    summed: bool,
}

fn any_has() -> impl Strategy<Value = Has> {
    let boards = prop::sample::select(vec![
        "amplifier 2 x 15 W, 12 V",
        "amplifier 1 x 30 W, 18 V",
        "linear amplifier 2 x 5 W, 12 V, not bridged",
    ]);
    let drivers = prop::sample::select(vec![
        (2, "both", "parallel"),
        (4, "both", "series"),
        (4, "both", "parallel"),
        (8, "both", "series-parallel"),
        (1, "mono", "parallel"),
        (2, "mono", "series"),
    ]);
    let volume = prop::option::of(Just("rotary potentiometer, M7"));
    let inputs = vec!["3.5 mm jack, insulated, M6", "3.5 mm jack, switched, M6"];
    let input = prop::option::of(prop::sample::select(inputs));
    let switches = vec!["rocker switch, 27 x 12 mm", "toggle switch, two poles, M6"];
    let switch = prop::option::of(prop::sample::select(switches));
    let radios = vec!["radio module 5 V", "radio module 12 V"];
    let radio = prop::option::of(prop::sample::select(radios));
    let cut_offs = prop::sample::select(vec!["none", "relay", "mosfet"]);
    let flags = any::<[bool; 8]>();
    (
        boards,
        drivers,
        1u32..3,
        volume,
        input,
        switch,
        radio,
        (cut_offs, flags),
    )
        .prop_map(
            |(board, drivers, batteries, volume, input, switch, radio, (cut_off, flags))| Has {
                board,
                // A board of one channel drives one side.
                drivers: if board.contains("1 x") && drivers.1 == "both" {
                    (1, "mono", "parallel")
                } else {
                    drivers
                },
                batteries,
                volume,
                input,
                switch,
                radio,
                converter: flags[0],
                light: flags[1],
                indicator: flags[2],
                cut_off,
                posts: flags[3],
                selector: flags[4],
                charged: flags[5],
                shared: flags[6],
                summed: flags[7],
            },
        )
}

impl Has {
    /// The text of the design.
    fn text(&self) -> String {
        let (count, side, wiring) = self.drivers;
        let word = |yes: bool, words: [&'static str; 2]| if yes { words[0] } else { words[1] };
        let mut text = format!(
            "format = 1\nname = \"Any\"\n[brief]\ndistance = \"2 m\"\n[place]\nstands = \"wall\"\n\
[[drivers]]\npart = \"full-range 4 in, 4 ohm\"\ncount = {count}\nside = \"{side}\"\nwiring = \"{wiring}\"\n\
[amplifier]\npart = \"{}\"\n[source]\nsum = \"{}\"\n\
[battery]\npart = \"iron phosphate 12.8 V 6 Ah\"\ncount = {}\ncharged_inside = {}\n\
[box]\noutside = \"900 x 500 x 300 mm\"\nwall = \"birch plywood 12 mm\"\nkind = \"sealed\"\nlast_with = \"screws\"\n\
[wiring]\ncharging = \"{}\"\n",
            self.board,
            word(self.summed, ["resistors", "none"]),
            self.batteries,
            self.charged,
            word(self.shared, ["shared", "separate"]),
        );
        if self.indicator {
            let cut_off = self.cut_off;
            text.push_str(&format!(
                "[indicator]\nwarning = \"30 min\"\ncut_off = \"{cut_off}\"\n"
            ));
        }
        self.modules(&mut text);
        self.panel(&mut text);
        text
    }

    fn modules(&self, text: &mut String) {
        let parts = [
            self.radio,
            self.converter
                .then_some("isolated converter 12 V to 5 V, 2 W"),
        ];
        for part in parts.into_iter().flatten() {
            // A converter feeds the radio; one to 5 V is not for one that wants 12 V.
            if part.starts_with("isolated") && self.radio == Some("radio module 12 V") {
                continue;
            }
            text.push_str(&format!("[[module]]\npart = \"{part}\"\n"));
        }
    }

    fn panel(&self, text: &mut String) {
        let mut parts: Vec<(&str, &str)> = Vec::new();
        parts.extend(self.volume.map(|part| (part, "")));
        parts.extend(self.input.map(|part| (part, "")));
        parts.extend(self.switch.map(|part| (part, "power")));
        if self.light {
            parts.push(("round light, 8 mm, green, 12 V", "power light"));
        }
        if self.posts && self.drivers.1 == "both" {
            parts.extend([("binding post, insulated", "left output"); 2]);
            parts.extend([("binding post, insulated", "right output"); 2]);
        }
        if self.selector && self.charged && !self.shared {
            parts.push(("toggle switch, centre off, M12", "charge selector"));
        }
        if parts.is_empty() {
            return;
        }
        text.push_str(
            "[control]\non = \"back\"\nat = \"450 x 250 mm\"\nsize = \"600 x 80 mm\"\nplate = \"aluminium plate 2 mm\"\n",
        );
        for (index, (part, does)) in parts.iter().enumerate() {
            let at = 30 + 50 * index;
            text.push_str(&format!(
                "[[control.part]]\npart = \"{part}\"\nat = \"{at} x 40 mm\"\n"
            ));
            if !does.is_empty() {
                text.push_str(&format!("does = \"{does}\"\n"));
            }
        }
    }

    fn system(&self) -> Result<(System, Vec<Mode>), String> {
        let text = self.text();
        let project = design::read(&text, None).map_err(|errors| format!("{errors:#?}\n{text}"))?;
        let subject =
            Subject::new(project, 1.0).map_err(|errors| format!("{errors:#?}\n{text}"))?;
        let mut draft = propose(&Given::new(&subject, [10.0, 14.4]));
        let mut troubles = Vec::new();
        overrides::apply(&mut draft, &subject.project.design.wiring, &mut troubles);
        assert!(troubles.is_empty(), "{troubles:?}");
        let modes = modes(&draft.system);
        Ok((draft.system, modes))
    }
}

/// What a system does in each mode, with what makes no difference taken out.
fn essence(system: &System, modes: &[Mode]) -> Vec<Vec<String>> {
    modes.iter().map(|mode| done(system, mode)).collect()
}

/// Pieces of metal by the names of the terminals on them and by what two-ended parts lead on
/// to, a sorted list.
///
/// Left out are the ends of contacts: what they join is in the nets.
/// Two-ended parts of one kind and value are alike, so a resistor is known by what it lies
/// between alone. The names are refined as for telling graphs apart (Weisfeiler and Leman,
/// 1968, from memory): round after round every net takes in those its neighbours had.
fn done(system: &System, mode: &Mode) -> Vec<String> {
    let nets = Nets::new(system, mode);
    let mono = one_channel(system);
    let mut names = vec![Vec::new(); nets.len()];
    let mut links: Vec<[(usize, String); 2]> = Vec::new();
    for (index, part) in system.parts.iter().enumerate() {
        let end = |terminal| End {
            part: index,
            terminal,
        };
        if let Some([here, there]) = two_ended(part) {
            links.push([
                (nets.of(end(0)), format!("{here} {there}")),
                (nets.of(end(1)), format!("{there} {here}")),
            ]);
            continue;
        }
        for terminal in 0..part.terminals.len() {
            names[nets.of(end(terminal))].extend(named_end(part, terminal, mono));
        }
    }
    let joined = |mut all: Vec<String>| {
        all.sort();
        all.join(", ")
    };
    // Of a piece of metal with nothing on it but contacts nothing is to be told.
    let empty = (0..4).fold(String::new(), |own, _| short(&own));
    let mut told: Vec<String> = names.into_iter().map(joined).collect();
    for _ in 0..4 {
        let mut refined: Vec<Vec<String>> = told.iter().map(|own| vec![own.clone()]).collect();
        for [(a, forth), (b, back)] in &links {
            refined[*a].push(format!("{forth} ({})", told[*b]));
            refined[*b].push(format!("{back} ({})", told[*a]));
        }
        told = refined.into_iter().map(|all| short(&joined(all))).collect();
    }
    told.retain(|own| *own != empty);
    told.sort();
    told
}

/// A text as a number, so that names do not grow without end.
fn short(text: &str) -> String {
    use std::hash::{DefaultHasher, Hash, Hasher};
    let mut hasher = DefaultHasher::new();
    text.hash(&mut hasher);
    format!("{:016x}", hasher.finish())
}

/// Where one input alone has a wire, it hears the sum: which side is which makes no difference.
fn one_channel(system: &System) -> bool {
    let wires = system.wires.iter();
    let mut heard: Vec<End> = wires
        .flat_map(|wire| [wire.from, wire.to])
        .filter(|end| {
            let part = &system.parts[end.part];
            part.terminals[end.terminal].role == Role::SignalIn
        })
        .collect();
    heard.sort();
    heard.dedup();
    heard.len() < 2
}

/// The two ends of a part of which another of its kind and value does the same.
fn two_ended(part: &wiring::Part) -> Option<[String; 2]> {
    let ohms = part.inner.first().map(|inner| inner.through);
    let ends = match part.kind {
        Kind::Fuse | Kind::Resistor => ["", ""],
        Kind::Driver | Kind::Battery => ["+", "-"],
        _ => return None,
    };
    let side = part.terminals[0].side;
    Some(ends.map(|end| format!("{:?} {side:?} {ohms:?} {end}", part.kind)))
}

/// The name of a terminal, where it matters.
fn named_end(part: &wiring::Part, terminal: usize, mono: bool) -> Option<String> {
    let own = &part.terminals[terminal];
    match part.kind {
        Kind::Star => return None,
        Kind::Switch if own.role == Role::Contact && own.sign.is_none() => return None,
        _ => {}
    }
    let mut name = own.name.clone();
    if mono && matches!(part.kind, Kind::Jack | Kind::Radio | Kind::Potentiometer) {
        for side in ["left", "right", "tip", "ring"] {
            name = name.replace(side, "side");
        }
    }
    Some(format!("{} {name}", part.name))
}

fn named(system: &System, modes: &[Mode]) -> Vec<String> {
    breaches(system, modes)
        .into_iter()
        .map(|breach| {
            let ends: Vec<String> = breach.ends.iter().map(|end| system.name(*end)).collect();
            format!("{:?} {ends:?} {}", breach.kind, modes[breach.mode].name)
        })
        .collect()
}

/// An end of a wire: the first or the second.
fn end_of(system: &mut System, wire: usize, second: bool) -> &mut End {
    let wire = &mut system.wires[wire];
    if second { &mut wire.to } else { &mut wire.from }
}

/// As many as PROPTEST_CASES says, which a number written here would override.
fn cases() -> u32 {
    let asked = std::env::var("PROPTEST_CASES").ok();
    asked.and_then(|cases| cases.parse().ok()).unwrap_or(48)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: cases(), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn proposals_keep_the_rules_and_faults_are_found(has in any_has(), picks in prop::collection::vec(any::<(u16, u16, bool, bool)>(), 60)) {
        let (system, modes) = has.system().map_err(TestCaseError::fail)?;
        prop_assert!(system.faults().is_empty(), "{:?}", system.faults());
        let found = named(&system, &modes);
        prop_assert!(found.is_empty(), "{found:#?}\n{has:?}");
        for wire in 0..system.wires.len() {
            let mut broken = system.clone();
            let lost = broken.wires.remove(wire);
            if lost.carries == wiring::Carries::Touch {
                continue;
            }
            let names = [lost.from, lost.to].map(|end| system.name(end));
            prop_assert!(!breaches(&broken, &modes).is_empty(), "{names:?} broken\n{has:?}");
        }
        let whole = essence(&system, &modes);
        for (one, other, first, second) in picks {
            let count = system.wires.len();
            let (one, other) = (one as usize % count, other as usize % count);
            if one == other {
                continue;
            }
            let mut swapped = system.clone();
            let (a, b) = (*end_of(&mut swapped, one, first), *end_of(&mut swapped, other, second));
            *end_of(&mut swapped, one, first) = b;
            *end_of(&mut swapped, other, second) = a;
            if essence(&swapped, &modes) == whole {
                continue;
            }
            let names = [a, b].map(|end| system.name(end));
            prop_assert!(!breaches(&swapped, &modes).is_empty(), "{names:?} exchanged on wires {one} and {other}\n{has:?}");
        }
    }
}

/// A generated system as large as a diagram is to be readable for.
#[test]
fn all_of_it_at_once_is_wired() {
    let has = Has {
        board: "amplifier 2 x 15 W, 12 V",
        drivers: (8, "both", "series-parallel"),
        batteries: 2,
        volume: Some("rotary potentiometer, M7"),
        input: Some("3.5 mm jack, insulated, M6"),
        switch: Some("rocker switch, 27 x 12 mm"),
        radio: Some("radio module 5 V"),
        converter: true,
        light: true,
        indicator: true,
        cut_off: "relay",
        posts: true,
        selector: false,
        charged: true,
        shared: false,
        summed: false,
    };
    let (system, modes) = has.system().unwrap();
    assert!(system.parts.len() >= 25, "{}", system.parts.len());
    assert_eq!(named(&system, &modes), Vec::<String>::new());
    // Both sources meet through a resistor each.
    let resistors = system
        .parts
        .iter()
        .filter(|part| part.kind == Kind::Resistor);
    assert_eq!(resistors.count(), 4);
    let fuses = system.parts.iter().flat_map(|part| &part.inner);
    let fuses = fuses.filter(|inner| inner.through == Through::Fuse);
    assert_eq!(fuses.count(), 2);
}

/// What is drawn beside the amplifier is what playing time and heat count: current by current
/// in the net list, and all of it turned into heat.
#[test]
fn what_is_drawn_aside_is_counted_everywhere_alike() {
    let mut has = any_has()
        .new_tree(&mut TestRunner::deterministic())
        .unwrap()
        .current();
    for (radio, converter) in [
        (None, true),
        (Some("radio module 5 V"), false),
        (Some("radio module 5 V"), true),
        (Some("radio module 12 V"), false),
    ] {
        (has.radio, has.converter) = (radio, converter);
        (has.light, has.indicator, has.cut_off) = (true, true, "relay");
        let project = design::read(&has.text(), None).unwrap();
        let subject = Subject::new(project, 1.0).unwrap();
        let empty = 10.0;
        let draft = propose(&Given::new(&subject, [empty, 14.4]));
        let beside = draft.system.parts.iter().zip(&draft.parts);
        let taken: f64 = beside
            .filter(|(part, _)| part.kind != Kind::Amplifier && part.fed_by.is_none())
            .map(|(_, own)| own.continuous)
            .sum();
        let aside = subject.aside.drawn();
        assert!(
            (taken - aside.amperes(empty)).abs() < 1e-12,
            "{taken} {aside:?}"
        );
        assert!(taken > 0.0);
        let cut_off = draft.system.part("cut-off").unwrap();
        // The coil of 400 Ω of the built-in relay on the full battery.
        let coil = draft.parts[cut_off].continuous;
        let full = 14.4;
        assert!((coil - full / 400.0).abs() < 0.02 * coil, "{coil}");
        let takers = subject.aside.takers.iter();
        let heat: f64 = takers.map(|taker| taker.heat.power(12.0)).sum();
        assert!((heat - aside.power(12.0)).abs() < 1e-12, "{heat} {aside:?}");
    }
}

/// With an empty battery what opened the contact lives from before it and nothing else does;
/// fed from behind the contact, or led past it, it is found.
#[test]
fn a_cut_off_is_fed_from_before_its_own_contact() {
    let mut has = any_has()
        .new_tree(&mut TestRunner::deterministic())
        .unwrap()
        .current();
    for kind in ["relay", "mosfet"] {
        (has.light, has.indicator, has.cut_off) = (true, true, kind);
        let (system, modes) = has.system().unwrap();
        assert_eq!(named(&system, &modes), Vec::<String>::new());
        let part = system.part("cut-off").unwrap();
        let low = modes.iter().find(|mode| mode.state == State::Low).unwrap();
        assert_eq!(super::currents::live(&system, low), vec![part], "{kind}");
        let [entry, out] = ["cut-off in", "cut-off out"].map(|name| system.end(name).unwrap());
        let kinds = |system: &System| -> Vec<BreachKind> {
            let found = breaches(system, &modes);
            found.iter().map(|breach| breach.kind).collect()
        };
        let mut turned = system.clone();
        for wire in &mut turned.wires {
            for end in [&mut wire.from, &mut wire.to] {
                *end = match *end {
                    own if own == entry => out,
                    own if own == out => entry,
                    own => own,
                };
            }
        }
        assert!(kinds(&turned).contains(&BreachKind::OwnOutput), "{kind}");
        let mut bridged = system;
        bridged.wires.push(Wire {
            from: bridged.end("supply strip 2").unwrap(),
            to: entry,
            carries: Carries::Supply,
        });
        assert!(kinds(&bridged).contains(&BreachKind::NotCutOff), "{kind}");
    }
}

/// A charger that shares the way of the supply reaches a battery that was cut off.
#[test]
fn a_shared_charger_lies_before_the_cut_off() {
    let mut has = any_has()
        .new_tree(&mut TestRunner::deterministic())
        .unwrap()
        .current();
    (has.indicator, has.charged, has.shared, has.selector) = (true, true, true, false);
    has.cut_off = "relay";
    let (system, _) = has.system().unwrap();
    let entry = system.end("cut-off in").unwrap();
    let socket = system.end("charging socket +").unwrap();
    let joined = |wire: &Wire| [wire.from, wire.to] == [socket, entry];
    assert!(system.wires.iter().any(joined));
}

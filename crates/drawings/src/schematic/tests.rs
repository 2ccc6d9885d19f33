use super::*;
use crate::export::svg::svg;
use crate::geometry::Rect;
use crate::layout::content_area;
use crate::role::Role;
use crate::sheet::{Sheet, pen};
use crate::{Paper, Theme};

fn line() -> Stroke {
    Stroke::new(Role::Ink, pen::MEDIUM)
}

fn named(symbol: Symbol, name: &str, note: &str, terminals: &[(&str, Face)]) -> Part {
    let terminals = terminals.iter().map(|(n, f)| Terminal::new(*n, *f));
    Part {
        symbol,
        name: name.into(),
        note: note.into(),
        terminals: terminals.collect(),
    }
}

fn net(leads: bool, ends: &[(usize, usize)]) -> Net {
    Net {
        name: "net".into(),
        ends: ends.iter().map(|(p, t)| (*p, *t, String::new())).collect(),
        leads,
        stroke: line(),
        wires: Vec::new(),
    }
}

/// One of each symbol, in a row of low-battery indicator, relay and loudspeaker.
fn every_symbol() -> Schematic {
    let (l, r, e) = (Face::Left, Face::Right, Face::Either);
    let through = |symbol, name: &str, note: &str| Part::through(symbol, name, note);
    let parts = vec![
        named(Symbol::Battery, "B1", "12 V", &[("+", r), ("−", r)]),
        through(Symbol::Fuse, "F1", "3 A"),
        through(Symbol::Contact, "S1", ""),
        through(Symbol::Resistor, "R1", "33 kΩ"),
        through(Symbol::Resistor, "R2", "10 kΩ"),
        named(
            Symbol::Comparator,
            "U1",
            "",
            &[("+", l), ("−", l), ("V+", l), ("0 V", l), ("", r)],
        ),
        through(Symbol::Resistor, "R3", "2.2 kΩ"),
        named(Symbol::Zener, "D1", "5.1 V", &[("", r), ("", l)]),
        named(Symbol::Led, "D2", "red", &[("", l), ("", r)]),
        named(Symbol::Ground, "", "", &[("", l)]),
        through(Symbol::Coil, "K1", "12 V"),
        named(Symbol::Mosfet, "Q1", "", &[("G", l), ("D", r), ("S", r)]),
        named(Symbol::Diode, "D3", "", &[("", e), ("", e)]),
        through(Symbol::Lamp, "H1", ""),
        named(Symbol::Loudspeaker, "LS1", "4 Ω", &[("+", l), ("−", l)]),
        through(Symbol::Capacitor, "C1", "10 µF"),
        named(
            Symbol::Slider,
            "RV1",
            "10 kΩ",
            &[("1", l), ("2", r), ("3", l)],
        ),
        named(
            Symbol::Changeover,
            "S2",
            "",
            &[("1", l), ("2", r), ("3", r), ("4", l), ("5", r), ("6", r)],
        ),
        named(Symbol::Point, "TP", "", &[("", l)]),
        named(Symbol::Strip, "strip", "", &[("1", e), ("2", e), ("3", e)]),
    ];
    let nets = vec![
        net(true, &[(0, 0), (1, 0)]),
        net(true, &[(1, 1), (2, 0)]),
        net(true, &[(2, 1), (3, 0), (6, 0), (5, 2), (17, 0)]),
        net(true, &[(3, 1), (4, 0), (5, 0)]),
        net(true, &[(6, 1), (7, 1), (5, 1)]),
        net(true, &[(5, 4), (8, 0), (11, 0)]),
        net(false, &[(0, 1), (19, 0)]),
        net(false, &[(19, 1), (4, 1), (7, 0), (5, 3), (8, 1), (9, 0)]),
        net(true, &[(17, 1), (10, 0), (12, 1)]),
        net(true, &[(10, 1), (12, 0), (11, 1)]),
        net(false, &[(11, 2), (19, 2)]),
        net(true, &[(17, 4), (13, 0)]),
        net(true, &[(13, 1), (15, 0)]),
        net(true, &[(15, 1), (16, 0)]),
        net(true, &[(16, 1), (14, 0)]),
        net(false, &[(16, 2), (14, 1), (18, 0)]),
    ];
    Schematic { parts, nets }
}

/// The drawings of a schematic in an area, none of which has anything in its way.
fn clear(schematic: &Schematic, paper: Paper, area: Rect, name: &str) -> Vec<SchematicSheet> {
    let found = sheets(schematic, area);
    for (i, one) in found.iter().enumerate() {
        let mut sheet = Sheet::new(paper, name);
        sheet.drawing.append(one.drawing.clone());
        assert_eq!(sheet.collisions(), [], "{name} {i}");
        let bounds = one.drawing.bounds().unwrap();
        assert!(area.inset(-0.6).contains(&bounds), "{name} {i}: {bounds:?}");
        for theme in [Theme::Paper, Theme::Blueprint] {
            let file = format!(
                "{}/{name}-{i}-{theme:?}.svg",
                std::env::temp_dir().display()
            );
            std::fs::write(file, svg(&sheet, theme)).unwrap();
        }
    }
    found
}

#[test]
fn every_symbol_is_drawn_clear() {
    let schematic = every_symbol();
    for paper in [Paper::A4, Paper::Letter] {
        let found = clear(&schematic, paper, content_area(paper), "symbols");
        let mut shown: Vec<usize> = found.iter().flat_map(|s| s.parts.clone()).collect();
        shown.sort_unstable();
        assert_eq!(shown, (0..schematic.parts.len()).collect::<Vec<_>>());
    }
}

#[test]
fn a_small_area_takes_several_sheets_that_name_one_another() {
    let schematic = every_symbol();
    let area = Rect::new(10.0, 10.0, 120.0, 120.0);
    let found = clear(&schematic, Paper::A4, area, "parts");
    assert!(found.len() > 1);
    let said = format!("{:?}", found[0].drawing);
    assert!(said.contains("net · part 2"), "{said}");
}

/// A generated stereo box of 25 parts as the wiring sheets name them, every line
/// labelled as a wire is.
fn twenty_five() -> Schematic {
    let (l, r, e) = (Face::Left, Face::Right, Face::Either);
    let pair = |name: &str| named(Symbol::Block, name, "", &[("+", l), ("−", l)]);
    let mut parts = vec![
        named(Symbol::Battery, "battery", "", &[("+", r), ("−", r)]),
        named(Symbol::Fuse, "fuse", "5 A", &[("1", e), ("2", e)]),
        named(Symbol::Contact, "main switch", "", &[("1", e), ("2", e)]),
        named(Symbol::Block, "charging socket", "", &[("+", r), ("−", r)]),
        named(Symbol::Fuse, "charging fuse", "3 A", &[("1", e), ("2", e)]),
        named(
            Symbol::Strip,
            "supply strip",
            "",
            &[("1", e), ("2", e), ("3", e), ("4", e), ("5", e)],
        ),
        named(
            Symbol::Strip,
            "ground strip",
            "",
            &[("1", e), ("2", e), ("3", e), ("4", e), ("5", e), ("6", e)],
        ),
        named(
            Symbol::Block,
            "converter",
            "",
            &[("in +", l), ("in −", l), ("out +", r), ("out −", r)],
        ),
        named(
            Symbol::Block,
            "radio",
            "",
            &[
                ("+", l),
                ("−", l),
                ("left out", r),
                ("right out", r),
                ("signal ground", r),
            ],
        ),
        named(
            Symbol::Block,
            "input",
            "",
            &[("tip", r), ("ring", r), ("sleeve", r)],
        ),
        named(
            Symbol::Slider,
            "volume",
            "",
            &[
                ("left top", l),
                ("left wiper", r),
                ("left bottom", l),
                ("right top", l),
                ("right wiper", r),
                ("right bottom", l),
            ],
        ),
        named(
            Symbol::Block,
            "amplifier",
            "",
            &[
                ("+", l),
                ("−", l),
                ("left in", l),
                ("right in", l),
                ("signal ground", l),
                ("left +", r),
                ("left −", r),
                ("right +", r),
                ("right −", r),
            ],
        ),
        named(
            Symbol::Block,
            "indicator",
            "",
            &[("+", l), ("−", l), ("light +", r), ("light −", r)],
        ),
        named(Symbol::Lamp, "low battery light", "", &[("+", l), ("−", l)]),
        named(Symbol::Lamp, "power light", "", &[("+", l), ("−", l)]),
        pair("left output"),
        pair("right output"),
    ];
    for name in ["left sum 1", "right sum 1", "left sum 2", "right sum 2"] {
        parts.push(named(Symbol::Resistor, name, "1 kΩ", &[("1", e), ("2", e)]));
    }
    for side in ["left", "right"] {
        for number in 1..=2 {
            let name = format!("{side} driver {number}");
            parts.push(named(Symbol::Loudspeaker, &name, "", &[("+", l), ("−", l)]));
        }
    }
    assert_eq!(parts.len(), 25);
    let mut schematic = Schematic {
        parts,
        nets: Vec::new(),
    };
    let leading: [&[(usize, usize)]; 22] = [
        &[(0, 0), (1, 0), (4, 1)],
        &[(1, 1), (2, 0)],
        &[(2, 1), (5, 0)],
        &[(3, 0), (4, 0)],
        &[(5, 1), (11, 0)],
        &[(5, 2), (7, 0)],
        &[(5, 3), (12, 0)],
        &[(5, 4), (14, 0)],
        &[(7, 2), (8, 0)],
        &[(8, 2), (17, 0)],
        &[(8, 3), (18, 0)],
        &[(9, 0), (19, 0)],
        &[(9, 1), (20, 0)],
        &[(17, 1), (19, 1), (10, 0)],
        &[(18, 1), (20, 1), (10, 3)],
        &[(10, 1), (11, 2)],
        &[(10, 4), (11, 3)],
        &[(12, 2), (13, 0)],
        &[(11, 5), (21, 0), (22, 0), (15, 0)],
        &[(11, 6), (21, 1), (22, 1), (15, 1)],
        &[(11, 7), (23, 0), (24, 0), (16, 0)],
        &[(11, 8), (23, 1), (24, 1), (16, 1)],
    ];
    let returning: [&[(usize, usize)]; 9] = [
        &[(0, 1), (6, 0)],
        &[(6, 1), (3, 1)],
        &[(6, 2), (11, 1)],
        &[(6, 3), (7, 1)],
        &[(6, 4), (12, 1)],
        &[(6, 5), (14, 1)],
        &[(7, 3), (8, 1)],
        &[(12, 3), (13, 1)],
        &[(8, 4), (9, 2), (10, 2), (10, 5), (11, 4)],
    ];
    let all = leading.iter().map(|n| (true, *n));
    let all = all.chain(returning.iter().map(|n| (false, *n)));
    let colours = studies::electrics::colour::ALL;
    for (i, (leads, ends)) in all.enumerate() {
        let colour = colours[i % colours.len()];
        let letters = studies::electrics::colour::letters(colour);
        let mut net = net(leads, ends);
        net.name = format!("W{}", i + 1);
        net.stroke = stroke_of(colour);
        for end in &mut net.ends {
            end.2 = format!("W{} {letters}", i + 1);
        }
        schematic.nets.push(net);
    }
    schematic
}

#[test]
fn a_box_of_25_parts_is_readable_on_both_papers() {
    let schematic = twenty_five();
    for paper in [Paper::A4, Paper::Letter] {
        let area = content_area(paper);
        let found = clear(&schematic, paper, area, "box");
        let count: usize = found.iter().map(|s| s.parts.len()).sum();
        assert_eq!(count, 25);
        assert_eq!(found.len(), 1, "{} sheets", found.len());
        for letters in found.iter().flat_map(|s| &s.drawing.items) {
            if let crate::sheet::Item::Text(text) = letters {
                assert!(text.letters.size_mm >= 2.0, "{}", text.content);
            }
        }
    }
}

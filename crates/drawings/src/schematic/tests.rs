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
            let file = format!("{}/{name}-{i}-{theme:?}.svg", std::env::temp_dir().display());
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

//! Load → save is identity, and an edit changes nothing but its value.

use boxwright_design::{
    BUILT_IN_SHELF, FileId, Key, Place, path_at, read, remove_value, set_value,
};
use proptest::prelude::*;
use std::ops::Range;
use toml_edit::{Document, Item, TableLike, Value};

const TEXTS: [&str; 5] = [
    include_str!("../../../examples/bathing-beach/design.toml"),
    include_str!("../../../examples/workshop-mono/design.toml"),
    include_str!("../../../examples/salvage-party/design.toml"),
    include_str!("../../../examples/salvage-party/shelf.toml"),
    BUILT_IN_SHELF,
];

struct Written {
    path: Vec<Key>,
    span: Range<usize>,
    /// The bare text of the value.
    bare: String,
}

fn written(path: Vec<Key>, value: &Value, text: &str) -> Written {
    let span = value.span().expect("parsed values have a place");
    let bare = value
        .as_str()
        .map_or(text[span.clone()].to_owned(), str::to_owned);
    Written { path, span, bare }
}

fn gather(table: &dyn TableLike, front: &[Key], text: &str, all: &mut Vec<Written>) {
    for (name, item) in table.iter() {
        let mut path = front.to_vec();
        path.push(Key::from(name));
        match item {
            Item::Table(inner) => gather(inner, &path, text, all),
            Item::ArrayOfTables(tables) => {
                for (index, inner) in tables.iter().enumerate() {
                    let mut path = path.clone();
                    path.push(Key::from(index));
                    gather(inner, &path, text, all);
                }
            }
            Item::Value(Value::Array(list)) => {
                for (index, value) in list.iter().enumerate() {
                    let mut path = path.clone();
                    path.push(Key::from(index));
                    all.push(written(path, value, text));
                }
            }
            Item::Value(value) => all.push(written(path, value, text)),
            Item::None => {}
        }
    }
}

fn values(text: &str) -> Vec<Written> {
    let document = Document::parse(text).expect("shipped files are sound");
    let mut all = Vec::new();
    gather(document.as_table(), &[], text, &mut all);
    all
}

#[test]
fn writing_a_value_over_itself_changes_nothing() {
    for text in TEXTS {
        for value in values(text) {
            let same = set_value(text, &value.path, &value.bare);
            assert_eq!(same.as_deref(), Ok(text), "{:?}", value.path);
        }
    }
}

#[test]
fn every_value_is_found_back_from_its_place() {
    for text in TEXTS {
        for value in values(text) {
            let place = Place {
                file: FileId::Design,
                start: value.span.start,
                end: value.span.end,
            };
            assert_eq!(path_at(text, place), Some(value.path));
        }
    }
}

#[test]
fn places_of_a_read_design_lead_to_its_keys() {
    let text = TEXTS[0];
    let design = read(text, None).expect("sound").design;
    let check = |place: Place, path: &str| {
        let key = boxwright_design::key_path(path);
        assert_eq!(path_at(text, place), Some(key), "{path}");
    };
    check(
        design.enclosure.thickness.expect("said").place,
        "box.thickness",
    );
    check(design.brief.distance.place, "brief.distance");
    check(design.drivers[0].place, "drivers.0.part");
    check(design.cleats[1].name.place, "cleat.1.name");
    check(design.drivers[0].mounting.at[1].place, "drivers.0.at.1");
    let height = design.brief.largest.expect("said").height;
    check(height.place, "brief.largest");
    let millimetres: f64 = text[height.place.start..height.place.end].parse().unwrap();
    assert!((millimetres - 1e3 * height.si).abs() < 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Any value, any new text: the bytes before and after stay, and setting
    /// the old value again gives the old file.
    #[test]
    fn an_edit_touches_its_value_only(
        which in 0usize..4,
        pick in any::<prop::sample::Index>(),
        new in "[ -~µΩ±€\\n\\t]{0,20}",
    ) {
        let text = TEXTS[which];
        let all = values(text);
        let value = &all[pick.index(all.len())];
        let edited = set_value(text, &value.path, &new).expect("an existing value can be set");
        prop_assert!(edited.starts_with(&text[..value.span.start]));
        prop_assert!(edited.ends_with(&text[value.span.end..]));
        let was_text = text.as_bytes()[value.span.start] == b'"';
        if was_text {
            let back = set_value(&edited, &value.path, &value.bare).expect("it can be set back");
            prop_assert_eq!(values(&back).len(), all.len());
            if !new.contains(['"', '\\', '\n', '\t']) {
                prop_assert_eq!(back, text);
            }
        }
    }

    /// A new key is one new line; taking it out again gives the old file.
    #[test]
    fn a_key_that_comes_and_goes_leaves_no_trace(
        which in 0usize..4,
        pick in any::<prop::sample::Index>(),
    ) {
        let text = TEXTS[which];
        let all = values(text);
        let mut path = all[pick.index(all.len())].path.clone();
        while !matches!(path.pop(), Some(Key::Name(_))) {}
        path.push(Key::from("brand_new"));
        let edited = set_value(text, &path, "7 mm").expect("a key can be added");
        prop_assert_eq!(edited.lines().count(), text.lines().count() + 1);
        let back = remove_value(&edited, &path).expect("it can be taken out");
        prop_assert_eq!(back, text);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// An element added to a list and taken out again leaves no trace, in lists
    /// on one line and in lists with a line for each.
    #[test]
    fn an_element_that_comes_and_goes_leaves_no_trace(
        elements in prop::collection::vec("[a-z0-9 ,#]{0,6}", 1..5),
        many_lines in any::<bool>(),
        last_comma in any::<bool>(),
        remarks in any::<bool>(),
    ) {
        let mut list: Vec<String> = elements.iter().map(|e| format!("\"{e}\"")).collect();
        let text = if many_lines {
            let end = list.len() - 1;
            let lines: String = list.iter_mut().enumerate().map(|(i, element)| {
                let comma = if i < end || last_comma { "," } else { "" };
                let remark = if remarks { "  # at, last" } else { "" };
                format!("  {element}{comma}{remark}\n")
            }).collect();
            format!("[box.vent]\nat = [\n{lines}]\ncount = 1\n")
        } else {
            let comma = if last_comma { "," } else { "" };
            format!("[box.vent]\nat = [{}{comma}] # said\ncount = 1\n", list.join(", "))
        };
        let path = boxwright_design::key_path(&format!("box.vent.at.{}", elements.len()));
        let edited = set_value(&text, &path, "1 x 2 mm").expect("an element can be added");
        let now = values(&edited);
        prop_assert_eq!(now.len(), elements.len() + 2);
        prop_assert_eq!(&now[elements.len()].bare, "1 x 2 mm");
        prop_assert!(now.iter().zip(&elements).all(|(value, element)| &value.bare == element));
        let back = remove_value(&edited, &path).expect("it can be taken out");
        let with_comma = many_lines && !last_comma;
        prop_assert_eq!(values(&back).len(), elements.len() + 1);
        if !with_comma {
            prop_assert_eq!(back, text);
        }
    }
}

#[test]
fn a_box_can_be_rounded_braced_and_its_driver_moved() {
    let steps = [
        ("box.chamfer", "3 mm"),
        ("saw.kerf", "2.8 mm"),
        ("glue.open_time", "6 min"),
        ("drivers.0.at.1", "275 x 104 mm"),
        ("brace.1.name", "stick"),
        ("brace.1.from", "left"),
        ("brace.1.section", "20 x 30 mm"),
        ("brace.1.at", "50 x 60 mm"),
        ("box.joint.0.edge", "left-top"),
        ("box.joint.0.kind", "mitre"),
        ("control.part.6.part", "binding post, insulated"),
        ("control.part.6.at", "30 x 70 mm"),
    ];
    let unrounded = remove_value(TEXTS[0], &boxwright_design::key_path("box.round"));
    let edited = steps
        .iter()
        .fold(unrounded.expect("there"), |text, (path, new)| {
            set_value(&text, &boxwright_design::key_path(path), new).expect("possible")
        });
    let design = read(&edited, None).expect("sound").design;
    assert_eq!(design.braces.len(), 2);
    assert_eq!(design.enclosure.carpentry.edges.len(), 1);
    assert_eq!(design.saw.kerf.map(|kerf| kerf.si), Some(0.0028));
    assert_eq!(design.drivers[0].mounting.at[1].across.si, 0.275);
    assert_eq!(design.control.map(|control| control.parts.len()), Some(7));
    for line in TEXTS[0].lines() {
        let kept = edited.lines().any(|l| l == line);
        assert!(
            kept || line.starts_with("round") || line.starts_with("at ="),
            "{line}"
        );
    }
}

#[test]
fn a_vent_can_be_given_to_a_closed_box() {
    let steps = [
        ("box.kind", "vented"),
        ("box.vent.diameter", "50 mm"),
        ("box.vent.length", "120 mm"),
        ("box.vent.count", "1"),
        ("box.vent.flared", "true"),
    ];
    let vented = steps.iter().fold(TEXTS[0].to_owned(), |text, (path, new)| {
        set_value(&text, &boxwright_design::key_path(path), new).expect("possible")
    });
    assert!(read(&vented, None).is_ok());
    for line in TEXTS[0].lines() {
        let kept = vented.lines().any(|l| l == line);
        assert!(kept || line.starts_with("kind"), "{line}");
    }
    let closed = remove_value(&vented, &boxwright_design::key_path("box.vent")).expect("there");
    let closed = set_value(&closed, &boxwright_design::key_path("box.kind"), "sealed");
    assert_eq!(closed.as_deref(), Ok(TEXTS[0]));
}

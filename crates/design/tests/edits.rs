//! Load → save is identity, and an edit changes nothing but its value.

use boxwright_design::{
    BUILT_IN_SHELF, FileId, Key, Place, path_at, read, remove_value, set_value,
};
use proptest::prelude::*;
use std::ops::Range;
use toml_edit::{Document, Item, TableLike};

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
            Item::Value(value) => {
                let span = value.span().expect("parsed values have a place");
                let bare = value
                    .as_str()
                    .map_or(text[span.clone()].to_owned(), str::to_owned);
                all.push(Written { path, span, bare });
            }
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
    check(design.inside[1].name.place, "inside.1.name");
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
        path.pop();
        path.push(Key::from("brand_new"));
        let edited = set_value(text, &path, "7 mm").expect("a key can be added");
        prop_assert_eq!(edited.lines().count(), text.lines().count() + 1);
        let back = remove_value(&edited, &path).expect("it can be taken out");
        prop_assert_eq!(back, text);
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

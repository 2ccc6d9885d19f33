use super::*;
use crate::{FileId, Place};

const TEXT: &str = "\
# A design.
format = 1   # first

[brief]
distance = \"3 m\"  # on the grass
# loudness comes next
loudness = 'about 85 dB'

[box]
    kind = \"sealed\"
    leak = \"usual\" # ok

# what is inside
[[inside]]
name = \"brace\"
count = 2

[[inside]]
name = \"jack\"
size = { a = 1, b = \"2 mm\" }
";

#[track_caller]
fn check(path: &str, new: &str, changes: &[(&str, &str)]) {
    let mut expected = TEXT.to_owned();
    for (old, new) in changes {
        assert!(expected.contains(old), "{old}");
        expected = expected.replacen(old, new, 1);
    }
    assert_eq!(set_value(TEXT, &key_path(path), new), Ok(expected));
}

#[track_caller]
fn check_removed(path: &str, gone: &str) {
    let expected = TEXT.replacen(gone, "", 1);
    assert_ne!(expected, TEXT);
    assert_eq!(remove_value(TEXT, &key_path(path)), Ok(expected));
}

#[test]
fn a_value_is_replaced_and_its_remark_stays() {
    check("brief.distance", "4 m", &[("\"3 m\"", "\"4 m\"")]);
    check("inside.0.count", "3", &[("count = 2", "count = 3")]);
    check("format", "2", &[("format = 1 ", "format = 2 ")]);
}

#[test]
fn quotes_stay_of_their_kind_where_they_can() {
    check("brief.loudness", "90 dB", &[("'about 85 dB'", "'90 dB'")]);
    check("brief.loudness", "it's", &[("'about 85 dB'", "\"it's\"")]);
    check("brief.distance", "3 \"", &[("\"3 m\"", "'3 \"'")]);
}

#[test]
fn a_number_gives_way_to_a_text() {
    check("inside.0.count", "two", &[("count = 2", "count = \"two\"")]);
}

#[test]
fn a_new_key_stands_below_the_last_of_its_table() {
    check(
        "brief.runtime",
        "8 h",
        &[("85 dB'\n", "85 dB'\nruntime = \"8 h\"\n")],
    );
    check(
        "box.filling",
        "50 %",
        &[("# ok\n", "# ok\n    filling = \"50 %\"\n")],
    );
    check("revision", "2", &[("# first\n", "# first\nrevision = 2\n")]);
    check(
        "inside.0.weight",
        "60 g",
        &[("count = 2\n", "count = 2\nweight = \"60 g\"\n")],
    );
    check(
        "inside.1.size.c",
        "x",
        &[("2 mm\" }", "2 mm\", c = \"x\" }")],
    );
}

#[test]
fn a_new_table_stands_below_its_parent_or_at_the_end() {
    check(
        "box.vent.diameter",
        "50 mm",
        &[("# ok\n", "# ok\n\n[box.vent]\ndiameter = \"50 mm\"\n")],
    );
    check(
        "place.stands",
        "wall",
        &[("2 mm\" }\n", "2 mm\" }\n\n[place]\nstands = \"wall\"\n")],
    );
    check(
        "inside.2.name",
        "handle",
        &[("2 mm\" }\n", "2 mm\" }\n\n[[inside]]\nname = \"handle\"\n")],
    );
}

const LISTS: &str = "\
[[drivers]]
at = [\"90 x 100 mm\", \"270 x 100 mm\"]  # in a row

[[drivers]]
at = \"180 x 100 mm\"

[box.vent]
at = [
    \"240 x 270 mm\", # left
    \"360 x 270 mm\"  # right
]
";

#[track_caller]
fn check_list(path: &str, new: Option<&str>, old: &str, now: &str) {
    let expected = LISTS.replacen(old, now, 1);
    assert_ne!(expected, LISTS, "{old}");
    let edited = match new {
        Some(new) => set_value(LISTS, &key_path(path), new),
        None => remove_value(LISTS, &key_path(path)),
    };
    assert_eq!(edited, Ok(expected));
}

#[test]
fn one_of_a_list_is_replaced_added_and_taken_out() {
    check_list("drivers.0.at.1", Some("280 mm"), "270 x 100 mm", "280 mm");
    check_list("drivers.0.at.2", Some("3"), "0 mm\"]", "0 mm\", 3]");
    check_list("drivers.0.at.1", None, ", \"270 x 100 mm\"", "");
    check_list("drivers.0.at.0", None, "\"90 x 100 mm\", ", "");
}

#[test]
fn a_text_is_a_list_of_one() {
    check_list("drivers.1.at.0", Some("190 mm"), "180 x 100 mm", "190 mm");
    let more = set_value(LISTS, &key_path("drivers.1.at.1"), "1 mm");
    assert_eq!(more, Err(EditError::NoSuchPlace));
    let none = remove_value(LISTS, &key_path("drivers.1.at.0"));
    assert_eq!(none, Err(EditError::Impossible));
}

#[test]
fn lists_with_a_line_for_each_keep_their_remarks() {
    check_list(
        "box.vent.at.2",
        Some("300 mm"),
        "360 x 270 mm\"  # right\n",
        "360 x 270 mm\",  # right\n    \"300 mm\"\n",
    );
    check_list("box.vent.at.0", None, "    \"240 x 270 mm\", # left\n", "");
    check_list("box.vent.at.1", None, "    \"360 x 270 mm\"  # right\n", "");
}

#[test]
fn a_new_list_is_written_with_its_first_element() {
    check_list(
        "box.vent.size.0",
        Some("1 mm"),
        "# right\n]\n",
        "# right\n]\nsize = [\"1 mm\"]\n",
    );
    check_list(
        "drivers.2.at.0",
        Some("1 mm"),
        "\"180 x 100 mm\"\n",
        "\"180 x 100 mm\"\n\n[[drivers]]\nat = [\"1 mm\"]\n",
    );
    let empty = "a = []\nb = [ ] # none\n";
    let set = |path| set_value(empty, &key_path(path), "x");
    assert_eq!(set("a.0").as_deref(), Ok("a = [\"x\"]\nb = [ ] # none\n"));
    assert_eq!(set("b.0").as_deref(), Ok("a = []\nb = [\"x\" ] # none\n"));
    assert_eq!(set("b.1"), Err(EditError::NoSuchPlace));
}

#[test]
fn a_new_entry_follows_the_last_of_its_list() {
    let text = "[[brace]]\nname = \"a\"\n\n[control]\non = \"top\"\n\n[[control.part]]\npart = \"x\"\n\n[saw]\n";
    let set = |path, new| set_value(text, &key_path(path), new).unwrap();
    assert_eq!(
        set("brace.1.name", "b"),
        text.replacen("\"a\"\n", "\"a\"\n\n[[brace]]\nname = \"b\"\n", 1)
    );
    assert_eq!(
        set("control.part.1.part", "y"),
        text.replacen("\"x\"\n", "\"x\"\n\n[[control.part]]\npart = \"y\"\n", 1)
    );
    assert_eq!(set("saw.kerf", "3 mm"), format!("{text}kerf = \"3 mm\"\n"));
    let nested = set_value(text, &key_path("box.joint.0.edge"), "front-top");
    assert_eq!(nested, Err(EditError::NoSuchPlace), "there is no [box]");
}

#[test]
fn what_cannot_be_set_is_refused() {
    let refused = |path: &str| set_value(TEXT, &key_path(path), "1").unwrap_err();
    assert_eq!(refused("brief"), EditError::NotAValue);
    assert_eq!(refused("brief.distance.deep"), EditError::NoSuchPlace);
    assert_eq!(refused("inside.7.name"), EditError::NoSuchPlace);
    assert_eq!(refused("inside.1.size"), EditError::NotAValue);
    assert_eq!(set_value(TEXT, &[], "1"), Err(EditError::NotAValue));
    assert_eq!(
        set_value("a = ", &key_path("a"), "1"),
        Err(EditError::Unreadable)
    );
}

#[test]
fn taking_out_a_value_takes_its_line() {
    check_removed("brief.distance", "distance = \"3 m\"  # on the grass\n");
    check_removed("inside.1.size.a", "a = 1, ");
    check_removed("inside.1.size.b", ", b = \"2 mm\"");
}

#[test]
fn taking_out_a_table_takes_its_lines() {
    check_removed("inside.0", "[[inside]]\nname = \"brace\"\ncount = 2\n\n");
    check_removed(
        "box",
        "[box]\n    kind = \"sealed\"\n    leak = \"usual\" # ok\n\n",
    );
    check_removed(
        "inside.1",
        "\n[[inside]]\nname = \"jack\"\nsize = { a = 1, b = \"2 mm\" }\n",
    );
    assert_eq!(
        remove_value(TEXT, &key_path("box.vent")),
        Err(EditError::Absent)
    );
}

#[test]
fn windows_line_ends_stay() {
    let text = TEXT.replace('\n', "\r\n");
    let edited = set_value(&text, &key_path("brief.runtime"), "8 h").unwrap();
    assert_eq!(
        edited,
        text.replace("85 dB'\r\n", "85 dB'\r\nruntime = \"8 h\"\r\n")
    );
}

#[test]
fn a_text_without_last_line_end_is_continued() {
    let check = |text: &str, path: &str, expected: &str| {
        assert_eq!(
            set_value(text, &key_path(path), "1 m").as_deref(),
            Ok(expected)
        );
    };
    check("[a]\nb = 2", "a.c", "[a]\nb = 2\nc = \"1 m\"");
    check("[a]", "a.c", "[a]\nc = \"1 m\"");
    check("[a]\nb = 2", "d.c", "[a]\nb = 2\n\n[d]\nc = \"1 m\"\n");
    check("[a]\nb = 2", "c", "c = \"1 m\"\n[a]\nb = 2");
    check("", "c", "c = \"1 m\"\n");
    check("a.b = 2\n", "a.c", "a.b = 2\na.c = \"1 m\"\n");
    check("[x]\na.b = 2\n", "x.a.c", "[x]\na.b = 2\na.c = \"1 m\"\n");
    check(
        "[a.b]\nx = 2\n",
        "a.c",
        "[a.b]\nx = 2\n\n[a]\nc = \"1 m\"\n",
    );
}

#[test]
fn a_place_leads_back_to_its_path() {
    let check = |needle: &str, path: &str| {
        let start = TEXT.find(needle).unwrap();
        let place = Place {
            file: FileId::Design,
            start,
            end: start + needle.len(),
        };
        assert_eq!(path_at(TEXT, place), Some(key_path(path)), "{needle}");
    };
    check("\"3 m\"", "brief.distance");
    check("3 m", "brief.distance");
    check("kind", "box.kind");
    check("[box]", "box");
    check("\"jack\"", "inside.1.name");
    check("2 mm", "inside.1.size.b");
    check("count", "inside.0.count");
    let outside = Place {
        file: FileId::Design,
        start: 0,
        end: 3,
    };
    assert_eq!(path_at(TEXT, outside), None);
}

#[test]
fn values_are_read_where_they_stand() {
    let text = "a = \"1 \\u0041\"\nb = [\"x\", 'y']\n[[c]]\nd = 0x1F # no\n";
    let at = |path| value_at(text, &key_path(path));
    assert_eq!(at("a").as_deref(), Some("1 A"));
    assert_eq!(at("b.1").as_deref(), Some("y"));
    assert_eq!(at("c.0.d").as_deref(), Some("0x1F"));
    for absent in ["b", "c", "c.0", "c.1.d", "x", "a.b", ""] {
        assert_eq!(at(absent), None, "{absent}");
    }
}

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

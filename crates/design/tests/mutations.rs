//! Twenty thousand damaged files: no panic, and every error located.

use boxwright_design::{
    BUILT_IN_SHELF, DIAGNOSTIC_CODES, Diagnostic, FileId, key_path, path_at, read, remove_value,
    set_value,
};

const DESIGNS: [&str; 3] = [
    include_str!("../../../examples/bathing-beach/design.toml"),
    include_str!("../../../examples/workshop-mono/design.toml"),
    include_str!("../../../examples/salvage-party/design.toml"),
];
const SHELF: &str = include_str!("../../../examples/salvage-party/shelf.toml");

const COUNT: u64 = 20_000;

/// A small generator of our own, so that the same files are damaged the same
/// way on every machine (splitmix64).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, bound: usize) -> usize {
        (self.roll() % bound.max(1) as u64) as usize
    }

    fn pick<'a, T: ?Sized>(&mut self, list: &[&'a T]) -> &'a T {
        list[self.below(list.len())]
    }
}

const NUMBERS: &[&str] = &[
    "0",
    "-1",
    "1e999",
    "-0",
    "99999999999999999999",
    "0.0000001",
    "nan",
    "inf",
    "1/0",
    "1/3",
    "3 1/2",
    "½",
    "1,5",
    "1,234",
    "1.2.3",
    "0x10",
    "1e",
    "-",
    "",
    "1_000",
    "4294967296",
    "4k7",
    "+5",
    "−3",
    "1e-400",
    "179769313486231570000000000000000000000e300",
];

const UNITS: &[&str] = &[
    "mm", "L", "Hz", "%", "dB", "dB(A)", "€", "xyz", "", "\"", "'", "Ω", "µF", "x", "±", "± 10 %",
    "± 200 %", "about", "mm x", "kg", "°F", "\u{0}", "\u{feff}", "🔊", "e\u{301}", "\u{202e}",
];

const SCRAPS: &[&str] = &[
    "[",
    "]",
    "[[",
    "]]",
    "{",
    "}",
    "=",
    "\"",
    "\"\"\"",
    "'''",
    "#",
    "\n",
    "\r",
    "\r\n",
    ".",
    ",",
    "\\",
    "\\u0000",
    "\\ud800",
    "[box]\n",
    "[[inside]]\n",
    "format = 2\n",
    "a.b.c = 1\n",
    "[a.b.c.d]\n",
    "x = {a = {b = {c = 1}}}\n",
    "é",
    "\u{1f600}",
    "\u{80}",
    "true",
    "1979-05-27",
];

fn damaged(dice: &mut Dice, text: &str) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for _ in 0..=dice.below(4) {
        damage(dice, &mut bytes);
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

fn damage(dice: &mut Dice, bytes: &mut Vec<u8>) {
    let at = dice.below(bytes.len());
    let length = dice.below(12).min(bytes.len() - at);
    match dice.below(10) {
        0 => drop(bytes.drain(at..at + length)),
        1 => insert(bytes, at, dice.pick(SCRAPS).as_bytes()),
        2 => {
            for byte in &mut bytes[at..at + length] {
                *byte = (dice.roll() & 0xff) as u8;
            }
        }
        3 => lines(dice, bytes, |lines, i, j| lines.swap(i, j)),
        4 => lines(dice, bytes, |lines, i, j| lines.insert(i, lines[j].clone())),
        5 => lines(dice, bytes, |lines, i, _| drop(lines.remove(i))),
        6 => replace_run(bytes, at, dice.pick(NUMBERS), |b| {
            b.is_ascii_digit() || b == b'.'
        }),
        7 => replace_run(bytes, at, dice.pick(UNITS), |b| {
            b.is_ascii_alphabetic() || b >= 0x80 || b == b'%'
        }),
        8 => {
            let from = dice.below(bytes.len());
            let scrap = bytes[from..(from + 40).min(bytes.len())].to_vec();
            insert(bytes, at, &scrap);
        }
        _ => {
            let other = dice.pick(&DESIGNS).as_bytes();
            let from = dice.below(other.len());
            bytes.truncate(at);
            bytes.extend_from_slice(&other[from..]);
        }
    }
    if bytes.is_empty() {
        bytes.push(b'\n');
    }
}

fn insert(bytes: &mut Vec<u8>, at: usize, scrap: &[u8]) {
    bytes.splice(at..at, scrap.iter().copied());
}

fn lines(dice: &mut Dice, bytes: &mut Vec<u8>, change: impl Fn(&mut Vec<Vec<u8>>, usize, usize)) {
    let mut lines: Vec<Vec<u8>> = bytes.split(|b| *b == b'\n').map(<[u8]>::to_vec).collect();
    let (i, j) = (dice.below(lines.len()), dice.below(lines.len()));
    change(&mut lines, i, j);
    *bytes = lines.join(&b'\n');
}

/// Replaces the run of such bytes next after `at`.
fn replace_run(bytes: &mut Vec<u8>, at: usize, new: &str, such: impl Fn(u8) -> bool) {
    let Some(start) = (at..bytes.len()).find(|i| such(bytes[*i])) else {
        return;
    };
    let end = (start..bytes.len())
        .find(|i| !such(bytes[*i]))
        .unwrap_or(bytes.len());
    bytes.splice(start..end, new.bytes());
}

fn assert_located(found: &[Diagnostic], design: &str, shelf: &str) {
    for d in found {
        let text = match d.place.file {
            FileId::Design => design,
            FileId::Shelf => shelf,
            FileId::BuiltIn => panic!("the built-in shelf is never at fault: {d:?}"),
        };
        assert!(DIAGNOSTIC_CODES.contains(&d.code), "{d:?}");
        assert!(
            d.place.start <= d.place.end && d.place.end <= text.len(),
            "{d:?}"
        );
        assert!(text.is_char_boundary(d.place.start), "{d:?}");
        assert!(text.is_char_boundary(d.place.end), "{d:?}");
        for said in [&d.message, &d.label, &d.mend] {
            assert!(!said.trim().is_empty(), "{d:?}");
            assert!(!said.contains('\n'), "{d:?}");
        }
    }
}

fn edit_without_harm(dice: &mut Dice, text: &str, found: &[Diagnostic]) {
    let path = key_path(dice.pick(&[
        "brief.distance",
        "box.vent.diameter",
        "box.thickness",
        "inside.0.weight",
        "inside.1",
        "drivers.0.count",
        "drivers.0.at.1",
        "drivers.0.at.2",
        "box.vent.at.0",
        "brace.1.name",
        "control.part.3.at",
        "place.ears",
        "name",
    ]));
    if let Ok(edited) = set_value(text, &path, "7 mm") {
        assert!(edited.contains("7 mm"));
    }
    let _ = remove_value(text, &path);
    for d in found.iter().filter(|d| d.place.file == FileId::Design) {
        let _ = path_at(text, d.place);
    }
}

#[test]
fn damaged_files_are_read_without_panic_and_every_error_is_located() {
    let mut dice = Dice(0x0b0c_5eed);
    let (mut clean, mut broken) = (0, 0);
    for round in 0..COUNT {
        let whole_design = dice.pick(&DESIGNS);
        let (design, shelf) = match round % 16 {
            0 => (DESIGNS[2].to_owned(), damaged(&mut dice, BUILT_IN_SHELF)),
            1..4 => (whole_design.to_owned(), damaged(&mut dice, SHELF)),
            _ => (damaged(&mut dice, whole_design), SHELF.to_owned()),
        };
        match read(&design, Some(&shelf)) {
            Ok(project) => {
                clean += 1;
                assert!(!project.design.drivers.is_empty());
            }
            Err(found) => {
                broken += 1;
                assert!(
                    !found.is_empty(),
                    "refused without a word:\n{design}\n---\n{shelf}"
                );
                assert_located(&found, &design, &shelf);
                if round % 8 == 7 {
                    edit_without_harm(&mut dice, &design, &found);
                }
            }
        }
    }
    // Both outcomes must be common, or the damage tests nothing.
    assert!(clean > COUNT / 50, "{clean} clean");
    assert!(broken > COUNT / 2, "{broken} broken");
}

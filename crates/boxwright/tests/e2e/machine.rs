//! Files for machines, opened by general readers (ezdxf, trimesh, an XML
//! parser) and held against what `check --json` says of the same design.
//!
//! Lengths agree within 0.01 mm: finer than any workshop measures, and far
//! coarser than the micrometre the files are written to.

use crate::support::{EXAMPLES, Scratch, answer, example, names, python, root};
use serde_json::Value;
use std::f64::consts::PI;
use std::path::Path;
use std::process::Command;
use std::sync::OnceLock;

const WITHIN: f64 = 0.01;
/// How far facets of round holes lie within them, in mm, as the pack states.
const CHORD: f64 = 0.01;

/// A pack of one example, with what was read back from it.
struct Pack {
    name: &'static str,
    report: Value,
    /// Name of each file for machines, and what a reader says of it.
    files: Vec<(String, Value)>,
}

/// Every example's pack; the readers are slow to start, so each is read once.
fn packs() -> &'static [Pack] {
    static PACKS: OnceLock<Vec<Pack>> = OnceLock::new();
    PACKS.get_or_init(|| EXAMPLES.into_iter().map(Pack::of).collect())
}

impl Pack {
    fn of(name: &'static str) -> Self {
        let scratch = Scratch::new();
        let folder = scratch.path("pack");
        answer(&["pack", "--builds=0", &example(name), "--out", &folder]);
        let report = std::fs::read_to_string(format!("{folder}/check.json")).unwrap();
        let within = |inner: &'static str| {
            let names = names(Path::new(&format!("{folder}/{inner}")));
            names.into_iter().map(move |name| format!("{inner}/{name}"))
        };
        let found: Vec<String> = within("cut").chain(within("solid")).collect();
        let output = Command::new(python())
            .arg(root().join("crates/boxwright/tests/e2e/read_back.py"))
            .args(&found)
            .current_dir(&folder)
            .output()
            .expect("run ./check once: it puts the Python packages in place");
        let complaint = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{complaint}");
        let said = String::from_utf8(output.stdout).unwrap();
        let read: Vec<Value> = said
            .lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect();
        assert_eq!(read.len(), found.len());
        Self {
            name,
            report: serde_json::from_str(&report).unwrap(),
            files: found.into_iter().zip(read).collect(),
        }
    }

    /// What was read of the files that begin and end so.
    fn read(&self, begin: &str, end: &str) -> Vec<&Value> {
        self.files
            .iter()
            .filter(|(name, _)| name.starts_with(begin) && name.ends_with(end))
            .map(|(_, read)| read)
            .collect()
    }

    fn one(&self, begin: &str, end: &str) -> &Value {
        let read = self.read(begin, end);
        assert_eq!(read.len(), 1, "{begin}…{end}");
        read[0]
    }

    fn panels(&self) -> &Vec<Value> {
        self.report["carpentry"]["panels"].as_array().unwrap()
    }
}

fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("{value} is no number"))
}

fn mm(value: &Value) -> f64 {
    1000.0 * number(value)
}

/// Two lengths in mm.
fn pair(value: &Value) -> [f64; 2] {
    [mm(&value[0]), mm(&value[1])]
}

fn same(found: &[f64], wanted: &[f64]) -> bool {
    found.len() == wanted.len()
        && found
            .iter()
            .zip(wanted)
            .all(|(a, b)| (a - b).abs() < WITHIN)
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

fn file_of(folder: &str, panel: &Value) -> String {
    let letter = panel["letter"].as_str().unwrap().to_lowercase();
    format!("{folder}/panel-{letter}-")
}

fn entities<'a>(file: &'a Value, kind: &str, layers: &[&str]) -> Vec<&'a Value> {
    let all = file["entities"].as_array().unwrap().iter();
    all.filter(|e| e["kind"] == kind && layers.iter().any(|layer| e["layer"] == *layer))
        .collect()
}

/// One hole of the list is in the file: a true circle, or a closed outline as large.
fn has_hole(file: &Value, hole: &Value, layers: &[&str]) -> bool {
    let at = pair(&hole["at"]);
    if hole["form"] == "circle" {
        let circles = entities(file, "CIRCLE", layers);
        return circles.iter().any(|circle| {
            same(&numbers(&circle["at"]), &at)
                && same(&[number(&circle["diameter"])], &[mm(&hole["diameter"])])
        });
    }
    let half = [mm(&hole["width"]) / 2.0, mm(&hole["height"]) / 2.0];
    let low = [at[0] - half[0], at[1] - half[1]];
    let high = [at[0] + half[0], at[1] + half[1]];
    entities(file, "POLYLINE", layers).iter().any(|outline| {
        outline["closed"] == true
            && same(&numbers(&outline["low"]), &low)
            && same(&numbers(&outline["high"]), &high)
    })
}

#[test]
fn a_general_reader_finds_no_fault_in_any_drawing() {
    for pack in packs() {
        for file in pack.read("cut/", ".dxf") {
            assert_eq!(file["version"], "AC1009");
            assert_eq!(file["faults"], Value::Array(Vec::new()), "{}", pack.name);
            let known = [
                "0",
                "CUT",
                "DRILL",
                "POCKET",
                "ETCH",
                "MARK",
                "DRAWING",
                "Defpoints",
            ];
            for layer in file["layers"].as_array().unwrap() {
                assert!(known.iter().any(|known| layer == known), "{layer}");
            }
            for entity in file["entities"].as_array().unwrap() {
                assert!(entity["kind"] == "CIRCLE" || entity["kind"] == "POLYLINE");
            }
        }
    }
}

#[test]
fn panels_read_back_as_listed() {
    let mut holes_seen = 0;
    for pack in packs() {
        for panel in pack.panels() {
            let file = pack.one(&file_of("cut", panel), ".dxf");
            let long = pair(&panel["long"]);
            let outline = entities(file, "POLYLINE", &["CUT"])
                .into_iter()
                .find(|e| {
                    same(&numbers(&e["high"]), &long) && same(&numbers(&e["low"]), &[0.0, 0.0])
                })
                .unwrap_or_else(|| panic!("{} {}: no outline", pack.name, panel["name"]));
            assert_eq!(outline["closed"], true);
            let holes = panel["holes"].as_array().unwrap();
            for hole in holes {
                let drilled = hole["form"] == "circle" && number(&hole["diameter"]) <= 0.013;
                let layer = match (hole["pocket"].is_null(), drilled) {
                    (false, _) => "POCKET",
                    (true, true) => "DRILL",
                    (true, false) => "CUT",
                };
                assert!(
                    has_hole(file, hole, &[layer]),
                    "{} {}: {hole}",
                    pack.name,
                    panel["name"]
                );
            }
            let worked = ["CUT", "DRILL", "POCKET"];
            let closed =
                entities(file, "CIRCLE", &worked).len() + entities(file, "POLYLINE", &worked).len();
            assert_eq!(closed, holes.len() + 1, "nothing else is cut");
            holes_seen += holes.len();
        }
    }
    assert!(holes_seen > 20, "{holes_seen}");
}

/// Scalable drawings carry the same holes, y downwards, at their true size.
#[test]
fn scalable_drawings_are_in_millimetres() {
    for pack in packs() {
        for panel in pack.panels() {
            let file = pack.one(&file_of("cut", panel), ".svg");
            let long = pair(&panel["long"]);
            let sides = ["width", "height"].map(|side| {
                let text = file[side].as_str().unwrap().strip_suffix("mm").unwrap();
                text.parse::<f64>().unwrap()
            });
            assert!(same(&sides, &long), "{sides:?} {long:?}");
            assert!(same(&numbers(&file["view"]), &[0.0, 0.0, long[0], long[1]]));
            assert_eq!(file["texts"], 0, "letters are strokes");
            let circles = file["circles"].as_array().unwrap();
            let round = panel["holes"].as_array().unwrap().iter();
            for hole in round.filter(|hole| hole["form"] == "circle") {
                let [x, y] = pair(&hole["at"]);
                let wanted = [x, long[1] - y];
                assert!(circles.iter().any(|circle| {
                    same(&numbers(&circle["at"]), &wanted)
                        && same(&[number(&circle["diameter"])], &[mm(&hole["diameter"])])
                }));
            }
        }
    }
}

#[test]
fn the_control_panel_reads_back_as_designed() {
    let mut plates = 0;
    for pack in packs() {
        let control = &pack.report["carpentry"]["control"];
        if control.is_null() {
            continue;
        }
        plates += 1;
        for file in ["cut/control-panel.dxf", "cut/control-panel-outlined.dxf"] {
            let file = pack.one(file, ".dxf");
            let size = pair(&control["size"]);
            let outline = |e: &&Value| same(&numbers(&e["high"]), &size) && e["closed"] == true;
            assert!(entities(file, "POLYLINE", &["CUT"]).iter().any(outline));
            for hole in control["holes"].as_array().unwrap() {
                assert!(has_hole(file, hole, &["CUT"]), "{hole}");
            }
            for screw in control["screws"].as_array().unwrap() {
                let mut hole = screw.clone();
                hole["form"] = Value::from("circle");
                assert!(has_hole(file, &hole, &["CUT"]), "{screw}");
            }
            let etched = entities(file, "POLYLINE", &["ETCH"]);
            assert!(!etched.is_empty());
            for line in etched {
                let (low, high) = (numbers(&line["low"]), numbers(&line["high"]));
                let within = low.iter().all(|c| *c >= 0.0)
                    && high.iter().zip(size).all(|(c, side)| *c <= side);
                assert!(within, "letters stay on the plate");
            }
        }
    }
    assert!(plates > 0, "an example has a control panel");
}

#[test]
fn sawing_layouts_read_back_cut_by_cut() {
    for pack in packs() {
        let wanted: Vec<&Value> = pack.report["carpentry"]["sheets"]
            .as_array()
            .unwrap()
            .iter()
            .flat_map(|sheet| sheet["layouts"].as_array().unwrap())
            .collect();
        let files = pack.read("cut/layout-", ".dxf");
        assert_eq!(files.len(), wanted.len());
        for layout in wanted {
            let cuts = layout["cuts"].as_array().unwrap();
            let is_it = |file: &Value| {
                let lines = entities(file, "POLYLINE", &["CUT"]);
                lines.len() == cuts.len()
                    && cuts.iter().all(|cut| {
                        let ends = [pair(&cut["from"]), pair(&cut["to"])];
                        lines.iter().any(|line| {
                            let corners = line["corners"].as_array().unwrap();
                            let end = |k: usize| numbers(&corners[k])[..2].to_vec();
                            same(&end(0), &ends[0]) && same(&end(1), &ends[1])
                        })
                    })
            };
            assert!(
                files.iter().any(|file| is_it(file)),
                "{}: {}",
                pack.name,
                layout["stock"]
            );
        }
    }
}

/// A polygon within a circle leaves at most perimeter × chord of its area uncut.
fn uncut(panel: &Value) -> f64 {
    let thick = mm(&panel["thickness"]);
    let around = panel["holes"].as_array().unwrap().iter().map(|hole| {
        if hole["form"] == "circle" {
            PI * mm(&hole["diameter"])
        } else {
            2.0 * PI * mm(&hole["corner"])
        }
    });
    around.sum::<f64>() * CHORD * thick
}

#[test]
fn solids_are_closed_and_hold_as_much_wood_as_listed() {
    for pack in packs() {
        let (mut all, mut open) = (0.0, 0.0);
        for panel in pack.panels() {
            let solid = pack.one(&file_of("solid", panel), ".stl");
            assert_eq!(solid["watertight"], true, "{} {}", pack.name, panel["name"]);
            assert_eq!(solid["wound"], true);
            let volume = 1e9 * number(&panel["volume"]);
            let off = number(&solid["volume"]) - volume;
            // Single precision keeps a box to a part in a million.
            let least = -2e-6 * volume;
            assert!(
                off > least && off < uncut(panel) - least,
                "{} {}: {off} mm³",
                pack.name,
                panel["name"]
            );
            let count = number(&panel["count"]);
            all += count * volume;
            open += count * uncut(panel);
        }
        let whole = pack.one("solid/box", ".stl");
        assert_eq!(whole["closed"], true);
        let off = number(&whole["volume"]) - all;
        assert!(
            off.abs() < open + 2e-6 * all,
            "{}: {off} mm³ of {all}",
            pack.name
        );
        let [w, h, d] = [0, 1, 2].map(|axis| mm(&pack.report["accounts"]["outside"][axis]));
        assert!(same(&numbers(&whole["low"]), &[0.0; 3]), "{}", pack.name);
        assert!(
            same(&numbers(&whole["high"]), &[w, d, h]),
            "{}: {}",
            pack.name,
            whole["high"]
        );
    }
}

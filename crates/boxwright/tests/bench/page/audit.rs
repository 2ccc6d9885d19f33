//! An automatic audit of accessibility (axe-core, as a Python package carries it).

use super::Open;
use serde_json::Value;
use std::process::Command;

/// The audit's script, from the Python packages for the tests.
fn script() -> String {
    let python = std::env::var("BOXWRIGHT_PYTHON").unwrap_or_else(|_| "python3".into());
    let find = "import axe_core_python, pathlib; \
        print(next(pathlib.Path(axe_core_python.__file__).parent.rglob('axe.min.js')))";
    let found = Command::new(python)
        .args(["-c", find])
        .output()
        .expect("Python runs");
    let path = String::from_utf8(found.stdout).unwrap();
    std::fs::read_to_string(path.trim()).expect("axe-core-python is installed: ./check does so")
}

const RUN: &str = "axe.run(document, { resultTypes: ['violations'] }).then((found) => found.violations
    .filter((v) => v.impact === 'serious' || v.impact === 'critical')
    .map((v) => v.id + ': ' + v.nodes.slice(0, 3).map((n) => n.target.join(' ') + ' ' + (n.any[0]?.message ?? n.all[0]?.message ?? n.none[0]?.message ?? '')).join(' | ')))";

#[test]
fn no_sheet_has_a_serious_finding_in_either_theme() {
    let script = script();
    let mut open = Open::example("workshop-mono");
    open.whole();
    for (index, sheet) in [
        "parts", "sound", "power", "box", "cuts", "panel", "wires", "build",
    ]
    .iter()
    .enumerate()
    {
        open.go(&format!("?sheet={sheet}"));
        open.page
            .eval("for (const d of document.querySelectorAll('details')) d.open = true;");
        open.page.eval(&format!("{script}; 1"));
        for dark in [false, true] {
            if dark && index > 1 {
                continue;
            }
            open.page.dark(dark);
            let found = open.page.eval(RUN);
            assert_eq!(found, Value::Array(Vec::new()), "{sheet}, dark: {dark}");
        }
    }
    open.finish();
}

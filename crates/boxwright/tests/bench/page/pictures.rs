//! Pictures of the page for the documents: drawn anew by `tools/pictures`.

use super::Open;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

/// Writes base64 to a file by the machine's own tool.
fn written(path: &Path, base64: &str) {
    use std::io::Write;
    let file = fs::File::create(path).unwrap();
    let mut tool = Command::new("base64")
        .arg("-d")
        .stdin(Stdio::piped())
        .stdout(file)
        .spawn()
        .unwrap();
    tool.stdin
        .take()
        .unwrap()
        .write_all(base64.as_bytes())
        .unwrap();
    assert!(tool.wait().unwrap().success());
}

#[test]
#[ignore = "draws the pictures of the documents; run by tools/pictures"]
fn pictures_of_every_sheet() {
    let folder = std::env::var("BOXWRIGHT_PICTURES").expect("the folder to draw into");
    let mut open = Open::with_builds("bathing-beach");
    let views = [
        ("parts", 1280, false),
        ("sound", 1280, false),
        ("power", 1280, true),
        ("box", 1280, false),
        ("cuts", 1280, true),
        ("panel", 1280, false),
        ("wires", 1280, true),
        ("build", 400, false),
    ];
    for (sheet, width, dark) in views {
        open.page.size(width, if width < 800 { 900 } else { 1000 });
        open.page.dark(dark);
        open.go(&format!("?sheet={sheet}"));
        // Every build is drawn, every mend and every other part tried, and the page shows it.
        open.rested();
        open.page.eval(
            "new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)))",
        );
        let picture = open.page.picture(false);
        written(
            &Path::new(&folder).join(format!("bench-{sheet}.png")),
            &picture,
        );
    }
    open.finish();
}

//! Colours, pipes, width.

use crate::support::{EXAMPLES, FEW, Scratch, answer, boxwright, command, example, ran, root};
use std::io::Read;
use std::process::{Command, Stdio};

const ESCAPE: char = '\u{1b}';

#[test]
fn a_pipe_gets_no_colours() {
    for arguments in [
        &["check", FEW, "examples/salvage-party"][..],
        &["shelf"],
        &["explain"],
    ] {
        assert!(!answer(arguments).contains(ESCAPE), "{arguments:?}");
    }
    assert!(!boxwright(&["check", "nowhere.toml"]).err.contains(ESCAPE));
}

#[test]
fn colours_can_be_asked_for_and_forbidden() {
    let arguments = ["check", FEW, "examples/salvage-party"];
    let plain = answer(&arguments);
    let forced = ran(command(&arguments).env("CLICOLOR_FORCE", "1")).out;
    assert!(forced.contains(ESCAPE));
    let forbidden = ran(command(&arguments)
        .env("CLICOLOR_FORCE", "1")
        .env("NO_COLOR", "1"))
    .out;
    assert_eq!(forbidden, plain);
    // Colours are an extra: the words stay the same without them.
    assert_eq!(without_escapes(&forced), plain);
}

#[test]
fn mistakes_are_coloured_only_when_asked_for() {
    let arguments = ["check", "crates/design/tests/broken/unit-wrong.toml"];
    let coloured = ran(command(&arguments).env("CLICOLOR_FORCE", "1")).err;
    assert!(coloured.contains(ESCAPE));
    let forbidden = ran(command(&arguments)
        .env("CLICOLOR_FORCE", "1")
        .env("NO_COLOR", "1"))
    .err;
    assert!(!forbidden.contains(ESCAPE));
}

fn without_escapes(text: &str) -> String {
    let mut parts = text.split(ESCAPE);
    let first = parts.next().unwrap().to_owned();
    parts.fold(first, |out, part| out + part.split_once('m').unwrap().1)
}

/// What a terminal shows; `script` of util-linux plays one.
fn on_a_terminal(arguments: &str, no_colour: Option<&str>) -> String {
    let mut script = Command::new("script");
    let line = format!("{} {arguments}", env!("CARGO_BIN_EXE_boxwright"));
    script.args(["-q", "-e", "-c", &line, "/dev/null"]);
    script
        .current_dir(root())
        .env("TERM", "xterm")
        .stdin(Stdio::null());
    script.env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE");
    if let Some(value) = no_colour {
        script.env("NO_COLOR", value);
    }
    let output = script.output().expect("script of util-linux");
    String::from_utf8(output.stdout).unwrap()
}

/// On a terminal that knows colours they come by themselves.
#[test]
fn a_terminal_gets_colours_and_no_colour_is_respected() {
    let told = |no_colour| on_a_terminal("explain", no_colour);
    assert!(told(None).contains(ESCAPE));
    assert!(
        told(Some("")).contains(ESCAPE),
        "an empty NO_COLOR says nothing"
    );
    assert!(!told(Some("1")).contains(ESCAPE));
}

/// What a design says does not steer the terminal it is shown on.
#[test]
fn hidden_characters_of_a_design_stay_out_of_the_terminal() {
    let scratch = Scratch::new();
    let path = scratch.copied("bathing-beach");
    let text = std::fs::read_to_string(&path).unwrap();
    let line = text
        .lines()
        .find(|line| line.starts_with("name = "))
        .unwrap();
    let named = text.replacen(line, r#"name = "box\u001b[2J\u202e\u0007""#, 1);
    let shown = answer(&["check", FEW, &scratch.file("named.toml", named)]);
    assert!(
        shown.starts_with("box\u{fffd}[2J\u{fffd}\u{fffd}"),
        "{shown}"
    );
    let raw = text.replacen(line, "name = \"box\u{1b}]0;x\u{7}\u{202e}\" oops", 1);
    let ran = boxwright(&["check", &scratch.file("raw.toml", raw)]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("box?]0;x?"), "{}", ran.err);
    let hidden = |c: char| c != '\n' && (c.is_control() || c == '\u{202e}');
    assert!(!shown.contains(hidden) && !ran.err.contains(hidden));
}

#[test]
fn answers_fit_eighty_columns() {
    for name in EXAMPLES {
        for line in answer(&["check", "--figures", FEW, &example(name)]).lines() {
            assert!(line.chars().count() <= 80, "{name}: {line}");
        }
    }
    for arguments in [&["shelf"][..], &["explain"], &["explain", "travel"]] {
        for line in answer(arguments).lines() {
            assert!(line.chars().count() <= 80, "{arguments:?}: {line}");
        }
    }
}

/// Whoever has read enough may hang up.
#[test]
fn a_broken_pipe_is_no_fault() {
    let design = example("bathing-beach");
    let mut child = command(&["check", "--json", FEW, &design])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut begin = [0; 10];
    child.stdout.take().unwrap().read_exact(&mut begin).unwrap();
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
}

/// What takes over a second shows how far it is, to whoever looks.
#[test]
fn progress_is_drawn_on_a_terminal_and_not_into_a_pipe() {
    let design = example("salvage-party");
    let arguments = ["check", "--builds=20000", &design];
    let piped = boxwright(&arguments);
    assert_eq!((piped.status, piped.err.as_str()), (0, ""));
    let shown = on_a_terminal(&arguments.join(" "), None);
    assert!(shown.contains(" of 20000 builds"), "{shown}");
    assert!(!on_a_terminal(&format!("check {FEW} {design}"), None).contains(" builds █"));
}

//! `boxwright export`.

use crate::support::{FEW, Scratch, answer, boxwright, example};
use serde_json::Value;
use std::fs;
use std::process::Command;

#[test]
fn curves_as_a_table_and_as_json_agree() {
    let design = example("salvage-party");
    let table = answer(&["export", "--curves", FEW, &design]);
    let json: Value =
        serde_json::from_str(&answer(&["export", "--curves", "--json", FEW, &design])).unwrap();
    let mut lines = table.split("\r\n");
    let headings: Vec<&str> = lines.next().unwrap().split(',').collect();
    let first: Vec<&str> = lines.next().unwrap().split(',').collect();
    assert_eq!(headings.len(), first.len());
    for curve in json["curves"].as_array().unwrap() {
        for (what, key) in [("this build", "y"), ("P10", "p10"), ("P90", "p90")] {
            let heading = format!(
                "{} {what} ({})",
                curve["id"].as_str().unwrap(),
                curve["unit"].as_str().unwrap()
            );
            let column = headings
                .iter()
                .position(|h| **h == *heading)
                .expect(&heading);
            assert_eq!(
                first[column].parse::<f64>().unwrap(),
                curve[key][0].as_f64().unwrap(),
                "{heading}"
            );
        }
    }
    assert_eq!(lines.filter(|line| !line.is_empty()).count(), 399);
}

#[test]
fn a_new_file_is_written_whole() {
    let scratch = Scratch::new();
    let out = scratch.path("net.cir");
    let design = example("bathing-beach");
    assert_eq!(answer(&["export", "--netlist", &design, "--out", &out]), "");
    assert_eq!(
        fs::read_to_string(&out).unwrap(),
        answer(&["export", "--netlist", &design])
    );
    assert_eq!(scratch.names(), ["net.cir"]);
    let ran = boxwright(&["export", "--netlist", &design, "--out", "/proc/net.cir"]);
    assert_eq!(ran.status, 2);
    assert!(
        ran.err.contains("cannot write /proc/net.cir"),
        "{}",
        ran.err
    );
}

#[test]
fn nothing_that_is_there_is_overwritten() {
    let scratch = Scratch::new();
    let design = scratch.copied("salvage-party");
    let shelf = scratch.path("shelf.toml");
    let other = scratch.file("old.csv", "mine");
    let detour = scratch.path("./design.toml");
    for out in [&design, &detour, &shelf, &other] {
        let before = fs::read(out).unwrap();
        for what in ["--netlist", "--curves"] {
            let ran = boxwright(&["export", what, FEW, &design, "--out", out]);
            assert_eq!((ran.status, ran.out.as_str()), (2, ""));
            let said = ran.err.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(
                said.contains("is already there and stays as it is"),
                "{said}"
            );
            assert_eq!(fs::read(out).unwrap(), before);
        }
    }
    assert_eq!(scratch.names(), ["design.toml", "old.csv", "shelf.toml"]);
}

#[cfg(unix)]
#[test]
fn a_device_takes_an_export() {
    let design = example("bathing-beach");
    let plain = answer(&["export", "--netlist", &design]);
    let out = answer(&["export", "--netlist", &design, "--out", "/dev/stdout"]);
    assert_eq!(out, plain);
}

/// The general circuit simulator takes every example's netlist as it is.
#[test]
fn a_circuit_simulator_runs_the_netlist() {
    for name in crate::support::EXAMPLES {
        let scratch = Scratch::new();
        let netlist = scratch.path("net.cir");
        answer(&["export", "--netlist", &example(name), "--out", &netlist]);
        let raw = scratch.path("net.raw");
        let output = Command::new("ngspice")
            .args(["-b", "-r", &raw, &netlist])
            .output();
        let output = output.expect("ngspice; ./check installs it");
        let said = String::from_utf8_lossy(&output.stderr).to_lowercase();
        assert!(
            output.status.success() && !said.contains("error"),
            "{name}: {said}"
        );
        let solved = fs::read(&raw).unwrap();
        let head = String::from_utf8_lossy(&solved[..400]).into_owned();
        assert!(
            head.contains("AC Analysis") && head.contains("No. Points: 161"),
            "{head}"
        );
    }
}

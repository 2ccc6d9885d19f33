//! The build order as one file for a phone.

use crate::bench::{Bench, Scratch};
use serde_json::json;

const EVIL: &str = "<script>alert(1)</script>\"'><img src=x>";

#[test]
fn it_is_one_file_that_asks_nothing_of_anybody() {
    let scratch = Scratch::new();
    scratch.copy("workshop-mono");
    let text = scratch.text();
    let line = text.lines().find(|line| line.starts_with("name ="));
    let named = format!("name = '''{EVIL}'''");
    scratch.write(&text.replacen(line.unwrap(), &named, 1));
    let bench = Bench::open(&scratch);
    bench.wait(|event| event["number"] == 1 && event["stage"] == "whole");
    let page = bench.get("/?sheet=build").text();
    let ids: Vec<&str> = page
        .split("data-step=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .collect();
    assert!(ids.len() > 5);
    bench.act(&json!({"what": "step", "id": ids[1], "done": true}));

    let answer = bench.get("/build.html");
    assert_eq!(answer.status(), 200);
    let kept = answer.header("content-disposition").unwrap();
    assert!(kept.starts_with("attachment; filename=\"") && kept.ends_with("-build.html\""));
    let file = answer.text();
    for id in &ids {
        assert!(file.contains(&format!("data-step=\"{id}\"")), "{id}");
    }
    let done = format!("data-step=\"{}\" checked", ids[1]);
    assert!(file.contains(&done) && file.matches(" checked").count() >= 1);
    // Names are text; one script, ours; nothing leads anywhere; no secret goes along.
    assert!(file.contains("&lt;script&gt;alert(1)"));
    assert_eq!(file.matches("<script").count(), 1);
    assert!(!file.contains("<img") && !file.contains(bench.token()));
    for front in ["http://", "https://", "src=\"", "href=\"/", "url("] {
        let found = file.match_indices(front).next();
        let around = found.map(|(at, _)| {
            let end = file.ceil_char_boundary(at + 60);
            &file[at..end]
        });
        assert_eq!(around.filter(|found| !found.contains("w3.org")), None);
    }
}

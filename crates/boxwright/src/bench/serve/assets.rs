//! Style and scripts of the page: every file of them is in the program.

use axum::extract::Path;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};

/// Scripts by their names in the address, one idea each; the page asks for the first one,
/// and each asks for those that it imports.
pub(crate) const SCRIPTS: [(&str, &str); 15] = [
    ("bench.js", include_str!("../asset/script/bench.js")),
    ("curve.js", include_str!("../asset/script/curve.js")),
    ("deed.js", include_str!("../asset/script/deed.js")),
    ("drag.js", include_str!("../asset/script/drag.js")),
    ("drawing.js", include_str!("../asset/script/drawing.js")),
    ("fresh.js", include_str!("../asset/script/fresh.js")),
    ("hand.js", include_str!("../asset/script/hand.js")),
    ("length.js", include_str!("../asset/script/length.js")),
    ("lever.js", include_str!("../asset/script/lever.js")),
    ("morph.js", include_str!("../asset/script/morph.js")),
    ("shelf.js", include_str!("../asset/script/shelf.js")),
    ("talk.js", include_str!("../asset/script/talk.js")),
    ("theme.js", include_str!("../asset/script/theme.js")),
    ("trial.js", include_str!("../asset/script/trial.js")),
    ("word.js", include_str!("../asset/script/word.js")),
];

const STYLE: &str = include_str!("../asset/bench.css");

/// A file of the page by its name.
pub(super) async fn asset(Path(name): Path<String>) -> Response {
    if name == "bench.css" {
        return ([(header::CONTENT_TYPE, "text/css; charset=utf-8")], STYLE).into_response();
    }
    let script = SCRIPTS.iter().find(|(own, _)| *own == name);
    script.map_or_else(
        || StatusCode::NOT_FOUND.into_response(),
        |(_, text)| {
            let kind = [(header::CONTENT_TYPE, "text/javascript; charset=utf-8")];
            (kind, *text).into_response()
        },
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// Names between the braces of lines that begin so, with the file they come from.
    fn imports(text: &str) -> Vec<(Vec<&str>, &str)> {
        text.lines()
            .filter_map(|line| line.strip_prefix("import "))
            .map(|line| {
                let from = line.split('"').nth(1).expect("a file is named");
                let from = from.strip_prefix("./").expect("it lies beside this one");
                let names = line
                    .split_once('{')
                    .and_then(|(_, rest)| rest.split_once('}'));
                let names = names.map_or("", |(names, _)| names);
                let names = names
                    .split(',')
                    .map(str::trim)
                    .filter(|name| !name.is_empty());
                (names.collect(), from)
            })
            .collect()
    }

    #[test]
    fn scripts_import_what_others_give_and_none_is_idle() {
        let mut reached = BTreeSet::from(["bench.js"]);
        for (name, text) in SCRIPTS {
            for (wanted, from) in imports(text) {
                let (from, other) = SCRIPTS
                    .into_iter()
                    .find(|(own, _)| *own == from)
                    .unwrap_or_else(|| panic!("{name}: {from} is not served"));
                reached.insert(from);
                for wanted in wanted {
                    let gives = ["function ", "async function ", "const ", "class "]
                        .iter()
                        .any(|kind| {
                            let given = format!("export {kind}{wanted}");
                            other.lines().any(|line| {
                                line.strip_prefix(&given)
                                    .is_some_and(|rest| rest.starts_with([' ', '(']))
                            })
                        });
                    assert!(gives, "{name}: {from} gives no {wanted}");
                    let uses = text.matches(wanted).count();
                    assert!(uses > 1, "{name} has no use for {wanted}");
                }
            }
        }
        let served: BTreeSet<&str> = SCRIPTS.iter().map(|(name, _)| *name).collect();
        assert_eq!(reached, served);
    }
}

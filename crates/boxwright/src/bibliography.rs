//! The bibliography: where laws and limits are published.

/// The file at the root of the repository.
const TEXT: &str = include_str!("../../../bibliography.toml");

/// An entry as a book list says it: author, title, where published.
///
/// The file is plain: a header with the key, then one line for each field.
/// `tools/bibliography.py` holds it to that.
pub(crate) fn entry(key: &str) -> Option<String> {
    let mut lines = TEXT.lines().skip_while(|line| header(line) != Some(key));
    lines.next()?;
    let fields: Vec<(&str, &str)> = lines
        .take_while(|line| header(line).is_none())
        .filter_map(|line| line.split_once(" = "))
        .collect();
    let field = |name: &str| {
        let value = fields.iter().find(|(key, _)| *key == name)?.1;
        Some(value.trim_matches('"').to_owned())
    };
    let parts = [field("author"), field("title"), field("published")];
    Some(parts.into_iter().flatten().collect::<Vec<_>>().join(". "))
}

/// The key in a header line: `[key]` or `["key"]`.
fn header(line: &str) -> Option<&str> {
    let inner = line.strip_prefix('[')?.strip_suffix(']')?;
    Some(inner.trim_matches('"'))
}

#[cfg(test)]
mod tests {
    use super::*;
    use studies::check::ALL;
    use studies::vary::spreads;

    /// Words that stand where a key would, for what is published nowhere.
    const REMARKS: [&str; 3] = [
        "common practice, no source",
        "own definition",
        "from memory",
    ];

    #[test]
    fn every_source_of_a_check_or_a_spread_is_known() {
        let checks = ALL.iter().flat_map(|check| check.sources.iter().copied());
        let spreads = spreads::ALL.iter().map(|row| row.source);
        for key in checks.chain(spreads) {
            assert!(REMARKS.contains(&key) || entry(key).is_some(), "{key}");
        }
    }

    #[test]
    fn an_entry_is_told_whole() {
        let told = entry("small-1972").unwrap();
        assert!(told.starts_with("R. H. Small. Closed-Box"), "{told}");
        assert!(told.contains("Audio Engineering Society"), "{told}");
        assert!(entry("ansi-s3.5").is_some());
        assert_eq!(entry("nobody"), None);
    }
}

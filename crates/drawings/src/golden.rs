//! Golden texts for tests: `BLESS=1 cargo test` rewrites them, then read the diff.

/// Compares with the golden file of that name.
pub(crate) fn check(name: &str, actual: &str) {
    let path = format!("{}/tests/golden/{name}", env!("CARGO_MANIFEST_DIR"));
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, actual).unwrap();
    }
    let golden = std::fs::read_to_string(&path).unwrap_or_default();
    assert_eq!(actual, golden, "{name} differs; BLESS=1 rewrites it");
}

//! Names that were nearly right.

/// A word less like than this is no likely slip of the pen.
const ALIKE: f64 = 0.72;

/// "did you mean …?" for the nearest name, or else what to do.
pub(crate) fn did_you_mean<'a>(
    written: &str,
    names: impl Iterator<Item = &'a str>,
    otherwise: &str,
) -> String {
    let written = written.to_lowercase();
    let nearest = names
        .map(|name| (strsim::jaro_winkler(&written, &name.to_lowercase()), name))
        .max_by(|a, b| a.0.total_cmp(&b.0));
    match nearest {
        Some((alike, name)) if alike > ALIKE => format!("did you mean {name:?}? {otherwise}"),
        _ => otherwise.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_seen_and_strangers_are_not() {
        let names = ["vent-speed", "total-q"];
        let said = |word| did_you_mean(word, names.into_iter(), "look");
        assert_eq!(said("vent-sped"), "did you mean \"vent-speed\"? look");
        assert_eq!(said("banana"), "look");
    }
}

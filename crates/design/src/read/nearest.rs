//! "Did you mean".

/// The candidate a misspelt name was most likely meant to be.
pub(crate) fn nearest<'c>(
    name: &str,
    candidates: impl Iterator<Item = &'c str>,
) -> Option<&'c str> {
    // Longer texts than any name we know would only cost time.
    const LONGEST: usize = 80;
    if name.len() > LONGEST {
        return None;
    }
    let lower = name.to_lowercase().replace(['-', ' '], "_");
    let mut best: Option<(usize, &str)> = None;
    for candidate in candidates {
        let plain = candidate.to_lowercase().replace(['-', ' '], "_");
        let distance = strsim::damerau_levenshtein(&lower, &plain);
        let allowed = (plain.chars().count().max(lower.chars().count()) / 3).max(1);
        let close = distance <= allowed || starts_like(&plain, &lower);
        if close && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// One is the beginning of the other: `temp` for `temperature`.
fn starts_like(candidate: &str, name: &str) -> bool {
    name.chars().count() >= 3 && (candidate.starts_with(name) || name.starts_with(candidate))
}

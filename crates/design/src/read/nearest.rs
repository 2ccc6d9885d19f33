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

#[cfg(test)]
mod tests {
    use super::nearest;

    const KEYS: [&str; 6] = [
        "temperature",
        "humidity",
        "cable_length",
        "cable_section",
        "vent",
        "kind",
    ];

    #[track_caller]
    fn check(name: &str, expected: Option<&str>) {
        assert_eq!(nearest(name, KEYS.into_iter()), expected);
    }

    #[test]
    fn slips_of_the_keyboard_are_seen_through() {
        check("temprature", Some("temperature"));
        check("Humidity", Some("humidity"));
        check("hmuidity", Some("humidity"));
        check("cable length", Some("cable_length"));
        check("cable-section", Some("cable_section"));
        check("temp", Some("temperature"));
        check("vents", Some("vent"));
    }

    #[test]
    fn another_word_is_not_guessed_at() {
        check("colour", None);
        check("", None);
        check("x", None);
        check(&"temperature".repeat(20), None);
    }
}

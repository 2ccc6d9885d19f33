//! Texts of others without what would steer the terminal.

/// Whether a character steers a terminal or turns the direction of writing.
pub(super) fn is_hidden(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A text in which characters that do not show stand as U+FFFD.
pub(super) fn plain(text: &str) -> String {
    let shown = |c| if is_hidden(c) { '\u{fffd}' } else { c };
    text.chars().map(shown).collect()
}

/// A file's text without hidden characters in which every byte keeps its place.
pub(super) fn plain_source(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        match (is_hidden(c) && !matches!(c, '\n' | '\t'), c.len_utf8()) {
            (false, _) => out.push(c),
            // Many editors end lines so: nothing to point at.
            _ if c == '\r' && chars.peek() == Some(&'\n') => out.push(' '),
            // The replacement of three bytes is the usual one.
            (true, 3) => out.push('\u{fffd}'),
            (true, bytes) => out.extend(std::iter::repeat_n('?', bytes)),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    const ODD: &str = "a\u{1b}[2Jb\r\n\tµ\u{9b}c\u{202e}d\u{2069}\u{7f}";

    #[test]
    fn names_show_what_is_hidden() {
        assert_eq!(
            plain("box\u{1b}[2J\n\u{202e}µ"),
            "box\u{fffd}[2J\u{fffd}\u{fffd}µ"
        );
        assert!(!plain(ODD).chars().any(is_hidden));
    }

    #[test]
    fn sources_keep_their_places() {
        let shown = plain_source(ODD);
        assert_eq!(shown, "a?[2Jb \n\tµ??c\u{fffd}d\u{fffd}?");
        assert_eq!(shown.len(), ODD.len());
        for at in ['b', 'µ', 'c', 'd', '\n'] {
            assert_eq!(shown.find(at), ODD.find(at));
        }
    }
}

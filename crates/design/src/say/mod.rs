//! Every sentence about a broken text, apart from the logic that finds it.

mod design;
mod electric;
mod example;
mod part;
mod text;
mod value;
mod wood;

pub(crate) use example::example;

use crate::fault::Fault;

/// What is said about one fault.
pub(crate) struct Said {
    pub(crate) code: &'static str,
    pub(crate) message: String,
    pub(crate) label: String,
    pub(crate) mend: String,
}

fn said(
    code: &'static str,
    message: impl Into<String>,
    label: impl Into<String>,
    mend: impl Into<String>,
) -> Said {
    Said {
        code,
        message: message.into(),
        label: label.into(),
        mend: mend.into(),
    }
}

/// Puts a fault in words.
pub(crate) fn say(fault: &Fault) -> Said {
    match fault {
        Fault::Text(fault) => text::say(fault),
        Fault::Value(fault) => value::say(fault),
        Fault::Part(fault) => part::say(fault),
        Fault::Design(fault) => design::say(fault),
        Fault::Wood(fault) => wood::say(fault),
        Fault::Electric(fault) => electric::say(fault),
    }
}

/// `a, b or c`.
fn either<S: AsRef<str>>(words: &[S]) -> String {
    match words {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [front @ .., last] => {
            let front: Vec<&str> = front.iter().map(AsRef::as_ref).collect();
            format!("{} or {}", front.join(", "), last.as_ref())
        }
    }
}

/// Text that came from a file, short enough for a sentence.
fn shown(text: &str) -> String {
    const LONGEST: usize = 60;
    let tame = |c: char| if c.is_control() { '\u{fffd}' } else { c };
    if text.chars().count() <= LONGEST {
        text.chars().map(tame).collect()
    } else {
        let front: String = text.chars().take(LONGEST - 1).map(tame).collect();
        format!("{front}…")
    }
}

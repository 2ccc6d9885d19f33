//! Sentences about the text as TOML: keys, tables, types, format.

use super::{Said, either, said, shown};
use crate::FORMAT;
use crate::fault::Fault;

pub(super) fn say(fault: &Fault) -> Option<Said> {
    let said = match fault {
        Fault::Syntax { .. } | Fault::QuotesMissing { .. } | Fault::KeyTwice { .. } => {
            syntax(fault)?
        }
        Fault::FormatMissing | Fault::FormatUnknown { .. } | Fault::FormatNewer { .. } => {
            format(fault)?
        }
        Fault::KeyUnknown {
            key,
            table,
            nearest,
            known,
        } => said(
            "key-unknown",
            format!("{table} has no key `{}`", shown(key)),
            "not a key of this table",
            match nearest {
                Some(nearest) => format!("did you mean `{nearest}`? Otherwise take the line out"),
                None => format!("take the line out, or use one of {}", known.join(", ")),
            },
        ),
        Fault::TableUnknown {
            key,
            nearest,
            known,
        } => said(
            "table-unknown",
            format!("there is no table `{}` here", shown(key)),
            "not a table of this file",
            match nearest {
                Some(nearest) => format!("did you mean `{nearest}`? Otherwise take the table out"),
                None => format!("take the table out; the tables are {}", known.join(", ")),
            },
        ),
        Fault::KeyMissing {
            key,
            table,
            example,
        } => said(
            "key-missing",
            format!("{table} does not say `{key}`"),
            format!("`{key}` is missing here"),
            format!("add a line such as `{key} = {example}`"),
        ),
        Fault::TableMissing { header, example } => said(
            "table-missing",
            format!("the table {header} is missing"),
            format!("{header} is missing from this file"),
            format!("add {header} with its keys, for example `{example}`"),
        ),
        Fault::TypeWrong {
            key,
            wanted,
            found,
            example,
        } => said(
            "type-wrong",
            format!("`{key}` takes {wanted}, and this is {found}"),
            format!("{wanted} is needed here"),
            format!("write it like `{example}`"),
        ),
        Fault::ChoiceUnknown {
            key,
            word,
            nearest,
            words,
        } => said(
            "choice-unknown",
            format!("`{key}` cannot be \"{}\"", shown(word)),
            "not one of the words known here",
            match nearest {
                Some(nearest) => format!(
                    "did you mean \"{nearest}\"? The choices are {}",
                    either(&quoted(words))
                ),
                None => format!("write {}", either(&quoted(words))),
            },
        ),
        Fault::CountRange {
            key,
            found,
            least,
            most,
        } => said(
            "count-range",
            format!("`{key}` cannot be {found}"),
            format!("must be {least} to {most}"),
            format!("write a whole number from {least} to {most}"),
        ),
        Fault::NameEmpty { key } => said(
            "name-empty",
            format!("`{key}` is empty"),
            "there is nothing between the quotes",
            "write a name between the quotes",
        ),
        _ => return None,
    };
    Some(said)
}

fn quoted(words: &[&str]) -> Vec<String> {
    words.iter().map(|word| format!("\"{word}\"")).collect()
}

fn syntax(fault: &Fault) -> Option<Said> {
    let said = match fault {
        Fault::Syntax { reason } => said(
            "syntax",
            format!("this line cannot be read: {reason}"),
            reason.clone(),
            "write `key = \"value\"` on a line of its own, a table as `[name]`, a remark after `#`",
        ),
        Fault::QuotesMissing { line } => said(
            "quotes-missing",
            "a value with letters in it needs quotes around it",
            "quotes are missing here",
            format!("write `{}`", shown(line)),
        ),
        Fault::KeyTwice { key } => said(
            "key-twice",
            format!("`{}` is written twice", shown(key)),
            "said before, further up",
            "keep one of the two, or write the table's name in double brackets if there are several of its kind",
        ),
        _ => return None,
    };
    Some(said)
}

fn format(fault: &Fault) -> Option<Said> {
    let said = match fault {
        Fault::FormatMissing => said(
            "format-missing",
            "the file does not say which format it is in",
            "no `format` line",
            format!("put `format = {FORMAT}` on the first line"),
        ),
        Fault::FormatUnknown { found } => said(
            "format-unknown",
            format!("there is no format {}", shown(found)),
            "not a format",
            format!("write `format = {FORMAT}`"),
        ),
        Fault::FormatNewer { found } => said(
            "format-newer",
            format!("this file is of format {found}; this program reads format {FORMAT} only"),
            "a newer format than this program knows",
            format!(
                "open it with a newer version of the program, or write it anew in format {FORMAT}"
            ),
        ),
        _ => return None,
    };
    Some(said)
}

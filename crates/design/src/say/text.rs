//! Sentences about the text as TOML: keys, tables, types, format.

use super::{Said, either, said, shown};
use crate::fault::{SyntaxReason, TextFault};
use crate::format::FORMAT;

pub(super) fn say(fault: &TextFault) -> Said {
    match fault {
        TextFault::Syntax { reason } => syntax(*reason),
        TextFault::QuotesMissing { line } => said(
            "quotes-missing",
            "a value with letters in it needs quotes around it",
            "quotes are missing here",
            format!("write `{}`", shown(line)),
        ),
        TextFault::KeyTwice { key, is_table } => key_twice(key, *is_table),
        TextFault::FormatMissing => said(
            "format-missing",
            "the file does not say which format it is in",
            "no `format` line",
            format!("put `format = {FORMAT}` on the first line"),
        ),
        TextFault::FormatUnknown { found } => said(
            "format-unknown",
            format!("there is no format {}", shown(found)),
            "not a format",
            format!("write `format = {FORMAT}`"),
        ),
        TextFault::FormatNewer { found } => said(
            "format-newer",
            format!("this file is of format {found}; this program reads format {FORMAT} only"),
            "a newer format than this program knows",
            format!(
                "open it with a newer version of the program, or write it anew in format {FORMAT}"
            ),
        ),
        TextFault::KeyUnknown {
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
        TextFault::TableUnknown {
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
        TextFault::KeyMissing {
            key,
            table,
            example,
        } => said(
            "key-missing",
            format!("{table} does not say `{key}`"),
            format!("`{key}` is missing here"),
            format!("add a line such as `{key} = {example}`"),
        ),
        TextFault::TableMissing { header, example } => said(
            "table-missing",
            format!("the table {header} is missing"),
            format!("{header} is missing from this file"),
            format!("add {header} with its keys, for example `{example}`"),
        ),
        TextFault::TypeWrong {
            key,
            wanted,
            found,
            example,
        } => said(
            "type-wrong",
            format!("`{key}` takes {wanted}, and this is {found}"),
            format!("this must be {wanted}"),
            format!("write it like `{example}`"),
        ),
        TextFault::ChoiceUnknown {
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
        TextFault::CountRange {
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
        TextFault::NameEmpty { key } => said(
            "name-empty",
            format!("`{key}` is empty"),
            "there is nothing between the quotes",
            "write a name between the quotes",
        ),
    }
}

fn quoted(words: &[&str]) -> Vec<String> {
    words.iter().map(|word| format!("\"{word}\"")).collect()
}

fn key_twice(key: &str, is_table: bool) -> Said {
    let mend = if is_table {
        "put the keys of both into one table; only tables in double brackets, like [[drivers]], [[inside]], [[brace]] and the parts of a shelf, may stand more than once"
    } else {
        "keep one of the two"
    };
    said(
        "key-twice",
        format!("`{}` is written twice", shown(key)),
        "said before, further up",
        mend,
    )
}

fn syntax(reason: SyntaxReason) -> Said {
    let (what, mend) = match reason {
        SyntaxReason::ValueMissing => (
            "there is no value behind the `=`",
            "write the value, in quotes if it has letters in it",
        ),
        SyntaxReason::EqualsMissing => (
            "there is no `=`",
            "write `key = \"value\"`, or `#` in front of a remark",
        ),
        SyntaxReason::NameMissing => (
            "a name is missing or has a character in it that names cannot have",
            "write names with letters, digits, - and _ only",
        ),
        SyntaxReason::BracketOpen => (
            "a bracket is not closed",
            "close it on the same line: `[name]`, or `[[name]]` for one of several",
        ),
        SyntaxReason::QuoteOpen => (
            "a quote is not closed, or something in it cannot be read",
            "close the quote on the same line; an inch sign within quotes is written `in`",
        ),
        SyntaxReason::LeftOver => (
            "there is more behind the value than belongs there",
            "write one value on each line, in quotes if it has letters or a comma in it, remarks behind `#`",
        ),
        SyntaxReason::Number => (
            "this is not a number that can be read",
            "write the value in quotes, or a whole number with digits only",
        ),
        SyntaxReason::Comma => (
            "there is a comma too many or too few",
            "put one comma between two entries, and none behind the last",
        ),
        SyntaxReason::NotATable => (
            "a key is put below something that is a value",
            "give the table or the key another name",
        ),
        SyntaxReason::TooDeep => (
            "there are too many brackets within brackets",
            "write one table for each thing; none needs more than two levels",
        ),
        SyntaxReason::Other => (
            "this is not understood",
            "write `key = \"value\"` on a line of its own, a table as `[name]`, a remark behind `#`",
        ),
    };
    said(
        "syntax",
        format!("this line cannot be read: {what}"),
        what,
        mend,
    )
}

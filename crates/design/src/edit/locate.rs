//! From a path to what stands there, and from a place to its path.

use super::{EditError, Key};
use crate::place::Place;
use std::ops::Range;
use toml_edit::{Array, Document, Item, Table, TableLike, Value};

/// What a path leads to.
pub(super) enum Target<'d> {
    /// A value that is there.
    Value(&'d Value),
    /// A key that is not in its table.
    AbsentKey { table: Holder<'d>, key: &'d str },
    /// An element behind the last of a list.
    AbsentElement { list: &'d Array },
    /// A key of a table that is not there.
    AbsentTable {
        /// The table it would be part of.
        parent: &'d Table,
        /// The entry it would follow.
        after: Option<&'d Table>,
        /// The header to write.
        header: String,
        /// The key in it.
        key: &'d str,
    },
}

/// A table that is there.
pub(super) struct Holder<'d> {
    pub(super) table: &'d dyn TableLike,
    /// How it is written.
    pub(super) form: Form,
}

/// How a table is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Form {
    /// As the top of the file.
    Top,
    /// Below a header.
    Header(Range<usize>),
    /// As `a.b = …`; the names to write in front of a key.
    Dotted(Vec<String>),
    /// Between braces.
    Inline(Range<usize>),
}

/// One step down.
fn step<'d>(item: Step<'d>, key: &Key) -> Option<Step<'d>> {
    match (item, key) {
        (Step::Item(item), Key::Name(name)) => item.as_table_like()?.get(name).map(Step::Item),
        (Step::Item(Item::ArrayOfTables(tables)), Key::Index(index)) => {
            tables.get(*index).map(Step::Entry)
        }
        (Step::Item(item), Key::Index(index)) => element(item.as_value()?, *index),
        (Step::Entry(table), Key::Name(name)) => table.get(name).map(Step::Item),
        (Step::Element(value), Key::Name(name)) => {
            value.as_inline_table()?.get(name).map(Step::Element)
        }
        (Step::Entry(_) | Step::Element(_), Key::Index(_)) => None,
    }
}

/// One of a list of values; a text that is no list stands for a list of one.
fn element(value: &Value, index: usize) -> Option<Step<'_>> {
    match value {
        Value::Array(array) => array.get(index).map(Step::Element),
        Value::String(_) if index == 0 => Some(Step::Element(value)),
        _ => None,
    }
}

/// Where a walk down a document stands.
#[derive(Clone, Copy)]
pub(super) enum Step<'d> {
    /// At a key.
    Item(&'d Item),
    /// At an entry of a list of tables.
    Entry(&'d Table),
    /// At an element of a list written in brackets.
    Element(&'d Value),
}

impl<'d> Step<'d> {
    pub(super) fn value(self) -> Option<&'d Value> {
        match self {
            Step::Item(item) => item.as_value(),
            Step::Entry(_) => None,
            Step::Element(value) => Some(value),
        }
    }

    fn holder(self, names: &[Key]) -> Option<Holder<'d>> {
        match self {
            Step::Item(Item::Table(table)) | Step::Entry(table) => Some(Holder {
                table,
                form: form(table, names),
            }),
            Step::Item(Item::Value(Value::InlineTable(table)))
            | Step::Element(Value::InlineTable(table)) => Some(Holder {
                table,
                form: Form::Inline(table.span()?),
            }),
            _ => None,
        }
    }
}

fn form(table: &Table, names: &[Key]) -> Form {
    match table.span() {
        _ if names.is_empty() => Form::Top,
        Some(span) if !table.is_dotted() => Form::Header(span),
        _ => Form::Dotted(
            names
                .iter()
                .filter_map(|key| match key {
                    Key::Name(name) => Some(name.clone()),
                    Key::Index(_) => None,
                })
                .collect(),
        ),
    }
}

/// Walks down as far as the path is there.
pub(super) fn walk<'d>(root: &'d Item, path: &[Key]) -> (Step<'d>, usize) {
    let mut at = Step::Item(root);
    for (depth, key) in path.iter().enumerate() {
        match step(at, key) {
            Some(next) => at = next,
            None => return (at, depth),
        }
    }
    (at, path.len())
}

/// The path to the key of a list that is not there, where `path` is that of its
/// first element.
pub(super) fn new_list<'p, S>(document: &Document<S>, path: &'p [Key]) -> Option<&'p [Key]> {
    let [key @ .., Key::Index(0)] = path else {
        return None;
    };
    let (_, depth) = walk(document.as_item(), key);
    (depth < key.len() && matches!(key.last(), Some(Key::Name(_)))).then_some(key)
}

/// What a path leads to.
pub(super) fn target<'d, S>(
    document: &'d Document<S>,
    path: &'d [Key],
) -> Result<Target<'d>, EditError> {
    let root = document.as_item();
    let (at, depth) = walk(root, path);
    let rest = &path[depth..];
    match (at, rest) {
        (at, []) => match at.value() {
            Some(Value::InlineTable(_) | Value::Array(_)) | None => Err(EditError::NotAValue),
            Some(value) => Ok(Target::Value(value)),
        },
        (Step::Item(Item::Value(Value::Array(list))), [Key::Index(index)])
            if *index == list.len() =>
        {
            Ok(Target::AbsentElement { list })
        }
        (at, [Key::Name(key)]) => {
            let implicit = matches!(at, Step::Item(Item::Table(t)) if t.is_implicit() && !t.is_dotted() && depth > 0);
            if implicit {
                return absent_table(document.as_table(), None, path);
            }
            let table = dotted_from(root, path, depth, at).ok_or(EditError::NoSuchPlace)?;
            Ok(Target::AbsentKey { table, key })
        }
        (Step::Item(Item::Table(parent)), [Key::Name(_), Key::Name(_)]) => {
            absent_table(parent, None, path)
        }
        (Step::Item(Item::Table(parent)), [Key::Name(_), Key::Index(0), Key::Name(_)]) => {
            absent_table(parent, None, path)
        }
        (Step::Item(Item::ArrayOfTables(tables)), [Key::Index(index), Key::Name(_)])
            if *index == tables.len() =>
        {
            let last = index.checked_sub(1).and_then(|last| tables.get(last));
            absent_table(document.as_table(), last, path)
        }
        _ => Err(EditError::NoSuchPlace),
    }
}

/// The table at `path[..depth]`; dotted ones with the names to write before a
/// key, counted from the nearest table that has a header.
fn dotted_from<'d>(root: &'d Item, path: &[Key], depth: usize, at: Step<'d>) -> Option<Holder<'d>> {
    let with_header = (0..=depth)
        .rev()
        .find(|d| match walk(root, &path[..*d]).0 {
            Step::Item(Item::Table(table)) => *d == 0 || !table.is_dotted(),
            Step::Entry(_) | Step::Element(_) | Step::Item(_) => true,
        })?;
    if with_header == depth {
        at.holder(&path[..depth])
    } else {
        at.holder(&path[with_header..depth])
    }
}

fn absent_table<'d>(
    parent: &'d Table,
    after: Option<&'d Table>,
    path: &'d [Key],
) -> Result<Target<'d>, EditError> {
    let Some((Key::Name(key), front)) = path.split_last() else {
        return Err(EditError::NoSuchPlace);
    };
    let (names, listed) = match front {
        [names @ .., Key::Index(_)] => (names, true),
        names => (names, false),
    };
    let mut header = Vec::with_capacity(names.len());
    for name in names {
        match name {
            Key::Name(name) => header.push(super::render::key(name)),
            // A header cannot say which entry of a list it belongs to.
            Key::Index(_) => return Err(EditError::NoSuchPlace),
        }
    }
    if header.is_empty() {
        return Err(EditError::NoSuchPlace);
    }
    let header = header.join(".");
    let header = if listed {
        format!("[[{header}]]")
    } else {
        format!("[{header}]")
    };
    Ok(Target::AbsentTable {
        parent,
        after,
        header,
        key,
    })
}

/// The path of the innermost value, key or table header that contains a place.
///
/// `None` where the text cannot be read or nothing stands there.
#[must_use]
pub fn path_at(text: &str, place: Place) -> Option<Vec<Key>> {
    let document = Document::parse(text).ok()?;
    let mut path = Vec::new();
    descend(document.as_table(), &place, &mut path).then_some(path)
}

fn contains(span: Option<Range<usize>>, place: &Place) -> bool {
    span.is_some_and(|span| span.start <= place.start && place.end <= span.end && !span.is_empty())
}

fn descend(table: &dyn TableLike, place: &Place, path: &mut Vec<Key>) -> bool {
    for (name, item) in table.iter() {
        path.push(Key::from(name));
        if inside(item, place, path) {
            return true;
        }
        let key = table.get_key_value(name).and_then(|(key, _)| key.span());
        if contains(key, place) {
            return true;
        }
        path.pop();
    }
    false
}

fn inside(item: &Item, place: &Place, path: &mut Vec<Key>) -> bool {
    match item {
        Item::None => false,
        Item::Value(Value::InlineTable(table)) => {
            descend(table, place, path) || contains(table.span(), place)
        }
        Item::Value(Value::Array(array)) => {
            for (index, value) in array.iter().enumerate() {
                path.push(Key::Index(index));
                let deeper = value
                    .as_inline_table()
                    .is_some_and(|table| descend(table, place, path));
                if deeper || contains(value.span(), place) {
                    return true;
                }
                path.pop();
            }
            contains(array.span(), place)
        }
        Item::Value(value) => contains(value.span(), place),
        Item::Table(table) => {
            descend(table, place, path) || (!table.is_dotted() && contains(table.span(), place))
        }
        Item::ArrayOfTables(tables) => {
            for (index, table) in tables.iter().enumerate() {
                path.push(Key::Index(index));
                if descend(table, place, path) || contains(table.span(), place) {
                    return true;
                }
                path.pop();
            }
            false
        }
    }
}

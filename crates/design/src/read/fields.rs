//! One table of a file: its keys asked for by name, with what is wrong noted.

use crate::Place;
use crate::diagnostic::Log;
use crate::fault::{TextFault, ValueFault, Wanted};
use crate::source::{self, Source};
use std::cell::RefCell;
use std::ops::Range;
use toml_edit::{Item, TableLike, Value as Toml};

/// A table in one file.
#[derive(Clone, Copy)]
pub(crate) struct Layer<'a> {
    source: &'a Source<'a>,
    table: &'a dyn TableLike,
    header: (usize, usize),
}

/// A table, and the entry of the built-in shelf it overrides, if any.
pub(crate) struct Fields<'a> {
    /// As written in a file: `[box.vent]`.
    pub(crate) title: String,
    own: Layer<'a>,
    base: Option<Layer<'a>>,
    asked: RefCell<Vec<(&'static str, bool)>>,
}

/// An item with the file it stands in.
#[derive(Clone, Copy)]
pub(crate) struct Entry<'a> {
    pub(crate) item: &'a Item,
    source: &'a Source<'a>,
    key: (usize, usize),
}

impl<'a> Layer<'a> {
    pub(crate) fn new(
        source: &'a Source<'a>,
        table: &'a dyn TableLike,
        header: Range<usize>,
    ) -> Self {
        Self {
            source,
            table,
            header: (header.start, header.end),
        }
    }

    /// The text under a key, where it is a text.
    pub(crate) fn text_of(&self, key: &str) -> Option<&'a str> {
        self.table.get(key)?.as_str()
    }

    fn entry(&self, key: &str) -> Option<Entry<'a>> {
        let (name, item) = self.table.get_key_value(key)?;
        let span = name.span().unwrap_or(self.header.0..self.header.1);
        Some(Entry {
            item,
            source: self.source,
            key: (span.start, span.end),
        })
    }
}

impl<'a> Entry<'a> {
    /// Where the value stands.
    pub(crate) fn place(&self) -> Place {
        self.place_of(self.item.span().unwrap_or(self.key.0..self.key.1))
    }

    fn place_of(&self, range: Range<usize>) -> Place {
        source::place(self.source.file, self.source.text, range)
    }

    /// What stands there, whole.
    pub(crate) fn element(&self) -> Element<'a> {
        Element {
            value: self.item.as_value(),
            found: type_name(self.item),
            source: self.source,
            span: self.item.span().unwrap_or(self.key.0..self.key.1),
        }
    }

    /// The elements of a list; a value that is no list stands for a list of one.
    pub(crate) fn elements(&self) -> Vec<Element<'a>> {
        let whole = self.element();
        let Some(array) = self.item.as_array() else {
            return vec![whole];
        };
        let element = |value: &'a Toml| Element {
            value: Some(value),
            found: value_type_name(value),
            source: self.source,
            span: value.span().unwrap_or_else(|| whole.span.clone()),
        };
        array.iter().map(element).collect()
    }
}

/// A value under a key, or one of a list of them.
pub(crate) struct Element<'a> {
    value: Option<&'a Toml>,
    found: &'static str,
    source: &'a Source<'a>,
    span: Range<usize>,
}

impl<'a> Element<'a> {
    /// Where it stands.
    pub(crate) fn place(&self) -> Place {
        source::place(self.source.file, self.source.text, self.span.clone())
    }

    /// Where some bytes of the text between the quotes stand.
    pub(crate) fn inner_place(&self, text: &str, range: Range<usize>) -> Place {
        let written = self.written();
        let plain = written.len() == text.len() + 2 && written.get(1..=text.len()) == Some(text);
        if plain && !range.is_empty() {
            let front = self.span.start + 1;
            let inner = front + range.start..front + range.end;
            source::place(self.source.file, self.source.text, inner)
        } else {
            self.place()
        }
    }

    /// It as text in the file.
    fn written(&self) -> &'a str {
        self.source.text.get(self.span.clone()).unwrap_or_default()
    }

    /// It as text, where it is one.
    pub(crate) fn as_str(&self) -> Option<&'a str> {
        self.value?.as_str()
    }

    /// Says that it is of the wrong TOML type.
    pub(crate) fn wrong_type(&self, key: &str, wanted: &'static str, example: &str, log: &mut Log) {
        let fault = TextFault::TypeWrong {
            key: key.to_owned(),
            wanted,
            found: self.found,
            example: format!("{key} = {example}"),
        };
        log.add(fault, self.place());
    }

    /// The text of a physical value, or a note on what stands there instead.
    pub(crate) fn physical_text(
        &self,
        key: &str,
        wanted: Wanted,
        log: &mut Log,
    ) -> Option<&'a str> {
        match self.value {
            Some(Toml::String(text)) => return Some(text.value()),
            Some(Toml::Integer(_) | Toml::Float(_)) => {
                let fault = ValueFault::PlainNumber {
                    key: key.to_owned(),
                    number: self.written().to_owned(),
                    wanted,
                };
                log.add(fault, self.place());
            }
            _ => {
                let example = crate::say::example(key, wanted);
                self.wrong_type(key, "a number with its unit in quotes", example, log);
            }
        }
        None
    }
}

impl<'a> Fields<'a> {
    pub(crate) fn new(title: impl Into<String>, own: Layer<'a>, base: Option<Layer<'a>>) -> Self {
        Self {
            title: title.into(),
            own,
            base,
            asked: RefCell::default(),
        }
    }

    /// The top level of a file.
    pub(crate) fn top(source: &'a Source<'a>, title: &str) -> Self {
        let table: &dyn TableLike = source.document.as_table();
        let line = first_line(source.text);
        Self::new(title, Layer::new(source, table, line), None)
    }

    /// Where the table's header stands.
    pub(crate) fn header(&self) -> Place {
        let Layer { source, header, .. } = self.own;
        source::place(source.file, source.text, header.0..header.1)
    }

    /// Whether lines of the file were left out, so that an absent key may well
    /// be there.
    pub(crate) fn is_broken(&self) -> bool {
        self.own.source.broken
    }

    /// The item under a key, own before built-in.
    pub(crate) fn entry(&self, key: &'static str) -> Option<Entry<'a>> {
        self.ask(key, false);
        self.peek(key)
    }

    /// Makes keys known that are not read here.
    pub(crate) fn know(&self, keys: &[&'static str]) {
        for key in keys {
            self.ask(key, false);
        }
    }

    /// As [`Self::entry`], without making the key known.
    fn peek(&self, key: &str) -> Option<Entry<'a>> {
        let base = || self.base.and_then(|base| base.entry(key));
        self.own.entry(key).or_else(base)
    }

    fn ask(&self, key: &'static str, table: bool) {
        let mut asked = self.asked.borrow_mut();
        if !asked.iter().any(|(k, _)| *k == key) {
            asked.push((key, table));
        }
    }

    /// Whether a key is said neither here nor in the entry this one overrides.
    pub(crate) fn is_absent(&self, key: &str) -> bool {
        self.peek(key).is_none()
    }

    /// The keys written in this table itself.
    pub(crate) fn own_keys(&self) -> impl Iterator<Item = &'a str> {
        self.own.table.iter().map(|(key, _)| key)
    }

    /// Where the value of a key stands; the header when it is absent.
    pub(crate) fn place_of(&self, key: &str) -> Place {
        self.peek(key).map_or_else(|| self.header(), |e| e.place())
    }

    /// Notes that a key must be there.
    pub(crate) fn missing(&self, key: &'static str, example: impl Into<String>, log: &mut Log) {
        if !self.is_broken() {
            let fault = TextFault::KeyMissing {
                key,
                table: self.title.clone(),
                example: example.into(),
            };
            log.add(fault, self.header());
        }
    }

    /// The table under a key.
    pub(crate) fn table(&self, key: &'static str, log: &mut Log) -> Option<Fields<'a>> {
        self.ask(key, true);
        let entry = self.own.entry(key)?;
        let title = self.title_of(key);
        match entry.item.as_table_like() {
            Some(table) => {
                let span = entry.item.span().unwrap_or(entry.key.0..entry.key.1);
                let layer = Layer::new(entry.source, table, span);
                Some(Fields::new(format!("[{title}]"), layer, None))
            }
            None => {
                log.add(
                    TextFault::TypeWrong {
                        key: key.to_owned(),
                        wanted: "a table",
                        found: type_name(entry.item),
                        example: format!("[{title}]"),
                    },
                    entry.place(),
                );
                None
            }
        }
    }

    fn title_of(&self, key: &str) -> String {
        match self.title.strip_prefix('[') {
            Some(outer) => format!("{}.{key}", outer.trim_matches(['[', ']'])),
            None => key.to_owned(),
        }
    }

    /// The tables under a key written in double brackets.
    pub(crate) fn layers(&self, key: &'static str, log: &mut Log) -> Vec<Layer<'a>> {
        self.ask(key, true);
        let Some(entry) = self.own.entry(key) else {
            return Vec::new();
        };
        let source = entry.source;
        let fallback = entry.key.0..entry.key.1;
        let layer = |table: &'a dyn TableLike, span: Option<Range<usize>>| {
            Layer::new(source, table, span.unwrap_or_else(|| fallback.clone()))
        };
        match entry.item {
            Item::ArrayOfTables(tables) => tables.iter().map(|t| layer(t, t.span())).collect(),
            Item::Value(Toml::Array(array))
                if array.iter().all(|v| v.as_inline_table().is_some()) =>
            {
                let tables = array.iter().filter_map(Toml::as_inline_table);
                tables.map(|t| layer(t, t.span())).collect()
            }
            other => {
                log.add(
                    TextFault::TypeWrong {
                        key: key.to_owned(),
                        wanted: "a list of tables",
                        found: type_name(other),
                        example: format!("[[{}]]", self.title_of(key)),
                    },
                    entry.place(),
                );
                Vec::new()
            }
        }
    }

    /// Notes every key that nobody asked for.
    pub(crate) fn finish(self, log: &mut Log) {
        let asked = self.asked.into_inner();
        for (name, item) in self.own.table.iter() {
            if asked.iter().any(|(key, _)| *key == name) {
                continue;
            }
            let Some(entry) = self.own.entry(name) else {
                continue;
            };
            let is_table = item.is_table() || item.is_array_of_tables();
            let known: Vec<&'static str> = asked
                .iter()
                .filter(|(_, table)| *table == is_table)
                .map(|(key, _)| *key)
                .collect();
            let nearest = super::nearest::nearest(name, known.iter().copied()).map(str::to_owned);
            let place = source::place(
                entry.source.file,
                entry.source.text,
                entry.key.0..entry.key.1,
            );
            let fault = if is_table {
                TextFault::TableUnknown {
                    key: name.to_owned(),
                    nearest,
                    known,
                }
            } else {
                TextFault::KeyUnknown {
                    key: name.to_owned(),
                    table: self.title.clone(),
                    nearest,
                    known,
                }
            };
            log.add(fault, place);
        }
    }
}

/// What a TOML item is, in words.
fn type_name(item: &Item) -> &'static str {
    match item {
        Item::Value(value) => value_type_name(value),
        Item::Table(_) => "a table",
        Item::ArrayOfTables(_) => "a list of tables",
        Item::None => "nothing",
    }
}

fn value_type_name(value: &Toml) -> &'static str {
    match value {
        Toml::String(_) => "a text",
        Toml::Integer(_) => "a whole number",
        Toml::Float(_) => "a number",
        Toml::Boolean(_) => "true or false",
        Toml::Datetime(_) => "a date",
        Toml::Array(_) => "a list",
        Toml::InlineTable(_) => "a table",
    }
}

/// Says that a value is of the wrong TOML type.
pub(crate) fn wrong_type(
    entry: &Entry<'_>,
    key: &str,
    wanted: &'static str,
    example: &str,
    log: &mut Log,
) {
    entry.element().wrong_type(key, wanted, example, log);
}

fn first_line(text: &str) -> Range<usize> {
    let start = text.len() - text.trim_start_matches(['\n', '\r']).len();
    source::line_around(text, start)
}

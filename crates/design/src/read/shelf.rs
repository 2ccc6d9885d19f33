//! The shelf: built-in parts, and the maker's own over them.

use super::fields::Fields;
use super::nearest::nearest;
use super::part::Part;
use super::values::Bounds::NotNegative;
use crate::diagnostic::Log;
use crate::fault::PartFault;
use crate::quantity::Dimension;
use crate::source::Source;
use crate::{
    AmplifierPart, BatteryPart, CapacitorPart, Common, ComparatorPart, ControlPart, DriverPart,
    FileId, FinishPart, FusePart, LedPart, ModulePart, Place, RadiatorPart, ReferencePart,
    ResistorPart, SheetPart, Shelf, SwitchingPart, Text, WirePart, ZenerPart,
};
use std::sync::OnceLock;

/// The text of the built-in shelf.
pub const BUILT_IN_SHELF: &str = include_str!("../builtin_shelf.toml");

/// Most equal parts anybody keeps in a drawer.
pub(crate) const MOST_ON_HAND: u32 = 1000;

/// A shelf, and what was named but could not be read.
#[derive(Clone, Debug, Default)]
pub(crate) struct ReadShelf {
    pub(crate) shelf: Shelf,
    /// Names of entries with errors of their own.
    spoiled: Vec<String>,
    /// Lines of the file could not be read.
    broken: bool,
}

struct BuiltIn {
    source: Source<'static>,
    read: ReadShelf,
}

static BUILT_IN: OnceLock<BuiltIn> = OnceLock::new();

fn built_in() -> &'static BuiltIn {
    BUILT_IN.get_or_init(|| {
        let mut log = Log::default();
        let source = Source::read(FileId::BuiltIn, BUILT_IN_SHELF, &mut log);
        let mut read = ReadShelf::default();
        add(&source, None, &mut read, &mut log);
        let found = log.into_sorted();
        assert!(found.is_empty(), "the built-in shelf is sound: {found:?}");
        BuiltIn { source, read }
    })
}

/// The parts every maker starts with; their data are invented.
#[must_use]
pub fn built_in_shelf() -> &'static Shelf {
    &built_in().read.shelf
}

/// The built-in shelf with the maker's own file laid over it.
pub(crate) fn read(text: Option<&str>, log: &mut Log) -> ReadShelf {
    let base = built_in();
    let mut read = base.read.clone();
    if let Some(text) = text {
        let source = Source::read(FileId::Shelf, text, log);
        read.broken = source.broken;
        if !source.misplaced {
            add(&source, Some(&base.source), &mut read, log);
        }
    }
    read
}

/// Adds the entries of one file.
fn add(source: &Source<'_>, base: Option<&Source<'_>>, read: &mut ReadShelf, log: &mut Log) {
    let top = Fields::top(source, "the shelf");
    if !super::format::is_known(&top, log) {
        return;
    }
    let base = base.map(|source| Fields::top(source, "the built-in shelf"));
    add_kind::<DriverPart>(&top, base.as_ref(), read, log);
    add_kind::<RadiatorPart>(&top, base.as_ref(), read, log);
    add_kind::<AmplifierPart>(&top, base.as_ref(), read, log);
    add_kind::<BatteryPart>(&top, base.as_ref(), read, log);
    add_kind::<SheetPart>(&top, base.as_ref(), read, log);
    add_kind::<ControlPart>(&top, base.as_ref(), read, log);
    add_kind::<FusePart>(&top, base.as_ref(), read, log);
    add_kind::<ModulePart>(&top, base.as_ref(), read, log);
    add_kind::<WirePart>(&top, base.as_ref(), read, log);
    add_kind::<ResistorPart>(&top, base.as_ref(), read, log);
    add_kind::<CapacitorPart>(&top, base.as_ref(), read, log);
    add_kind::<ZenerPart>(&top, base.as_ref(), read, log);
    add_kind::<ReferencePart>(&top, base.as_ref(), read, log);
    add_kind::<ComparatorPart>(&top, base.as_ref(), read, log);
    add_kind::<LedPart>(&top, base.as_ref(), read, log);
    add_kind::<SwitchingPart>(&top, base.as_ref(), read, log);
    add_kind::<FinishPart>(&top, base.as_ref(), read, log);
    let offcuts = super::offcut::offcuts(&top, read, log);
    read.shelf.offcuts.extend(offcuts);
    top.finish(log);
}

fn add_kind<P: Part>(
    top: &Fields<'_>,
    base: Option<&Fields<'_>>,
    read: &mut ReadShelf,
    log: &mut Log,
) {
    let base_layers = base.map_or_else(Vec::new, |base| base.layers(P::TABLE, log));
    let mut names: Vec<&str> = Vec::new();
    for layer in top.layers(P::TABLE, log) {
        let name = layer.text_of("name");
        let under = base_layers
            .iter()
            .find(|base| name.is_some() && base.text_of("name") == name);
        let fields = Fields::new(format!("[[{}]]", P::TABLE), layer, under.copied());
        let before = log.len();
        let part = entry::<P>(&fields, under.is_some(), log);
        if let Some(name) = name {
            if names.contains(&name) {
                let fault = PartFault::NameTwice {
                    noun: P::NOUN,
                    name: name.to_owned(),
                };
                log.add(fault, fields.place_of("name"));
            }
            names.push(name);
        }
        fields.finish(log);
        match part {
            Some(part) if log.len() == before => place_on(P::on_mut(&mut read.shelf), part),
            _ => read.spoiled.extend(name.map(str::to_owned)),
        }
    }
}

fn entry<P: Part>(fields: &Fields<'_>, overrides: bool, log: &mut Log) -> Option<P> {
    let name = fields.need_text("name", "\"my part\"", log);
    let about = fields.text("about", log).map(|text| text.text);
    let price = fields.money("price", log);
    let on_hand = fields.count("on_hand", 0, MOST_ON_HAND, log).unwrap_or(0);
    let weight = fields.value("weight", Dimension::Mass, NotNegative, log);
    let is_built_in = fields.header().file == FileId::BuiltIn;
    let common = Common {
        generic: is_built_in || (overrides && !fields.has_own_data()),
        name: name.unwrap_or_else(|| Text {
            text: String::new(),
            place: fields.header(),
        }),
        about,
        price,
        on_hand,
        weight,
    };
    P::read(fields, common, log)
}

/// Puts a part in the place of the one of its name, or at the end.
fn place_on<P: Part>(list: &mut Vec<P>, part: P) {
    let same = list
        .iter_mut()
        .find(|old| old.common().name.text == part.common().name.text);
    match same {
        Some(old) => *old = part,
        None => list.push(part),
    }
}

impl Fields<'_> {
    /// Whether the maker says more about a built-in part than what it cost
    /// and how many there are.
    fn has_own_data(&self) -> bool {
        self.own_keys()
            .any(|key| !["name", "about", "price", "on_hand"].contains(&key))
    }
}

impl ReadShelf {
    /// The part a design names under `key`.
    pub(crate) fn part<P: Part>(
        &self,
        fields: &Fields<'_>,
        key: &'static str,
        log: &mut Log,
    ) -> Option<(P, Place)> {
        let example = P::on(&self.shelf).first().map_or(String::new(), |part| {
            format!("\"{}\"", part.common().name.text)
        });
        if fields.entry(key).is_none() {
            fields.missing(key, example, log);
        }
        self.part_if_named(fields, key, log)
    }

    /// The same where a design need not name one.
    pub(crate) fn part_if_named<P: Part>(
        &self,
        fields: &Fields<'_>,
        key: &'static str,
        log: &mut Log,
    ) -> Option<(P, Place)> {
        let name = fields.text(key, log)?;
        let found = P::on(&self.shelf)
            .iter()
            .find(|part| part.common().name.text == name.text);
        match found {
            Some(part) => Some((part.clone(), name.place)),
            None => {
                self.not_found::<P>(name, log);
                None
            }
        }
    }

    fn not_found<P: Part>(&self, name: Text, log: &mut Log) {
        // It may well be on the shelf: its entry has errors of its own.
        if self.broken || self.spoiled.contains(&name.text) {
            return;
        }
        let fault = match self.kind_of(&name.text) {
            Some(is) => PartFault::WrongKind {
                name: name.text,
                is,
                noun: P::NOUN,
            },
            None => {
                let names = P::on(&self.shelf)
                    .iter()
                    .map(|p| p.common().name.text.as_str());
                PartFault::Unknown {
                    noun: P::NOUN,
                    nearest: nearest(&name.text, names).map(str::to_owned),
                    name: name.text,
                }
            }
        };
        log.add(fault, name.place);
    }

    fn kind_of(&self, name: &str) -> Option<&'static str> {
        fn noun<P: Part>(shelf: &Shelf, name: &str) -> Option<&'static str> {
            let is_named = |part: &P| part.common().name.text == name;
            P::on(shelf).iter().any(is_named).then_some(P::NOUN)
        }
        noun::<DriverPart>(&self.shelf, name)
            .or_else(|| noun::<RadiatorPart>(&self.shelf, name))
            .or_else(|| noun::<AmplifierPart>(&self.shelf, name))
            .or_else(|| noun::<BatteryPart>(&self.shelf, name))
            .or_else(|| noun::<SheetPart>(&self.shelf, name))
            .or_else(|| noun::<ControlPart>(&self.shelf, name))
            .or_else(|| noun::<FusePart>(&self.shelf, name))
            .or_else(|| noun::<ModulePart>(&self.shelf, name))
            .or_else(|| noun::<WirePart>(&self.shelf, name))
            .or_else(|| noun::<ResistorPart>(&self.shelf, name))
            .or_else(|| noun::<CapacitorPart>(&self.shelf, name))
            .or_else(|| noun::<ZenerPart>(&self.shelf, name))
            .or_else(|| noun::<ReferencePart>(&self.shelf, name))
            .or_else(|| noun::<ComparatorPart>(&self.shelf, name))
            .or_else(|| noun::<LedPart>(&self.shelf, name))
            .or_else(|| noun::<SwitchingPart>(&self.shelf, name))
            .or_else(|| noun::<FinishPart>(&self.shelf, name))
    }
}

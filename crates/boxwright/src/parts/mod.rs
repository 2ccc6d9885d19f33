//! Shelf parts of every kind as lists of facts.

mod electric;
mod facts;

use design::{Choice, Common, Dimension, FileId, Money, Shelf, Size, Tolerance, Value, Word};

/// A part of any kind.
#[derive(Clone, Debug)]
pub(crate) struct Part {
    /// Its table in a shelf file.
    pub(crate) kind: &'static str,
    pub(crate) name: String,
    pub(crate) about: Option<String>,
    /// Its data are the project's own invention.
    pub(crate) generic: bool,
    /// As the shelf says it.
    pub(crate) price: Option<String>,
    pub(crate) on_hand: u32,
    pub(crate) facts: Vec<Fact>,
}

/// One thing the shelf says about a part.
#[derive(Clone, Debug)]
pub(crate) struct Fact {
    /// Its key in a shelf file.
    pub(crate) key: &'static str,
    /// As a shelf file says it.
    pub(crate) text: String,
    /// Whether a shelf file puts it between quotes.
    pub(crate) quoted: bool,
    /// The number in SI units, where it is one.
    pub(crate) si: Option<f64>,
    /// Whether the maker's own shelf says it, as far as its place is kept.
    pub(crate) own: bool,
}

impl Fact {
    /// What a shelf file lists between brackets.
    fn list(key: &'static str, elements: &[String]) -> Self {
        Self {
            key,
            text: format!("[{}]", elements.join(", ")),
            quoted: false,
            si: None,
            own: false,
        }
    }
}

/// The table of offcuts: they have no name of their own.
pub(crate) const OFFCUT: &str = "offcut";

impl Part {
    /// The key under which a shelf file gives its name.
    pub(crate) fn name_key(&self) -> &'static str {
        if self.kind == OFFCUT { "sheet" } else { "name" }
    }
}

/// Every part, by kind, in the order of the shelf.
pub(crate) fn all(shelf: &Shelf) -> Vec<Part> {
    let drivers = shelf.drivers.iter().map(facts::driver);
    let radiators = shelf.radiators.iter().map(facts::radiator);
    let amplifiers = shelf.amplifiers.iter().map(facts::amplifier);
    let batteries = shelf.batteries.iter().map(facts::battery);
    let sheets = shelf.sheets.iter().map(facts::sheet);
    let controls = shelf.controls.iter().map(facts::control);
    let offcuts = shelf.offcuts.iter().map(facts::offcut);
    drivers
        .chain(radiators)
        .chain(amplifiers)
        .chain(batteries)
        .chain(sheets)
        .chain(controls)
        .chain(electric::all(shelf))
        .chain(offcuts)
        .collect()
}

/// Significant digits of values shown: finer than any shop measures.
const DIGITS: usize = 4;

/// An inch in m.
const INCH: f64 = 0.0254;

/// Facts gathered in the order they are told.
#[derive(Debug, Default)]
struct Facts(Vec<Fact>);

impl Facts {
    fn number(
        mut self,
        key: &'static str,
        value: impl Into<Option<Value>>,
        what: Dimension,
    ) -> Self {
        if let Some(value) = value.into() {
            self.0.push(Fact {
                key,
                text: said(value, what),
                quoted: what != Dimension::Number,
                si: Some(value.si),
                own: value.place.file == FileId::Shelf,
            });
        }
        self
    }

    fn size(self, key: &'static str, size: Option<Size>) -> Self {
        match size {
            Some(size) => self.edges(key, &[size.width, size.height, size.depth]),
            None => self,
        }
    }

    fn two(self, key: &'static str, edges: Option<[Value; 2]>) -> Self {
        match edges {
            Some(edges) => self.edges(key, &edges),
            None => self,
        }
    }

    fn edges(mut self, key: &'static str, edges: &[Value]) -> Self {
        let edge = |value: &Value| design::format_rounded(value.si, Dimension::Length, DIGITS);
        let texts: Vec<String> = edges.iter().map(edge).collect();
        self.0.push(Fact {
            key,
            text: texts.join(" x "),
            quoted: true,
            si: None,
            own: edges[0].place.file == FileId::Shelf,
        });
        self
    }

    /// A metric thread as the trade writes it, where its diameter is a matter of half millimetres.
    fn thread(self, diameter: Option<Value>) -> Self {
        let mut facts = self.number("thread", diameter, Dimension::Length);
        if let (Some(value), Some(fact)) = (diameter, facts.0.last_mut()) {
            let halves = 2e3 * value.si;
            if value.tolerance == Tolerance::Unstated && (halves - halves.round()).abs() < 1e-9 {
                fact.text = format!("M{}", halves.round() / 2.0);
            }
        }
        facts
    }

    fn word<T: Word>(self, key: &'static str, choice: impl Into<Option<Choice<T>>>) -> Self {
        match choice.into() {
            Some(choice) => self.one_word(key, choice),
            None => self,
        }
    }

    fn one_word<T: Word>(mut self, key: &'static str, choice: Choice<T>) -> Self {
        self.0.push(Fact {
            key,
            text: choice.value.word().into(),
            quoted: true,
            si: None,
            own: choice
                .place
                .is_some_and(|place| place.file == FileId::Shelf),
        });
        self
    }

    /// A word that tells apart what is read in different ways.
    fn say(mut self, key: &'static str, word: &str) -> Self {
        self.0.push(Fact {
            key,
            text: word.into(),
            quoted: true,
            si: None,
            own: false,
        });
        self
    }

    /// Words in a list.
    fn words<T: Word>(mut self, key: &'static str, words: &[T]) -> Self {
        if !words.is_empty() {
            let quoted: Vec<String> = words
                .iter()
                .map(|word| format!("\"{}\"", word.word()))
                .collect();
            self.0.push(Fact::list(key, &quoted));
        }
        self
    }

    /// Plain values in a list.
    fn values(mut self, key: &'static str, values: &[f64], what: Dimension) -> Self {
        let quoted: Vec<String> = values
            .iter()
            .map(|value| format!("\"{}\"", design::format_rounded(*value, what, DIGITS)))
            .collect();
        self.0.push(Fact::list(key, &quoted));
        self
    }

    fn count(mut self, key: &'static str, count: impl Into<Option<u32>>) -> Self {
        if let Some(count) = count.into() {
            self.0.push(Fact {
                key,
                text: count.to_string(),
                quoted: false,
                si: Some(f64::from(count)),
                own: false,
            });
        }
        self
    }

    /// A flag that the shelf states.
    fn said_flag(mut self, key: &'static str, flag: Choice<bool>) -> Self {
        if let Some(place) = flag.place {
            self = self.flag(key, flag.value);
            if let Some(fact) = self.0.last_mut() {
                fact.own = place.file == FileId::Shelf;
            }
        }
        self
    }

    fn flag(mut self, key: &'static str, flag: bool) -> Self {
        self.0.push(Fact {
            key,
            text: flag.to_string(),
            quoted: false,
            si: None,
            own: false,
        });
        self
    }

    /// The size a driver is sold by: in inches where it is a matter of quarters.
    fn nominal_size(self, size: Option<Value>) -> Self {
        let mut facts = self.number("size", size, Dimension::Length);
        if let (
            Some(Value {
                si,
                tolerance: Tolerance::Unstated,
                ..
            }),
            Some(fact),
        ) = (size, facts.0.last_mut())
        {
            let quarters = 4.0 * si / INCH;
            if (quarters - quarters.round()).abs() < 1e-9 {
                fact.text = format!("{} in", quarters.round() / 4.0);
            }
        }
        facts
    }

    fn part(self, kind: &'static str, common: &Common) -> Part {
        let facts = self.number("weight", common.weight, Dimension::Mass);
        Part {
            kind,
            name: common.name.text.clone(),
            about: common.about.clone(),
            generic: common.generic,
            price: common.price.as_ref().map(price),
            on_hand: common.on_hand,
            facts: facts.0,
        }
    }
}

fn price(price: &Money) -> String {
    let sign = match price.currency.as_str() {
        "EUR" => "€",
        "USD" => "$",
        "GBP" => "£",
        code => code,
    };
    let text = format!("{} {sign}", price.amount.si);
    match price.amount.tolerance {
        Tolerance::Unstated => text,
        Tolerance::About => format!("about {text}"),
        Tolerance::Within(half) => format!("{text} ± {half} {sign}"),
    }
}

/// A value the way a shelf file writes it.
fn said(value: Value, what: Dimension) -> String {
    let text = design::format_rounded(value.si, what, DIGITS);
    match value.tolerance {
        Tolerance::Unstated => text,
        Tolerance::About => format!("about {text}"),
        Tolerance::Within(half) => format!("{text} ± {}", design::format_rounded(half, what, 3)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is shown can be pasted into a shelf file and says the same there.
    #[test]
    fn every_part_shown_reads_back() {
        let offcut = "[[offcut]]\nsheet = \"MDF 12 mm\"\nlength = \"620 mm\"\nwidth = \"0.4 m\"\n";
        let shelf = design::read_shelf(Some(&format!("format = 1\n{offcut}"))).unwrap();
        let all_parts = all(&shelf);
        let text: String = all_parts.iter().map(crate::say::part_as_toml).collect();
        let own = all(&design::read_shelf(Some(&format!("format = 1\n{text}"))).unwrap());
        assert_eq!(own.len(), all_parts.len());
        assert_eq!(own.last().unwrap().kind, OFFCUT);
        for (before, after) in all_parts.iter().zip(&own) {
            assert_eq!(before.name, after.name);
            let texts = |part: &Part| {
                part.facts
                    .iter()
                    .map(|fact| (fact.key, fact.text.clone()))
                    .collect::<Vec<_>>()
            };
            assert_eq!(texts(before), texts(after), "{}", before.name);
            for (a, b) in before.facts.iter().zip(&after.facts) {
                let (a, b) = (a.si.unwrap_or(0.0), b.si.unwrap_or(0.0));
                // Half of the fourth digit.
                assert!((a - b).abs() <= 5e-4 * a.abs(), "{}: {a} {b}", before.name);
            }
            assert_eq!(before.price, after.price);
        }
    }
}

//! What part of the bench somebody looks at, as the address of the page says it.

use drawings::boxview::Look;

/// Sheets in the order of the work.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum SheetOf {
    Parts,
    #[default]
    Sound,
    Power,
    Box,
    Cuts,
    Panel,
    Wires,
    Build,
}

impl SheetOf {
    pub(crate) const ALL: [Self; 8] = [
        Self::Parts,
        Self::Sound,
        Self::Power,
        Self::Box,
        Self::Cuts,
        Self::Panel,
        Self::Wires,
        Self::Build,
    ];

    pub(crate) const fn title(self) -> &'static str {
        match self {
            Self::Parts => "Parts",
            Self::Sound => "Sound",
            Self::Power => "Power",
            Self::Box => "Box",
            Self::Cuts => "Cuts",
            Self::Panel => "Panel",
            Self::Wires => "Wires",
            Self::Build => "Build",
        }
    }

    pub(crate) fn word(self) -> String {
        self.title().to_lowercase()
    }
}

/// Looks at the box with their words in the address and on the page.
pub(crate) const LOOKS: [(Look, &str, &str); 5] = [
    (Look::LidOff, "lid-off", "lid off"),
    (Look::Closed, "closed", "closed"),
    (Look::Front, "front", "front"),
    (Look::Section, "section", "section A–A"),
    (Look::Above, "above", "from above"),
];

/// Promises, and whether it can be built, by their words in the address.
pub(crate) const PROMISES: [&str; 6] = ["low", "loud", "long", "light", "cost", "buildable"];

/// What part of the bench is looked at.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct View {
    pub(crate) sheet: SheetOf,
    /// One of [`PROMISES`].
    pub(crate) promise: &'static str,
    pub(crate) look: Look,
    /// The table of the part in hand, as edits name it: `battery`, `drivers.1`.
    pub(crate) part: Option<String>,
    /// Whether what is to mend stands beside the sheet; `None` as the sheet has it.
    pub(crate) side: Option<bool>,
}

impl Default for View {
    fn default() -> Self {
        Self {
            sheet: SheetOf::default(),
            promise: PROMISES[0],
            look: Look::default(),
            part: None,
            side: None,
        }
    }
}

impl View {
    /// As the address says; what it says wrongly is left as usual.
    pub(crate) fn from_query(query: &[(String, String)]) -> Self {
        let mut view = Self::default();
        for (key, value) in query {
            match key.as_str() {
                "sheet" => {
                    let known = SheetOf::ALL
                        .into_iter()
                        .find(|sheet| sheet.word() == *value);
                    view.sheet = known.unwrap_or(view.sheet);
                }
                "promise" => {
                    let known = PROMISES.into_iter().find(|promise| promise == value);
                    view.promise = known.unwrap_or(view.promise);
                }
                "look" => {
                    let known = LOOKS.into_iter().find(|(_, word, _)| word == value);
                    view.look = known.map_or(view.look, |(look, ..)| look);
                }
                "side" => view.side = Some(value != "shut"),
                "part" if !value.is_empty() && value.len() < 100 => {
                    view.part = Some(value.clone());
                }
                _ => {}
            }
        }
        view
    }

    /// The address of this view.
    pub(crate) fn address(&self) -> String {
        let look = LOOKS.into_iter().find(|(look, ..)| *look == self.look);
        let mut out = format!(
            "/?sheet={}&promise={}&look={}",
            self.sheet.word(),
            self.promise,
            look.map_or("lid-off", |(_, word, _)| word)
        );
        if let Some(open) = self.side {
            out += if open { "&side=open" } else { "&side=shut" };
        }
        if let Some(part) = &self.part {
            out += "&part=";
            out += &encoded(part);
        }
        out
    }

    pub(crate) fn with_sheet(&self, sheet: SheetOf) -> Self {
        Self {
            sheet,
            ..self.clone()
        }
    }

    pub(crate) fn with_promise(&self, promise: &'static str) -> Self {
        Self {
            promise,
            ..self.clone()
        }
    }

    pub(crate) fn with_look(&self, look: Look) -> Self {
        Self {
            look,
            ..self.clone()
        }
    }

    /// Whether what is to mend stands beside the sheet. Sheets as wide as paper have the
    /// room to themselves.
    pub(crate) fn side(&self) -> bool {
        let wide = [
            SheetOf::Power,
            SheetOf::Cuts,
            SheetOf::Panel,
            SheetOf::Wires,
            SheetOf::Build,
        ];
        self.side.unwrap_or_else(|| !wide.contains(&self.sheet))
    }

    pub(crate) fn with_side(&self, open: bool) -> Self {
        Self {
            side: Some(open),
            ..self.clone()
        }
    }

    pub(crate) fn with_part(&self, part: Option<&str>) -> Self {
        Self {
            part: part.map(str::to_owned),
            ..self.clone()
        }
    }
}

/// A text as a part of an address.
pub(crate) fn encoded(text: &str) -> String {
    let mut out = String::new();
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            out.push(char::from(byte));
        } else {
            out += &format!("%{byte:02X}");
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_leads_back_to_its_view() {
        for sheet in SheetOf::ALL {
            for (look, ..) in LOOKS {
                let view = View {
                    sheet,
                    promise: "long",
                    look,
                    part: Some("drivers.1".into()),
                    side: Some(look == Look::Front),
                };
                let address = view.address();
                let query: Vec<(String, String)> = address[2..]
                    .split('&')
                    .filter_map(|pair| pair.split_once('='))
                    .map(|(key, value)| (key.to_owned(), value.to_owned()))
                    .collect();
                assert_eq!(View::from_query(&query), view);
            }
        }
    }

    #[test]
    fn what_an_address_says_wrongly_is_left_as_usual() {
        let said = |key: &str, value: &str| View::from_query(&[(key.into(), value.into())]);
        for (key, value) in [
            ("sheet", "../etc"),
            ("promise", "<script>"),
            ("look", ""),
            ("other", "x"),
            ("part", ""),
        ] {
            assert_eq!(said(key, value), View::default(), "{key}={value}");
        }
        assert_eq!(encoded("a b/<é>"), "a%20b%2F%3C%C3%A9%3E");
    }
}

//! What follows from a driver's data sheet, as far as it is filled in.

use crate::check::driver_data;
use crate::subject::{Parameter, reference_air, stated};
use design::DriverPart;
use physics::driver::{Partial, complete};

/// A driver's data and what follows from them, by the usual relations between
/// resonance, Q, mass, compliance, area, force factor and sensitivity
/// (small-1972).
#[derive(Clone, Debug, PartialEq)]
pub struct DataSheet {
    /// What is stated and what follows from it, the most to be trusted first.
    pub values: Vec<Datum>,
    /// Where stated values contradict each other by more than rounding, in sentences.
    pub doubts: Vec<String>,
    /// Names of what the studies would take from experience with such drivers,
    /// since nothing stated implies it.
    pub missing: Vec<&'static str>,
}

/// One parameter.
#[derive(Clone, Debug, PartialEq)]
pub struct Datum {
    /// Name in a shelf file, such as `qts`.
    pub key: &'static str,
    /// In words.
    pub words: &'static str,
    /// In the unit that data sheets use.
    pub said: String,
    /// Whether it was stated; else it follows.
    pub stated: bool,
}

/// What follows from what is stated of a driver.
#[must_use]
pub fn data_sheet(part: &DriverPart) -> DataSheet {
    let mut known = Partial::default();
    for parameter in Parameter::ALL {
        *parameter.slot(&mut known) = stated(part, parameter).map(|value| value.si);
    }
    let completion = complete(&known, &reference_air());
    let mut values = completion.values;
    let datum = |parameter: Parameter| {
        let (key, words, _) = parameter.words();
        let value = (*parameter.slot(&mut values))?;
        Some(Datum {
            key,
            words,
            said: driver_data::shown(key, value),
            stated: parameter.slot(&mut known).is_some(),
        })
    };
    let doubted = completion.conflicts.iter();
    DataSheet {
        values: Parameter::ALL.into_iter().filter_map(datum).collect(),
        doubts: doubted
            .filter(|conflict| driver_data::matters(conflict))
            .map(driver_data::cause)
            .collect(),
        missing: completion.missing,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet(values: &str) -> DataSheet {
        let front = "format = 1\n[[driver]]\nname = \"mine\"\nkind = \"full-range\"\n\
                     size = \"4 in\"\nimpedance = \"4 ohm\"\n";
        let text = format!("{front}{values}");
        let shelf = design::read_shelf(Some(&text)).unwrap();
        let part = shelf
            .drivers
            .iter()
            .find(|part| part.common.name.text == "mine");
        data_sheet(part.unwrap())
    }

    fn said<'a>(sheet: &'a DataSheet, key: &str) -> Option<(&'a str, bool)> {
        let found = sheet.values.iter().find(|value| value.key == key)?;
        Some((&found.said, found.stated))
    }

    /// By hand: 1/Qts = 1/4 + 1/0.5; Cms = 1/((2π·80)²·0.005) = 0.792 mm/N;
    /// Vas = ρc²·Sd²·Cms = 3.38 L with 1.2 kg/m³ and 343 m/s.
    #[test]
    fn values_appear_as_soon_as_they_follow() {
        let few = sheet("qms = 4\nqes = 0.5\n");
        assert_eq!(said(&few, "qts"), Some(("0.44", false)));
        assert_eq!(said(&few, "qms"), Some(("4.00", true)));
        assert_eq!(said(&few, "cms"), None);
        assert!(few.missing.contains(&"mms"));
        let more = sheet(
            "qms = 4\nqes = 0.5\nfs = \"80 Hz\"\nmms = \"5 g\"\nsd = \"55 cm²\"\nre = \"3.4 ohm\"\n",
        );
        assert_eq!(said(&more, "cms"), Some(("0.79 mm/N", false)));
        let (vas, _) = said(&more, "vas").unwrap();
        let litres: f64 = vas.strip_suffix(" L").unwrap().parse().unwrap();
        // Data sheets are taken to be of air at 20 °C: half a per cent stiffer.
        assert!((litres - 3.38).abs() < 0.02, "{vas}");
        assert!(said(&more, "sensitivity").is_some());
        assert_eq!((more.missing.len(), more.doubts.len()), (0, 0));
    }

    #[test]
    fn contradictions_are_told() {
        let slip = sheet("qms = 4\nqes = 0.5\nqts = 0.6\n");
        assert_eq!(slip.doubts.len(), 1);
        assert!(slip.doubts[0].contains("qts"), "{:?}", slip.doubts);
    }
}

//! A net list as it grows.

use super::colour::Duty;
use super::model::{Assumed, ElectricPart};
use super::named::{Named, What};
use wiring::{Carries, End, Kind, Part, System, Wire};

/// Parts, wires and what stands behind them.
#[derive(Clone, Debug, Default)]
pub(super) struct Draft {
    pub(super) system: System,
    pub(super) parts: Vec<ElectricPart>,
    /// What each wire is for.
    pub(super) duties: Vec<Duty>,
    pub(super) assumed: Vec<Assumed>,
    /// What does not fit together, in words, with advice.
    pub(super) doubts: Vec<(usize, String, String)>,
}

impl ElectricPart {
    /// A part nobody named, of which nothing is known.
    pub(super) fn unnamed(label: impl Into<String>) -> Self {
        Self {
            label: label.into(),
            table: String::new(),
            place: None,
            assumed: true,
            at: [0.0; 3],
            placed: None,
            dc_current: None,
            dc_voltage: None,
            idle: 0.0,
            continuous: 0.0,
            peak: 0.0,
            capacitance: 0.0,
        }
    }

    /// A part of panel or inside.
    pub(super) fn named(named: &Named<'_>) -> Self {
        let (dc_current, dc_voltage, capacitance) = match named.what {
            What::Panel(used) => {
                let electric = &used.part.electric;
                (electric.dc_current, electric.dc_voltage, None)
            }
            What::Module(used) => (
                used.part.dc_current,
                used.part.dc_voltage,
                used.part.supply_capacitance,
            ),
        };
        Self {
            table: named.table(),
            place: Some(named.place()),
            assumed: false,
            dc_current: dc_current.map(|value| value.si),
            dc_voltage: dc_voltage.map(|value| value.si),
            capacitance: capacitance.map_or(0.0, |value| value.si),
            ..Self::unnamed(named.label())
        }
    }
}

impl Draft {
    /// Adds a part; a name that is taken gets a number.
    pub(super) fn add(&mut self, mut part: Part, behind: ElectricPart) -> usize {
        let base = part.name.clone();
        let mut number = 2;
        while self.system.part(&part.name).is_some() {
            part.name = format!("{base} {number}");
            number += 1;
        }
        self.system.parts.push(part);
        self.parts.push(behind);
        self.parts.len() - 1
    }

    /// Adds a part that the design should name.
    pub(super) fn assume(&mut self, part: Part, words: &str) -> usize {
        let index = self.add(part, ElectricPart::unnamed(words));
        self.assumed.push(Assumed {
            part: index,
            words: words.into(),
        });
        index
    }

    /// Adds small goods that nobody names: a strip, a resistor.
    pub(super) fn small(&mut self, part: Part, words: String) -> usize {
        self.add(part, ElectricPart::unnamed(words))
    }

    /// A terminal of a part that was just made with it.
    pub(super) fn end(&self, part: usize, terminal: &str) -> End {
        let own = self.system.parts[part].terminal(terminal);
        let terminal = own.expect("a proposed wire ends at a terminal its part was made with");
        End { part, terminal }
    }

    /// Joins two terminals.
    pub(super) fn wire(&mut self, from: End, to: End, carries: Carries, duty: Duty) {
        self.system.wires.push(Wire { from, to, carries });
        self.duties.push(duty);
    }

    /// Every part of a kind.
    pub(super) fn of_kind(&self, kind: Kind) -> Vec<usize> {
        let parts = self.system.parts.iter().enumerate();
        parts
            .filter(|(_, part)| part.kind == kind)
            .map(|(index, _)| index)
            .collect()
    }
}

//! A circuit as a list of parts and what joins them.

use super::drawer::Named;
use super::model::{Kind, Net, Part};
use design::{CapacitorKind, Common};
use physics::indicator::search::Found;
use physics::indicator::{Arm, Indicator as Circuit, Resistor, Trim};

/// Names of the nets of an indicator.
pub(super) const BATTERY: &str = "battery +";
pub(super) const GROUND: &str = "ground";
pub(super) const DIVIDER: &str = "divider";
pub(super) const INPUT: &str = "input";
pub(super) const REFERENCE: &str = "reference";
pub(super) const OUTPUT: &str = "output";

/// Parts and nets as they grow.
pub(super) struct Board<'a> {
    named: &'a Named<'a>,
    pub(super) parts: Vec<Part>,
    pub(super) nets: Vec<Net>,
    /// Marks begin above this number.
    from: usize,
}

impl<'a> Board<'a> {
    pub(super) fn new(named: &'a Named<'a>, from: usize) -> Self {
        Self {
            named,
            parts: Vec::new(),
            nets: Vec::new(),
            from,
        }
    }

    /// A whole indicator, its arm below perhaps with a trimmer.
    pub(super) fn indicator(mut self, found: &Found, trim: Option<&Trim>, lit: bool) -> Self {
        let circuit = &found.circuit;
        self.arm(&circuit.top, "divider, above", [BATTERY, DIVIDER]);
        match trim {
            None => self.arm(&circuit.bottom, "divider, below", [DIVIDER, GROUND]),
            Some(trim) => {
                self.resistor(trim.fixed, "divider, below", [DIVIDER, "trimmer"]);
                self.trimmer(trim.trimmer);
            }
        }
        if let Some(back) = circuit.feedback {
            self.resistor(back, "hysteresis", [OUTPUT, DIVIDER]);
        }
        self.resistor(circuit.feed, "feeds the reference", [BATTERY, REFERENCE]);
        self.reference(found.reference);
        let input = input_of(circuit);
        if let Some(slow) = circuit.slow {
            self.resistor(slow, "delay, before the input", [DIVIDER, input]);
        }
        self.comparator(found.comparator, input);
        if let Some(one) = circuit.pull_up {
            self.resistor(one, "pulls the output up", [BATTERY, OUTPUT]);
        }
        if let Some(index) = found.capacitor {
            self.capacitor(index, circuit.delay.map_or(0.0, |one| one.farads), input);
        }
        if let Some(farads) = circuit.speed_up {
            self.speed_up(farads, input);
        }
        if lit {
            let series = self.nearest(circuit.light.series);
            self.resistor(series, "limits the lamp's current", [BATTERY, "lamp"]);
            self.lamp();
        }
        self
    }

    /// A resistor of the drawer by its value: the finest of those alike.
    fn nearest(&self, ohms: f64) -> Resistor {
        let all = self.named.drawer.resistors.iter().map(|offer| offer.part);
        all.filter(|one| one.ohms == ohms)
            .min_by(|a, b| a.tolerance.total_cmp(&b.tolerance))
            .unwrap_or(Resistor {
                ohms,
                tolerance: 0.0,
            })
    }

    fn mark(&self, letter: &str) -> String {
        let alike = self
            .parts
            .iter()
            .filter(|part| part.mark.starts_with(letter));
        format!("{letter}{}", self.from + alike.count() + 1)
    }

    pub(super) fn join(&mut self, net: &str, mark: &str, pin: &'static str) {
        let pin = (mark.to_owned(), pin);
        match self.nets.iter_mut().find(|known| known.name == net) {
            Some(known) => known.pins.push(pin),
            None => self.nets.push(Net {
                name: net.to_owned(),
                pins: vec![pin],
            }),
        }
    }

    /// Adds a part with its terminals and the nets they are on.
    pub(super) fn add(
        &mut self,
        letter: &str,
        part: Part,
        pins: &[(&'static str, &str)],
    ) -> String {
        let mark = self.mark(letter);
        for (pin, net) in pins {
            self.join(net, &mark, pin);
        }
        self.parts.push(Part {
            mark: mark.clone(),
            ..part
        });
        mark
    }

    fn arm(&mut self, arm: &Arm, does: &'static str, [upper, lower]: [&str; 2]) {
        match *arm {
            Arm::One(one) => self.resistor(one, does, [upper, lower]),
            Arm::Series(a, b) => {
                let middle = format!("{does}, middle");
                self.resistor(a, does, [upper, &middle]);
                self.resistor(b, does, [&middle, lower]);
            }
            Arm::Parallel(a, b) => {
                self.resistor(a, does, [upper, lower]);
                self.resistor(b, does, [upper, lower]);
            }
        }
    }

    pub(super) fn resistor(
        &mut self,
        one: Resistor,
        does: &'static str,
        [upper, lower]: [&str; 2],
    ) {
        let drawer = self.named.resistor(one);
        let part = Part {
            value: Some(one.ohms),
            unit: "Ω",
            tolerance: Some(one.tolerance),
            ..plain(Kind::Resistor, does, drawer.map(|part| &part.common))
        };
        self.add("R", part, &[("1", upper), ("2", lower)]);
    }

    fn trimmer(&mut self, ohms: f64) {
        let part = Part {
            value: Some(ohms),
            unit: "Ω",
            ..plain(Kind::Trimmer, "sets the threshold", None)
        };
        self.add("RV", part, &[("1", "trimmer"), ("2", GROUND)]);
    }

    fn reference(&mut self, index: usize) {
        let offer = &self.named.drawer.references[index].part;
        let part = Part {
            value: Some(offer.volts),
            unit: "V",
            tolerance: Some(offer.tolerance),
            ..plain(
                Kind::Reference,
                "what the divider is held against",
                Some(self.named.references[index]),
            )
        };
        self.add("D", part, &[("cathode", REFERENCE), ("anode", GROUND)]);
    }

    fn comparator(&mut self, index: usize, input: &str) {
        let common = &self.named.comparators[index].common;
        let part = plain(Kind::Comparator, "compares", Some(common));
        let pins = [
            ("+", input),
            ("−", REFERENCE),
            ("output", OUTPUT),
            ("supply", BATTERY),
            ("ground", GROUND),
        ];
        self.add("U", part, &pins);
    }

    fn capacitor(&mut self, index: usize, farads: f64, input: &str) {
        let drawer = self.named.capacitors[index];
        let kind = if drawer.kind.value == CapacitorKind::Electrolytic {
            Kind::Electrolytic
        } else {
            Kind::Capacitor
        };
        let part = Part {
            value: Some(farads),
            unit: "F",
            tolerance: Some(drawer.tolerance.si),
            ..plain(kind, "delay", Some(&drawer.common))
        };
        self.add("C", part, &[("+", input), ("−", GROUND)]);
    }

    fn speed_up(&mut self, farads: f64, input: &str) {
        let drawer = self.named.unpolar(farads).map(|(part, _)| part);
        let part = Part {
            value: Some(farads),
            unit: "F",
            tolerance: drawer.map(|part| part.tolerance.si),
            ..plain(
                Kind::Capacitor,
                "lets the hysteresis act at once",
                drawer.map(|part| &part.common),
            )
        };
        self.add("C", part, &[("1", OUTPUT), ("2", input)]);
    }

    fn lamp(&mut self) {
        let Some(led) = self.named.led else { return };
        let part = Part {
            value: Some(led.forward_voltage.si),
            unit: "V",
            ..plain(Kind::Lamp, "low battery", Some(&led.common))
        };
        self.add("D", part, &[("anode", "lamp"), ("cathode", OUTPUT)]);
    }
}

/// The net of the comparator's input: the divider itself where nothing lies between.
pub(super) fn input_of(circuit: &Circuit) -> &'static str {
    if circuit.slow.is_some() {
        INPUT
    } else {
        DIVIDER
    }
}

/// A part with nothing but its kind, its use and its place on the shelf.
pub(super) fn plain(kind: Kind, does: &'static str, common: Option<&Common>) -> Part {
    Part {
        mark: String::new(),
        kind,
        does,
        value: None,
        unit: "",
        tolerance: None,
        name: common.map(|common| common.name.text.clone()),
        to_buy: common.is_none_or(|common| common.on_hand == 0),
    }
}

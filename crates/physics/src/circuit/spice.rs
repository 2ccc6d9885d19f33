//! Networks as SPICE netlists.
//!
//! Everything becomes R, L, C, controlled sources and ammeters (sources of
//! zero volts). What depends on frequency otherwise is written in one of two
//! ways: frozen at one frequency, as plain R, L and C that any SPICE reads;
//! or for a whole sweep, as behavioural sources with tables over the variable
//! `hertz`, exact at the frequencies of the sweep.

use std::fmt::Write as _;

use super::band::Band;
use super::element::{Admittance, Impedance, TwoPort, Value};
use super::network::{Circuit, Element, GROUND, Node};
use crate::math::{self, Complex};

/// Which frequencies a netlist is for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Analysis {
    /// One frequency in Hz; frequency-dependent elements are frozen at it.
    Single(f64),
    /// Equal steps by ratio.
    Decades {
        /// Steps in each decade.
        steps: u32,
        /// First frequency in Hz.
        from: f64,
        /// Last frequency in Hz. Take it a whole number of steps away from
        /// the first: simulators differ in what they do otherwise.
        to: f64,
    },
}

impl Analysis {
    /// The frequencies in Hz.
    #[must_use]
    pub fn frequencies(&self) -> Vec<f64> {
        match *self {
            Self::Single(frequency) => vec![frequency],
            Self::Decades { steps, from, to } => (0..)
                .map(|step| from * math::pow(10.0, f64::from(step) / f64::from(steps)))
                .take_while(|frequency| *frequency <= to * (1.0 + 1e-9))
                .collect(),
        }
    }

    fn line(&self) -> String {
        match self {
            Self::Single(frequency) => format!(".ac lin 1 {frequency:e} {frequency:e}"),
            Self::Decades { steps, from, to } => format!(".ac dec {steps} {from:e} {to:e}"),
        }
    }
}

impl Circuit {
    /// The network as a SPICE netlist; `title` and `remarks` go to its head.
    ///
    /// One source of one volt, `Vsource`, drives all sources of the network.
    /// Every series branch has an ammeter named after it.
    #[must_use]
    pub fn netlist(&self, title: &str, remarks: &[String], analysis: &Analysis) -> String {
        let mut writer = Writer {
            circuit: self,
            bands: analysis
                .frequencies()
                .into_iter()
                .map(Band::splat)
                .collect(),
            frequencies: analysis.frequencies(),
            text: String::new(),
        };
        writer.line(&format!("* {}", one_line(title)));
        for remark in remarks {
            writer.line(&format!("* {}", one_line(remark)));
        }
        writer.line("Vsource drive 0 DC 0 AC 1");
        for element in self.elements() {
            writer.element(element);
        }
        writer.line("* a path to ground at zero frequency for every node");
        writer.line(".options rshunt=1e15");
        writer.line(&analysis.line());
        writer.line(".end");
        writer.text
    }
}

/// A title must not break out of its comment.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

struct Writer<'a> {
    circuit: &'a Circuit,
    frequencies: Vec<f64>,
    bands: Vec<Band>,
    text: String,
}

/// What is to be written between two nodes, and how the parts are to be named.
struct Between<'a> {
    name: &'a str,
    from: String,
    to: String,
}

impl Writer<'_> {
    fn line(&mut self, text: &str) {
        self.text.push_str(text);
        self.text.push('\n');
    }

    fn card(&mut self, kind: char, name: &str, from: &str, to: &str, rest: &str) {
        self.line(&format!("{kind}{name} {from} {to} {rest}"));
    }

    fn node(&self, node: Node) -> String {
        if node == GROUND {
            "0".into()
        } else {
            self.circuit.node_name(node).into()
        }
    }

    fn element(&mut self, element: &Element) {
        let name = element.name.as_str();
        let [a, b] = element.first.map(|node| self.node(node));
        let [c, d] = element.second.map(|node| self.node(node));
        let between = |from: &str, to: &str| Between {
            name,
            from: from.into(),
            to: to.into(),
        };
        match &element.value {
            Value::Impedance(law) => {
                let metered = self.ammeter(name, &a);
                self.series(&between(&metered, &b), law);
            }
            Value::OnePort(law) => {
                let metered = self.ammeter(name, &a);
                let values = self.sampled(|band| law.impedance(band).lane(0));
                self.impedance(&between(&metered, &b), name, &values);
            }
            Value::Admittance(law) => self.parallel(&between(&a, &b), law),
            Value::TwoPort(law) => {
                let arms = self.arms(law.as_ref());
                self.pi(name, [[&a, &b], [&c, &d]], &arms);
            }
            Value::Gyrator(ratio) => self.gyrator(name, [[&a, &b], [&c, &d]], *ratio),
            Value::Transformer(ratio) => {
                let metered = self.ammeter(name, &a);
                let back = -ratio;
                self.card('E', name, &metered, &b, &format!("{c} {d} {ratio:e}"));
                self.card('F', name, &c, &d, &format!("V{name} {back:e}"));
            }
            Value::VoltageSource(volts) => {
                let metered = self.ammeter(name, &a);
                self.card('E', name, &metered, &b, &format!("drive 0 {volts:e}"));
            }
            Value::CurrentSource(amps) => {
                self.card('G', name, &a, &b, &format!("drive 0 {amps:e}"));
            }
        }
    }

    /// The bridge of a π in Ω and its two legs in S, sampled.
    fn arms(&self, law: &dyn TwoPort) -> [Vec<Complex>; 3] {
        let leg = |own: usize| {
            self.sampled(|band| {
                let y = law.admittance(band);
                (y[own] + y[1]).lane(0)
            })
        };
        [
            self.sampled(|band| -law.admittance(band)[1].lane(0).inv()),
            leg(0),
            leg(2),
        ]
    }

    /// Two controlled sources: the first port's current follows the second's
    /// voltage over the ratio, and back with the other sign.
    fn gyrator(&mut self, name: &str, [[a, b], [c, d]]: [[&str; 2]; 2], ratio: f64) {
        let (forth, back) = (1.0 / ratio, -1.0 / ratio);
        self.card(
            'G',
            &format!("{name}_1"),
            a,
            b,
            &format!("{c} {d} {forth:e}"),
        );
        self.card(
            'G',
            &format!("{name}_2"),
            c,
            d,
            &format!("{a} {b} {back:e}"),
        );
    }

    /// Begins a branch with an ammeter; gives the node behind it.
    fn ammeter(&mut self, name: &str, from: &str) -> String {
        let behind = format!("{name}_m");
        self.card('V', name, from, &behind, "0");
        behind
    }

    fn series(&mut self, place: &Between<'_>, law: &Impedance) {
        let mut parts: Vec<(char, String)> = Vec::new();
        for (kind, value) in [('R', law.resistance), ('L', law.inductance)] {
            if value != 0.0 {
                parts.push((kind, format!("{value:e}")));
            }
        }
        if law.elastance != 0.0 {
            parts.push(('C', format!("{:e}", 1.0 / law.elastance)));
        }
        let semi = law.semi.k != 0.0;
        if parts.is_empty() && !semi {
            parts.push(('V', "0".into()));
        }
        let last = parts.len() + usize::from(semi) - 1;
        let mut from = place.from.clone();
        for (index, (kind, value)) in parts.iter().enumerate() {
            let to = step(place, index, last);
            let name = if *kind == 'V' {
                format!("{}_short", place.name)
            } else {
                place.name.into()
            };
            self.card(*kind, &name, &from, &to, value);
            from = to;
        }
        if semi {
            let values = self.sampled(|band| law.semi.impedance(band).lane(0));
            let rest = Between {
                name: place.name,
                from,
                to: place.to.clone(),
            };
            self.impedance(&rest, place.name, &values);
        }
    }

    fn parallel(&mut self, place: &Between<'_>, law: &Admittance) {
        let Between { name, from, to } = place;
        if law.conductance != 0.0 {
            self.card('R', name, from, to, &format!("{:e}", 1.0 / law.conductance));
        }
        if law.capacitance != 0.0 {
            self.card('C', name, from, to, &format!("{:e}", law.capacitance));
        }
        if law.relaxing != 0.0 {
            let within = format!("{name}_relaxing");
            let resistance = law.relaxation / law.relaxing;
            self.card('R', &within, from, &within, &format!("{resistance:e}"));
            self.card('C', &within, &within, to, &format!("{:e}", law.relaxing));
        }
    }

    /// A reciprocal two-port as series and shunt arms. The second terminals
    /// must be at one potential, as those of a duct are.
    fn pi(&mut self, name: &str, ports: [[&str; 2]; 2], arms: &[Vec<Complex>; 3]) {
        let [[a, b], [c, d]] = ports;
        let series = format!("{name}_series");
        let metered = self.ammeter(&series, a);
        let place = Between {
            name: &series,
            from: metered,
            to: c.into(),
        };
        self.impedance(&place, &series, &arms[0]);
        for (arm, end, from, to) in [(&arms[1], "first", a, b), (&arms[2], "second", c, d)] {
            let name = format!("{name}_{end}");
            let place = Between {
                name: &name,
                from: from.into(),
                to: to.into(),
            };
            self.admittance(&place, arm);
        }
    }

    /// Resistance and reactance in series; `meter` names the ammeter whose
    /// current flows through.
    fn impedance(&mut self, place: &Between<'_>, meter: &str, values: &[Complex]) {
        let Between { name, from, to } = place;
        if let [value] = values {
            let omega = math::omega(self.frequencies[0]);
            let frozen = Impedance {
                resistance: value.re,
                inductance: value.im.max(0.0) / omega,
                elastance: -value.im.min(0.0) * omega,
                ..Impedance::SHORT
            };
            let name = format!("{name}_frozen");
            let place = Between {
                name: &name,
                from: from.clone(),
                to: to.clone(),
            };
            self.series(&place, &frozen);
            return;
        }
        // The voltage of one henry that carries the same current is jω times it.
        let rate = format!("{name}_rate");
        self.card('F', &rate, "0", &rate, &format!("V{meter} 1"));
        self.card('L', &rate, &rate, "0", "1");
        let resistance = self.table(values, |value, _| value.re);
        let inductance = self.table(values, |value, omega| value.im / omega);
        self.card(
            'B',
            name,
            from,
            to,
            &format!("v=i(V{meter})*{resistance}\n+ +v({rate})*{inductance}"),
        );
    }

    /// Conductance and susceptance in parallel.
    fn admittance(&mut self, place: &Between<'_>, values: &[Complex]) {
        let Between { name, from, to } = place;
        if let [value] = values {
            let omega = math::omega(self.frequencies[0]);
            let frozen = Admittance {
                conductance: value.re,
                capacitance: value.im.max(0.0) / omega,
                ..Admittance::OPEN
            };
            self.parallel(place, &frozen);
            if value.im < 0.0 {
                let inductance = -1.0 / (omega * value.im);
                self.card('L', name, from, to, &format!("{inductance:e}"));
            }
            return;
        }
        // The current of one farad on the same voltage is jω times it.
        let (copy, rate) = (format!("{name}_copy"), format!("{name}_rate"));
        self.card('E', &copy, &copy, "0", &format!("{from} {to} 1"));
        self.card('C', &rate, &copy, &rate, "1");
        self.card('V', &rate, &rate, "0", "0");
        let conductance = self.table(values, |value, _| value.re);
        let capacitance = self.table(values, |value, omega| value.im / omega);
        self.card(
            'B',
            name,
            from,
            to,
            &format!("i=v({from},{to})*{conductance}\n+ +i(V{rate})*{capacitance}"),
        );
    }

    fn sampled(&self, law: impl Fn(&Band) -> Complex) -> Vec<Complex> {
        self.bands.iter().map(law).collect()
    }

    /// A function of frequency as straight lines between the sweep's points.
    fn table(&self, values: &[Complex], part: impl Fn(Complex, f64) -> f64) -> String {
        let mut text = String::from("pwl(hertz");
        for (frequency, value) in self.frequencies.iter().zip(values) {
            let value = part(*value, math::omega(*frequency));
            write!(text, ",\n+ {frequency:e},{value:e}").expect("strings take all that is written");
        }
        text.push(')');
        text
    }
}

/// The node after one part of a series: the end of the branch after the last.
fn step(place: &Between<'_>, index: usize, last: usize) -> String {
    if index == last {
        place.to.clone()
    } else {
        format!("{}_{}", place.name, index + 1)
    }
}

//! What there is, and what is wanted.

use crate::indicator::{Capacitor, Comparator, Reference, Resistor};

/// A part that may be taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offer<T> {
    /// The part.
    pub part: T,
    /// Whether it would have to be bought.
    pub to_buy: bool,
}

/// What lies in the drawer.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawer {
    /// Resistors, one of each value and tolerance; there may be several of each.
    pub resistors: Vec<Offer<Resistor>>,
    /// Capacitors that bear the battery's voltage.
    pub capacitors: Vec<Offer<Capacitor>>,
    /// Zener diodes and shunt references.
    pub references: Vec<Offer<Reference>>,
    /// Comparators.
    pub comparators: Vec<Offer<Comparator>>,
}

/// The lamp to be lit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lamp {
    /// Forward voltage in V.
    pub forward: f64,
    /// Current wanted when it lights, in A.
    pub current: f64,
    /// Highest current in A.
    pub most_current: f64,
}

/// What an indicator is to do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wish {
    /// Battery voltage at which it is to light, in V.
    pub trip: f64,
    /// Largest share by which the nominal threshold may miss that.
    pub within: f64,
    /// Least and greatest hysteresis in V at the battery; both zero for none.
    pub hysteresis: [f64; 2],
    /// Highest rising threshold in V: what a charged battery surely passes.
    pub recovered: f64,
    /// Least and greatest delay in s; both zero for none.
    pub delay: [f64; 2],
    /// Lowest and highest voltage of the battery in V.
    pub supply: [f64; 2],
    /// The lamp.
    pub lamp: Lamp,
}

impl Wish {
    /// Whether a feedback resistor is wanted.
    pub(super) fn feeds_back(&self) -> bool {
        self.hysteresis[1] > 0.0
    }

    /// The same wish with no more hysteresis than lets a charged battery put the
    /// lamp out again; `None` where that is less than the least wanted.
    pub(super) fn within_reach(&self) -> Option<Self> {
        let [least, most] = self.hysteresis;
        let room = self.recovered - self.trip * (1.0 - self.within);
        if !self.feeds_back() {
            return Some(*self);
        }
        (room >= least).then_some(Self {
            hysteresis: [least, most.min(room)],
            ..*self
        })
    }

    /// Whether a capacitor is wanted.
    pub(super) fn waits(&self) -> bool {
        self.delay[1] > 0.0
    }
}

//! A discharge stepped through the state of charge.

use super::{Battery, solve_terminal};

/// Steps of state of charge from full to empty.
const STEPS: u32 = 200;

/// Why a discharge came to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// Nothing left.
    Empty,
    /// The terminals reached the end voltage.
    EndVoltage,
    /// The battery could not give the power asked at any voltage.
    BrownOut,
    /// The load stopped drawing.
    LoadOff,
}

/// What a discharge gave.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Endurance {
    /// How long it lasted, in s; infinite for a load that draws nothing.
    pub seconds: f64,
    /// Energy delivered at the terminals, in Wh.
    pub energy_wh: f64,
    /// Energy lost in the battery's resistance, in Wh.
    pub loss_wh: f64,
    /// Charge delivered, in Ah.
    pub charge_ah: f64,
    /// Why it ended.
    pub ended_by: Ended,
}

/// What a discharge gave, and how the voltage went.
#[derive(Clone, Debug, PartialEq)]
pub struct Discharge {
    /// How long it lasted, in s; infinite for a load that draws nothing.
    pub seconds: f64,
    /// Energy delivered at the terminals, in Wh.
    pub energy_wh: f64,
    /// Energy lost in the battery's resistance, in Wh.
    pub loss_wh: f64,
    /// Charge delivered, in Ah.
    pub charge_ah: f64,
    /// Time in s and terminal voltage in V.
    pub curve: Vec<(f64, f64)>,
    /// Why it ended.
    pub ended_by: Ended,
}

/// The battery under load at one state of charge; the last three per unit of
/// state of charge.
#[derive(Clone, Copy)]
struct Point {
    volts: f64,
    current: f64,
    hours: f64,
    energy: f64,
    loss: f64,
}

impl Battery {
    /// Discharges from full with a load that draws `power_of(volts)` W at a
    /// terminal voltage.
    ///
    /// Trapezoid rule over 200 steps of charge; each terminal voltage solves
    /// V = E − R·P(V)/V. A load that draws nothing at any voltage met on the
    /// way counts as off for good.
    #[must_use]
    pub fn discharge(&self, power_of: &dyn Fn(f64) -> f64) -> Discharge {
        let mut curve = Vec::with_capacity(STEPS as usize + 2);
        let end = self.march(power_of, &mut |seconds, volts| curve.push((seconds, volts)));
        Discharge {
            seconds: end.seconds,
            energy_wh: end.energy_wh,
            loss_wh: end.loss_wh,
            charge_ah: end.charge_ah,
            curve,
            ended_by: end.ended_by,
        }
    }

    /// [`Battery::discharge`] without the curve.
    #[must_use]
    pub fn endurance(&self, power_of: &dyn Fn(f64) -> f64) -> Endurance {
        self.march(power_of, &mut |_, _| ())
    }

    fn march(&self, power_of: &dyn Fn(f64) -> f64, visit: &mut dyn FnMut(f64, f64)) -> Endurance {
        let mut sum = Endurance {
            seconds: 0.0,
            energy_wh: 0.0,
            loss_wh: 0.0,
            charge_ah: 0.0,
            ended_by: Ended::Empty,
        };
        let mut last: Option<Point> = None;
        for step in 0..=STEPS {
            let charge = 1.0 - f64::from(step) / f64::from(STEPS);
            let current = last.map_or(0.0, |point| point.current);
            let here = match self.load_at(charge, current, power_of) {
                Ok(point) => point,
                Err(ended_by) => return Self::cut_short(sum, ended_by, last.is_none()),
            };
            let Some(before) = last else {
                visit(0.0, here.volts);
                if here.volts < self.end_voltage {
                    return Endurance {
                        ended_by: Ended::EndVoltage,
                        ..sum
                    };
                }
                last = Some(here);
                continue;
            };
            let ended = here.volts < self.end_voltage;
            let part = if ended {
                (before.volts - self.end_voltage) / (before.volts - here.volts)
            } else {
                1.0
            };
            sum.add(&before, &here, part);
            visit(
                sum.seconds,
                before.volts + part * (here.volts - before.volts),
            );
            if ended {
                return Endurance {
                    ended_by: Ended::EndVoltage,
                    ..sum
                };
            }
            last = Some(here);
        }
        sum
    }

    fn cut_short(sum: Endurance, ended_by: Ended, at_start: bool) -> Endurance {
        let never = at_start && ended_by == Ended::LoadOff;
        let seconds = if never { f64::INFINITY } else { sum.seconds };
        Endurance {
            seconds,
            ended_by,
            ..sum
        }
    }

    /// Solves the terminal voltage, starting from the sag of the step before.
    fn load_at(
        &self,
        charge: f64,
        current_before: f64,
        power_of: &dyn Fn(f64) -> f64,
    ) -> Result<Point, Ended> {
        let emf = self.emf(charge);
        let mut volts = emf - self.resistance * current_before;
        let mut power = power_of(volts);
        for _ in 0..ROUNDS {
            if power <= 0.0 {
                return Err(Ended::LoadOff);
            }
            let next = solve_terminal(emf, self.resistance, power).ok_or(Ended::BrownOut)?;
            let settled = (next - volts).abs() <= SETTLED * emf;
            volts = next;
            if settled {
                break;
            }
            power = power_of(volts);
        }
        let current = (emf - volts) / self.resistance;
        let current = if self.resistance > 0.0 {
            current
        } else {
            power / volts
        };
        if current <= 0.0 {
            return Err(Ended::LoadOff);
        }
        let hours = self.capacity_ah / (current * self.rate_penalty(current));
        let energy = volts * current * hours;
        let loss = self.resistance * current * current * hours;
        Ok(Point {
            volts,
            current,
            hours,
            energy,
            loss,
        })
    }
}

/// Most rounds of solving a terminal voltage; two or three suffice for any
/// load whose power changes gently with voltage.
const ROUNDS: u32 = 12;

/// Change of terminal voltage, relative to the open-circuit voltage, at which it has settled.
const SETTLED: f64 = 1e-6;

impl Endurance {
    /// Adds the first `part` (0 to 1) of the step between two points.
    fn add(&mut self, from: &Point, to: &Point, part: f64) {
        let width = part / f64::from(STEPS);
        let mean = |a: f64, b: f64| width * (a + 0.5 * part * (b - a));
        let charge = |point: &Point| point.current * point.hours;
        self.seconds += 3600.0 * mean(from.hours, to.hours);
        self.energy_wh += mean(from.energy, to.energy);
        self.loss_wh += mean(from.loss, to.loss);
        self.charge_ah += mean(charge(from), charge(to));
    }
}

//! A network in time.

use super::linear::Factors;
use super::network::Network;

/// Stages of the method: diagonally implicit, of fourth order with one of
/// third order inside, L-stable (`hairer-wanner-1996`, table 6.5 of chapter IV).
const STAGES: usize = 5;
const DIAGONAL: f64 = 0.25;
const BELOW: [[f64; STAGES - 1]; STAGES] = [
    [0.0; 4],
    [0.5, 0.0, 0.0, 0.0],
    [17.0 / 50.0, -1.0 / 25.0, 0.0, 0.0],
    [371.0 / 1360.0, -137.0 / 2720.0, 15.0 / 544.0, 0.0],
    [25.0 / 24.0, -49.0 / 48.0, 125.0 / 16.0, -85.0 / 12.0],
];
/// Weights of the fourth order less those of the third.
const DOUBT: [f64; STAGES] = [
    25.0 / 24.0 - 59.0 / 48.0,
    -49.0 / 48.0 + 17.0 / 96.0,
    125.0 / 16.0 - 225.0 / 32.0,
    0.0,
    0.25,
];

/// Rounds of the corrector within a stage, and the share of what a step may err by within
/// which it has settled; finer than so many K it never needs to.
const ROUNDS: usize = 12;
const SETTLED: f64 = 1e-3;
const FINEST: f64 = 1e-9;
/// Step in s below which the course is given up.
const SHORTEST: f64 = 1e-9;

/// Temperatures against time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Course {
    /// Seconds since the start.
    pub seconds: Vec<f64>,
    /// Temperatures in °C of all bodies at each of these times.
    pub celsius: Vec<Vec<f64>>,
    /// Heat in J that each body took up by then from sources and ways: stored
    /// in a free body, led away by a held one.
    pub taken: Vec<Vec<f64>>,
}

impl Course {
    /// Temperature in °C of one body at a time in s, between the steps by the
    /// cubic through both ends with their slopes.
    #[must_use]
    pub fn at(&self, network: &Network, body: usize, seconds: f64) -> f64 {
        let last = self.seconds.len() - 1;
        let above = self
            .seconds
            .partition_point(|&t| t < seconds)
            .clamp(1, last);
        let (t0, t1) = (self.seconds[above - 1], self.seconds[above]);
        let ends = [above - 1, above].map(|i| {
            let capacity = network.nodes[body].capacity;
            let slope = if capacity > 0.0 && network.nodes[body].held.is_none() {
                network.balance(&self.celsius[i])[body] / capacity
            } else {
                let (a, b) = (&self.celsius[above - 1], &self.celsius[above]);
                (b[body] - a[body]) / (t1 - t0)
            };
            (self.celsius[i][body], slope * (t1 - t0))
        });
        let x = ((seconds - t0) / (t1 - t0)).clamp(0.0, 1.0);
        let [(y0, m0), (y1, m1)] = ends;
        let rest = 1.0 - x;
        y0 * (1.0 + 2.0 * x) * rest * rest + m0 * x * rest * rest + y1 * x * x * (3.0 - 2.0 * x)
            - m1 * x * x * rest
    }
}

/// What the stages of one step share.
struct Corrector<'a> {
    /// Temperatures in °C at its beginning.
    start: &'a [f64],
    /// The share of the step in s that one stage takes up implicitly.
    part: f64,
    /// Change in K below which a stage has settled.
    settled: f64,
    factors: Factors,
}

/// One step tried.
struct Tried {
    celsius: Vec<f64>,
    taken: Vec<f64>,
    error: f64,
}

impl Network {
    /// Follows the bodies from `start` (°C) for so many seconds, in steps that
    /// it chooses itself so that each errs by less than `within` K.
    ///
    /// `None` where no step is short enough, as with numbers that are not finite.
    #[must_use]
    pub fn course(&self, start: &[f64], seconds: f64, within: f64) -> Option<Course> {
        let mut course = Course {
            seconds: vec![0.0],
            celsius: vec![start.to_vec()],
            taken: vec![vec![0.0; start.len()]],
        };
        let mut now = 0.0;
        let mut step = (seconds / 1000.0).min(1.0);
        while now < seconds {
            let last = now + step >= seconds;
            let length = if last { seconds - now } else { step };
            let at = course.celsius.len() - 1;
            let tried = self.step(&course.celsius[at], length, within);
            let error = tried.as_ref().map_or(f64::INFINITY, |tried| tried.error);
            let by = if error.is_finite() {
                0.9 * (within / error.max(1e-300)).sqrt().sqrt()
            } else {
                0.25
            };
            step = length * by.clamp(0.2, 4.0);
            if let Some(tried) = tried.filter(|tried| tried.error <= within) {
                now = if last { seconds } else { now + length };
                let before = &course.taken[at];
                let taken = before
                    .iter()
                    .zip(&tried.taken)
                    .map(|(a, b)| a + b)
                    .collect();
                course.seconds.push(now);
                course.celsius.push(tried.celsius);
                course.taken.push(taken);
            } else if step < SHORTEST {
                return None;
            }
        }
        Some(course)
    }

    /// One step from these temperatures; `None` where a stage does not settle.
    fn step(&self, start: &[f64], length: f64, within: f64) -> Option<Tried> {
        let size = self.nodes.len();
        let part = DIAGONAL * length;
        let mut cells = self.slope(start);
        for (i, node) in self.nodes.iter().enumerate() {
            for cell in &mut cells[i * size..(i + 1) * size] {
                *cell *= -part;
            }
            cells[i * size + i] += if node.held.is_some() {
                1.0
            } else {
                node.capacity
            };
        }
        let corrector = Corrector {
            start,
            part,
            settled: (SETTLED * within).max(FINEST),
            factors: Factors::of(size, cells)?,
        };
        let mut flows: Vec<Vec<f64>> = Vec::with_capacity(STAGES);
        let mut celsius = start.to_vec();
        // What flows where the last stage ended is what flows where the next one begins.
        let mut net = self.balance(start);
        for below in &BELOW {
            // What the stages before have stored, in J, against the capacity.
            let mut stored = vec![0.0; size];
            for (flow, weight) in flows.iter().zip(below) {
                for (sum, heat) in stored.iter_mut().zip(flow) {
                    *sum += length * weight * heat;
                }
            }
            net = self.stage(&corrector, &mut celsius, net, &stored)?;
            flows.push(net.clone());
        }
        let weighted = |weights: &dyn Fn(usize) -> f64, i: usize| {
            let terms = flows.iter().enumerate();
            length * terms.map(|(s, flow)| weights(s) * flow[i]).sum::<f64>()
        };
        let last = &BELOW[STAGES - 1];
        let weight = |s: usize| last.get(s).copied().unwrap_or(DIAGONAL);
        let error = (0..size)
            .filter(|&i| self.nodes[i].held.is_none() && self.nodes[i].capacity > 0.0)
            .map(|i| weighted(&|s| DOUBT[s], i).abs() / self.nodes[i].capacity)
            .fold(0.0, f64::max);
        Some(Tried {
            taken: (0..size).map(|i| weighted(&weight, i)).collect(),
            celsius,
            error,
        })
    }

    /// Solves one stage, M·(T − T₀) = stored + part·net(T), and gives the net
    /// heat into each body there; `celsius` comes as a guess with the heat `net` into each body
    /// there, and leaves as T.
    fn stage(
        &self,
        &Corrector {
            start,
            part,
            settled,
            ref factors,
        }: &Corrector<'_>,
        celsius: &mut [f64],
        mut net: Vec<f64>,
        stored: &[f64],
    ) -> Option<Vec<f64>> {
        for _ in 0..ROUNDS {
            let left: Vec<f64> = (0..start.len())
                .map(|i| match self.nodes[i].held {
                    Some(_) => 0.0,
                    None => {
                        let rise = celsius[i] - start[i];
                        stored[i] + part * net[i] - self.nodes[i].capacity * rise
                    }
                })
                .collect();
            let by = factors.solve(&left);
            let mut longest = 0.0_f64;
            for (value, by) in celsius.iter_mut().zip(&by) {
                *value += by;
                longest = longest.max(by.abs());
            }
            if !longest.is_finite() {
                return None;
            }
            net = self.balance(celsius);
            if longest < settled {
                return Some(net);
            }
        }
        None
    }
}

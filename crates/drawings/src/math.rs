//! Elementary functions that give the same last bit on every machine.

pub(crate) use libm::{atan2, ceil, cos, fabs as abs, floor, hypot, log10, pow, round, sin, tan};

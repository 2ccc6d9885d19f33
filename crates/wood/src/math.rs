//! Elementary functions that give the same last bit on every machine.

pub(crate) use libm::{acos, asin, atan2, ceil, cos, sin, tan};

//! The list of checks.

use super::{Check, lead_acid_airtight};

/// Every check, in the order of the manual.
pub const ALL: &[&Check] = &[&lead_acid_airtight::CHECK];

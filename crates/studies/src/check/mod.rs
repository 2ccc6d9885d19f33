//! Checks: one file each, with the text that the manual and `explain` tell.

mod boards;
mod circuit;
mod coats;
mod evidence;
mod hubs;
mod movers;
mod outgrown;
#[cfg(test)]
mod probe;
mod resize;
pub(crate) mod swap;
mod table;
mod things;
mod timber;
mod tune;
mod variant;
mod verdict;
mod wish;

mod bass_bump;
mod battery_bay;
mod battery_heat;
mod board_heat;
mod boards_cross;
mod boards_fit;
mod box_holds;
mod box_q;
mod box_size;
mod bridged_outputs;
mod bridged_sockets;
mod brief_conflict;
mod brief_cost;
mod brief_light;
mod brief_long;
mod brief_loud;
mod brief_low;
mod chamber_shared;
mod charger_fits;
mod charging_path;
mod comes_out;
mod contact_rating;
mod coupling_corner;
mod current_limit;
mod direct_current;
pub(crate) mod driver_data;
mod driver_heat;
mod driver_phase;
mod driver_unknown;
mod drivers_fit;
mod end_voltage;
mod face_loss;
mod finish_blotches;
mod finish_holds;
mod finish_open;
mod finish_outdoors;
mod fuse_first;
mod fuse_near;
mod fuse_size;
mod glue_line;
mod grain_run;
mod grille_clear;
mod ground_scheme;
mod hangs_level;
mod headroom;
mod hearing;
mod holes_clear;
mod indicator_cut_off;
mod indicator_drains;
mod indicator_flat;
mod indicator_flickers;
mod indicator_inputs;
mod indicator_reference;
mod indicator_time;
mod inside_box;
mod knobs_apart;
mod knobs_reached;
mod lead_acid_airtight;
mod leak;
mod least_skin;
mod lithium_care;
mod metal_radio;
mod minimum_load;
mod module_heat;
mod mono_sum;
mod open_time;
mod output_filter;
mod panel_bodies;
mod panel_bush;
mod panel_plate;
mod parts_close;
mod parts_collide;
mod parts_fit;
mod parts_named;
mod protection_current;
mod protection_latch;
mod radiator_size;
mod reverse_polarity;
mod ring_closes;
mod screws_bite;
mod screws_reached;
mod sealed_or_vented;
mod sheet_too_small;
mod short_circuit;
mod source_level;
mod standby_drain;
mod stands_firm;
mod supply_range;
mod supply_voltage;
mod tests_possible;
mod travel;
mod travel_below_tuning;
mod treble;
mod vent_fits;
mod vent_pipe;
mod vent_speed;
mod volume_law;
mod wall_buzz;
mod wire_named;
mod wire_reaches;
mod wire_size;
mod wires_whole;

pub use crate::finding::{Brought, Edit, Finding, Mend, Severity};
pub use evidence::Evidence;
pub use table::ALL;

pub(crate) use verdict::{Candidate, Verdict};

/// What a check says.
pub(crate) type Said = (&'static Check, Verdict);

/// One check: what it looks at, why, where its limits lie, and the check itself.
#[derive(Clone, Copy)]
pub struct Check {
    /// Stable name.
    pub id: &'static str,
    /// As a heading.
    pub title: &'static str,
    /// What is checked.
    pub what: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// Where its limits lie and what it leaves out.
    pub limits: &'static str,
    /// An example that it finds fault with.
    pub bad: &'static str,
    /// An example that it passes.
    pub good: &'static str,
    /// Keys of the bibliography, or "common practice, no source".
    pub sources: &'static [&'static str],
    /// The check itself; no verdict where it does not apply.
    pub(crate) run: fn(&Evidence<'_>) -> Vec<Verdict>,
}

impl core::fmt::Debug for Check {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_struct("Check")
            .field("id", &self.id)
            .finish_non_exhaustive()
    }
}

/// The check of this name.
#[must_use]
pub fn find(id: &str) -> Option<&'static Check> {
    ALL.iter().copied().find(|check| check.id == id)
}

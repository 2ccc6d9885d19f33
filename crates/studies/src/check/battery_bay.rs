//! Whether a battery's bay is really open to the outside.

use super::timber::mm;
use super::{Candidate, Check, Evidence, Verdict};
use core::f64::consts::FRAC_PI_4;
use design::{Bay, Chemistry};

pub(super) const CHECK: Check = Check {
    id: "battery-bay",
    title: "Openings of the battery's bay",
    what: "Whether the bay of a lead-acid battery that is charged in the box is drawn, and has holes \
enough to the outside.",
    why: "A bay that is only meant to be open collects hydrogen like the box around it.",
    limits: "At least two holes, and for each of inlet and outlet 28 cm² for every m³/h of air, the air \
being 0.05 m³/h for every ampere of gassing: 8 mA per Ah and cell while boost charging (from \
memory, after the usual rule for stationary batteries). A lower bound; the battery maker's sheet \
and local codes come first.",
    bad: "vented_bay = true without a [bay], or with a single hole of 6 mm",
    good: "[bay] with six holes of 12 mm through the back",
    sources: &["common practice, no source"],
    run,
};

/// Air per ampere of gassing, m³/h; gassing per Ah and cell, A; opening per m³/h, m². From memory.
const AIR: f64 = 0.05;
const GASSING: f64 = 0.008;
const OPENING: f64 = 28e-4;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let battery = &evidence.design().battery;
    let lead = battery.part.chemistry.value == Chemistry::LeadAcid;
    if !lead || !battery.charged_inside.value || !battery.vented_bay.value {
        return Vec::new();
    }
    let Some(bay) = &evidence.design().bay else {
        let cause = "The design says that the battery has a bay open to the outside, but draws none: \
neither its walls nor its holes are in the cut list.";
        return vec![
            Verdict::caution("The battery's bay is not drawn", cause)
                .advice("add a [bay] with its size, its place, and its holes")
                .at(battery.vented_bay.place),
        ];
    };
    let capacity = battery.part.capacity.si / 3600.0 * f64::from(battery.count);
    vec![verdict(bay, f64::from(battery.part.cells), capacity)]
}

fn verdict(bay: &Bay, cells: f64, capacity: f64) -> Verdict {
    let air = AIR * cells * capacity * GASSING;
    let wanted = 2.0 * OPENING * air;
    let one = FRAC_PI_4 * bay.hole.si * bay.hole.si;
    let area = one * f64::from(bay.holes);
    let cause = format!(
        "{} of {} open {:.1} cm² to the outside; {:.1} cm² in two holes at least are wanted for \
{capacity:.0} Ah in {cells:.0} cells.",
        holes(bay.holes),
        mm(bay.hole.si),
        1e4 * area,
        1e4 * wanted
    );
    let numbers = |said: Verdict| said.measured(1e4 * area, 1e4 * wanted, "cm²");
    if area >= wanted && bay.holes >= 2 {
        return numbers(Verdict::good("The battery's bay breathes", cause));
    }
    let enough = (wanted / one).ceil().max(2.0);
    let more = Candidate::set(
        format!("{} → {}", holes(bay.holes), holes(enough as u32)),
        "bay.holes",
        format!("{enough:.0}"),
    );
    numbers(
        Verdict::stop("The battery's bay is all but closed", cause)
            .advice("drill more or larger holes, low and high"),
    )
    .at(bay.place)
    .mends([more])
}

fn holes(count: u32) -> String {
    match count {
        1 => "1 hole".into(),
        count => format!("{count} holes"),
    }
}

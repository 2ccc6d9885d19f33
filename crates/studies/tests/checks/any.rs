//! Boxes of any parts and sizes: nothing breaks, every sentence is whole, and
//! every mend does what it says.

use crate::broken::surveyed;
use crate::mends::mends_clear;
use proptest::prelude::*;

const DRIVERS: [&str; 9] = [
    "full-range 2 in, 4 ohm",
    "full-range 3 in, 8 ohm",
    "woofer 4 in, 4 ohm",
    "coaxial 4 in, 4 ohm",
    "full-range 4 in, 8 ohm",
    "coaxial 6.5 in, 4 ohm",
    "woofer 6.5 in, 4 ohm",
    "full-range 6.5 in, 8 ohm",
    "salvaged coaxial 6.5 in, unknown",
];

const BOARDS: [&str; 6] = [
    "amplifier 2 x 3 W, 5 V",
    "amplifier 2 x 15 W, 12 V",
    "amplifier 2 x 50 W, 24 V",
    "amplifier 2 x 20 W, 24 V, not bridged",
    "linear amplifier 2 x 10 W, 12 V",
    "linear amplifier 2 x 5 W, 12 V, not bridged",
];

const BATTERIES: [&str; 6] = [
    "lead-acid 12 V 7 Ah",
    "iron phosphate 12.8 V 12 Ah",
    "iron phosphate 25.6 V 6 Ah",
    "lithium-ion 3.6 V 5 Ah",
    "lithium-ion 14.4 V 6.8 Ah",
    "nickel-metal hydride 12 V 2.4 Ah",
];

const WALLS: [&str; 4] = [
    "birch plywood 9 mm",
    "poplar plywood 10 mm",
    "MDF 16 mm",
    "plywood 3/4 in",
];

const KINDS: [&str; 4] = [
    "kind = \"sealed\"",
    "kind = \"vented\"\n[box.vent]\ndiameter = \"46 mm\"\nlength = \"120 mm\"\ncount = 2",
    "kind = \"vented\"\n[box.vent]\ndiameter = \"25 mm\"\nlength = \"20 mm\"\ncount = 1\nflared = true",
    "kind = \"passive radiator\"\n[box.radiator]\npart = \"radiator 4 in\"\ncount = 2",
];

prop_compose! {
    fn any_design()(
        driver in prop::sample::select(&DRIVERS[..]),
        board in prop::sample::select(&BOARDS[..]),
        battery in prop::sample::select(&BATTERIES[..]),
        wall in prop::sample::select(&WALLS[..]),
        kind in prop::sample::select(&KINDS[..]),
        programme in prop::sample::select(&["music", "speech", "squashed music"][..]),
        place in prop::sample::select(&["free", "ground", "wall", "indoors"][..]),
        count in prop::sample::select(&[2_u32, 4][..]),
        size in (200_u32..700, 120_u32..400, 100_u32..350),
        wishes in (60_u32..110, 30_u32..120, 1_u32..100, 2_u32..20, 20_u32..300),
        inside: bool,
    ) -> String {
        let (w, h, d) = size;
        let (loud, low, hours, weight, cost) = wishes;
        format!(r#"
format = 1
name = "any"
[brief]
programme = "{programme}"
distance = "3 m"
loudness = "{loud} dB(A)"
lowest = "{low} Hz"
runtime = "{hours} h"
largest = "500 x 300 x 260 mm"
weight = "{weight} kg"
cost = "{cost} €"
[place]
stands = "{place}"
[[drivers]]
part = "{driver}"
count = {count}
side = "both"
[amplifier]
part = "{board}"
[battery]
part = "{battery}"
charged_inside = {inside}
[box]
outside = "{w} x {h} x {d} mm"
wall = "{wall}"
filling = "30 %"
{kind}
"#)
    }
}

fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(cases(64))]

    #[test]
    fn sentences_are_whole(design in any_design()) {
        let Ok(report) = surveyed(&design, "format = 1", 0) else {
            return Ok(());
        };
        for finding in &report.findings {
            let said = format!("{} {} {:?}", finding.title, finding.cause, finding.advice);
            for slip in ["NaN", "inf", "—", "  ", "unlimited", ".."] {
                prop_assert!(!said.contains(slip), "{finding:#?}");
            }
            let numbers = [finding.measured, finding.limit];
            prop_assert!(numbers.iter().flatten().all(|number| number.is_finite()), "{finding:#?}");
        }
    }
}

proptest! {
    #![proptest_config(cases(10))]

    #[test]
    fn mends_clear_whatever_the_box(design in any_design()) {
        if surveyed(&design, "format = 1", 0).is_ok() {
            mends_clear(&design, "format = 1", 0);
        }
    }
}

//! Heat in the closed box: converter and radio module.

use super::board_heat::{day, shade};
use super::{Check, Evidence, Verdict};
use crate::warmth::{Modules, Rest, hottest_day};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "module-heat",
    title: "Heat of converter and radio in the closed box",
    what: "How warm the warmest module gets in the closed box on the hottest day: its own heat over the air \
that amplifier, voice coils and sun have warmed before.",
    why: "A small converter has no sink but its own faces. One that gets too hot switches off, and the radio \
with it; its capacitors dry out sooner for every degree.",
    limits: "Steady, after hours of playing. Without data 40 K/W to the air around it and 85 °C at most. What \
hangs on a converter counts as its load; modules that draw nothing of note are not judged.",
    bad: "a linear regulator from 14 V to 5 V for a radio of 100 mA, closed in with a hot board",
    good: "a switching converter of 2 W that loses 0.2 W: 9 K above the air in the box",
    sources: &["churchill-chu-1975", "common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let supply = evidence.build.battery.mid_voltage();
    let modules = Modules::of(evidence.subject, supply);
    let Some(hottest) = modules.hottest else {
        return Vec::new();
    };
    let [brief, music, squashed, _] = evidence.warmth() else {
        return Vec::new();
    };
    let said = |celsius: f64| number(celsius, "°C");
    let what = |rest: &Rest, name: &str| format!("{} with {name}", said(rest.celsius.module));
    let numbers = format!(
        "On a day of {}{}, {} settles at {}, {}, {}, {} above the air in the box; it may reach {}{}",
        said(hottest_day(evidence.subject)),
        day(evidence),
        hottest.name,
        what(brief, "what the brief asks"),
        what(music, "music fully up"),
        what(squashed, "squashed music fully up"),
        number(hottest.rise, "K"),
        said(hottest.limit),
        if hottest.known {
            ""
        } else {
            " (partly a guess)"
        }
    );
    let limit = hottest.limit;
    let asked = brief.celsius.module;
    let hot = music.celsius.module.max(squashed.celsius.module);
    let (measured, verdict) = if asked > limit {
        let verdict = Verdict::stop(
            "Module gets too hot in the closed box",
            format!("{numbers}."),
        );
        (asked, verdict)
    } else if hot > limit {
        let verdict = Verdict::caution("Module gets too hot when fully up", format!("{numbers}."));
        (hot, verdict)
    } else {
        let good = Verdict::good(
            "Converter and radio stay cool enough",
            format!("{numbers}."),
        );
        return vec![good.measured(hot, limit, "°C")];
    };
    vec![
        verdict
            .measured(measured, limit, "°C")
            .advice(
                "take a switching converter instead of a linear one, give it a small sink, or keep the box out \
                 of the sun",
            )
            .mends(shade(evidence)),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    const RADIO: &[(&str, &str)] = &[
        ("module.1.part", "radio module 12 V"),
        ("module.1.name", "radio"),
    ];

    fn shedding(resistance: &str) -> String {
        format!("[[module]]\nname = \"radio module 12 V\"\nthermal_resistance = \"{resistance}\"\n")
    }

    #[test]
    fn a_module_that_cannot_shed_its_heat_is_found() {
        check(CHECK.id, &[], &[]);
        let good = with(RADIO)
            .shelf(&shedding("30 K/W"))
            .check(CHECK.id, &[Good]);
        let more = with(RADIO)
            .shelf(&shedding("60 K/W"))
            .check(CHECK.id, &[Good]);
        // Twice the resistance, twice the rise over the same air: 45 mA at some 13 V.
        let rise = more[0].measured.unwrap() - good[0].measured.unwrap();
        assert!((rise - 30.0 * 0.045 * 13.0).abs() < 1.5, "{rise}");
        with(RADIO)
            .shelf(&shedding("150 K/W"))
            .check(CHECK.id, &[Stop]);
    }
}

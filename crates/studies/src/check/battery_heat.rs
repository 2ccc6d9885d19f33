//! Heat in the closed box: the battery.

use super::board_heat::{day, shade};
use super::{Check, Evidence, Verdict, swap};
use crate::warmth::{Modules, Rest, hottest_day, limits};
use crate::words::number;
use design::Chemistry;

pub(super) const CHECK: Check = Check {
    id: "battery-heat",
    title: "Heat of the battery in the closed box",
    what: "How warm the battery gets in the closed box on the hottest day, from its own losses and from \
amplifier and voice coils around it; where it is charged in the box, also how warm it stands there with \
nothing playing.",
    why: "Warm cells age fast, and cells too hot are a danger: every 10 K about halves their life, and a \
lithium cell must never be charged hot. Batteries stand less heat than anything else in the box.",
    limits: "Steady, after hours of playing; most batteries are empty before. Held to the limit of the \
shelf part, else 60 °C for lithium, 50 °C for lead-acid and nickel-metal hydride; the sheet of the battery's \
maker comes first. For charging, 45 °C, lead-acid 40 °C. Current is taken as not smoothed by any capacitor, which overstates the battery's own loss.",
    bad: "a lead-acid battery in a small dark box in the sun beside a linear amplifier",
    good: "an iron phosphate battery at 44 °C on a day of 38 °C",
    sources: &["churchill-chu-1975", "common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let [brief, music, squashed, sine] = evidence.warmth() else {
        return Vec::new();
    };
    let design = evidence.design();
    let supply = evidence.build.battery.mid_voltage();
    let limits = limits(design, &Modules::of(evidence.subject, supply));
    let limit = limits.battery;
    let said = |celsius: f64| number(celsius, "°C");
    let what = |rest: &Rest, name: &str| format!("{} with {name}", said(rest.celsius.battery));
    let numbers = format!(
        "On a day of {}{}, it settles at {}, {}, {}; it may reach {}. A full sine for hours would take it to {}",
        said(hottest_day(evidence.subject)),
        day(evidence),
        what(brief, "what the brief asks"),
        what(music, "music fully up"),
        what(squashed, "squashed music fully up"),
        said(limit),
        said(sine.celsius.battery)
    );
    let hot = music.celsius.battery.max(squashed.celsius.battery);
    let silent = evidence.silent().map(|celsius| celsius.battery);
    let inside = design.battery.charged_inside.value;
    let too_hot_to_charge = silent.filter(|silent| inside && *silent > limits.charging);
    let charging = match too_hot_to_charge {
        Some(silent) => format!(
            " With nothing playing it stands at {}, and it must not be charged above {}.",
            said(silent),
            said(limits.charging)
        ),
        None if hot > limits.charging => format!(
            " Let it cool below {} before charging.",
            said(limits.charging)
        ),
        None => String::new(),
    };
    let cause = format!("{numbers}.{charging}");
    let verdict = if brief.celsius.battery > limit {
        Verdict::stop("Battery gets too hot", cause).measured(brief.celsius.battery, limit, "°C")
    } else if hot > limit {
        Verdict::caution("Battery gets too hot when fully up", cause).measured(hot, limit, "°C")
    } else if let Some(silent) = too_hot_to_charge {
        let verdict = Verdict::caution("Battery gets too hot to be charged in the box", cause)
            .measured(silent, limits.charging, "°C")
            .advice("charge it in the shade and after it has cooled, or outside the box")
            .mends(shade(evidence));
        return vec![verdict];
    } else {
        let good = Verdict::good("Battery stays cool enough", cause);
        return vec![good.measured(hot, limit, "°C")];
    };
    let stands_more = |chemistry| {
        matches!(chemistry, Chemistry::IronPhosphate | Chemistry::LithiumIon) || limit < 50.0
    };
    vec![
        verdict
            .advice("keep the box out of the sun, put the battery away from the amplifier, or take a chemistry that stands more")
            .mends(shade(evidence))
            .mends(swap::batteries(evidence, |part| stands_more(part.chemistry.value)))
            .mends(swap::amplifiers(evidence, |_| true)),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn shade_keeps_a_battery_cool_and_sun_does_not() {
        check(CHECK.id, &[], &[Good]);
        let battery = "[[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\nhottest = \"45 °C\"\n";
        let found = with(&[("place.sun", "true"), ("place.hottest", "38 °C")])
            .shelf(battery)
            .check(CHECK.id, &[Stop]);
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].key, "place.sun");
    }

    #[test]
    fn a_battery_hot_from_the_sun_is_not_called_fit_for_charging() {
        let day = [("place.sun", "true"), ("place.hottest", "33 °C")];
        let outside = with(&day).check(CHECK.id, &[Good]);
        assert!(outside[0].cause.contains("before charging"), "{outside:#?}");
        let inside = with(&day).with(&[("battery.charged_inside", "true")]);
        let found = inside.check(CHECK.id, &[Caution]);
        assert_eq!(found[0].limit, Some(45.0), "{found:#?}");
        assert!(found[0].measured > found[0].limit);
        let battery = "[[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\nhottest = \"45 °C\"\n";
        let too_hot = inside.shelf(battery).check(CHECK.id, &[Stop]);
        assert!(
            too_hot[0].cause.contains("must not be charged"),
            "{too_hot:#?}"
        );
        with(&[("battery.charged_inside", "true")]).check(CHECK.id, &[Good]);
    }
}

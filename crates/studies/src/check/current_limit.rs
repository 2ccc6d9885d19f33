//! The board's current limit against its voltage on a full battery.

use super::{Check, Evidence, Verdict, swap};
use crate::words::number;
use physics::math::db_amplitude;

pub(super) const CHECK: Check = Check {
    id: "current-limit",
    title: "Current limit of the board",
    what: "Whether the amplifier board reaches its current limit before its voltage, on a full \
battery, into the least impedance computed.",
    why: "A board whose full voltage suits 8 ohm must be fed less into 4 ohm: at the limit many \
boards shut off for a moment, which sounds like crackle, and the volts paid for are never heard.",
    limits: "A peak at the very frequency of the least impedance is assumed; music spreads over \
all frequencies and reaches the limit a little later.",
    bad: "24 V on a board that gives 5 A, with 4 ohm drivers",
    good: "the same board on 16 V, or with 8 ohm drivers",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let stage = &evidence.build.amplifier.stage;
    let per_volt = evidence.gains.current.iter().copied().fold(0.0, f64::max);
    let asked = per_volt * stage.open_circuit_peak(evidence.build.battery.full_voltage());
    let limit = stage.current_limit;
    let amperes = |value: f64| number(value, "A");
    let impedance = number(evidence.outcome.least_impedance, "Ω");
    if asked <= limit {
        let cause = format!(
            "At full voltage into {impedance} a peak takes {}; the board gives {}.",
            amperes(asked),
            amperes(limit)
        );
        return vec![
            Verdict::good("Board reaches its voltage before its current", cause)
                .measured(asked, limit, "A"),
        ];
    }
    let cause = format!(
        "At full voltage into {impedance} a peak would take {}; the board stops at {}, {} before its voltage is reached.",
        amperes(asked),
        amperes(limit),
        number(db_amplitude(asked / limit), "dB")
    );
    vec![
        Verdict::caution("Board reaches its current limit first", cause)
            .measured(asked, limit, "A")
            .advice("feed it less voltage, take drivers of higher impedance, or a board that gives more current")
            .mends(swap::amplifiers(evidence, |board| board.current_limit.si > limit))
            .mends(swap::batteries(evidence, |_| true)),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn full_voltage_into_few_ohms_reaches_the_limit() {
        // 28.8 V into 3.5 Ω ask for more than 7 A.
        let strong = [
            ("battery.part", "iron phosphate 25.6 V 6 Ah"),
            ("amplifier.part", "amplifier 2 x 30 W, 18 V"),
        ];
        let found = check(CHECK.id, &strong, &[Caution]);
        assert!(found[0].measured.unwrap() > 7.0);
        let eight = ("drivers.1.part", "full-range 4 in, 8 ohm");
        check(CHECK.id, &[strong[0], strong[1], eight], &[Good]);
        check(CHECK.id, &[], &[Good]);
    }
}

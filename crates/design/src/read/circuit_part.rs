//! References, comparators, lights and switching parts on the shelf.

use super::drawer::TOLERANCE;
use super::fields::Fields;
use super::values::Bounds::{NotNegative, Positive};
use super::words::{
    COMPARATOR_OUTPUTS, LIGHT_COLOURS, MOSFET_CHANNELS, SWITCHING_KINDS, SwitchingWord,
};
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{
    Common, ComparatorOutput, ComparatorPart, LedPart, ReferencePart, SwitchingKind, SwitchingPart,
    ZenerPart,
};

/// Most comparators in one case.
const MOST_CHANNELS: u32 = 8;

pub(crate) fn zener(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<ZenerPart> {
    let voltage = fields.need("voltage", D::Voltage, Positive, log);
    let tolerance = fields.need("tolerance", D::Share, TOLERANCE, log);
    let test_current = fields.need("test_current", D::Current, Positive, log);
    let impedance = fields.need("impedance", D::Resistance, NotNegative, log);
    let power = fields.need("power", D::Power, Positive, log);
    Some(ZenerPart {
        common,
        voltage: voltage?,
        tolerance: tolerance?,
        test_current: test_current?,
        impedance: impedance?,
        power: power?,
    })
}

pub(crate) fn reference(
    fields: &Fields<'_>,
    common: Common,
    log: &mut Log,
) -> Option<ReferencePart> {
    let voltage = fields.need("voltage", D::Voltage, Positive, log);
    let tolerance = fields.need("tolerance", D::Share, TOLERANCE, log);
    let least_current = fields.need("least_current", D::Current, Positive, log);
    let most_current = fields.need("most_current", D::Current, Positive, log);
    fields.in_order(
        "least_current",
        least_current,
        "most_current",
        most_current,
        log,
    );
    Some(ReferencePart {
        common,
        voltage: voltage?,
        tolerance: tolerance?,
        least_current: least_current?,
        most_current: most_current?,
        impedance: fields.value("impedance", D::Resistance, NotNegative, log),
        drift: fields.value("drift", D::Share, TOLERANCE, log),
    })
}

pub(crate) fn comparator(
    fields: &Fields<'_>,
    common: Common,
    log: &mut Log,
) -> Option<ComparatorPart> {
    let output = fields.need_word("output", COMPARATOR_OUTPUTS, log);
    let channels = fields.count("channels", 1, MOST_CHANNELS, log).unwrap_or(1);
    let supply_min = fields.need("supply_min", D::Voltage, Positive, log);
    let supply_max = fields.need("supply_max", D::Voltage, Positive, log);
    fields.in_order("supply_min", supply_min, "supply_max", supply_max, log);
    let supply_current = fields.need("supply_current", D::Current, NotNegative, log);
    let volts = |key, log: &mut Log| fields.need(key, D::Voltage, NotNegative, log);
    let input_low = volts("input_low", log);
    let input_high = volts("input_high", log);
    let output_low = volts("output_low", log);
    let offset = volts("offset", log);
    let drives = output.is_some_and(|output| output.value == ComparatorOutput::PushPull);
    let output_high = if drives {
        volts("output_high", log)
    } else {
        let wants = "write `output = \"push-pull\"`";
        fields.without_use("output_high", output.is_none(), wants, log);
        None
    };
    let output_current = fields.need("output_current", D::Current, Positive, log);
    let bias_current = fields.need("bias_current", D::Current, NotNegative, log);
    Some(ComparatorPart {
        common,
        output: output?,
        channels,
        supply_min: supply_min?,
        supply_max: supply_max?,
        supply_current: supply_current?,
        input_low: input_low?,
        input_high: input_high?,
        output_low: output_low?,
        output_high,
        output_current: output_current?,
        offset: offset?,
        bias_current: bias_current?,
    })
}

pub(crate) fn led(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<LedPart> {
    let colour = fields.need_word("colour", LIGHT_COLOURS, log);
    let forward_voltage = fields.need("forward_voltage", D::Voltage, Positive, log);
    let current = fields.need("current", D::Current, Positive, log);
    let most_current = fields.need("most_current", D::Current, Positive, log);
    fields.not_above("current", current, "most_current", most_current, log);
    Some(LedPart {
        common,
        colour: colour?,
        forward_voltage: forward_voltage?,
        current: current?,
        most_current: most_current?,
    })
}

pub(crate) fn switching(
    fields: &Fields<'_>,
    common: Common,
    log: &mut Log,
) -> Option<SwitchingPart> {
    let kind = fields.need_word("kind", SWITCHING_KINDS, log);
    let dc_current = fields.need("dc_current", D::Current, Positive, log);
    let dc_voltage = fields.need("dc_voltage", D::Voltage, Positive, log);
    let kind = match kind?.value {
        SwitchingWord::Relay => relay(fields, log),
        SwitchingWord::Mosfet => mosfet(fields, log),
    };
    Some(SwitchingPart {
        common,
        kind: kind?,
        dc_current: dc_current?,
        dc_voltage: dc_voltage?,
    })
}

fn relay(fields: &Fields<'_>, log: &mut Log) -> Option<SwitchingKind> {
    let coil_voltage = fields.need("coil_voltage", D::Voltage, Positive, log);
    let coil_resistance = fields.need("coil_resistance", D::Resistance, Positive, log);
    let pull_in = fields.value("pull_in", D::Voltage, Positive, log);
    let drop_out = fields.value("drop_out", D::Voltage, Positive, log);
    fields.in_order("drop_out", drop_out, "pull_in", pull_in, log);
    fields.not_above("pull_in", pull_in, "coil_voltage", coil_voltage, log);
    Some(SwitchingKind::Relay {
        coil_voltage: coil_voltage?,
        coil_resistance: coil_resistance?,
        pull_in,
        drop_out,
    })
}

fn mosfet(fields: &Fields<'_>, log: &mut Log) -> Option<SwitchingKind> {
    let channel = fields.need_word("channel", MOSFET_CHANNELS, log);
    let on_resistance = fields.need("on_resistance", D::Resistance, Positive, log);
    let gate_voltage = fields.need("gate_voltage", D::Voltage, Positive, log);
    let gate_most = fields.need("gate_most", D::Voltage, Positive, log);
    let threshold = fields.value("threshold", D::Voltage, Positive, log);
    fields.not_above("gate_voltage", gate_voltage, "gate_most", gate_most, log);
    fields.in_order("threshold", threshold, "gate_voltage", gate_voltage, log);
    Some(SwitchingKind::Mosfet {
        channel: channel?,
        on_resistance: on_resistance?,
        gate_voltage: gate_voltage?,
        gate_most: gate_most?,
        threshold,
    })
}

//! Unsafe values are refused, each by its own rule: designs that break exactly one, against the
//! same design unbroken.

use crate::broken::{base, surveyed};
use crate::common::edited;
use boxwright_studies::Report;
use boxwright_studies::check::{Finding, Severity};

type Keys = &'static [(&'static str, &'static str)];

/// A design and a shelf, whole and broken in one respect.
struct Rule {
    /// Which rule, in words.
    rule: &'static str,
    /// Keys of the whole design.
    whole: &'static [Keys],
    /// Keys that break it.
    broken: &'static [Keys],
    /// The maker's shelf, whole and broken.
    shelf: [&'static str; 2],
    /// Check and title of what must be found, and nothing else that was not there before.
    found: (&'static str, &'static str),
    severity: Severity,
    /// Words that the cause must have, which tell rules of one check apart.
    says: &'static str,
}

/// A rule broken by keys of the design.
const fn rule(
    rule: &'static str,
    whole: &'static [Keys],
    broken: &'static [Keys],
    found: (&'static str, &'static str),
) -> Rule {
    Rule {
        rule,
        whole,
        broken,
        shelf: ["", ""],
        found,
        severity: Severity::Stop,
        says: "",
    }
}

impl Rule {
    const fn shelf(self, whole: &'static str, broken: &'static str) -> Self {
        Self {
            shelf: [whole, broken],
            ..self
        }
    }

    const fn caution(self) -> Self {
        Self {
            severity: Severity::Caution,
            ..self
        }
    }

    const fn says(self, says: &'static str) -> Self {
        Self { says, ..self }
    }

    fn reports(&self) -> [Report; 2] {
        let broken = [self.whole, self.broken].concat();
        [(self.whole, 0), (broken.as_slice(), 1)].map(|(keys, shelf)| {
            let design = designed(keys);
            surveyed(&design, &format!("format = 1\n{}", self.shelf[shelf]), 0)
                .unwrap_or_else(|errors| panic!("{}: {errors:#?}\n{design}", self.rule))
        })
    }
}

fn designed(keys: &[Keys]) -> String {
    edited(base(), &keys.concat())
}

/// What is not good: check, title and severity.
fn faults(report: &Report) -> Vec<(&'static str, &str, Severity)> {
    let found = report.findings.iter();
    found
        .filter(|finding| finding.severity != Severity::Good)
        .map(|finding| (finding.id, finding.title.as_str(), finding.severity))
        .collect()
}

fn holds(rules: &[Rule]) {
    let mut wrong = Vec::new();
    for rule in rules {
        let [whole, broken] = rule.reports();
        let before = faults(&whole);
        let wanted = (rule.found.0, rule.found.1, rule.severity);
        let now = faults(&broken);
        let more: Vec<_> = now.iter().filter(|fault| !before.contains(fault)).collect();
        let only = !more.is_empty() && more.iter().all(|fault| **fault == wanted);
        let own = |finding: &&Finding| (finding.id, finding.title.as_str()) == rule.found;
        let mut causes = broken.findings.iter().filter(own);
        if !only || !causes.all(|finding| finding.cause.contains(rule.says)) {
            let causes: Vec<_> = broken
                .findings
                .iter()
                .filter(|finding| finding.severity != Severity::Good)
                .map(|finding| finding.cause.clone())
                .collect();
            wrong.push((rule.rule, wanted, format!("{more:?}"), causes));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

const FUSE_SIZE: &str = "fuse-size";
const HOLDER: (&str, &str) = ("module.1.part", "inline holder for a blade fuse");
const FIVE: Keys = &[HOLDER, ("module.1.fuse", "blade fuse 5 A")];
const OWN: Keys = &[HOLDER, ("module.1.fuse", "own fuse")];

/// A fuse of the maker's, all of it right but what is said after.
macro_rules! own_fuse {
    ($form:literal, $current:literal, $volts:literal, $breaks:literal) => {
        concat!(
            "[[fuse]]\nname = \"own fuse\"\nprice = \"0.4 €\"\nspeed = \"fast\"\nform = \"",
            $form,
            "\"\ncurrent = \"",
            $current,
            "\"\ndc_voltage = \"",
            $volts,
            "\"\nbreaking_current = \"",
            $breaks,
            "\"\n"
        )
    };
}

const RIGHT: &str = own_fuse!("blade", "5 A", "32 V", "1000 A");
const FUSED: &[Keys] = &[OWN];

#[test]
fn fuses() {
    holds(&[
        rule(
            "for too little direct voltage",
            FUSED,
            &[],
            (FUSE_SIZE, "Fuse not for this voltage"),
        )
        .shelf(RIGHT, own_fuse!("blade", "5 A", "9 V", "1000 A")),
        rule(
            "of too little breaking current",
            FUSED,
            &[],
            (FUSE_SIZE, "Fuse cannot end a short circuit"),
        )
        .shelf(RIGHT, own_fuse!("blade", "5 A", "32 V", "35 A")),
        rule(
            "below 1.25 times the long-term current of the loudest programme",
            &[OWN, SQUASHED],
            &[],
            (FUSE_SIZE, "Fuse too small for the music"),
        )
        .shelf(
            concat!(
                own_fuse!("blade", "5 A", "32 V", "1000 A"),
                "[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\nsupply_capacitance = \"10 µF\"\n"
            ),
            concat!(
                own_fuse!("blade", "0.5 A", "32 V", "1000 A"),
                "[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\nsupply_capacitance = \"10 µF\"\n"
            ),
        ),
        rule(
            "below 1.25 times the charger's current",
            &[FIVE, CHARGED, TWO_AMPERES],
            &[&[("module.1.fuse", "blade fuse 2 A")]],
            (FUSE_SIZE, "Fuse too small for the music"),
        ),
        rule(
            "that switching on may open",
            &[FIVE],
            &[&[("module.1.fuse", "blade fuse 1 A")]],
            (FUSE_SIZE, "Fuse may open when switched on"),
        )
        .caution(),
        rule(
            "above what the thinnest wire bears",
            &[FIVE, &[("wiring.usual", "flexible wire 0.75 mm²")]],
            &[&[("module.1.fuse", "blade fuse 10 A")]],
            (FUSE_SIZE, "Fuse too large for the wires"),
        ),
        rule(
            "out of reach of the battery",
            &[FIVE],
            &[&[
                ("wiring.wire.1.from", "battery +"),
                ("wiring.wire.1.to", "fuse 1"),
                ("wiring.wire.1.length", "0.7 m"),
            ]],
            ("fuse-near", "Fuse far from the battery"),
        )
        .caution(),
        rule(
            "far out of reach of the battery",
            &[FIVE],
            &[&[
                ("wiring.wire.1.from", "battery +"),
                ("wiring.wire.1.to", "fuse 1"),
                ("wiring.wire.1.length", "1.2 m"),
            ]],
            ("fuse-near", "Fuse far from the battery"),
        ),
        rule(
            "with something upstream of it",
            &[FIVE],
            &[&[
                ("wiring.wire.1.from", "battery +"),
                ("wiring.wire.1.to", "main switch 1"),
            ]],
            ("fuse-first", "Something lies before the fuse"),
        ),
    ]);
}

/// A fuse that does not go into its holder is refused while the design is read.
#[test]
fn fuses_of_the_wrong_form() {
    let design = designed(FUSED);
    let shelf = format!("format = 1\n{}", own_fuse!("tube", "5 A", "32 V", "1000 A"));
    let errors = surveyed(&design, &shelf, 0).expect_err("it does not fit");
    let codes: Vec<&str> = errors.iter().map(|error| error.code).collect();
    assert_eq!(codes, ["fuse-form"]);
}

const SQUASHED: Keys = &[("brief.programme", "squashed music")];
const CHARGED: Keys = &[("battery.charged_inside", "true")];
const TWO_AMPERES: Keys = &[
    ("battery.charger_current", "2 A"),
    ("battery.charger_voltage", "14.6 V"),
    ("battery.charger_chemistry", "iron phosphate"),
];

/// More current than any wire of a power lead that is thick enough to be handled bears.
const HEAVY: Keys = &[
    ("amplifier.part", "amplifier 2 x 50 W, 24 V"),
    ("battery.part", "iron phosphate 25.6 V 6 Ah"),
    ("drivers.1.count", "4"),
    ("drivers.1.wiring", "parallel"),
    ("brief.loudness", "100 dB"),
    HOLDER,
    ("module.1.fuse", "blade fuse 10 A"),
];

const LEFT_PLUS: [(&str, &str); 2] = [
    ("wiring.wire.1.from", "amplifier left +"),
    ("wiring.wire.1.to", "left driver 1 +"),
];

#[test]
fn wires() {
    holds(&[
        rule(
            "by heating alone",
            &[HEAVY, SQUASHED],
            &[
                &LEFT_PLUS,
                &[("wiring.wire.1.wire", "flexible wire 0.5 mm²")],
            ],
            ("wire-size", "Wires too thin for their current"),
        ),
        rule(
            "by voltage drop alone",
            &[FIVE],
            &[&[
                ("wiring.wire.1.from", "main switch 2"),
                ("wiring.wire.1.to", "amplifier +"),
                ("wiring.wire.1.length", "6 m"),
            ]],
            ("wire-size", "Wires lose much voltage"),
        )
        .caution(),
        rule(
            "by the mechanical least alone",
            &[FIVE],
            &[
                &LEFT_PLUS,
                &[("wiring.wire.1.wire", "flexible wire 0.25 mm²")],
            ],
            ("wire-size", "Wires too thin to be handled"),
        ),
        rule(
            "shorter than their way",
            &[FIVE],
            &[&LEFT_PLUS, &[("wiring.wire.1.length", "60 mm")]],
            ("wire-reaches", "Wire does not reach"),
        ),
    ]);
}

const PANEL: Keys = &[
    ("control.on", "back"),
    ("control.at", "200 x 180 mm"),
    ("control.size", "160 x 70 mm"),
    ("control.plate", "aluminium plate 2 mm"),
    ("control.part.1.part", "rotary potentiometer, M7"),
    ("control.part.1.at", "35 x 35 mm"),
    ("control.part.2.part", "own switch"),
    ("control.part.2.at", "75 x 35 mm"),
    ("control.part.3.part", "3.5 mm jack, insulated, M6"),
    ("control.part.3.at", "110 x 35 mm"),
];
const SOCKET: Keys = &[
    ("control.part.4.part", "power socket, 12 mm"),
    ("control.part.4.at", "140 x 35 mm"),
];
const RADIO: Keys = &[("module.2.part", "radio module 12 V")];
const RADIO_SWITCH: Keys = &[
    ("control.part.4.part", "own radio switch"),
    ("control.part.4.does", "radio"),
    ("control.part.4.at", "140 x 35 mm"),
];

/// Switches of the maker's: the main switch by its ratings, and more of the shelf.
macro_rules! switch {
    ($name:literal, $contacts:literal, $amperes:literal, $volts:literal) => {
        concat!(
            "[[control]]\nname = \"",
            $name,
            "\"\nkind = \"switch\"\nthread = \"M6 x 0.75\"\nbush = \"8 mm\"\nprice = \"2 €\"\nweight = \"5 g\"\ncontacts = \"",
            $contacts,
            "\"\ndc_current = \"",
            $amperes,
            "\"\ndc_voltage = \"",
            $volts,
            "\"\n"
        )
    };
}

const SWITCH: &str = switch!("own switch", "SPST", "12 A", "28 V");
const RATING: (&str, &str) = ("contact-rating", "Contact not rated for it");

#[test]
fn contacts() {
    holds(&[
        rule(
            "switch of too little current",
            &[FIVE, PANEL, RADIO, RADIO_SWITCH],
            &[],
            RATING,
        )
        .says("carries")
        .shelf(
            concat!(
                switch!("own switch", "SPST", "12 A", "28 V"),
                switch!("own radio switch", "SPST", "1 A", "28 V")
            ),
            concat!(
                switch!("own switch", "SPST", "12 A", "28 V"),
                switch!("own radio switch", "SPST", "20 mA", "28 V")
            ),
        ),
        rule("switch for too little voltage", &[FIVE, PANEL], &[], RATING)
            .says("of direct voltage")
            .shelf(SWITCH, switch!("own switch", "SPST", "12 A", "12 V")),
        rule(
            "switch for the rush into the board's capacitors",
            &[FIVE, PANEL],
            &[],
            ("contact-rating", "Switch may weld when it closes"),
        )
        .caution()
        .shelf(SWITCH, switch!("own switch", "SPST", "5 A", "28 V")),
        rule(
            "socket of too little current",
            &[FIVE, PANEL, SOCKET, CHARGED, TWO_AMPERES],
            &[],
            RATING,
        )
        .says("charging socket")
        .shelf(
            SWITCH,
            concat!(
                switch!("own switch", "SPST", "12 A", "28 V"),
                "[[control]]\nname = \"power socket, 12 mm\"\ndc_current = \"1 A\"\n"
            ),
        ),
        rule(
            "socket for too little voltage",
            &[FIVE, PANEL, SOCKET, CHARGED, TWO_AMPERES],
            &[],
            RATING,
        )
        .says("of direct voltage")
        .shelf(
            SWITCH,
            concat!(
                switch!("own switch", "SPST", "12 A", "28 V"),
                "[[control]]\nname = \"power socket, 12 mm\"\ndc_voltage = \"12 V\"\n"
            ),
        ),
        rule("holder of less current than its fuse", &[FIVE], &[], RATING)
            .says("(fuse)")
            .shelf(
                "",
                "[[module]]\nname = \"inline holder for a blade fuse\"\ndc_current = \"3 A\"\n",
            ),
    ]);
}

const PARALLEL: Keys = &[("drivers.1.count", "4"), ("drivers.1.wiring", "parallel")];
const PAIR: Keys = &[
    ("battery.count", "2"),
    ("module.2.part", "inline holder for a blade fuse"),
    ("module.2.fuse", "blade fuse 5 A"),
];
const TWO_POLES: &str = switch!("own switch", "DPST", "20 A", "28 V");
const OUTPUTS: (&str, &str) = ("bridged-outputs", "Output joined to what is not its load");

#[test]
fn outputs_and_batteries() {
    holds(&[
        rule(
            "two drivers in series where each is to have all of the output",
            &[FIVE, PARALLEL],
            &[&[
                ("wiring.without.1.from", "left driver 1 -"),
                ("wiring.without.1.to", "left driver 2 -"),
                ("wiring.without.2.from", "left driver 1 +"),
                ("wiring.without.2.to", "left driver 2 +"),
                ("wiring.without.3.from", "amplifier left -"),
                ("wiring.without.3.to", "left driver 1 -"),
                ("wiring.wire.1.from", "left driver 1 -"),
                ("wiring.wire.1.to", "left driver 2 +"),
                ("wiring.wire.2.from", "amplifier left -"),
                ("wiring.wire.2.to", "left driver 2 -"),
            ]],
            ("wires-whole", "Not joined as it must be"),
        )
        .says("another share of the output"),
        rule(
            "batteries in parallel that the switch takes apart",
            &[FIVE, PANEL, PAIR],
            &[&[
                ("wiring.without.1.from", "fuse B 2"),
                ("wiring.without.1.to", "main switch 1"),
                ("wiring.wire.1.from", "fuse B 2"),
                ("wiring.wire.1.to", "main switch 3"),
                ("wiring.wire.2.from", "main switch 4"),
                ("wiring.wire.2.to", "amplifier +"),
            ]],
            ("wires-whole", "Not joined as it must be"),
        )
        .says("belong in parallel and are apart")
        .shelf(TWO_POLES, TWO_POLES),
        rule(
            "an output on another output",
            &[FIVE],
            &[&[
                ("wiring.wire.1.from", "left driver 1 -"),
                ("wiring.wire.1.to", "right driver 1 -"),
            ]],
            OUTPUTS,
        ),
        rule(
            "an output on ground",
            &[FIVE],
            &[&[
                ("wiring.wire.1.from", "left driver 1 -"),
                ("wiring.wire.1.to", "battery -"),
            ]],
            OUTPUTS,
        ),
        rule(
            "an output shorted",
            &[FIVE],
            &[&[
                ("wiring.wire.1.from", "left driver 1 -"),
                ("wiring.wire.1.to", "left driver 1 +"),
            ]],
            OUTPUTS,
        ),
        rule(
            "an output on a shared sleeve",
            &[FIVE],
            &[&[
                ("wiring.wire.1.from", "left driver 1 -"),
                ("wiring.wire.1.to", "input sleeve"),
            ]],
            OUTPUTS,
        ),
        rule(
            "a driver in reverse",
            &[FIVE],
            &[&[
                ("wiring.without.1.from", "amplifier left +"),
                ("wiring.without.1.to", "left driver 1 +"),
                ("wiring.without.2.from", "amplifier left -"),
                ("wiring.without.2.to", "left driver 1 -"),
                ("wiring.wire.1.from", "amplifier left +"),
                ("wiring.wire.1.to", "left driver 1 -"),
                ("wiring.wire.2.from", "amplifier left -"),
                ("wiring.wire.2.to", "left driver 1 +"),
            ]],
            ("driver-phase", "Phase or side exchanged"),
        )
        .says("driven against"),
        rule(
            "sides exchanged",
            &[FIVE],
            &[&[
                ("wiring.without.1.from", "input tip"),
                ("wiring.without.1.to", "amplifier left in"),
                ("wiring.without.2.from", "input ring"),
                ("wiring.without.2.to", "amplifier right in"),
                ("wiring.wire.1.from", "input tip"),
                ("wiring.wire.1.to", "amplifier right in"),
                ("wiring.wire.2.from", "input ring"),
                ("wiring.wire.2.to", "amplifier left in"),
            ]],
            ("driver-phase", "Phase or side exchanged"),
        )
        .says("the other side"),
        rule(
            "a sum without resistors",
            &[FIVE],
            &[&[
                ("wiring.wire.1.from", "input tip"),
                ("wiring.wire.1.to", "input ring"),
            ]],
            ("mono-sum", "Signals joined without resistors"),
        ),
    ]);
}

const CONVERTED: Keys = &[
    ("module.2.part", "radio module 5 V"),
    ("module.3.part", "isolated converter 12 V to 5 V, 2 W"),
    ("wiring.ground", "isolated converter"),
];
const CHARGER: &str = "charger-fits";
const SOCKETED: &[Keys] = &[FIVE, PANEL, SOCKET, CHARGED, TWO_AMPERES];

#[test]
fn supply_and_charging() {
    holds(&[
        rule(
            "the amplifier in reverse",
            &[FIVE],
            &[&[
                ("wiring.without.1.from", "main switch 2"),
                ("wiring.without.1.to", "amplifier +"),
                ("wiring.without.2.from", "battery -"),
                ("wiring.without.2.to", "amplifier -"),
                ("wiring.wire.1.from", "main switch 2"),
                ("wiring.wire.1.to", "amplifier -"),
                ("wiring.wire.2.from", "battery -"),
                ("wiring.wire.2.to", "amplifier +"),
            ]],
            ("reverse-polarity", "Connected the wrong way round"),
        ),
        rule(
            "the charger in reverse",
            SOCKETED,
            &[&[
                ("wiring.without.1.from", "charging socket +"),
                ("wiring.without.1.to", "fuse 2"),
                ("wiring.without.2.from", "charging socket -"),
                ("wiring.without.2.to", "battery -"),
                ("wiring.wire.1.from", "charging socket -"),
                ("wiring.wire.1.to", "fuse 2"),
                ("wiring.wire.2.from", "charging socket +"),
                ("wiring.wire.2.to", "battery -"),
            ]],
            ("reverse-polarity", "Connected the wrong way round"),
        )
        .shelf(SWITCH, SWITCH),
        rule(
            "a charger that does not reach the battery",
            SOCKETED,
            &[&[
                ("wiring.without.1.from", "charging socket -"),
                ("wiring.without.1.to", "battery -"),
            ]],
            ("charging-path", "Charger does not reach the battery"),
        )
        .shelf(SWITCH, SWITCH),
        rule(
            "a charger for another chemistry",
            SOCKETED,
            &[&[("battery.charger_chemistry", "lead-acid")]],
            (CHARGER, "Charger for another chemistry"),
        )
        .shelf(SWITCH, SWITCH),
        rule(
            "a charger for five cells on four",
            SOCKETED,
            &[&[("battery.charger_voltage", "18.25 V")]],
            (CHARGER, "Charger's voltage too high"),
        )
        .shelf(SWITCH, SWITCH),
        rule(
            "a charger for three cells on four",
            SOCKETED,
            &[&[("battery.charger_voltage", "10.95 V")]],
            (CHARGER, "Charger's voltage too low"),
        )
        .caution()
        .shelf(SWITCH, SWITCH),
        rule(
            "a charger of too much current",
            SOCKETED,
            &[&[("battery.charger_current", "3.6 A")]],
            (CHARGER, "Charger's current too high"),
        )
        .shelf(SWITCH, SWITCH),
        rule(
            "grounds joined that a converter keeps apart",
            &[FIVE, CONVERTED],
            &[&[
                ("wiring.wire.1.from", "converter in -"),
                ("wiring.wire.1.to", "converter out -"),
            ]],
            ("ground-scheme", "Grounds do not meet in one point"),
        )
        .says("are to be apart"),
        rule(
            "a return through another part",
            &[FIVE, RADIO],
            &[&[
                ("wiring.without.1.from", "ground strip 2"),
                ("wiring.without.1.to", "amplifier -"),
                ("wiring.wire.1.from", "radio -"),
                ("wiring.wire.1.to", "amplifier -"),
            ]],
            ("ground-scheme", "Grounds do not meet in one point"),
        )
        .says("leads through"),
        rule(
            "a radio module left of the switch",
            &[FIVE, RADIO],
            &[&[
                ("wiring.without.1.from", "supply strip 3"),
                ("wiring.without.1.to", "radio +"),
                ("wiring.wire.1.from", "fuse 2"),
                ("wiring.wire.1.to", "radio +"),
            ]],
            ("standby-drain", "Battery drains while the box is off"),
        ),
        rule(
            "a protection board that switching on trips",
            &[FIVE],
            &[],
            (
                "protection-latch",
                "Protection board may trip when switched on",
            ),
        )
        .caution()
        .shelf(
            "",
            "[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\nsupply_capacitance = \"10000 µF\"\n",
        ),
    ]);
}

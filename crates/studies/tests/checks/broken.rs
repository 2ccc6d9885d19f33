//! Designs with one thing wrong, for each check one at least.

use crate::common::edited;
use boxwright_studies::{Options, Report, Texts, run, survey};

/// A design in which nothing is wrong: indoors would do as well.
const CLEAN: &str = r#"
format = 1
name = "Terrace"

[brief]
distance = "2 m"                     # the table
loudness = "80 dB"
lowest = "90 Hz"
runtime = "6 h"
largest = "420 x 260 x 240 mm"
weight = "9 kg"
cost = "200 €"

[place]
stands = "wall"

[[drivers]]
part = "full-range 4 in, 4 ohm"
count = 2
side = "both"

[amplifier]
part = "amplifier 2 x 15 W, 12 V"

[source]
level = "0.9 V"
loss = "3 dB"

[battery]
part = "iron phosphate 12.8 V 6 Ah"
charged_inside = false

[wiring]
slack = "10 %"

[box]
outside = "400 x 240 x 200 mm"       # over the walls
wall = "birch plywood 12 mm"
kind = "sealed"
filling = "40 %"
leak = "tight"
last_with = "screws"
"#;

/// The text of that design.
pub(crate) const fn base() -> &'static str {
    CLEAN
}

const VENT: &[(&str, &str)] = &[
    ("box.kind", "vented"),
    ("box.filling", "10 %"),
    ("box.vent.diameter", "46 mm"),
    ("box.vent.length", "90 mm"),
    ("box.vent.count", "1"),
    ("box.vent.flared", "true"),
];

const RADIATOR: &[(&str, &str)] = &[
    ("box.kind", "passive radiator"),
    ("box.filling", "10 %"),
    ("box.radiator.part", "radiator 5.25 in"),
    ("box.radiator.count", "1"),
];

const PANEL: &[(&str, &str)] = &[
    ("control.on", "back"),
    ("control.at", "200 x 180 mm"),
    ("control.size", "140 x 70 mm"),
    ("control.plate", "aluminium plate 2 mm"),
    ("control.part.1.part", "rotary potentiometer, M7"),
    ("control.part.1.at", "35 x 35 mm"),
    ("control.part.2.part", "toggle switch, M6"),
    ("control.part.2.at", "75 x 35 mm"),
    ("control.part.3.part", "3.5 mm jack, M6"),
    ("control.part.3.at", "110 x 35 mm"),
];

/// A design broken in one respect.
pub(crate) struct Broken {
    /// The check that must speak.
    pub(crate) id: &'static str,
    kind: &'static [(&'static str, &'static str)],
    keys: &'static [(&'static str, &'static str)],
    shelf: &'static str,
    builds: usize,
}

const fn broken(id: &'static str, keys: &'static [(&'static str, &'static str)]) -> Broken {
    Broken {
        id,
        kind: &[],
        keys,
        shelf: "",
        builds: 0,
    }
}

impl Broken {
    const fn vented(self) -> Self {
        Self { kind: VENT, ..self }
    }

    const fn with_radiator(self) -> Self {
        Self {
            kind: RADIATOR,
            ..self
        }
    }

    const fn with_panel(self) -> Self {
        Self {
            kind: PANEL,
            ..self
        }
    }

    const fn shelf(self, shelf: &'static str) -> Self {
        Self { shelf, ..self }
    }

    const fn builds(self, builds: usize) -> Self {
        Self { builds, ..self }
    }

    /// The text of the design.
    pub(crate) fn design(&self) -> String {
        edited(CLEAN, &[self.kind, self.keys].concat())
    }

    /// The text of the shelf beside it.
    pub(crate) fn shelf_text(&self) -> String {
        format!("format = 1\n{}", self.shelf)
    }

    /// Drawn builds that it takes.
    pub(crate) const fn drawn(&self) -> usize {
        self.builds
    }

    /// What is found about it, without mends.
    pub(crate) fn report(&self) -> Report {
        let (design, shelf) = (self.design(), self.shelf_text());
        surveyed(&design, &shelf, self.builds)
            .unwrap_or_else(|errors| panic!("{errors:#?}\n{design}"))
    }
}

/// A design studied with its mends tried.
pub(crate) fn studied(design: &str, shelf: &str, builds: usize) -> Report {
    run(texts(design, shelf), options(builds))
        .unwrap_or_else(|errors| panic!("{errors:#?}\n{design}"))
}

/// A design studied without mends, where it can be.
pub(crate) fn surveyed(
    design: &str,
    shelf: &str,
    builds: usize,
) -> Result<Report, Vec<design::Diagnostic>> {
    survey(texts(design, shelf), options(builds))
}

const fn texts<'a>(design: &'a str, shelf: &'a str) -> Texts<'a> {
    Texts {
        design,
        shelf: Some(shelf),
    }
}

fn options(builds: usize) -> Options<'static> {
    Options {
        builds,
        spread: 1.0,
        progress: &|_| {},
    }
}

/// For each check a design with which it finds fault.
pub(crate) fn list() -> Vec<Broken> {
    let mut list = sounding();
    list.extend(wooden());
    list.extend(wired());
    list
}

/// Those that sound, cost and play otherwise than they should.
pub(crate) fn sounding() -> Vec<Broken> {
    vec![
        broken(
            "lead-acid-airtight",
            &[
                ("battery.part", "lead-acid 12 V 7 Ah"),
                ("battery.charged_inside", "true"),
            ],
        ),
        broken("lithium-care", &[("battery.charged_inside", "true")]),
        broken("hearing", &[("brief.loudness", "88 dB")]),
        broken("brief-low", &[("brief.lowest", "74 Hz")]),
        broken("brief-low", &[("brief.lowest", "76 Hz")]).builds(200),
        broken("brief-low", &[("brief.lowest", "65 Hz")]).with_radiator(),
        broken("brief-loud", &[("brief.loudness", "93 dB")]),
        broken(
            "brief-loud",
            &[("source.loss", "20 dB"), ("brief.loudness", "82 dB")],
        ),
        broken(
            "brief-long",
            &[
                ("brief.runtime", "85 h"),
                ("battery.part", "lead-acid 12 V 4.5 Ah"),
            ],
        ),
        broken(
            "brief-light",
            &[("box.wall", "MDF 19 mm"), ("brief.weight", "7 kg")],
        ),
        broken(
            "brief-cost",
            &[
                ("battery.part", "iron phosphate 12.8 V 12 Ah"),
                ("brief.cost", "110 €"),
            ],
        ),
        broken("brief-conflict", &[("brief.lowest", "20 Hz")]),
        broken("brief-conflict", &[("brief.runtime", "400 h")]),
        broken(
            "supply-voltage",
            &[
                ("battery.part", "iron phosphate 25.6 V 6 Ah"),
                ("battery.charged_inside", "true"),
            ],
        ),
        broken(
            "supply-voltage",
            &[("battery.part", "lithium-ion 3.6 V 5 Ah")],
        ),
        broken("end-voltage", &[])
            .shelf("[[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\nend_voltage = \"8 V\"\n"),
        broken("end-voltage", &[])
            .shelf("[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\nsupply_min = \"13 V\"\n"),
        broken("protection-current", &[]).shelf(
            "[[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\nprotection_current = \"3 A\"\n",
        ),
        broken(
            "indicator-time",
            &[
                ("indicator.warning", "30 min"),
                ("indicator.reference", "zener 5.1 V, 5 %"),
                ("battery.part", "lead-acid 12 V 7 Ah"),
            ],
        ),
        broken(
            "indicator-flat",
            &[
                ("indicator.warning", "5 h"),
                ("indicator.reference", "zener 5.1 V, 5 %"),
            ],
        ),
        broken(
            "indicator-flickers",
            &[
                ("indicator.warning", "30 min"),
                ("indicator.hysteresis", "1 mV"),
                ("indicator.delay", "0 s"),
                ("battery.part", "lead-acid 12 V 7 Ah"),
            ],
        ),
        broken(
            "indicator-drains",
            &[
                ("indicator.warning", "30 min"),
                ("indicator.comparator", "dual comparator, open collector"),
                ("indicator.reference", "zener 5.1 V, 5 %"),
                ("battery.part", "lead-acid 12 V 7 Ah"),
                ("brief.loudness", "60 dB"),
            ],
        ),
        broken(
            "indicator-inputs",
            &[
                ("indicator.warning", "30 min"),
                ("indicator.comparator", "micropower comparator, push-pull"),
                ("battery.part", "iron phosphate 25.6 V 6 Ah"),
            ],
        ),
        broken(
            "indicator-inputs",
            &[
                ("indicator.warning", "30 min"),
                ("indicator.comparator", "dual op-amp, single supply"),
                ("battery.part", "lead-acid 12 V 7 Ah"),
            ],
        )
        .shelf("[[comparator]]\nname = \"dual op-amp, single supply\"\noutput_high = \"2.5 V\"\n"),
        broken(
            "indicator-reference",
            &[
                ("indicator.warning", "30 min"),
                ("indicator.reference", "zener 10 V, 5 %"),
                ("battery.part", "lithium-ion 10.8 V 6.8 Ah"),
            ],
        ),
        broken(
            "indicator-cut-off",
            &[
                ("indicator.warning", "30 min"),
                ("battery.part", "lead-acid 12 V 7 Ah"),
            ],
        ),
        broken(
            "minimum-load",
            &[
                ("drivers.1.part", "full-range 3.5 in, 4 ohm"),
                ("drivers.1.count", "4"),
            ],
        ),
        broken(
            "current-limit",
            &[
                ("battery.part", "iron phosphate 25.6 V 6 Ah"),
                ("amplifier.part", "amplifier 2 x 30 W, 18 V"),
            ],
        ),
        broken(
            "direct-current",
            &[(
                "amplifier.part",
                "linear amplifier 2 x 5 W, 12 V, not bridged",
            )],
        ),
        broken(
            "headroom",
            &[
                ("module.1.part", "radio module 12 V"),
                ("module.1.name", "radio"),
            ],
        )
        .shelf("[[module]]\nname = \"radio module 12 V\"\noutput_level = \"20 mV\"\n"),
        broken("source-level", &[("source.level", "10 V")]),
        broken("source-level", &[("source.level", "0.1 V")]),
        broken("volume-law", &[])
            .with_panel()
            .shelf("[[control]]\nname = \"rotary potentiometer, M7\"\nresistance = \"500 kΩ\"\n"),
        broken("coupling-corner", &[("amplifier.coupling", "100 µF")]),
        broken("output-filter", &[]).shelf(
            "[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\nfilter_inductance = \"47 µH\"\n\
             filter_capacitance = \"2.2 µF\"\n",
        ),
        broken("board-heat", &[]).shelf(
            "[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\nthermal_resistance = \"120 K/W\"\n\
             hottest = \"80 °C\"\n",
        ),
        broken(
            "battery-heat",
            &[("place.sun", "true"), ("place.hottest", "38 °C")],
        )
        .shelf("[[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\nhottest = \"45 °C\"\n"),
        broken(
            "module-heat",
            &[
                ("module.1.part", "radio module 12 V"),
                ("module.1.name", "radio"),
            ],
        )
        .shelf("[[module]]\nname = \"radio module 12 V\"\nthermal_resistance = \"150 K/W\"\n"),
        broken("driver-data", &[])
            .shelf("[[driver]]\nname = \"full-range 4 in, 4 ohm\"\nmms = \"46 g\"\n"),
        broken(
            "driver-unknown",
            &[("drivers.1.part", "salvaged full-range 4 in, unknown")],
        )
        .builds(200),
        broken("driver-heat", &[("brief.programme", "squashed music")])
            .shelf("[[driver]]\nname = \"full-range 4 in, 4 ohm\"\npower = \"2 W\"\n"),
        broken("travel", &[("brief.loudness", "101 dB")]),
        broken("treble", &[("drivers.1.part", "woofer 4 in, 4 ohm")]),
        broken(
            "chamber-shared",
            &[
                ("drivers.1.side", "left"),
                ("drivers.1.count", "1"),
                ("drivers.2.part", "full-range 3.5 in, 4 ohm"),
                ("drivers.2.side", "right"),
                ("drivers.2.count", "1"),
            ],
        ),
        broken("sealed-or-vented", &[("brief.lowest", "55 Hz")]).builds(200),
        broken(
            "box-q",
            &[
                ("drivers.1.part", "coaxial 4 in, 4 ohm"),
                ("box.outside", "300 x 200 x 160 mm"),
            ],
        ),
        broken("bass-bump", &[("drivers.1.part", "coaxial 4 in, 4 ohm")]).vented(),
        broken(
            "travel-below-tuning",
            &[
                ("box.vent.diameter", "70 mm"),
                ("box.vent.length", "20 mm"),
                ("brief.programme", "squashed music"),
            ],
        )
        .vented(),
        broken(
            "vent-speed",
            &[
                ("box.vent.diameter", "25 mm"),
                ("box.vent.length", "30 mm"),
                ("brief.loudness", "88 dB"),
            ],
        )
        .vented(),
        broken("vent-fits", &[("box.vent.length", "180 mm")]).vented(),
        broken("vent-fits", &[("box.vent.length", "600 mm")]).vented(),
        broken(
            "vent-pipe",
            &[
                ("box.vent.diameter", "70 mm"),
                ("box.vent.length", "300 mm"),
                ("box.filling", "0 %"),
            ],
        )
        .vented(),
        broken("radiator-size", &[("box.radiator.part", "radiator 3 in")]).with_radiator(),
        broken("leak", &[("box.leak", "leaky")]),
        broken("face-loss", &[("place.stands", "free")]),
        broken("box-size", &[("box.outside", "440 x 240 x 200 mm")]),
        broken(
            "box-holds",
            &[
                ("box.outside", "280 x 168 x 140 mm"),
                ("drivers.1.at.1", "90 x 120 mm"),
                ("drivers.1.at.2", "310 x 120 mm"),
                ("battery.at", "20 x 0 x 80 mm"),
                ("amplifier.at", "260 x 6 x 60 mm"),
            ],
        ),
        broken("drivers-fit", &[("box.outside", "150 x 200 x 230 mm")]),
        broken(
            "drivers-fit",
            &[
                ("drivers.1.at.1", "45 x 120 mm"),
                ("drivers.1.at.2", "300 x 120 mm"),
            ],
        ),
        broken(
            "parts-fit",
            &[
                ("box.outside", "300 x 200 x 110 mm"),
                ("battery.part", "lead-acid 12 V 12 Ah"),
            ],
        ),
    ]
}

/// The same for what the wood tells.
pub(crate) fn wooden() -> Vec<Broken> {
    vec![
        broken("holes-clear", &[("control.at", "60 x 180 mm")]).with_panel(),
        broken(
            "holes-clear",
            &[
                ("brace.1.name", "across"),
                ("brace.1.parallel", "left"),
                ("brace.1.at", "120 mm"),
                ("brace.1.window", "100 x 100 mm"),
            ],
        ),
        broken(
            "boards-fit",
            &[
                ("brace.1.name", "across"),
                ("brace.1.parallel", "left"),
                ("brace.1.at", "182 mm"),
                ("brace.1.window", "190 x 150 mm"),
            ],
        ),
        broken(
            "boards-cross",
            &[
                ("cleat.1.name", "cleat above the back"),
                ("cleat.1.along", "top-back"),
                ("cleat.1.section", "15 x 15 mm"),
                ("brace.1.name", "across"),
                ("brace.1.parallel", "front"),
                ("brace.1.at", "152 mm"),
                ("brace.1.window", "330 x 170 mm"),
            ],
        ),
        broken(
            "least-skin",
            &[("box.joints", "rebated"), ("box.rebate", "11.7 mm")],
        ),
        broken("screws-bite", &[("box.joints", "mitred")]),
        broken(
            "screws-bite",
            &[
                ("box.joints", "rebated"),
                ("cleat.1.name", "cleat above the back"),
                ("cleat.1.along", "top-back"),
                ("cleat.1.section", "15 x 15 mm"),
            ],
        ),
        broken("panel-plate", &[("control.part.3.at", "138 x 35 mm")]).with_panel(),
        broken(
            "grille-clear",
            &[
                ("grille.strip", "70 mm"),
                ("grille.thickness", "12 mm"),
                ("grille.gap", "4 mm"),
            ],
        ),
        broken(
            "glue-line",
            &[("box.joints", "rebated"), ("box.round", "9 mm")],
        ),
        broken(
            "grain-run",
            &[("box.panel.1.side", "top"), ("box.panel.1.grain", "around")],
        )
        .shelf(
            "[[sheet]]\nname = \"birch plywood 12 mm\"\nlength = \"1200 mm\"\nwidth = \"900 mm\"\n",
        ),
        broken(
            "ring-closes",
            &[
                ("box.joints", "mitred ring"),
                ("saw.angle_error", "1°"),
                ("glue.gap", "0.1 mm"),
            ],
        ),
        broken(
            "open-time",
            &[("glue.open_time", "2 min"), ("glue.per_joint", "3 min")],
        ),
        broken("sheet-too-small", &[]).shelf(
            "[[sheet]]\nname = \"birch plywood 12 mm\"\nlength = \"390 mm\"\nwidth = \"230 mm\"\n",
        ),
        broken("wall-buzz", &[("box.wall", "poplar plywood 5 mm")]),
        broken("inside-box", &[("battery.at", "300 x 0 x 80 mm")]),
        broken("parts-collide", &[("battery.at", "20 x 60 x 20 mm")]),
        broken("parts-close", &[("battery.at", "30 x 60 x 44 mm")]),
        broken("comes-out", &[("box.last_with", "glue")]),
        broken(
            "screws-reached",
            &[("box.last", "left"), ("amplifier.fixed_to", "bottom")],
        ),
        broken(
            "battery-bay",
            &[
                ("battery.part", "lead-acid 12 V 7 Ah"),
                ("battery.charged_inside", "true"),
                ("battery.vented_bay", "true"),
                ("bay.inside", "161 x 70 x 105 mm"),
                ("bay.at", "108 x 0 x 71 mm"),
                ("bay.hole", "5 mm"),
                ("bay.holes", "1"),
            ],
        ),
        broken("panel-bush", &[("control.plate", "birch plywood 9 mm")]).with_panel(),
        broken("panel-bodies", &[("control.part.2.at", "45 x 35 mm")]).with_panel(),
        broken("panel-bodies", &[("control.part.3.at", "131 x 35 mm")]).with_panel(),
        broken(
            "knobs-reached",
            &[
                ("control.recess", "12 mm"),
                ("control.ledge", "8 mm"),
                ("control.part.1.at", "20 x 20 mm"),
            ],
        )
        .with_panel(),
        broken("knobs-apart", &[("control.part.2.at", "62 x 35 mm")]).with_panel(),
        broken(
            "metal-radio",
            &[("control.part.3.part", "radio module, aerial on its board")],
        )
        .with_panel(),
        broken(
            "bridged-sockets",
            &[("control.part.3.bridged_output", "true")],
        )
        .with_panel(),
        broken(
            "stands-firm",
            &[
                ("box.outside", "260 x 500 x 90 mm"),
                ("battery.at", "40 x 380 x 0 mm"),
            ],
        ),
        broken(
            "hangs-level",
            &[
                ("handle.at", "330 x 100 mm"),
                ("handle.spacing", "100 mm"),
                ("handle.bolt", "5 mm"),
            ],
        ),
        broken(
            "finish-holds",
            &[
                ("finish.1.part", "hard-wax oil"),
                ("finish.2.part", "water-based lacquer"),
            ],
        ),
        broken(
            "finish-blotches",
            &[
                ("finish.1.part", "water stain"),
                ("finish.2.part", "water-based lacquer"),
            ],
        ),
        broken("finish-open", &[("finish.1.part", "water-based primer")]),
        broken("finish-outdoors", &[("finish.1.part", "shellac")]),
        broken(
            "finish-outdoors",
            &[
                ("finish.1.part", "water-based lacquer"),
                ("finish.1.on.1", "front"),
            ],
        ),
    ]
}

/// Those wired otherwise than they should be.
pub(crate) fn wired() -> Vec<Broken> {
    vec![
        broken(
            "wire-named",
            &[
                ("wiring.wire.1.from", "batery +"),
                ("wiring.wire.1.to", "fuse 1"),
            ],
        ),
        broken(
            "wires-whole",
            &[
                ("wiring.without.1.from", "amplifier left +"),
                ("wiring.without.1.to", "left driver 1 +"),
            ],
        ),
        broken(
            "short-circuit",
            &[
                ("wiring.wire.1.from", "main switch 2"),
                ("wiring.wire.1.to", "battery -"),
            ],
        ),
        broken(
            "fuse-first",
            &[
                ("wiring.wire.1.from", "battery +"),
                ("wiring.wire.1.to", "main switch 1"),
            ],
        ),
        broken(
            "fuse-size",
            &[
                ("module.1.part", "inline holder for a blade fuse"),
                ("module.1.place", "auto"),
                ("module.1.fuse", "blade fuse 15 A"),
                ("wiring.usual", "flexible wire 0.5 mm²"),
            ],
        ),
        broken(
            "fuse-near",
            &[
                ("wiring.wire.1.from", "battery +"),
                ("wiring.wire.1.to", "fuse 1"),
                ("wiring.wire.1.length", "0.8 m"),
            ],
        ),
        broken(
            "reverse-polarity",
            &[
                ("wiring.without.1.from", "main switch 2"),
                ("wiring.without.1.to", "amplifier +"),
                ("wiring.without.2.from", "battery -"),
                ("wiring.without.2.to", "amplifier -"),
                ("wiring.wire.1.from", "main switch 2"),
                ("wiring.wire.1.to", "amplifier -"),
                ("wiring.wire.2.from", "battery -"),
                ("wiring.wire.2.to", "amplifier +"),
            ],
        ),
        broken(
            "bridged-outputs",
            &[
                ("wiring.wire.1.from", "left driver 1 -"),
                ("wiring.wire.1.to", "right driver 1 -"),
            ],
        ),
        broken(
            "wire-size",
            &[
                ("wiring.usual", "flexible wire 0.25 mm²"),
            ],
        ),
        broken(
            "wire-reaches",
            &[
                ("wiring.wire.1.from", "amplifier left +"),
                ("wiring.wire.1.to", "left driver 1 +"),
                ("wiring.wire.1.length", "60 mm"),
            ],
        ),
        broken(
            "contact-rating",
            &[
                ("control.part.2.part", "own switch"),
            ],
        )
        .with_panel()
        .shelf(
            "[[control]]\nname = \"own switch\"\nkind = \"switch\"\nthread = \"M6 x 0.75\"\nbush = \"8 mm\"\ncontacts = \"SPST\"\ndc_current = \"20 A\"\ndc_voltage = \"9 V\"\n",
        ),
        broken(
            "supply-range",
            &[
                ("module.1.part", "own converter"),
                ("module.1.place", "auto"),
                ("module.2.part", "own radio"),
                ("module.2.place", "auto"),
            ],
        )
        .shelf(
            "[[module]]\nname = \"own converter\"\nkind = \"converter\"\nsupply_min = \"9 V\"\nsupply_max = \"18 V\"\noutput_current = \"1 A\"\nefficiency = \"80 %\"\nisolated = true\noutput_voltage = \"12 V\"\n[[module]]\nname = \"own radio\"\nkind = \"radio\"\ncurrent = \"60 mA\"\noutput_level = \"0.9 V\"\nsupply_min = \"4.5 V\"\nsupply_max = \"5.5 V\"\n",
        ),
        broken(
            "driver-phase",
            &[
                ("wiring.without.1.from", "amplifier left +"),
                ("wiring.without.1.to", "left driver 1 +"),
                ("wiring.without.2.from", "amplifier left -"),
                ("wiring.without.2.to", "left driver 1 -"),
                ("wiring.wire.1.from", "amplifier left +"),
                ("wiring.wire.1.to", "left driver 1 -"),
                ("wiring.wire.2.from", "amplifier left -"),
                ("wiring.wire.2.to", "left driver 1 +"),
            ],
        ),
        broken(
            "mono-sum",
            &[
                ("wiring.wire.1.from", "input tip"),
                ("wiring.wire.1.to", "input ring"),
            ],
        ),
        broken(
            "ground-scheme",
            &[
                ("module.1.part", "own converter"),
                ("module.1.place", "auto"),
                ("wiring.ground", "isolated converter"),
            ],
        )
        .shelf(
            "[[module]]\nname = \"own converter\"\nkind = \"converter\"\nsupply_min = \"9 V\"\nsupply_max = \"18 V\"\noutput_current = \"1 A\"\nefficiency = \"80 %\"\nisolated = false\noutput_voltage = \"5 V\"\n",
        ),
        broken(
            "charging-path",
            &[
                ("battery.charged_inside", "true"),
                ("wiring.without.1.from", "charging socket -"),
                ("wiring.without.1.to", "battery -"),
            ],
        ),
        broken(
            "charger-fits",
            &[
                ("battery.charger_current", "8 A"),
            ],
        ),
        broken(
            "standby-drain",
            &[
                ("wiring.wire.1.from", "main switch 1"),
                ("wiring.wire.1.to", "main switch 2"),
            ],
        ),
        broken(
            "protection-latch",
            &[
                ("battery.count", "1"),
            ],
        )
        .shelf(
            "[[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\nprotection_current = \"10 A\"\n[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\nsupply_capacitance = \"22000 µF\"\n",
        ),
        broken("parts-named", &[]).with_panel(),
        broken("tests-possible", &[("workshop.tools.1", "phone")]),
    ]
}

//! The box: its walls, the air inside, and what takes air up.

use super::displacement::{cylinder, displaced};
use super::timber::Timber;
use crate::build::EnclosureBuild;
use crate::carpentry::{PlanSubject, TUBE_WALL};
use crate::vary::{Causes, Draw, Uncertain, spreads};
use design::{Chambers, Design, Diagnostic, EnclosureKind, EnclosureSize, Leak, VentUse};
use wood::Wall;

/// Time in which fibre and the air among it exchange heat, in s: common practice, no source.
const RELAXATION: f64 = 0.000_4;

/// Something that takes up air inside.
#[derive(Clone, Debug, PartialEq)]
pub struct AirLine {
    /// What it is.
    pub label: String,
    /// Air taken up by all of them, nominal, in m³.
    pub volume: f64,
}

/// The box with its spreads.
#[derive(Clone, Debug)]
pub(crate) struct EnclosureSubject {
    /// Its wood.
    pub(crate) plan: PlanSubject,
    divider: bool,
    displaced: Vec<(String, Uncertain)>,
    filling: Uncertain,
    relaxation: Uncertain,
    leak_q: Uncertain,
    vent: Option<VentSubject>,
}

#[derive(Clone, Copy, Debug)]
struct VentSubject {
    diameter: Uncertain,
    length: Uncertain,
    count: u32,
}

impl EnclosureSubject {
    pub(super) fn new(causes: &mut Causes, design: &Design) -> Self {
        let said = &design.enclosure;
        let mut plan = PlanSubject::new(causes, design);
        let displaced = displaced(causes, design);
        let filling = said.filling.map_or(Uncertain::fixed(0.0), |share| {
            causes.value(
                "box.filling",
                "share of the air among fibres",
                "",
                &share,
                &spreads::FILLING,
            )
        });
        let relaxation = if said.filling.is_some_and(|share| share.si > 0.0) {
            let label = "heat exchange time of the filling";
            causes.usual(
                "box.relaxation",
                label,
                "s",
                RELAXATION,
                &spreads::RELAXATION,
            )
        } else {
            Uncertain::fixed(RELAXATION)
        };
        let leak = match said.leak.value {
            Leak::Tight => 30.0,
            Leak::Usual => 15.0,
            Leak::Leaky => 5.0,
        };
        let vent = match &said.kind {
            EnclosureKind::Vented(vent) => Some(VentSubject::new(causes, vent)),
            EnclosureKind::Sealed | EnclosureKind::PassiveRadiator(_) => None,
        };
        let leak_q = causes.usual("box.leak", "Q of the leaks", "", leak, &spreads::LEAK);
        plan.complete(causes, design);
        Self {
            plan,
            divider: said.chambers.value == Chambers::OnePerSide,
            displaced,
            filling,
            relaxation,
            leak_q,
            vent,
        }
    }

    /// The box of one build.
    #[must_use]
    pub(crate) fn at(&self, draw: &Draw) -> EnclosureBuild {
        let timber = Timber::of(&self.plan, draw);
        let parts: f64 = self
            .displaced
            .iter()
            .map(|(_, volume)| volume.at(draw))
            .sum();
        let hull = &timber.hull;
        let gross = timber.room;
        let displaced = parts + timber.taken() + self.tubes(&timber, draw);
        EnclosureBuild {
            outside: [hull.block.width, hull.block.height, hull.block.depth],
            inside: hull.inside_size(),
            thickness: timber.thick.main,
            gross,
            displaced,
            // Odd drawn builds must not leave the range of the physics.
            net: (gross - displaced).max(0.02 * gross),
            wood: timber.volume(),
            wood_weights: timber.weights(&self.plan.sheets, draw),
            filling: self.filling.at(draw).clamp(0.0, 1.0),
            relaxation: self.relaxation.at(draw),
            leak_q: self.leak_q.at(draw),
            vent: self.vent.map(|vent| vent.at(draw)),
        }
    }

    /// Air taken up by vent tubes and the air in them, in m³.
    fn tubes(&self, timber: &Timber, draw: &Draw) -> f64 {
        let wall = self
            .plan
            .vent_wall()
            .map_or(timber.thick.main, |wall: Wall| {
                timber.thick.walls[wall.index()]
            });
        self.vent.map_or(0.0, |vent| vent.displaced(draw, wall))
    }

    /// What takes up air, nominal.
    #[must_use]
    pub(crate) fn ledger(&self) -> Vec<AirLine> {
        let timber = Timber::of(&self.plan, &Draw::Nominal);
        let parts = self.displaced.iter().map(|(label, volume)| AirLine {
            label: label.clone(),
            volume: volume.nominal(),
        });
        let tubes = AirLine {
            label: "vent tube".into(),
            volume: self.tubes(&timber, &Draw::Nominal),
        };
        parts
            .chain(timber.ledger())
            .chain([tubes])
            .filter(|line| line.volume != 0.0)
            .collect()
    }

    /// Where each side has a chamber of its own, each must get its share of vents or radiators.
    pub(super) fn check_outlets(&self, design: &Design) -> Result<(), Diagnostic> {
        let (count, what, place) = match &design.enclosure.kind {
            EnclosureKind::Sealed => return Ok(()),
            EnclosureKind::Vented(vent) => (vent.count, "vent", vent.place),
            EnclosureKind::PassiveRadiator(used) => (used.count, "passive radiator", used.place),
        };
        if !self.divider || count.is_multiple_of(2) {
            return Ok(());
        }
        Err(Diagnostic {
            code: "outlets-uneven",
            message: format!(
                "{count} {what}{} cannot be shared by two chambers",
                if count == 1 { "" } else { "s" }
            ),
            label: "an odd count, with chambers = \"one per side\"".into(),
            place,
            mend: format!(
                "give each side its own {what}: set an even count, or chambers = \"shared\""
            ),
        })
    }

    pub(super) fn check_air(&self, design: &Design) -> Result<(), Diagnostic> {
        let nominal = self.at(&Draw::Nominal);
        let place = match &design.enclosure.size {
            EnclosureSize::Outside(size) | EnclosureSize::Inside(size) => size.place,
        };
        if nominal.gross <= 0.0 {
            return Err(Diagnostic {
                code: "box-no-inside",
                message: format!(
                    "walls of {:.1} mm leave nothing of this box inside",
                    1e3 * nominal.thickness
                ),
                label: "smaller than its own walls".into(),
                place,
                mend: "make the box larger in every direction than two wall thicknesses".into(),
            });
        }
        if nominal.gross - nominal.displaced < 0.1 * nominal.gross {
            return Err(Diagnostic {
                code: "box-no-air",
                message: format!(
                    "the parts take up {:.2} L of the {:.2} L inside this box",
                    1e3 * nominal.displaced,
                    1e3 * nominal.gross
                ),
                label: "leaves less than a tenth of its inside for air".into(),
                place,
                mend: "make the box larger, or choose a smaller battery or smaller drivers".into(),
            });
        }
        Ok(())
    }
}

impl VentSubject {
    fn new(causes: &mut Causes, vent: &VentUse) -> Self {
        Self {
            diameter: causes.value(
                "vent.diameter",
                "vent diameter",
                "m",
                &vent.diameter,
                &spreads::VENT_DIAMETER,
            ),
            length: causes.value(
                "vent.length",
                "vent length",
                "m",
                &vent.length,
                &spreads::VENT_LENGTH,
            ),
            count: vent.count,
        }
    }

    fn at(&self, draw: &Draw) -> crate::build::VentBuild {
        crate::build::VentBuild {
            diameter: self.diameter.at(draw),
            length: self.length.at(draw),
            count: self.count,
        }
    }

    /// Air taken up by tubes and the air in them, without what lies in the wall.
    fn displaced(&self, draw: &Draw, wall: f64) -> f64 {
        let vent = self.at(draw);
        let inside = (vent.length - wall).max(0.0);
        f64::from(vent.count) * cylinder(vent.diameter + 2.0 * TUBE_WALL, inside)
    }
}

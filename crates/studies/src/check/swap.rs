//! Candidates that take another part from the shelf: those most like the
//! present one first, and among these what costs least.

use super::{Candidate, Edit, Evidence};
use design::{AmplifierPart, BatteryPart, Common, DriverKind, DriverPart, RadiatorPart, SheetPart};

/// A part that can stand in for another of its kind.
trait Part {
    fn common(&self) -> &Common;

    /// How unlike another it is; 0 where only the price counts.
    fn unlike(&self, other: &Self) -> u32;
}

impl Part for AmplifierPart {
    fn common(&self) -> &Common {
        &self.common
    }

    fn unlike(&self, other: &Self) -> u32 {
        u32::from(self.stage.value != other.stage.value)
    }
}

impl Part for BatteryPart {
    fn common(&self) -> &Common {
        &self.common
    }

    fn unlike(&self, other: &Self) -> u32 {
        let cells = u32::from(self.cells != other.cells);
        2 * u32::from(self.chemistry.value != other.chemistry.value) + cells
    }
}

impl Part for DriverPart {
    fn common(&self) -> &Common {
        &self.common
    }

    fn unlike(&self, other: &Self) -> u32 {
        let size = |part: &Self| part.size.map(|size| size.si);
        let rated = |part: &Self| part.impedance.map(|rated| rated.si);
        let differ = [
            rated(self) != rated(other),
            self.kind.value != other.kind.value,
            size(self) != size(other),
        ];
        differ
            .into_iter()
            .zip([1, 2, 4])
            .map(|(differs, weight)| weight * u32::from(differs))
            .sum()
    }
}

impl Part for RadiatorPart {
    fn common(&self) -> &Common {
        &self.common
    }

    fn unlike(&self, _: &Self) -> u32 {
        0
    }
}

impl Part for SheetPart {
    fn common(&self) -> &Common {
        &self.common
    }

    fn unlike(&self, _: &Self) -> u32 {
        0
    }
}

/// Parts that pass in place of the one in use, of which so many are needed.
fn others<'a, P: Part>(
    evidence: &Evidence<'_>,
    parts: &'a [P],
    in_use: &P,
    needed: u32,
    passes: impl Fn(&P) -> bool,
) -> Vec<&'a P> {
    let mut list: Vec<&P> = parts
        .iter()
        .filter(|part| part.common().name.text != in_use.common().name.text && passes(part))
        .collect();
    let spent = |part: &P| spent(evidence, part.common(), needed);
    list.sort_by(|a, b| {
        let alike = a.unlike(in_use).cmp(&b.unlike(in_use));
        alike.then(spent(a).total_cmp(&spent(b)))
    });
    list
}

/// What is to be spent on so many; infinite where no price is known.
fn spent(evidence: &Evidence<'_>, common: &Common, needed: u32) -> f64 {
    let currency = &evidence.design().brief.currency;
    let missing = f64::from(needed.saturating_sub(common.on_hand));
    let price = common
        .price
        .as_ref()
        .filter(|price| &price.currency == currency);
    match price {
        _ if missing == 0.0 => 0.0,
        Some(price) => missing * price.amount.si,
        None => f64::INFINITY,
    }
}

fn candidate(what: &str, key: &str, from: &Common, to: &Common) -> Candidate {
    let (from, to) = (&from.name.text, &to.name.text);
    let words = if from.starts_with(what) {
        format!("{from} → {to}")
    } else {
        format!("{what} {from} → {to}")
    };
    Candidate::set(words, key, to)
}

/// Other amplifier boards with enough channels, those that need no coupling
/// capacitors unless the design has them.
pub(crate) fn amplifiers(
    evidence: &Evidence<'_>,
    passes: impl Fn(&AmplifierPart) -> bool,
) -> Vec<Candidate> {
    let used = &evidence.design().amplifier;
    let channels = evidence.subject.channels_used();
    others(
        evidence,
        &evidence.subject.project.shelf.amplifiers,
        &used.part,
        1,
        |part| {
            part.channels >= channels && (part.bridged || used.coupling.is_some()) && passes(part)
        },
    )
    .into_iter()
    .map(|part| {
        candidate(
            "amplifier",
            "amplifier.part",
            &used.part.common,
            &part.common,
        )
    })
    .collect()
}

/// Other batteries, as many as now.
pub(crate) fn batteries(
    evidence: &Evidence<'_>,
    passes: impl Fn(&BatteryPart) -> bool,
) -> Vec<Candidate> {
    let parts = other_batteries(evidence, passes);
    let swap = |part: &BatteryPart| battery(evidence, part);
    parts.into_iter().map(swap).collect()
}

fn other_batteries<'a>(
    evidence: &Evidence<'a>,
    passes: impl Fn(&BatteryPart) -> bool,
) -> Vec<&'a BatteryPart> {
    let used = &evidence.design().battery;
    let shelf = &evidence.subject.project.shelf.batteries;
    others(evidence, shelf, &used.part, used.count, passes)
}

fn battery(evidence: &Evidence<'_>, part: &BatteryPart) -> Candidate {
    let used = &evidence.design().battery.part;
    candidate("battery", "battery.part", &used.common, &part.common)
}

/// Another battery together with another board that suits it, both others than now.
pub(crate) fn supplies(
    evidence: &Evidence<'_>,
    passes: impl Fn(&BatteryPart) -> bool,
) -> Vec<Candidate> {
    let suits = |board: &AmplifierPart, battery: &BatteryPart| {
        let most = board.supply_recommended.unwrap_or(board.supply_max).si;
        let full = battery.charge_voltage.map(|value| value.si);
        full.is_some_and(|volts| volts <= most && volts > board.supply_min.si)
    };
    let together = |part: &BatteryPart| {
        let boards = amplifiers(evidence, |board| suits(board, part));
        pairs(&[battery(evidence, part)], &boards)
    };
    let parts = other_batteries(evidence, passes);
    parts.into_iter().flat_map(together).collect()
}

/// Each of some candidates with each of others.
pub(crate) fn pairs(these: &[Candidate], those: &[Candidate]) -> Vec<Candidate> {
    let with = |a: &Candidate, b: &Candidate| {
        let words = format!("{}, {}", a.words, b.words);
        Candidate::new(words, [a.edits.as_slice(), &b.edits].concat())
    };
    these
        .iter()
        .flat_map(|a| those.iter().map(move |b| with(a, b)))
        .collect()
}

/// All of some candidates at once.
pub(crate) fn all(each: Vec<Candidate>) -> Option<Candidate> {
    let words: Vec<&str> = each.iter().map(|one| one.words.as_str()).collect();
    let words = words.join("; ");
    let edits: Vec<Edit> = each.iter().flat_map(|one| one.edits.clone()).collect();
    (!edits.is_empty()).then(|| Candidate::new(words, edits))
}

/// Other drivers for one group that cover the same range and whose data are known.
pub(crate) fn drivers(
    evidence: &Evidence<'_>,
    group: usize,
    passes: impl Fn(&DriverPart) -> bool,
) -> Vec<Candidate> {
    let used = &evidence.design().drivers[group];
    let treble = covers_treble(&used.part);
    drivers_of_any_range(evidence, group, |part| {
        covers_treble(part) == treble && passes(part)
    })
}

/// Other drivers for one group whose data are known, whatever their range.
pub(crate) fn drivers_of_any_range(
    evidence: &Evidence<'_>,
    group: usize,
    passes: impl Fn(&DriverPart) -> bool,
) -> Vec<Candidate> {
    let used = &evidence.design().drivers[group];
    others(
        evidence,
        &evidence.subject.project.shelf.drivers,
        &used.part,
        used.count,
        |part| part.fs.is_some() && passes(part),
    )
    .into_iter()
    .map(|part| {
        let key = format!("drivers.{}.part", group + 1);
        candidate("drivers", &key, &used.part.common, &part.common)
    })
    .collect()
}

/// Whether a driver plays the treble by itself.
pub(crate) const fn covers_treble(part: &DriverPart) -> bool {
    matches!(part.kind.value, DriverKind::FullRange | DriverKind::Coaxial)
}

/// Other passive radiators, as many as now.
pub(crate) fn radiators(
    evidence: &Evidence<'_>,
    passes: impl Fn(&RadiatorPart) -> bool,
) -> Vec<Candidate> {
    let Some(used) = evidence.radiator() else {
        return Vec::new();
    };
    others(
        evidence,
        &evidence.subject.project.shelf.radiators,
        &used.part,
        used.count,
        passes,
    )
    .into_iter()
    .map(|part| {
        let key = "box.radiator.part";
        candidate("radiator", key, &used.part.common, &part.common)
    })
    .collect()
}

/// Least stiffness of other walls over that of the present ones, for the same
/// panels: thinner walls buzz. Common practice, no source.
const STIFFNESS: f64 = 0.35;

/// Bending stiffness of a sheet in N·m, up to a factor that is the same for all.
fn stiffness(sheet: &SheetPart, thickness: f64) -> Option<f64> {
    let modulus = sheet.modulus?.si;
    Some(modulus * thickness * thickness * thickness)
}

/// Other walls that are stiff enough; a thickness measured on the old ones goes.
pub(crate) fn walls(
    evidence: &Evidence<'_>,
    passes: impl Fn(&SheetPart) -> bool,
) -> Vec<Candidate> {
    let plan = &evidence.design().enclosure;
    let now = stiffness(&plan.wall, evidence.build.enclosure.thickness);
    let stiff = |sheet: &SheetPart| {
        stiffness(sheet, sheet.thickness.si)
            .zip(now)
            .is_some_and(|(other, now)| other >= STIFFNESS * now)
    };
    others(
        evidence,
        &evidence.subject.project.shelf.sheets,
        &plan.wall,
        1,
        |sheet| !sheet.metal.value && stiff(sheet) && passes(sheet),
    )
    .into_iter()
    .map(|part| {
        let mut candidate = candidate("walls", "box.wall", &plan.wall.common, &part.common);
        if plan.thickness.is_some() {
            candidate.edits.push(Edit::remove("box.thickness"));
        }
        candidate
    })
    .collect()
}

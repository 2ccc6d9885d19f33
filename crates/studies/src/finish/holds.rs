//! Whether one layer holds on another. Common practice, no source; what stands on the cans
//! comes first.

use super::model::Hold;
use design::{Design, FinishBase as Base, FinishKind as Kind, FinishUse};

/// What is wrong between two layers that share a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Trouble {
    /// Nothing holds on wax.
    OnWax,
    /// Oil and stain soak in, which a film or an oiled face does not let them.
    Closed,
    /// Solvent wrinkles a film that dried by taking up oxygen.
    Lifts,
}

/// One layer right on another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Meeting {
    trouble: Option<Trouble>,
    cured: bool,
    because: &'static str,
}

const fn holds(because: &'static str) -> Meeting {
    Meeting {
        trouble: None,
        cured: false,
        because,
    }
}

const fn once_cured(because: &'static str) -> Meeting {
    Meeting {
        trouble: None,
        cured: true,
        because,
    }
}

const fn fails(trouble: Trouble, because: &'static str) -> Meeting {
    Meeting {
        trouble: Some(trouble),
        cured: false,
        because,
    }
}

/// Whether a finish dries to a film that lies on the wood.
pub(super) const fn is_film(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Lacquer | Kind::Shellac | Kind::Paint | Kind::Primer
    )
}

/// Layers right on one another, in the order of the lower ones: index of the lower, of the
/// upper, and how they meet.
fn meetings(said: &[FinishUse]) -> Vec<(usize, usize, Meeting)> {
    let mut out = Vec::new();
    for upper in 1..said.len() {
        for lower in 0..upper {
            let covered = said[lower + 1..upper]
                .iter()
                .any(|between| covers(between, &said[lower], &said[upper]));
            if shared(&said[lower], &said[upper]) && !covered {
                out.push((lower, upper, meet(&said[lower], &said[upper])));
            }
        }
    }
    out.sort_by_key(|(lower, upper, _)| (*lower, *upper));
    out
}

/// How the layers of a design hold on one another.
pub(super) fn list(design: &Design) -> Vec<Hold> {
    meetings(&design.finishes)
        .into_iter()
        .map(|(lower, upper, meeting)| Hold {
            lower,
            upper,
            holds: meeting.trouble.is_none(),
            cured: meeting.cured,
            because: meeting.because,
        })
        .collect()
}

/// What does not hold: index of the lower layer and of the upper one, what is wrong, and why.
pub(crate) fn troubles(said: &[FinishUse]) -> Vec<(usize, usize, Trouble, &'static str)> {
    meetings(said)
        .into_iter()
        .filter_map(|(lower, upper, meeting)| {
            let trouble = meeting.trouble?;
            Some((lower, upper, trouble, meeting.because))
        })
        .collect()
}

/// Whether the upper layer wants the lower one cured.
pub(super) fn wants_cured(lower: &FinishUse, upper: &FinishUse) -> bool {
    meet(lower, upper).cured
}

/// Whether two layers go on a common face.
pub(crate) fn shared(a: &FinishUse, b: &FinishUse) -> bool {
    a.on.is_empty() || b.on.is_empty() || a.on.iter().any(|side| b.on.contains(side))
}

/// Whether a layer lies between two others on every face that they share.
fn covers(between: &FinishUse, lower: &FinishUse, upper: &FinishUse) -> bool {
    let on = |used: &FinishUse, side| used.on.is_empty() || used.on.contains(&side);
    use design::Wall;
    [
        Wall::Front,
        Wall::Back,
        Wall::Left,
        Wall::Right,
        Wall::Top,
        Wall::Bottom,
    ]
    .into_iter()
    .filter(|side| on(lower, *side) && on(upper, *side))
    .all(|side| on(between, side))
}

/// One layer right on another.
fn meet(under: &FinishUse, over: &FinishUse) -> Meeting {
    let (lower, upper) = (under.part.kind.value, over.part.kind.value);
    let (base, by) = (under.part.base.value, over.part.base.value);
    if under.part.common.name.text == over.part.common.name.text {
        return holds("the same again, as between coats");
    }
    match (lower, upper) {
        (_, Kind::Wax) => holds("wax is rubbed on anything that is dry"),
        (Kind::Wax, _) => fails(Trouble::OnWax, "nothing wets wax, so nothing holds on it"),
        (Kind::HardWaxOil, Kind::Oil | Kind::HardWaxOil) => {
            holds("oil on oil with wax, as it is repaired")
        }
        (Kind::HardWaxOil, _) => fails(
            Trouble::OnWax,
            "it holds wax, which lets nothing wet it, cured or not",
        ),
        (Kind::Oil, Kind::Oil | Kind::HardWaxOil) => holds("oil on oil"),
        (Kind::Oil, Kind::Stain) => fails(
            Trouble::Closed,
            "the oil has filled the pores that the stain should colour",
        ),
        (Kind::Oil, _) => once_cured("a film holds on oil once that has cured through"),
        (Kind::Stain, _) if base == Base::Oil && by != Base::Oil => {
            once_cured("what comes on a stain in oil holds once that has cured")
        }
        (Kind::Stain, Kind::Stain) => holds("stains mix in the wood"),
        (Kind::Stain, _) if base == by => {
            holds("it holds, but loosens the colour: one stroke, thin, no going back over it")
        }
        (Kind::Stain, _) => holds("a stain leaves the pores open"),
        (_, Kind::Oil | Kind::HardWaxOil) => fails(
            Trouble::Closed,
            "oil must soak into wood; on a film it stays sticky",
        ),
        (_, Kind::Stain) => fails(
            Trouble::Closed,
            "a stain must soak into wood; on a film it lies in smears",
        ),
        (Kind::Shellac, _) => holds("nearly everything holds on shellac without wax"),
        (_, Kind::Shellac) => holds("shellac holds on nearly everything that is clean and dull"),
        _ if base == Base::Oil && by == Base::Solvent => fails(
            Trouble::Lifts,
            "strong solvent swells a film of drying oil, which wrinkles and lifts",
        ),
        _ if base == Base::Water && by == Base::Solvent => {
            once_cured("solvent wrinkles a film from water that has not cured")
        }
        _ if base == Base::Oil => once_cured("a film of drying oil wants to cure under another"),
        _ if base == by => holds("both of one base"),
        _ => holds("it holds on a film that is dry and sanded dull"),
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use design::{Choice, FinishPart, Wall};

    /// A layer of some kind and base: invented, the times of the drying oil on the shelf.
    pub(in crate::finish) fn used(kind: Kind, base: Base) -> FinishUse {
        let shelf = design::read(crate::finish::tests::BASE, None)
            .expect("it is sound")
            .shelf;
        let part = &shelf.finishes[0];
        let mut common = part.common.clone();
        common.name.text = format!("{kind:?} in {base:?}");
        FinishUse {
            part: FinishPart {
                common: common.clone(),
                kind: Choice {
                    value: kind,
                    place: None,
                },
                base: Choice {
                    value: base,
                    place: None,
                },
                ..part.clone()
            },
            place: common.name.place,
            coats: None,
            on: Vec::new(),
        }
    }

    #[test]
    fn layers_that_hold_and_layers_that_do_not() {
        use Base::{Alcohol, Oil, Solvent, Water};
        for (lower, upper, trouble) in [
            ((Kind::Stain, Water), (Kind::Lacquer, Water), None),
            ((Kind::Primer, Water), (Kind::Paint, Water), None),
            ((Kind::Shellac, Alcohol), (Kind::Lacquer, Water), None),
            ((Kind::Paint, Oil), (Kind::Shellac, Alcohol), None),
            ((Kind::Oil, Oil), (Kind::Wax, Solvent), None),
            ((Kind::Oil, Oil), (Kind::Lacquer, Water), None),
            (
                (Kind::Wax, Solvent),
                (Kind::Lacquer, Water),
                Some(Trouble::OnWax),
            ),
            (
                (Kind::HardWaxOil, Oil),
                (Kind::Lacquer, Water),
                Some(Trouble::OnWax),
            ),
            (
                (Kind::Lacquer, Water),
                (Kind::Oil, Oil),
                Some(Trouble::Closed),
            ),
            (
                (Kind::Paint, Water),
                (Kind::Stain, Water),
                Some(Trouble::Closed),
            ),
            (
                (Kind::Oil, Oil),
                (Kind::Stain, Water),
                Some(Trouble::Closed),
            ),
            (
                (Kind::Paint, Oil),
                (Kind::Lacquer, Solvent),
                Some(Trouble::Lifts),
            ),
        ] {
            let found = meet(&used(lower.0, lower.1), &used(upper.0, upper.1)).trouble;
            assert_eq!(found, trouble, "{lower:?} under {upper:?}");
        }
    }

    #[test]
    fn oil_under_a_film_wants_to_cure() {
        let oil = used(Kind::Oil, Base::Oil);
        let lacquer = used(Kind::Lacquer, Base::Water);
        assert!(wants_cured(&oil, &lacquer));
        assert!(!wants_cured(&lacquer, &lacquer));
    }

    #[test]
    fn only_layers_that_touch_meet() {
        let [oil, film, wax] = [
            used(Kind::Paint, Base::Oil),
            used(Kind::Shellac, Base::Alcohol),
            used(Kind::Lacquer, Base::Solvent),
        ];
        // Shellac between them keeps the solvent off the oil...
        assert_eq!(troubles(&[oil.clone(), film.clone(), wax.clone()]), []);
        // ...but not where it was left out.
        let on = |used: &FinishUse, on: &[Wall]| FinishUse {
            on: on.to_vec(),
            ..used.clone()
        };
        let patchy = [oil.clone(), on(&film, &[Wall::Front]), wax.clone()];
        assert_eq!(troubles(&patchy).len(), 1);
        let apart = [on(&oil, &[Wall::Front]), on(&wax, &[Wall::Back])];
        assert_eq!(troubles(&apart), []);
    }
}

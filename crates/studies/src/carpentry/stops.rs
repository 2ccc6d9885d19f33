//! What makes no solid at all, as located errors.

use super::plan::wall;
use crate::words;
use design::{Design, Diagnostic, EnclosureSize, Place, Value};
use wood::{Fault, Measure, Wall};

/// Where the size of the box is written.
fn size_place(design: &Design) -> Place {
    match &design.enclosure.size {
        EnclosureSize::Outside(size) | EnclosureSize::Inside(size) => size.place,
    }
}

/// Where the lean of front or back is written, the front first.
fn lean_place(design: &Design) -> Option<Place> {
    let said = &design.enclosure.carpentry;
    let lean = said.front_lean.or(said.back_lean);
    lean.map(|value: Value| value.place)
}

/// Where the depth of a rebate is written.
fn rebate_place(design: &Design, within: Wall) -> Option<Place> {
    use design::EdgeJointKind::Rebate;
    let said = &design.enclosure.carpentry;
    let own = said.edges.iter().find(
        |edge| matches!(edge.kind, Rebate { within: of, depth: Some(_) } if wall(of) == within),
    );
    own.map(|edge| edge.place)
        .or_else(|| said.rebate.map(|depth| depth.place))
}

fn mm(length: f64) -> String {
    format!("{:.1} mm", 1e3 * length)
}

/// One fault as a located error.
pub(crate) fn diagnostic(fault: &Fault, design: &Design) -> Diagnostic {
    let size = size_place(design);
    match *fault {
        Fault::LeansMeet { by } => Diagnostic {
            code: "box-leans-shut",
            message: format!(
                "front and back lean so far that they meet {} below the top",
                mm(by)
            ),
            label: "leans too far for the depth".into(),
            place: lean_place(design).unwrap_or(size),
            mend: "lean them less, or make the box deeper or lower".into(),
        },
        Fault::NoInside {
            between: [a, b],
            by,
        } => Diagnostic {
            code: "box-no-inside",
            message: format!(
                "{} and {} leave nothing between them: they overlap by {}",
                words::wall(a),
                words::wall(b),
                mm(by)
            ),
            label: "smaller than its own walls".into(),
            place: size,
            mend: "make the box larger in every direction than two wall thicknesses".into(),
        },
        Fault::Setback { wall, by } => Diagnostic {
            code: "box-setback-deep",
            message: format!(
                "the {} is set back {} too far into the box",
                words::wall(wall),
                mm(by)
            ),
            label: "further than the box is deep".into(),
            place: design
                .enclosure
                .carpentry
                .setback
                .map_or(size, |value| value.place),
            mend: "set it back less, or make the box deeper".into(),
        },
        Fault::Step { within, by, .. } => Diagnostic {
            code: "rebate-deep",
            message: format!(
                "the rebate goes {} beyond the thickness of the {}",
                mm(by),
                words::wall(within)
            ),
            label: "deeper than its wall is thick".into(),
            place: rebate_place(design, within).unwrap_or(size),
            mend: "cut the rebate half as deep as the wall is thick, or leave its depth out".into(),
        },
        Fault::Measure { what, value } => measure(what, value, design),
        // The rest leaves a solid to make; checks tell of it.
        _ => Diagnostic {
            code: "box-no-inside",
            message: "no solid can be made of this box".into(),
            label: "does not close".into(),
            place: size,
            mend: "state plain joints and take out what was added last".into(),
        },
    }
}

fn measure(what: Measure, value: f64, design: &Design) -> Diagnostic {
    let size = size_place(design);
    let (words, place) = match what {
        Measure::Width => ("width of the box".to_owned(), size),
        Measure::Height => ("height of the box".to_owned(), size),
        Measure::Depth => ("depth of the box".to_owned(), size),
        Measure::FrontLean | Measure::BackLean => (
            "lean of front or back".to_owned(),
            lean_place(design).unwrap_or(size),
        ),
        Measure::Thickness(wall) => (format!("thickness of the {}", words::wall(wall)), size),
        Measure::Setback(wall) => (format!("setback of the {}", words::wall(wall)), size),
        Measure::Form(_) => ("rounding of an edge".to_owned(), size),
        Measure::Hole(_) => ("size of a hole".to_owned(), size),
        Measure::Board(_) => ("size of a board".to_owned(), size),
    };
    Diagnostic {
        code: "box-measure",
        message: format!("the {words} comes out as {value:.4}, which no box can have"),
        label: "leaves no measure above zero".into(),
        place,
        mend: "state a length above zero that fits the rest of the box".into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wood::Edge;

    const DESIGN: &str = include_str!("../../../../examples/bathing-beach/design.toml");

    /// Some of these no text leads to, since reading stops at them; all have a known code.
    #[test]
    fn whatever_leaves_no_solid_has_a_known_code() {
        let design = design::read(DESIGN, None).expect("a sound design").design;
        let measure = |what| Fault::Measure {
            what,
            value: -0.001,
        };
        let (by, edge) = (0.001, Edge::ALL[0]);
        for fault in [
            Fault::LeansMeet { by },
            Fault::NoInside {
                between: [Wall::Left, Wall::Right],
                by,
            },
            Fault::Setback {
                wall: Wall::Front,
                by,
            },
            Fault::Step {
                edge,
                within: Wall::Left,
                by,
            },
            measure(Measure::Width),
            measure(Measure::FrontLean),
            measure(Measure::Thickness(Wall::Top)),
            measure(Measure::Board(0)),
            measure(Measure::Hole(0)),
        ] {
            assert!(fault.is_fatal(), "{fault:?}");
            let said = diagnostic(&fault, &design);
            let known = crate::DIAGNOSTIC_CODES.contains(&said.code)
                || design::DIAGNOSTIC_CODES.contains(&said.code);
            assert!(known, "{said:?}");
            assert!(
                DESIGN.get(said.place.start..said.place.end).is_some(),
                "{said:?}"
            );
        }
    }
}

//! The box as wood: what is cut, what fits, and what comes out again.

mod control;
mod cuts;
mod fit;

use control::Control;
use cuts::{Panel, Sheet};
use fit::{Access, Balance, Gap, GlueUp, Mode, Part, Ring};
use serde::Serialize;
use studies::carpentry::Carpentry as Model;
use wood::Outline;

#[derive(Serialize)]
pub(super) struct Carpentry<'a> {
    panels: Vec<Panel<'a>>,
    sheets: Vec<Sheet<'a>>,
    parts: Vec<Part<'a>>,
    gaps: Vec<Gap<'a>>,
    access: Vec<Access<'a>>,
    modes: Vec<Mode>,
    balance: Balance,
    ring: Option<Ring>,
    glue_up: GlueUp<'a>,
    control: Option<Control<'a>>,
}

impl<'a> Carpentry<'a> {
    pub(super) fn new(model: &'a Model) -> Self {
        let label = |part: usize| model.parts.get(part).map_or("", |p| p.label.as_str());
        Self {
            panels: cuts::panels(model),
            sheets: model.sheets.iter().map(Sheet::new).collect(),
            parts: model.parts.iter().map(Part::new).collect(),
            gaps: model
                .gaps
                .iter()
                .map(|g| Gap::new(g, label(g.part)))
                .collect(),
            access: model.access.iter().map(Access::new).collect(),
            modes: model.modes.iter().map(Mode::new).collect(),
            balance: Balance::new(&model.balance),
            ring: model.ring.as_ref().map(Ring::new),
            glue_up: GlueUp::new(&model.glue_up),
            control: model.control.as_ref().map(Control::new),
        }
    }
}

/// The form of a hole, in m.
#[derive(Serialize)]
#[serde(tag = "form", rename_all = "lowercase")]
enum Form {
    Circle {
        diameter: f64,
    },
    Rectangle {
        width: f64,
        height: f64,
        corner: f64,
    },
}

impl From<Outline> for Form {
    fn from(outline: Outline) -> Self {
        match outline {
            Outline::Circle { diameter } => Self::Circle { diameter },
            Outline::Rectangle {
                width,
                height,
                corner,
            } => Self::Rectangle {
                width,
                height,
                corner,
            },
        }
    }
}

//! What the design names: electrical parts of panel and inside, each with what it is for.

use design::{ControlKind, ControlUse, Design, Does, ModuleKind, ModuleUse, Place};

/// A part the design names, and what it is for.
#[derive(Clone, Copy, Debug)]
pub(super) struct Named<'a> {
    pub(super) what: What<'a>,
    pub(super) does: Option<Does>,
    /// Its place in its list, from 1.
    number: usize,
}

/// Where it is named.
#[derive(Clone, Copy, Debug)]
pub(super) enum What<'a> {
    Panel(&'a ControlUse),
    Module(&'a ModuleUse),
}

impl<'a> Named<'a> {
    /// The table that names it, as edits do.
    pub(super) fn table(&self) -> String {
        match self.what {
            What::Panel(_) => format!("control.part.{}", self.number),
            What::Module(_) => format!("module.{}", self.number),
        }
    }

    /// Its place in its list, from 1.
    pub(super) const fn number(&self) -> usize {
        self.number
    }

    pub(super) fn place(&self) -> Place {
        match self.what {
            What::Panel(used) => used.place,
            What::Module(used) => used.place,
        }
    }

    /// Its name on the shelf.
    pub(super) fn label(&self) -> &'a str {
        match self.what {
            What::Panel(used) => &used.part.common.name.text,
            What::Module(used) => &used.part.common.name.text,
        }
    }

    /// What the maker calls it.
    pub(super) fn called(&self) -> Option<&'a str> {
        match self.what {
            What::Panel(_) => None,
            What::Module(used) => used.name.as_ref().map(|name| name.text.as_str()),
        }
    }
}

/// All of them in the order of the file.
pub(super) fn all(design: &Design) -> Vec<Named<'_>> {
    let panel = design.control.iter().flat_map(|control| &control.parts);
    let mut said = Vec::new();
    for (index, used) in panel.enumerate() {
        let taken = |does: Does| {
            let own = said
                .iter()
                .filter(|one: &&Named<'_>| one.does == Some(does));
            own.count()
        };
        let does = match &used.does {
            Some(does) => Some(does.value),
            None => usual(used, &taken),
        };
        said.push(Named {
            what: What::Panel(used),
            does,
            number: index + 1,
        });
    }
    for (index, used) in design.modules.iter().enumerate() {
        let usual = match used.part.kind.value {
            ModuleKind::Radio => Does::Radio,
            ModuleKind::Converter => Does::RadioSupply,
            ModuleKind::FuseHolder => Does::Fuse,
            ModuleKind::Indicator => Does::LowBattery,
        };
        said.push(Named {
            what: What::Module(used),
            does: Some(used.does.as_ref().map_or(usual, |does| does.value)),
            number: index + 1,
        });
    }
    said
}

/// What a part of the panel is for where the design does not say.
fn usual(used: &ControlUse, taken: &dyn Fn(Does) -> usize) -> Option<Does> {
    let wanted = if single(used) { 2 } else { 1 };
    let output = || {
        let sides = [Does::LeftOutput, Does::RightOutput];
        sides.into_iter().find(|does| taken(*does) < wanted)
    };
    let once = |does: Does| (taken(does) == 0).then_some(does);
    match used.part.kind.value {
        ControlKind::Potentiometer => once(Does::Volume),
        ControlKind::Switch => once(Does::Power),
        ControlKind::Jack if used.bridged_output.value => output(),
        ControlKind::Jack => once(Does::Input),
        ControlKind::PowerSocket => once(Does::Charging),
        ControlKind::Terminal => output(),
        ControlKind::FuseHolder => Some(Does::Fuse),
        ControlKind::Light => once(Does::PowerLight),
        ControlKind::Meter => once(Does::Voltage),
        ControlKind::Radio => once(Does::Radio),
    }
}

/// Whether it takes one leg of an output: a post of its own, not a pair.
pub(super) fn single(used: &ControlUse) -> bool {
    let terminal = used.part.kind.value == ControlKind::Terminal;
    terminal && used.part.electric.poles.is_none_or(|poles| poles < 2)
}

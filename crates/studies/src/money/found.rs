//! What only the studies of the nominal build find to be needed: wire, a fuse that the design
//! does not name, what goes on the wood.

use super::list::{Amount, List, Need};
use super::model::{Kind, Line, Unit};
use crate::electrics::{Electrics, Spool, colour::letters};
use crate::finish::Finish;
use crate::indicator::Indicator;
use crate::subject::Subject;
use design::{Common, FinishPart, Place};

/// What those studies gave.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Studied<'a> {
    pub(crate) electrics: &'a Electrics,
    pub(crate) finish: &'a Finish,
    pub(crate) indicator: Option<&'a Indicator>,
}

/// Everything they find to be needed.
pub(crate) fn found(subject: &Subject, studied: &Studied<'_>) -> Vec<Need> {
    let project = &subject.project;
    let mut list = List::new(&project.design.brief.currency);
    fuse(&mut list, subject, studied.electrics);
    if let Some(indicator) = studied.indicator {
        let electrics = studied.electrics;
        super::circuit::parts(&mut list, &project.shelf, electrics, indicator);
    }
    for spool in &studied.electrics.spools {
        wire(&mut list, spool);
    }
    finish(&mut list, subject, studied.finish);
    list.done()
}

/// The battery's fuse, where the program had to choose it; what the fuses that the design names
/// take out of the drawer is gone.
fn fuse(list: &mut List<'_>, subject: &Subject, electrics: &Electrics) {
    let chosen = electrics.fuse.as_ref().filter(|fuse| !fuse.stated);
    let Some(part) = chosen.and_then(|fuse| fuse.stock.as_ref()) else {
        return;
    };
    let named = subject.project.design.fuses();
    let alike = named.filter(|(fuse, _)| fuse.common.name.text == part.common.name.text);
    let taken = u32::try_from(alike.count()).unwrap_or(u32::MAX);
    let left = Common {
        on_hand: part.common.on_hand.saturating_sub(taken),
        ..part.common.clone()
    };
    let about = "fuse, chosen by the program";
    list.pieces(Kind::Electric, &left, Amount::pieces(1), None, about);
}

fn wire(list: &mut List<'_>, spool: &Spool) {
    let each = spool.colours.iter();
    let said = each.map(|own| format!("{} {:.2} m", letters(own.colour), own.length));
    let line = Line {
        label: spool.label.clone(),
        kind: Kind::Wire,
        unit: Unit::Metre,
        about: said.collect::<Vec<_>>().join(", "),
        uses: spool.length(),
        needed: spool.length(),
        on_hand: spool.on_hand(),
        to_buy: spool.to_buy(),
        price: None,
        place: None,
        instead: Vec::new(),
    };
    let price = spool
        .part
        .as_ref()
        .and_then(|part| part.common.price.as_ref());
    list.add(line, price);
}

/// Cans of what goes on the wood, layers of one finish out of the same cans.
fn finish(list: &mut List<'_>, subject: &Subject, finish: &Finish) {
    let said = &subject.project.design.finishes;
    let mut parts: Vec<(&FinishPart, Place, f64)> = Vec::new();
    for (used, layer) in said.iter().zip(&finish.layers) {
        let name = &used.part.common.name.text;
        let known = parts
            .iter_mut()
            .find(|(part, ..)| part.common.name.text == *name);
        match known {
            Some((_, _, volume)) => *volume += layer.volume,
            None => parts.push((&used.part, used.place, layer.volume)),
        }
    }
    for (part, place, volume) in parts {
        let cans = volume / part.can.si;
        let amount = Amount {
            uses: cans,
            needed: (cans - ROUNDING).ceil().max(0.0),
        };
        let about = format!("cans; {:.2} L", 1e3 * volume);
        list.pieces(Kind::Finish, &part.common, amount, Some(place), &about);
    }
}

/// So much over a whole number of cans is rounding.
const ROUNDING: f64 = 1e-9;

//! What becomes of the sheets.

use super::list::price_in;
use super::model::SheetBill;
use crate::carpentry::SheetPlan;

/// Area in m² of what is cut from a kind of sheet.
pub(super) fn pieces(plan: &SheetPlan) -> f64 {
    let laid = plan.layout.sheets.iter().flat_map(|sheet| &sheet.pieces);
    laid.map(|piece| piece.length * piece.width).sum()
}

/// What one kind of sheet is made into; prices are those of the brief's currency.
pub(super) fn bill(plan: &SheetPlan, currency: &str) -> SheetBill {
    let used = &plan.layout.sheets;
    let rests = used.iter().flat_map(|sheet| &sheet.offcuts);
    let part = &plan.part;
    let price = price_in(part.common.price.as_ref(), currency);
    SheetBill {
        label: plan.sheet.clone(),
        pieces: pieces(plan),
        cut: plan.layout.area,
        kept: rests.map(|rest| rest[2] * rest[3]).sum(),
        per_area: price.map(|price| price.si / (part.length.si * part.width.si)),
        offcuts: used
            .iter()
            .filter(|sheet| !plan.stock[sheet.stock].whole)
            .count(),
        left_over: plan.layout.left_over.len(),
    }
}

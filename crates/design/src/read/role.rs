//! What a part is said to be for.

use super::fields::Fields;
use super::words::{ROLES, word_of};
use crate::diagnostic::Log;
use crate::fault::ElectricFault;
use crate::{Choice, Does};

/// What a part is for; `can` is the word for its kind and what that can be for,
/// where the part is known.
pub(crate) fn role(
    fields: &Fields<'_>,
    can: Option<(&'static str, &'static [Does])>,
    log: &mut Log,
) -> Option<Choice<Does>> {
    let does = fields.word("does", ROLES, log)?;
    if let (Some((noun, can)), Some(place)) = (can, does.place)
        && !can.contains(&does.value)
    {
        let fault = ElectricFault::RoleWrong {
            does: word_of(ROLES, does.value),
            noun,
            can: can.iter().map(|can| word_of(ROLES, *can)).collect(),
        };
        log.add(fault, place);
    }
    Some(does)
}

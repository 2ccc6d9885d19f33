//! Drivers of unknown depth.

use super::super::{Evidence, Verdict};

/// Where no driver's depth is known, nothing can be said of what is behind it.
pub(super) fn unknown(evidence: &Evidence<'_>) -> Option<Verdict> {
    let groups = &evidence.design().drivers;
    let unknown = groups.iter().find(|group| group.part.depth.is_none())?;
    let cause = format!(
        "How deep {} is is not on the shelf; it is drawn half as deep as its hole is wide.",
        unknown.part.common.name.text
    );
    Some(
        Verdict::caution("Depth of a driver not known", cause)
            .advice("measure from the back of the frame to the back of the magnet and write it on the shelf as depth")
            .at(unknown.place),
    )
}

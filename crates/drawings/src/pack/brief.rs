//! The brief as a sentence.

use super::say::plain;
use crate::text::number;
use design::{Design, Size};
use studies::words;

/// "Plays music outdoors on the ground for people 3 m away …"
pub(crate) fn sentence(design: &Design) -> String {
    let brief = &design.brief;
    let mut said = format!(
        "Plays {}, {}, for people {} away",
        words::programme(brief.programme.value),
        words::stands(design.place.stands.value),
        plain(brief.distance.si, "m")
    );
    if let Some(wanted) = &brief.loudness {
        let unit = if wanted.a_weighted { "dB(A)" } else { "dB" };
        said += &format!(" at {}", plain(wanted.level.si, unit));
    }
    if let Some(lowest) = &brief.lowest {
        said += &format!(", down to {}", plain(lowest.si, "Hz"));
    }
    if let Some(runtime) = &brief.runtime {
        let hours = plain(runtime.si / 3600.0, "h");
        said += &format!(", for {hours} between charges");
    }
    let mut within: Vec<String> = brief.largest.iter().map(size).collect();
    within.extend(brief.weight.iter().map(|w| plain(w.si, "kg")));
    if !within.is_empty() {
        said += &format!(", in a box within {}", within.join(" and "));
    }
    if let Some(cost) = &brief.cost {
        said += &format!(", for {}", plain(cost.si, &brief.currency));
    }
    said + "."
}

fn size(size: &Size) -> String {
    let mm = |v: &design::Value| number(1000.0 * v.si, 0);
    format!(
        "{}\u{a0}×\u{a0}{}\u{a0}×\u{a0}{}\u{a0}mm",
        mm(&size.width),
        mm(&size.height),
        mm(&size.depth)
    )
}

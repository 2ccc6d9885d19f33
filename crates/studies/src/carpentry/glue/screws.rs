//! Screws of a wall that comes off again.

use super::super::plan::Hull;
use super::super::plan::fastenings::PILOT;
use super::super::plan::screws::{APART, CLEARANCE, CORNER, Row, THREAD, rows};
use super::{capital, named};
use crate::words;
use wood::{Body, Wall};

fn mm(length: f64) -> String {
    let text = format!("{:.1}", 1e3 * length);
    text.trim_end_matches(".0").to_owned()
}

/// What to drill and screw for a wall that comes off again.
pub(super) fn words_of_wall(body: &Body, hull: &Hull, last: Wall) -> String {
    let rows = rows(hull, &body.plan.boards, &body.plan.joints, last);
    let name = capital(words::wall(last));
    if rows.is_empty() {
        return format!(
            "{name}: it is to come off again, but no cleat lies behind it and it covers no edge: \
add cleats to screw it to"
        );
    }
    let total: usize = rows.iter().map(|row| row.count).sum();
    let mut said = vec![format!(
        "{name}: screw it on with {total} screws of {} mm, no more than {} mm apart and {} mm from \
the corners, clear of other holes, as its sheet shows; drill {} mm through it",
        mm(THREAD),
        mm(APART),
        mm(CORNER),
        mm(CLEARANCE)
    )];
    for (cleat, into) in [(true, "the cleats at"), (false, "the edges of")] {
        let own: Vec<&Row> = rows.iter().filter(|row| row.cleat == cleat).collect();
        let Some(depth) = own.iter().map(|row| row.depth).reduce(f64::min) else {
            continue;
        };
        let mut beside: Vec<Wall> = own.iter().map(|row| row.beside).collect();
        beside.dedup();
        said.push(format!(
            "with the wall clamped on dry, {} mm and {} mm deep through its holes into {into} {}",
            mm(PILOT * THREAD),
            mm(depth),
            named(&beside)
        ));
    }
    format!("{} (usual in the trade)", said.join(", "))
}

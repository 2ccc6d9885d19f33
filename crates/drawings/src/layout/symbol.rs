//! Signs of severity, told apart by shape before colour.

use crate::geometry::{Point, Rect};
use crate::role::Role;
use crate::sheet::{Drawing, Style};
use studies::check::Severity;

/// The colour of a severity.
pub(crate) const fn role_of(severity: Severity) -> Role {
    match severity {
        Severity::Good => Role::Good,
        Severity::Caution => Role::Caution,
        Severity::Stop => Role::Stop,
    }
}

/// A filled circle for good, a diamond for caution, a square for stop, about
/// `size` mm across.
pub fn symbol(out: &mut Drawing, severity: Severity, centre: Point, size: f64) {
    let style = Style::filled(role_of(severity));
    match severity {
        Severity::Good => out.circle(centre, size / 2.0, style),
        Severity::Caution => {
            let r = size * 0.62;
            let tips = [(0.0, -r), (r, 0.0), (0.0, r), (-r, 0.0)];
            out.polygon(&tips.map(|(dx, dy)| centre.moved(dx, dy)), style);
        }
        Severity::Stop => {
            let half = size * 0.47;
            let rect = Rect::new(centre.x, centre.y, 0.0, 0.0).inset(-half);
            out.rect(rect, style);
        }
    }
}

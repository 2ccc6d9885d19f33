//! Indicators from what lies in the drawer: every useful combination, the best first.
//!
//! The outer choices (comparator, reference, feeding resistor, capacitor) make a
//! *frame*. Each frame has a bound that none of its circuits can beat; frames
//! are taken in the order of their bounds, and the search ends at the first that
//! cannot beat what is kept. Within a frame the arms above the input are walked
//! with each feedback resistor that gives the wanted hysteresis, again under a
//! bound, and the arms below are looked up in a table sorted by conductance:
//! only those are judged whose threshold comes near enough to win. The answer is
//! that of trying everything, which a property test holds it to.

mod arms;
mod bound;
mod drawer;
mod frame;
mod light;
mod score;
#[cfg(test)]
mod tests;

pub use drawer::{Drawer, Lamp, Offer, Wish};
pub use score::Found;

use arms::Arms;
use frame::Frame;

/// The best circuits of a drawer for a wish, one for each pair of comparator and
/// reference, at most `keep` of them and none that scores more than twice the best or
/// is no indicator at all, best first.
#[must_use]
pub fn search(drawer: &Drawer, wish: &Wish, keep: usize) -> Vec<Found> {
    let Some(wish) = &wish.within_reach() else {
        return Vec::new();
    };
    let arms = Arms::of(&drawer.resistors);
    let frames = Frame::all(drawer, wish, &arms);
    let mut kept = Kept {
        keep,
        found: Vec::with_capacity(keep + 1),
    };
    for frame in &frames {
        if frame.bound >= kept.limit(frame) {
            if frame.bound >= kept.worst() {
                break;
            }
            continue;
        }
        frame.best(wish, &arms, &mut kept);
    }
    kept.found
}

/// What scores more than so many times the best is no alternative to it.
const ALTERNATIVE: f64 = 2.0;

/// What scores more is off by a fifth of the battery's voltage or drains it by itself: no
/// indicator at all. Without that end the search would rank every useless circuit where a long
/// delay leaves no useful one, because the capacitor's leak then outdoes the divider.
const HOPELESS: f64 = 20.0;

/// The best circuits so far.
struct Kept {
    keep: usize,
    found: Vec<Found>,
}

impl Kept {
    /// The score that a circuit of any pair must beat.
    fn worst(&self) -> f64 {
        match (self.found.first(), self.found.last()) {
            (Some(_), Some(last)) if self.found.len() >= self.keep => last.score,
            (Some(best), _) => HOPELESS.min(ALTERNATIVE * best.score),
            _ => HOPELESS,
        }
    }

    /// The score that a circuit of this frame must beat.
    fn limit(&self, frame: &Frame<'_>) -> f64 {
        let own = self.found.iter().find(|found| frame.is_of(found));
        own.map_or_else(|| self.worst(), |found| found.score)
    }

    fn take(&mut self, found: Found) {
        self.found.retain(|other| {
            (other.comparator, other.reference) != (found.comparator, found.reference)
        });
        let place = self
            .found
            .partition_point(|other| other.score <= found.score);
        self.found.insert(place, found);
        self.found.truncate(self.keep);
        let worst = ALTERNATIVE * self.found[0].score;
        self.found.retain(|other| other.score <= worst);
    }
}

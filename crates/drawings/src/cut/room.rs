//! Finding places for words.

use crate::geometry::{Point, Rect};

/// A rectangle of which parts are taken.
pub(crate) struct Room {
    within: Rect,
    taken: Vec<Rect>,
}

/// Steps in which places are tried, in mm.
const STEP: f64 = 1.0;

impl Room {
    pub(crate) fn new(within: Rect) -> Self {
        Self {
            within,
            taken: Vec::new(),
        }
    }

    pub(crate) fn take(&mut self, rect: Rect) {
        self.taken.push(rect);
    }

    pub(crate) fn is_free(&self, rect: &Rect) -> bool {
        self.within.contains(rect) && !self.taken.iter().any(|taken| taken.overlaps(rect))
    }

    /// Whether a line runs through what is taken, of which `counts` says what is in the way.
    pub(crate) fn crosses(&self, [from, to]: [Point; 2], counts: impl Fn(&Rect) -> bool) -> bool {
        let mut taken = self.taken.iter().filter(|t| counts(t));
        taken.any(|t| t.clip(from, to).is_some())
    }

    /// Free rectangles of that size within `reach` mm of a point, nearest first.
    pub(crate) fn places(&self, (w, h): (f64, f64), about: Point, reach: f64) -> Vec<Rect> {
        let steps = (reach / STEP) as i32;
        let shifts = (-steps..=steps).flat_map(|i| (-steps..=steps).map(move |j| (i, j)));
        let mut found: Vec<Rect> = shifts
            .map(|(i, j)| about.moved(f64::from(j) * STEP, f64::from(i) * STEP))
            .map(|p| Rect::new(p.x - w / 2.0, p.y - h / 2.0, w, h))
            .filter(|rect| self.is_free(rect))
            .collect();
        let far = |r: &Rect| r.centre().distance(about);
        found.sort_by(|a, b| far(a).total_cmp(&far(b)));
        found
    }

    /// The free rectangle of that size whose middle lies nearest to a point
    /// and within `reach` mm of it.
    pub(crate) fn nearest(&self, (w, h): (f64, f64), wish: Point, reach: f64) -> Option<Rect> {
        let around = |p: Point| Rect::new(p.x - w / 2.0, p.y - h / 2.0, w, h);
        // What was wished for may be outside by itself: begin at the edge.
        let low = Point::new(self.within.x + w / 2.0, self.within.y + h / 2.0);
        let high = Point::new(
            self.within.right() - w / 2.0,
            self.within.bottom() - h / 2.0,
        );
        if high.x < low.x || high.y < low.y {
            return None;
        }
        let start = Point::new(wish.x.clamp(low.x, high.x), wish.y.clamp(low.y, high.y));
        let mut best: Option<(f64, Rect)> = None;
        let steps = (reach / STEP) as i32;
        for i in -steps..=steps {
            for j in -steps..=steps {
                let p = start.moved(f64::from(j) * STEP, f64::from(i) * STEP);
                let far = p.distance(wish);
                if far > reach || best.is_some_and(|(least, _)| far >= least - 1e-9) {
                    continue;
                }
                let rect = around(p);
                if self.is_free(&rect) {
                    best = Some((far, rect));
                }
            }
        }
        best.map(|(_, rect)| rect)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_free_place_is_found() {
        let mut room = Room::new(Rect::new(0.0, 0.0, 100.0, 50.0));
        let wish = Point::new(50.0, 25.0);
        assert_eq!(room.nearest((10.0, 4.0), wish, 9.0).unwrap().centre(), wish);
        room.take(Rect::new(40.0, 20.0, 20.0, 10.0));
        let found = room.nearest((10.0, 4.0), wish, 20.0).unwrap();
        assert_eq!(found.centre(), Point::new(50.0, 18.0));
        assert_eq!(room.nearest((10.0, 4.0), wish, 5.0), None);
        assert_eq!(room.nearest((101.0, 4.0), wish, 500.0), None);
    }

    #[test]
    fn a_wish_beyond_the_edge_is_drawn_in() {
        let room = Room::new(Rect::new(0.0, 0.0, 100.0, 50.0));
        let found = room.nearest((10.0, 4.0), Point::new(50.0, 60.0), 20.0);
        assert_eq!(found.unwrap().bottom(), 50.0);
    }
}

//! Faces of boxes met so far: following the edge wave once is enough.

use crate::memo::Memo;
use crate::sound::Grid;
use physics::radiation::baffle::{BaffleModel, Face};
use std::sync::Arc;

/// From where a face is heard: degrees to the side.
type Heard = (Face, f64);

/// What is asked of a face: from where it is heard, the speed of sound in m/s, frequencies.
type Question = (Heard, f64, Grid);

/// What the edge wave does on each face, shared by a design and its variants,
/// most of which change nothing about the front.
#[derive(Clone, Debug, Default)]
pub(crate) struct Baffles {
    models: Memo<Heard, BaffleModel>,
    gains: Memo<Question, Vec<f64>>,
}

impl Baffles {
    /// Pressure over that of a point source at each frequency of a grid, so many degrees to
    /// the side.
    pub(crate) fn gains(
        &self,
        face: Face,
        degrees: f64,
        sound_speed: f64,
        grid: &Grid,
    ) -> Arc<Vec<f64>> {
        let question = ((face, degrees), sound_speed, grid.clone());
        self.gains.of(question, |(heard, speed, grid)| {
            let model = self.model(*heard);
            let gain = |hertz: &f64| model.gain(*hertz, *speed).norm();
            grid.hertz.iter().map(gain).collect()
        })
    }

    fn model(&self, heard: Heard) -> Arc<BaffleModel> {
        self.models.of(heard, |(face, degrees)| {
            BaffleModel::toward(face, degrees.to_radians(), 0.0)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_face_is_followed_once() {
        let face = |width| Face {
            width,
            height: 0.2,
            source_x: 0.0,
            source_y: 0.0,
            source_radius: 0.04,
        };
        let baffles = Baffles::default();
        let grid = Grid::coarse();
        let heard = |width, degrees| {
            baffles
                .clone()
                .gains(face(width), degrees, 343.0, &grid.clone())
        };
        let first = heard(0.3, 0.0);
        assert!(Arc::ptr_eq(&first, &heard(0.3, 0.0)));
        assert!(!Arc::ptr_eq(&first, &heard(0.4, 0.0)));
        assert!(!Arc::ptr_eq(&first, &heard(0.3, 30.0)));
        let model = BaffleModel::new(&face(0.3));
        let gains: Vec<f64> = grid
            .hertz
            .iter()
            .map(|f| model.gain(*f, 343.0).norm())
            .collect();
        assert_eq!(*first, gains);
    }
}

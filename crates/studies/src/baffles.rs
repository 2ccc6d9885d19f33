//! Faces of boxes met so far: following the edge wave once is enough.

use physics::radiation::baffle::{BaffleModel, Face};
use std::sync::{Arc, Mutex, PoisonError};

/// What the edge wave does on each face, shared by a design and its variants,
/// most of which change nothing about the front.
#[derive(Clone, Debug, Default)]
pub(crate) struct Baffles(Arc<Mutex<Vec<Met>>>);

/// A face and what the edge wave does on it.
type Met = (Face, Arc<BaffleModel>);

impl Baffles {
    /// The model of a face.
    pub(crate) fn of(&self, face: &Face) -> Arc<BaffleModel> {
        let known = self.known(|met| {
            let found = met.iter().find(|(other, _)| other == face);
            found.map(|(_, model)| Arc::clone(model))
        });
        known.unwrap_or_else(|| {
            let model = Arc::new(BaffleModel::new(face));
            self.known(|met| met.push((*face, Arc::clone(&model))));
            model
        })
    }

    fn known<T>(&self, ask: impl FnOnce(&mut Vec<Met>) -> T) -> T {
        // A list of finished models is sound whoever gave up while holding it.
        ask(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
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
        let first = baffles.clone().of(&face(0.3));
        assert!(Arc::ptr_eq(&first, &baffles.of(&face(0.3))));
        assert!(!Arc::ptr_eq(&first, &baffles.of(&face(0.4))));
        assert_eq!(*first, BaffleModel::new(&face(0.3)));
    }
}

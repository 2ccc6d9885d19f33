//! Faces of boxes met so far: following the edge wave once is enough.

use crate::memo::Memo;
use physics::radiation::baffle::{BaffleModel, Face};
use std::sync::Arc;

/// What the edge wave does on each face, shared by a design and its variants,
/// most of which change nothing about the front.
#[derive(Clone, Debug, Default)]
pub(crate) struct Baffles(Memo<Face, BaffleModel>);

impl Baffles {
    /// The model of a face.
    pub(crate) fn of(&self, face: &Face) -> Arc<BaffleModel> {
        self.0.of(*face, BaffleModel::new)
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

//! Boxes drawn lately: most changes of a design leave the look of its box alone, and drawing
//! what is hidden by what takes longest of a page.

use design::{FileId, Place};
use drawings::boxview::{Look, Picture};
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};
use studies::carpentry::{Balance, Carpentry, Origin, PlacedPart};
use wood::Wall;

/// A box, drawn.
#[derive(Debug)]
pub(super) struct Drawn {
    /// With what can be taken hold of.
    pub(super) picture: Picture,
    /// The elements of its drawing.
    pub(super) svg: String,
}

/// Pictures kept at most.
const MOST: usize = 24;

/// Pictures with what they were drawn from, the newest last.
#[derive(Debug, Default)]
pub(crate) struct Pictures(Mutex<VecDeque<(Look, Carpentry, Arc<Drawn>)>>);

impl Pictures {
    /// The picture of a box, drawn where it was not lately.
    pub(super) fn of(
        &self,
        carpentry: &Carpentry,
        look: Look,
        draw: impl FnOnce(&Carpentry) -> Drawn,
    ) -> Arc<Drawn> {
        let shape = shape(carpentry);
        let known = self.list(|list| {
            let mut newest = list.iter().rev();
            let found = newest.find(|(of, other, _)| *of == look && *other == shape);
            found.map(|(.., drawn)| Arc::clone(drawn))
        });
        known.unwrap_or_else(|| {
            let drawn = Arc::new(draw(&shape));
            self.list(|list| {
                if list.len() >= MOST {
                    list.pop_front();
                }
                list.push_back((look, shape, Arc::clone(&drawn)));
            });
            drawn
        })
    }

    fn list<T>(&self, ask: impl FnOnce(&mut VecDeque<(Look, Carpentry, Arc<Drawn>)>) -> T) -> T {
        ask(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

/// The box without what changes whenever a line of the file grows longer or a part of it
/// heavier, and without what is said of how it is made. Pictures are drawn from this alone.
fn shape(carpentry: &Carpentry) -> Carpentry {
    let nowhere = Place {
        file: FileId::Design,
        start: 0,
        end: 0,
    };
    let origins = |origins: &[Origin]| {
        let origins = origins.iter().cloned();
        origins
            .map(|origin| Origin {
                place: None,
                ..origin
            })
            .collect()
    };
    let parts = carpentry.parts.iter().cloned();
    Carpentry {
        cut_list: Vec::new(),
        sheets: Vec::new(),
        drilling: Vec::new(),
        ring: None,
        access: Vec::new(),
        gaps: Vec::new(),
        modes: Vec::new(),
        balance: Balance {
            weight: 0.0,
            centre: [0.0; 3],
            level_handle: None,
            hang: None,
            tipping: (0.0, Wall::Front),
        },
        parts: parts
            .map(|part| PlacedPart {
                place: nowhere,
                weight: 0.0,
                ..part
            })
            .collect(),
        holes: origins(&carpentry.holes),
        boards: origins(&carpentry.boards),
        ..carpentry.clone()
    }
}

//! How moving surfaces radiate, and what the box, the ground and the room make of it.

pub mod piston;

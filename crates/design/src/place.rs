//! Where in which text something stands.

/// One of the texts a project is read from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FileId {
    /// The design file.
    Design,
    /// The maker's own `shelf.toml`.
    Shelf,
    /// The built-in shelf.
    BuiltIn,
}

/// A stretch of one text, in bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// The text.
    pub file: FileId,
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

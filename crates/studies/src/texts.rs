//! The texts of a design and of the shelf beside it.

/// The texts of a design and of the maker's own shelf.
#[derive(Clone, Copy, Debug)]
pub struct Texts<'a> {
    /// The design file.
    pub design: &'a str,
    /// The maker's own `shelf.toml`, where there is one.
    pub shelf: Option<&'a str>,
}

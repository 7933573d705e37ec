//! The mould a piece is cast in.

use crate::models::cavity::Cavity;

/// A mould: the shape of one cavity and how many there are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mould {
    /// One cavity.
    pub cavity: Cavity,
    /// How many cavities the mould has.
    pub cavities: Option<u32>,
}

impl Mould {
    /// A mould of which one cavity is known.
    #[must_use]
    pub fn of(cavity: Cavity) -> Self {
        Self { cavity, cavities: None }
    }
}

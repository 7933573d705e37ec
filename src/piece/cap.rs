//! The cap that closes a piece.

use super::{StirredIn, Temper};
use crate::matter::{Emulsifier, Ingredient};
use crate::units::Thickness;
use smallvec::SmallVec;
use std::sync::Arc;

/// The cap of a piece. It is scraped flush with the rim, so what is poured fills the headroom.
#[derive(Debug, Clone, PartialEq)]
pub struct Cap {
    /// The thickness that is wanted.
    pub thickness: Option<Thickness>,
    /// How many coats it is poured in.
    pub coats: u32,
    /// The chocolate, if it is another than the shell's.
    pub chocolate: Option<Arc<Ingredient>>,
    /// Whether it was tempered, if otherwise than the shell.
    pub temper: Option<Temper>,
    /// What is stirred into it besides emulsifiers.
    pub stirred_in: Vec<StirredIn>,
    /// The emulsifiers added to those it already holds; as in the shell if it is the shell's chocolate and none is named.
    pub emulsifiers: SmallVec<[Emulsifier; 2]>,
}

impl Default for Cap {
    /// One coat of the shell's chocolate.
    fn default() -> Self {
        Self { thickness: None, coats: 1, chocolate: None, temper: None, stirred_in: Vec::new(), emulsifiers: SmallVec::new() }
    }
}

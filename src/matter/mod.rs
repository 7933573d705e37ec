//! What things are made of: constituents, compositions, ingredients and what a kitchen mixes from them.

mod allergen;
mod composition;
mod consistency;
mod constituent;
mod crystals;
mod emulsifier;

pub use allergen::{Allergen, AllergenSet, Market};
pub use composition::{Composition, CompositionError};
pub use consistency::Consistency;
pub use constituent::{Constituent, Role};
pub use crystals::Crystals;
pub use emulsifier::{Emulsifier, EmulsifierForm, EmulsifierKind, EmulsifierSource};

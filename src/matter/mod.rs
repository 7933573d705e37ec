//! What things are made of: constituents, compositions, ingredients and what a kitchen mixes from them.

mod allergen;
mod chocolate;
mod composition;
mod consistency;
mod constituent;
mod crystals;
mod emulsifier;
mod figures;
mod ingredient;
#[cfg(feature = "documents")]
mod larder;
#[cfg(feature = "documents")]
pub(crate) mod pantry;
mod proportions;
mod recipe;
#[cfg(feature = "documents")]
pub(crate) mod sheet;

pub use allergen::{Allergen, AllergenSet, Exemption, Market};
pub use chocolate::{Chocolate, ChocolateKind, cocoa, fat_free_milk};
pub use composition::{Composition, CompositionError};
pub use consistency::Consistency;
pub use constituent::{Constituent, ConstituentSet, Role};
pub use crystals::Crystals;
pub use emulsifier::{Emulsifier, EmulsifierForm, EmulsifierKind, EmulsifierSource};
pub use figures::{LabelFigures, SugarOrigin};
pub use ingredient::{AdditiveClass, Component, Ingredient, Known, Lot};
#[cfg(feature = "documents")]
pub use larder::{Larder, NotChocolate, UnknownName};
pub use recipe::{Recipe, RecipeError, RecipeLine};

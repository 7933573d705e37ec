//! The law of sweets as data: rows of limits, each with the section it is written in and how that is known. Arithmetic on published
//! limits, no advice: local authorities and a qualified person decide.

mod additive;
pub mod allergen;
mod book;
mod citation;
pub mod labelling;
mod name;
pub mod nutrition;
mod row;
#[cfg(feature = "documents")]
pub(crate) mod sheet;

pub use additive::{Additive, AdditiveAmounts, AdditiveSet};
pub use book::{Book, RowId};
pub use citation::Citation;
pub use name::{NameSet, SalesName};
pub use row::{Category, Effect, Region, Row, Side, Term, Topic};

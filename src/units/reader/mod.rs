//! The door's machinery: turns TOML or JSON into one tree, and reads typed values off it key by key.
//!
//! Nothing stops at the first fault: a value that cannot be read is noted with its place and line, and reading goes on. Each table knows
//! the keys it was asked for, so that whatever else stands in it is a fault too.

mod fault;
mod field;
mod json;
mod node;
mod place;
mod table;
mod toml;

pub(crate) use fault::Faults;
pub use fault::{DocumentError, Fault, FaultKind};
pub(crate) use field::{Field, Items};
pub(crate) use table::TableReader;

use node::Node;
use place::Place;

/// The longest document that is read, in bytes.
pub(crate) const LONGEST: usize = 1 << 20;

/// A document as a tree, not yet looked at.
pub(crate) struct Tree(Node);

impl Tree {
    /// Reads TOML, or JSON if the first character is a brace.
    ///
    /// # Errors
    /// One fault, when the text is too long or its syntax is broken.
    pub(crate) fn parse(text: &str) -> Result<Self, DocumentError> {
        let text = text.trim_start_matches('\u{feff}');
        if text.len() > LONGEST {
            return Err(Fault::of_document(None, FaultKind::TooLong { size: text.len(), limit: LONGEST }).into());
        }
        let read = if text.trim_start().starts_with('{') { json::read(text) } else { toml::read(text) };
        Ok(Self(read?))
    }

    /// The whole document.
    pub(crate) fn whole<'t>(&'t self, faults: &'t Faults) -> Field<'t> {
        Field::new(Some(&self.0), Place::DOCUMENT, faults)
    }
}

#[cfg(test)]
mod tests;

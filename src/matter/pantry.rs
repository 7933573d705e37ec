//! The larder of a document: the one it starts from and the sheets it adds.

use super::{Ingredient, Larder, sheet};
use crate::units::reader::{FaultKind, Field, TableReader};
use std::collections::HashSet;
use std::sync::Arc;

/// A larder, and the names of the sheets that could not be read: whoever asks for those is not to blame.
pub(crate) struct Pantry {
    larder: Larder,
    named: HashSet<String>,
    broken: HashSet<String>,
}

impl Pantry {
    pub(crate) fn new(larder: Larder) -> Self {
        Self { larder, named: HashSet::new(), broken: HashSet::new() }
    }

    pub(crate) fn into_larder(self) -> Larder {
        self.larder
    }

    /// Adds what a document describes under `[chocolate]` and `[ingredient]`.
    pub(crate) fn read(&mut self, chocolates: &Field<'_>, ingredients: &Field<'_>) {
        chocolates.named_tables("chocolate", |name, table| self.add(name, table, sheet::chocolate(name, table)));
        ingredients.named_tables("ingredient", |name, table| self.add(name, table, sheet::ingredient(name, table)));
    }

    fn add(&mut self, name: &str, table: &TableReader<'_>, ingredient: Option<Ingredient>) {
        if !self.named.insert(name.to_owned()) {
            table.fault(|| FaultKind::RepeatedName { name: name.to_owned() });
        }
        match ingredient {
            Some(ingredient) => self.larder = std::mem::take(&mut self.larder).with(ingredient),
            None => drop(self.broken.insert(name.to_owned())),
        }
    }

    /// The ingredient a text names.
    pub(crate) fn ingredient(&self, field: Field<'_>) -> Option<Arc<Ingredient>> {
        self.find(field.text()?, field)
    }

    /// The ingredient of a name that stands at a place.
    pub(crate) fn find(&self, name: &str, place: Field<'_>) -> Option<Arc<Ingredient>> {
        let found = self.larder.find(name);
        if found.is_none() && !self.broken.contains(name) {
            place.refuse(|| self.larder.unknown(name));
        }
        found.cloned()
    }

    /// The chocolate a text names.
    pub(crate) fn chocolate(&self, field: Field<'_>) -> Option<Arc<Ingredient>> {
        let name = field.text()?;
        let found = self.larder.find(name).filter(|ingredient| ingredient.chocolate.is_some());
        if found.is_none() && !self.broken.contains(name) {
            field.refuse(|| self.larder.not_chocolate(name));
        }
        found.cloned()
    }
}

//! Something a kitchen weighs out: its composition and what a label must say of it.

use super::{AllergenSet, Chocolate, Composition, Constituent};
use crate::units::choices;

choices! {
    /// How values are known. Never upgraded from one to another.
    Known: "a standing of evidence" {
        /// Read at the source named.
        Seen "seen",
        /// Computed from a source named.
        Computed "computed",
        /// Partly read, partly recalled.
        Mixed "mixed",
        /// Recalled, unverified.
        Memory "memory",
        /// Stated by the user.
        Declared "declared",
    }
}

impl Known {
    /// What a reader must be told of it, after the name of a source; nothing where it was read or computed.
    #[must_use]
    pub const fn remark(self) -> &'static str {
        match self {
            Self::Memory => " (recalled, unverified)",
            Self::Mixed => " (partly recalled)",
            Self::Seen | Self::Computed | Self::Declared => "",
        }
    }
}

/// An ingredient.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// The name documents use: `cream-36`.
    pub name: String,
    /// The name in sentences.
    pub title: String,
    /// The name in an ingredient list.
    pub label: String,
    /// What it is made of.
    pub composition: Composition,
    /// The allergens it brings, those of its emulsifiers included.
    pub allergens: AllergenSet,
    /// The number of the additive it is, if it is one: `E 420`.
    pub additive: Option<String>,
    /// What more is known of it if it is a chocolate.
    pub chocolate: Option<Chocolate>,
    /// Where the composition comes from.
    pub record: String,
    /// How it is known.
    pub known: Known,
    /// What to mind about the values.
    pub note: Option<String>,
}

impl Ingredient {
    /// An ingredient a user describes.
    #[must_use]
    pub fn declared(name: impl Into<String>, composition: Composition) -> Self {
        let name = name.into();
        Self {
            title: name.replace('-', " "),
            label: name.replace('-', " "),
            name,
            composition,
            allergens: AllergenSet::EMPTY,
            additive: None,
            chocolate: None,
            record: "declared in the document".into(),
            known: Known::Declared,
            note: None,
        }
    }

    /// A pure substance under its own name.
    #[must_use]
    pub fn pure(constituent: Constituent) -> Self {
        Self {
            title: constituent.words().into(),
            label: constituent.words().into(),
            ..Self::declared(constituent.key(), Composition::pure(constituent))
        }
    }

    /// The same with allergens added.
    #[must_use]
    pub fn with_allergens(mut self, allergens: AllergenSet) -> Self {
        self.allergens = self.allergens.union(allergens);
        self
    }

    /// The same as a chocolate; the allergens of its declared emulsifiers are added.
    #[must_use]
    pub fn as_chocolate(mut self, chocolate: Chocolate) -> Self {
        let emulsifiers = chocolate.emulsifiers.iter().filter_map(|emulsifier| emulsifier.source);
        self.allergens = emulsifiers.fold(self.allergens, |all, source| all.union(source.allergens()));
        self.chocolate = Some(chocolate);
        self
    }

    /// Whether it is a gum and little else: what thickens a filling by the gram.
    #[must_use]
    pub fn is_gum(&self) -> bool {
        self.composition.of_role(super::Role::Gum) > 0.5
    }

    /// Whether its composition is known well enough to compute with: at most 2 % of it unidentified.
    #[must_use]
    pub fn is_identified(&self) -> bool {
        self.composition.of(Constituent::Unidentified) <= Self::UNIDENTIFIED_AT_MOST
    }

    /// How much of an ingredient may be of unknown nature before what depends on its composition is unknown.
    pub const UNIDENTIFIED_AT_MOST: f64 = 0.02;
}

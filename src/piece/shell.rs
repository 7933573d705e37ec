//! The shell, and what is stirred into its chocolate.

use crate::matter::{Emulsifier, Ingredient};
use crate::units::{Duration, MassFraction, Temperature, Thickness, choices};
use smallvec::SmallVec;
use std::sync::Arc;

choices! {
    /// Whether a chocolate was tempered.
    Temper: "a state of temper" {
        /// Holds stable crystals.
        Tempered "tempered",
        /// Merely melted.
        Untempered "untempered",
    }
    /// What chocolate is seeded with.
    SeedKind: "a seed" {
        /// Pre-crystallised cocoa butter.
        CocoaButter "cocoa-butter",
        /// Tempered chocolate, unmelted.
        TemperedChocolate "tempered-chocolate",
    }
}

/// A seed for tempering.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seed {
    /// Of what.
    pub kind: SeedKind,
    /// Of the chocolate's weight.
    pub dose: MassFraction,
    /// The chocolate's temperature when it is added.
    pub at: Option<Temperature>,
}

/// Something stirred into chocolate: a flavour, a colour, cocoa butter.
#[derive(Debug, Clone, PartialEq)]
pub struct StirredIn {
    /// What.
    pub ingredient: Arc<Ingredient>,
    /// Of the chocolate's weight.
    pub dose: MassFraction,
}

/// The shell of a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Shell {
    /// The chocolate it is cast from: an ingredient with a chocolate's sheet.
    pub chocolate: Arc<Ingredient>,
    /// How thick its wall is, or is to be.
    pub thickness: Option<Thickness>,
    /// How long the mould is turned over to drain, at each cast.
    pub drained: Option<Duration>,
    /// How often the cavity is cast.
    pub casts: u32,
    /// Whether the chocolate was tempered.
    pub temper: Option<Temper>,
    /// What it was seeded with.
    pub seed: Option<Seed>,
    /// What is stirred into it besides emulsifiers.
    pub stirred_in: Vec<StirredIn>,
    /// The emulsifiers added to those it already holds.
    pub emulsifiers: SmallVec<[Emulsifier; 2]>,
}

impl Shell {
    /// A shell cast once from a chocolate, nothing added.
    #[must_use]
    pub fn of(chocolate: Arc<Ingredient>) -> Self {
        Self {
            chocolate,
            thickness: None,
            drained: None,
            casts: 1,
            temper: None,
            seed: None,
            stirred_in: Vec::new(),
            emulsifiers: SmallVec::new(),
        }
    }

    /// With a wall this thick.
    #[must_use]
    pub fn with_thickness(self, thickness: Thickness) -> Self {
        Self { thickness: Some(thickness), ..self }
    }

    /// Drained this long at each cast.
    #[must_use]
    pub fn with_drained(self, time: Duration) -> Self {
        Self { drained: Some(time), ..self }
    }

    /// Cast from chocolate in this state.
    #[must_use]
    pub fn with_temper(self, temper: Temper) -> Self {
        Self { temper: Some(temper), ..self }
    }

    /// With an emulsifier added.
    #[must_use]
    pub fn with_emulsifier(mut self, emulsifier: Emulsifier) -> Self {
        self.emulsifiers.push(emulsifier);
        self
    }

    /// With something else stirred in.
    #[must_use]
    pub fn with_stirred_in(mut self, stirred_in: StirredIn) -> Self {
        self.stirred_in.push(stirred_in);
        self
    }
}

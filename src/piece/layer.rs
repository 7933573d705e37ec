//! A layer of filling.

use super::cooking::{self, CookingError};
use crate::matter::{Consistency, Crystals, Recipe};
use crate::units::{BulkDensity, Ph, Portion, Space, Temperature, Thickness, WaterActivity, YieldValue, choices};

choices! {
    /// The kind of a filling.
    FillingKind: "a kind of filling" {
        /// Chocolate emulsified with a watery liquid.
        Ganache "ganache",
        /// Fruit paste set with pectin.
        FruitGel "fruit-gel",
        /// Jam.
        Jam "jam",
        /// Caramel.
        Caramel "caramel",
        /// Nut paste, praline, gianduja.
        NutPaste "nut-paste",
        /// Marshmallow.
        Marshmallow "marshmallow",
        /// Fondant.
        Fondant "fondant",
        /// A spirit, thickened or not.
        Spirit "spirit",
        /// A liqueur in its sugar crust.
        Liqueur "liqueur",
        /// A crisp piece: wafer, biscuit, brittle.
        Crisp "crisp",
    }
    /// A film between a layer and what lies on it.
    Barrier: "a barrier" {
        /// A film of cocoa butter.
        CocoaButter "cocoa-butter",
        /// A film of chocolate.
        Chocolate "chocolate",
    }
}

/// How much of a layer is poured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// Up to this depth below the rim.
    FillTo(Thickness),
    /// This mass.
    Mass(Portion),
    /// This volume.
    Volume(Space),
}

/// A measured value, with its standard uncertainty where it was stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reported<T> {
    /// The value.
    pub value: T,
    /// Its standard uncertainty, in the base unit.
    pub uncertainty: Option<f64>,
}

impl<T> Reported<T> {
    /// A value without a stated uncertainty.
    pub const fn bare(value: T) -> Self {
        Self { value, uncertainty: None }
    }
}

/// What was measured on a filling. A measured value takes the place of the modelled one.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Measured {
    /// Water activity.
    pub water_activity: Option<Reported<WaterActivity>>,
    /// Yield value at pouring temperature.
    pub yield_value: Option<Reported<YieldValue>>,
    /// pH.
    pub ph: Option<Reported<Ph>>,
    /// Density.
    pub density: Option<Reported<BulkDensity>>,
}

/// A layer of filling.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Layer {
    /// What it is called.
    pub name: String,
    /// Its kind, if declared.
    pub kind: Option<FillingKind>,
    /// How much is poured.
    pub amount: Option<Amount>,
    /// The temperature it is poured at.
    pub temperature: Option<Temperature>,
    /// What it is made of.
    pub recipe: Option<Recipe>,
    /// The temperature its recipe was boiled to, all but the spirit, if a thermometer and no scale told when to stop: see [`Self::cooked_at`].
    pub cooked_at: Option<Temperature>,
    /// The state of its sugar, if known.
    pub crystals: Option<Crystals>,
    /// Whether its gum was wetted and swollen in water before any spirit went in.
    pub hydrated_first: Option<bool>,
    /// A film on top of it.
    pub barrier: Option<Barrier>,
    /// Its density, if it is aerated.
    pub aerated_density: Option<BulkDensity>,
    /// How thick it stands, when nothing was measured.
    pub consistency: Option<Consistency>,
    /// What was measured on it.
    pub measured: Measured,
    /// The recipe of the batch whose water activity was measured, where it is another than this: the measurement then carries over as far as
    /// the two are alike.
    pub measured_recipe: Option<Recipe>,
    /// Whether it is heat-treated in its final pack.
    pub heat_treated_in_pack: bool,
}

impl Layer {
    /// A layer of which only the name is known.
    #[must_use]
    pub fn named(name: impl Into<String>) -> Self {
        Self { name: name.into(), ..Self::default() }
    }

    /// Made to a recipe.
    #[must_use]
    pub fn with_recipe(self, recipe: Recipe) -> Self {
        Self { recipe: Some(recipe), ..self }
    }

    /// Boiled, all but the spirit, until a thermometer shows this, where the same thermometer shows boiling water at `water_boils_at`
    /// (100 °C if nothing is said): its recipe then weighs what it does when it boils there.
    ///
    /// # Errors
    /// [`CookingError`] when it cannot be told what is left, or the recipe boils hotter from the start.
    pub fn cooked_at(self, at: Temperature, water_boils_at: Option<Temperature>) -> Result<Self, CookingError> {
        let recipe = self.recipe.as_ref().map(|recipe| cooking::cooked(recipe, at, water_boils_at)).transpose()?;
        Ok(Self { recipe, cooked_at: Some(at), ..self })
    }

    /// Poured in this amount.
    #[must_use]
    pub fn with_amount(self, amount: Amount) -> Self {
        Self { amount: Some(amount), ..self }
    }

    /// Of this kind.
    #[must_use]
    pub fn with_kind(self, kind: FillingKind) -> Self {
        Self { kind: Some(kind), ..self }
    }

    /// With what was measured on it.
    #[must_use]
    pub fn with_measured(self, measured: Measured) -> Self {
        Self { measured, ..self }
    }
}

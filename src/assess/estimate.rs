//! A number with its uncertainty and how it is known.

use super::{Quantity, QuantitySet};
use crate::units::{Band, Measure, choices};

choices! {
    /// How a number came about.
    Evidence: "a kind of evidence" {
        /// Measured on the thing itself.
        Measured "measured",
        /// Stated in the document, or following from what is stated by arithmetic.
        Declared "declared",
        /// Computed by a model.
        Modelled "modelled",
        /// Computed by a model that a measured batch of a like recipe corrects.
        Corrected "corrected",
        /// Assumed from the kind of thing it is.
        Assumed "assumed",
    }
}

/// A number in the base unit of its dimension, with the band it lies in (95 %).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The number and its band.
    pub band: Band<f64>,
    /// How it came about.
    pub evidence: Evidence,
    /// Whether the model that made it was inside its range; true where no model was needed.
    pub in_range: bool,
}

impl Estimate {
    /// A number that is stated.
    #[must_use]
    pub const fn declared(value: f64) -> Self {
        Self { band: Band::exact(value), evidence: Evidence::Declared, in_range: true }
    }

    /// A number with a band from a model inside its range.
    #[must_use]
    pub const fn modelled(band: Band<f64>) -> Self {
        Self { band, evidence: Evidence::Modelled, in_range: true }
    }

    /// A number with a band that is assumed.
    #[must_use]
    pub const fn assumed(band: Band<f64>) -> Self {
        Self { band, evidence: Evidence::Assumed, in_range: true }
    }

    /// A number that was measured, with its standard uncertainty.
    #[must_use]
    pub const fn measured(value: f64, standard_uncertainty: f64) -> Self {
        Self { band: Band::normal(value, standard_uncertainty), evidence: Evidence::Measured, in_range: true }
    }

    /// The best value.
    #[must_use]
    pub const fn value(&self) -> f64 {
        self.band.value
    }

    /// Half the width of the band.
    #[must_use]
    pub fn half_width(&self) -> f64 {
        (self.band.high - self.band.low) / 2.0
    }

    /// The best value in the unit of its quantity.
    #[must_use]
    pub fn measure(&self, quantity: Quantity) -> Measure {
        Measure::from_base(self.band.value, quantity.unit())
    }
}

/// What is known of a quantity on a part.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Assessed {
    /// The part has no such quantity.
    #[default]
    Absent,
    /// It cannot be told because these were not given.
    Missing(QuantitySet),
    /// It is known.
    Known(Estimate),
}

impl Assessed {
    /// Stated.
    #[must_use]
    pub const fn declared(value: f64) -> Self {
        Self::Known(Estimate::declared(value))
    }

    /// Stated, or lacking itself.
    #[must_use]
    pub fn declared_or(value: Option<f64>, lacking: Quantity) -> Self {
        value.map_or(Self::lacking(lacking), Self::declared)
    }

    /// It lacks for want of one.
    #[must_use]
    pub const fn lacking(quantity: Quantity) -> Self {
        Self::Missing(QuantitySet::of(quantity))
    }

    /// The estimate, if known.
    #[must_use]
    pub const fn known(self) -> Option<Estimate> {
        match self {
            Self::Known(estimate) => Some(estimate),
            _ => None,
        }
    }

    /// The best value, if known.
    #[must_use]
    pub fn value(self) -> Option<f64> {
        self.known().map(|estimate| estimate.band.value)
    }

    /// What lacks.
    #[must_use]
    pub const fn missing(self) -> QuantitySet {
        match self {
            Self::Missing(set) => set,
            _ => QuantitySet::of_none(),
        }
    }

    /// What follows from one quantity.
    #[must_use]
    pub fn then(self, follow: impl FnOnce(Estimate) -> Self) -> Self {
        match self {
            Self::Known(estimate) => follow(estimate),
            other => other,
        }
    }

    /// What follows from two; what lacks for either lacks.
    #[must_use]
    pub fn with(self, other: Self, follow: impl FnOnce(Estimate, Estimate) -> Self) -> Self {
        match (self, other) {
            (Self::Known(one), Self::Known(two)) => follow(one, two),
            (Self::Absent, _) | (_, Self::Absent) => Self::Absent,
            _ => Self::Missing(self.missing().union(other.missing())),
        }
    }
}

impl QuantitySet {
    pub(super) const fn of_none() -> Self {
        Self(0)
    }
}

//! Mass over volume: of spirits, syrups, chocolate and whole fillings.

pub mod chocolate;
pub mod ethanol_water;
pub mod filling;
pub mod glycerol_water;
pub mod sucrose_solution;

use crate::units::quantity::{Density, kilogram_per_cubic_meter};
use crate::units::{Checked, Measure, Unit};
use std::ops::RangeInclusive;

/// A question put outside the range in which a density is known.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{density} is known from {min} to {max}, found `{found}`")]
pub struct OutOfRange {
    /// Which density.
    pub density: &'static str,
    /// Where the range begins.
    pub min: Measure,
    /// Where it ends.
    pub max: Measure,
    /// What was asked for.
    pub found: Measure,
}

/// The number in the base unit if it is inside the range of the model.
fn within<T: Checked>(range: &RangeInclusive<f64>, value: T, unit: Unit, density: &'static str) -> Result<f64, OutOfRange> {
    let measure = |base| Measure::from_base(base, unit);
    if range.contains(&value.base()) {
        Ok(value.base())
    } else {
        Err(OutOfRange { density, min: measure(*range.start()), max: measure(*range.end()), found: measure(value.base()) })
    }
}

fn kilograms_per_cubic_meter(value: f64) -> Density {
    Density::new::<kilogram_per_cubic_meter>(value)
}

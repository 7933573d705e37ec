//! Mass over volume: of spirits, syrups, chocolate and whole fillings.

pub mod chocolate;
pub mod ethanol_water;
pub mod filling;
pub mod glycerol_water;
pub mod sucrose_solution;

use crate::units::quantity::{Density, kilogram_per_cubic_meter};

fn kilograms_per_cubic_meter(value: f64) -> Density {
    Density::new::<kilogram_per_cubic_meter>(value)
}

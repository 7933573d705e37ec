//! What can grow in a filling, what food codes make of it, and how long fillings keep by class: limits and ranges, never a date.

mod ethanol_hurdle;
mod food_code;
mod mould_free;
mod organism;
mod shelf_life;
mod sorbate;

pub use ethanol_hurdle::{delle_units, mould_beside_ethanol};
pub use food_code::{TimeTemperatureControl, Treatment, time_temperature_control};
pub use mould_free::{MouldFree, Reach, mould_free};
pub use organism::{Harm, NOTHING_GROWS_BELOW, ORGANISMS, Organism, can_grow};
pub use shelf_life::{CLASSES, ShelfLifeClass, shelf_life_class};
pub use sorbate::{sorbic_acid_of, undissociated_sorbic_acid};

//! Water activity: how firmly a filling holds its water.
//!
//! [`water_activity`] solves one additive balance. What each part of a filling holds at a given activity is told by [`Solute`]
//! (dissolved), [`Sorbent`] (insoluble) and [`minor_osmoles`] (salts that come with milk and cocoa); what stays out of
//! solution by [`supersaturation`]. [`at_rest`] solves the same balance for layers that share their water,
//! [`exchange_time`] bounds how long they take. The same balance tells how a mix boils ([`boiling_point`], [`boiled_to`]) and freezes
//! ([`freezing_point`], [`ice`]). [`MeasuredBatch`] carries what a
//! meter said of one batch over to changed recipes.

mod balance;
mod boiling;
mod contact;
mod dissolution;
pub mod exchange_time;
mod freezing;
mod inversion;
mod isotherms;
mod measured_batch;
mod minor;
mod mixture;
mod solubility;
mod solute;
mod sorbent;
mod spirit_solubility;
mod table;
mod uncertainty;

pub(crate) use balance::{Balanced, water_activity_alone};
pub use balance::{Holding, WaterBalance, WaterBalanceError, water_activity, water_activity_by};
pub use boiling::{Boiled, Boiling, BoilingError, boiled_to, boiling_point};
pub use contact::{AtRest, Fate, Isotherm, IsothermError, Layer, LayerAtRest, Material, at_rest};
pub(crate) use dissolution::Saturations;
pub use dissolution::{SugarCrystal, Supersaturation, supersaturation};
pub use freezing::{Ice, freezing_point, ice, ice_activity};
pub use inversion::{inversion_to_dissolve, invertase_left, inverted};
pub use isotherms::Isotherms;
pub use measured_batch::{MeasuredBatch, MeasuredBatchError, Offset, Prediction};
pub use minor::minor_osmoles;
pub use solubility::{glucose_solubility, lactose_solubility, sucrose_solubility};
pub use solute::Solute;
pub use sorbent::Sorbent;
pub use spirit_solubility::sucrose_beside_spirit;

/// Molar mass of water, g/mol.
const WATER: f64 = 18.0153;

#[cfg(all(test, feature = "documents"))]
#[allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "tests assert on known values")]
mod calibration;
#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, clippy::indexing_slicing, reason = "tests assert on known values")]
mod tests;

//! Allergens.

// <registry> kept in step by tests/registry.rs
mod allergens_to_declare;
mod promise_broken;

pub use allergens_to_declare::AllergensToDeclare;
pub use promise_broken::PromiseBroken;
// </registry>

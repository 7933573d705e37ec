//! Keeping and safety.

// <registry> kept in step by tests/registry.rs
mod filling_not_shelf_stable;
mod yeast_could_ferment;

pub use filling_not_shelf_stable::FillingNotShelfStable;
pub use yeast_could_ferment::YeastCouldFerment;
// </registry>

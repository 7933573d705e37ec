//! The batch.

// <registry> kept in step by tests/registry.rs
mod melt_pool_too_small;
mod piece_mass_unusual;

pub use melt_pool_too_small::MeltPoolTooSmall;
pub use piece_mass_unusual::PieceMassUnusual;
// </registry>

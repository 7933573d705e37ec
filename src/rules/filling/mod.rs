//! The filling itself.

// <registry> kept in step by tests/registry.rs
mod ganache_fat_water_unbalanced;
mod ganache_too_wet;

pub use ganache_fat_water_unbalanced::GanacheFatWaterUnbalanced;
pub use ganache_too_wet::GanacheTooWet;
// </registry>

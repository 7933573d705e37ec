//! What neighbours do to each other.

// <registry> kept in step by tests/registry.rs
mod ethanol_attacks_shell;
mod milk_fat_softens_shell;
mod nut_oil_would_migrate;

pub use ethanol_attacks_shell::EthanolAttacksShell;
pub use milk_fat_softens_shell::MilkFatSoftensShell;
pub use nut_oil_would_migrate::NutOilWouldMigrate;
// </registry>

//! What neighbours do to each other.

// <registry> kept in step by tests/registry.rs
mod crisp_would_soften;
mod ethanol_attacks_shell;
mod layers_trade_water;
mod milk_fat_softens_shell;
mod nut_oil_would_migrate;
mod shell_would_crack;

pub use crisp_would_soften::CrispWouldSoften;
pub use ethanol_attacks_shell::EthanolAttacksShell;
pub use layers_trade_water::LayersTradeWater;
pub use milk_fat_softens_shell::MilkFatSoftensShell;
pub use nut_oil_would_migrate::NutOilWouldMigrate;
pub use shell_would_crack::ShellWouldCrack;
// </registry>

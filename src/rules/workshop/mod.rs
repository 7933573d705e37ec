//! Work and temperatures.

// <registry> kept in step by tests/registry.rs
mod condensation_on_pieces;
mod ganache_stirred_in_danger_zone;
mod ice_would_crack_shell;
mod released_too_soon;
mod seed_dose_off;
mod temper_temperature_off;
mod untempered_chocolate;

pub use condensation_on_pieces::CondensationOnPieces;
pub use ganache_stirred_in_danger_zone::GanacheStirredInDangerZone;
pub use ice_would_crack_shell::IceWouldCrackShell;
pub use released_too_soon::ReleasedTooSoon;
pub use seed_dose_off::SeedDoseOff;
pub use temper_temperature_off::TemperTemperatureOff;
pub use untempered_chocolate::UntemperedChocolate;
// </registry>

//! Closing the piece.

// <registry> kept in step by tests/registry.rs
mod cap_poured_too_soon;
mod cap_too_thin;
mod caramel_would_creep;
mod cavity_overfilled;
mod cold_filling_cracks_cap;
mod filling_lighter_than_chocolate;
mod filling_melts_shell;
mod filling_too_thin_to_cap;
mod headroom_outside_window;

pub use cap_poured_too_soon::CapPouredTooSoon;
pub use cap_too_thin::CapTooThin;
pub use caramel_would_creep::CaramelWouldCreep;
pub use cavity_overfilled::CavityOverfilled;
pub use cold_filling_cracks_cap::ColdFillingCracksCap;
pub use filling_lighter_than_chocolate::FillingLighterThanChocolate;
pub use filling_melts_shell::FillingMeltsShell;
pub use filling_too_thin_to_cap::FillingTooThinToCap;
pub use headroom_outside_window::HeadroomOutsideWindow;
// </registry>

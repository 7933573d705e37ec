//! Closing the piece.

// <registry> kept in step by tests/registry.rs
mod cap_too_thin;
mod cavity_overfilled;
mod filling_lighter_than_chocolate;
mod filling_too_thin_to_cap;
mod headroom_outside_window;

pub use cap_too_thin::CapTooThin;
pub use cavity_overfilled::CavityOverfilled;
pub use filling_lighter_than_chocolate::FillingLighterThanChocolate;
pub use filling_too_thin_to_cap::FillingTooThinToCap;
pub use headroom_outside_window::HeadroomOutsideWindow;
// </registry>

//! Law.

// <registry> kept in step by tests/registry.rs
mod needs_time_temperature_control;

pub use needs_time_temperature_control::NeedsTimeTemperatureControl;
// </registry>

//! Casting the shell.

// <registry> kept in step by tests/registry.rs
mod liquid_in_single_cast;
mod mould_temperature_off;
mod shell_drains_thin;
mod shell_thickness_outside_range;

pub use liquid_in_single_cast::LiquidInSingleCast;
pub use mould_temperature_off::MouldTemperatureOff;
pub use shell_drains_thin::ShellDrainsThin;
pub use shell_thickness_outside_range::ShellThicknessOutsideRange;
// </registry>

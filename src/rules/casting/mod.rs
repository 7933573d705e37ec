//! Casting the shell.

// <registry> kept in step by tests/registry.rs
mod liquid_in_single_cast;
mod shell_thickness_outside_range;

pub use liquid_in_single_cast::LiquidInSingleCast;
pub use shell_thickness_outside_range::ShellThicknessOutsideRange;
// </registry>

//! Work and temperatures.

// <registry> kept in step by tests/registry.rs
mod untempered_chocolate;

pub use untempered_chocolate::UntemperedChocolate;
// </registry>

//! What neighbours do to each other.

// <registry> kept in step by tests/registry.rs
mod ethanol_attacks_shell;

pub use ethanol_attacks_shell::EthanolAttacksShell;
// </registry>

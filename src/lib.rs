//! Formulation rules for filled chocolates.

pub mod matter;
pub mod models;
pub mod piece;
pub mod units;

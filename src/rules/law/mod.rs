//! Law.

// <registry> kept in step by tests/registry.rs
mod additive_over_limit;
mod alcohol_over_limit;
mod chocolate_name_not_met;
mod filled_piece_name_not_met;
mod needs_time_temperature_control;
mod polyol_warning_due;

pub use additive_over_limit::AdditiveOverLimit;
pub use alcohol_over_limit::AlcoholOverLimit;
pub use chocolate_name_not_met::ChocolateNameNotMet;
pub use filled_piece_name_not_met::FilledPieceNameNotMet;
pub use needs_time_temperature_control::NeedsTimeTemperatureControl;
pub use polyol_warning_due::PolyolWarningDue;
// </registry>

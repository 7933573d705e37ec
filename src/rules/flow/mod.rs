//! The flow of the chocolate.

// <registry> kept in step by tests/registry.rs
mod chocolate_would_seize;
mod couverture_too_lean_to_mould;
mod emulsifier_dose_outside_window;
mod emulsifier_form_unfit_for_fat;

pub use chocolate_would_seize::ChocolateWouldSeize;
pub use couverture_too_lean_to_mould::CouvertureTooLeanToMould;
pub use emulsifier_dose_outside_window::EmulsifierDoseOutsideWindow;
pub use emulsifier_form_unfit_for_fat::EmulsifierFormUnfitForFat;
// </registry>

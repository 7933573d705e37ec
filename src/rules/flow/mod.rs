//! The flow of the chocolate.

// <registry> kept in step by tests/registry.rs
mod chocolate_too_stiff_to_cast;
mod chocolate_too_thin_to_cast;
mod chocolate_would_seize;
mod couverture_overthinned;
mod couverture_too_lean_to_mould;
mod emulsifier_dose_outside_window;
mod emulsifier_dose_unweighable;
mod emulsifier_form_unfit_for_fat;
mod fats_incompatible;
mod soft_fat_in_shell;

pub use chocolate_too_stiff_to_cast::ChocolateTooStiffToCast;
pub use chocolate_too_thin_to_cast::ChocolateTooThinToCast;
pub use chocolate_would_seize::ChocolateWouldSeize;
pub use couverture_overthinned::CouvertureOverthinned;
pub use couverture_too_lean_to_mould::CouvertureTooLeanToMould;
pub use emulsifier_dose_outside_window::EmulsifierDoseOutsideWindow;
pub use emulsifier_dose_unweighable::EmulsifierDoseUnweighable;
pub use emulsifier_form_unfit_for_fat::EmulsifierFormUnfitForFat;
pub use fats_incompatible::FatsIncompatible;
pub use soft_fat_in_shell::SoftFatInShell;
// </registry>

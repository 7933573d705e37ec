//! Whether sugar lies in a filling as crystals.

use crate::units::choices;

choices! {
    /// What is known of the sugar crystals in a filling. Left open, sugar is taken to dissolve up to saturation.
    Crystals: "a crystal state" {
        /// All sugar is in solution, even above saturation.
        Dissolved "dissolved",
        /// Fine crystals all through a saturated syrup.
        Fondant "fondant",
        /// A crust of crystals around a saturated syrup.
        Crust "crust",
        /// Crystals were put in, so that no syrup stays above saturation.
        Seeded "seeded",
    }
}

//! Thickness in the words of dysphagia diets.

use crate::units::choices;
use crate::units::quantity::{DynamicViscosity, pascal_second};

choices! {
    /// The published classes of thickened drinks.
    DrinkClass: "a class of thickened drinks" {
        /// Flows like water.
        Thin "thin",
        /// Flows like fruit nectar.
        Nectar "nectar",
        /// Flows like honey.
        Honey "honey",
        /// Holds on a spoon.
        Pudding "pudding",
    }
}

/// The class of a viscosity.
///
/// # Equation
/// To 50 mPa s thin, to 350 nectar, to 1750 honey, above it pudding.
///
/// # Units
/// The viscosity at 50 1/s and 25 °C.
///
/// # Range
/// Every viscosity. It says how a filling runs in the mouth or off a spoon, not whether it carries a cap: that is the yield value.
///
/// # Error
/// The bands are conventions. Real honey is far thicker than the class called after it.
///
/// # Worked value
/// A xanthan drink of 126.3 mPa s is a nectar, one of 1050 mPa s a honey:
/// ```
/// # use cordial::models::flow::drink_class::{self, DrinkClass};
/// # use cordial::units::quantity::{DynamicViscosity, pascal_second};
/// assert_eq!(drink_class::of(DynamicViscosity::new::<pascal_second>(0.1263)), DrinkClass::Nectar);
/// assert_eq!(drink_class::of(DynamicViscosity::new::<pascal_second>(1.050)), DrinkClass::Honey);
/// ```
///
/// # Source
/// National Dysphagia Diet, as in Cichero (2013) Nutrition J. 12:54, table 1; the drinks: Food Hydrocolloids 79 (2018) 208, table 3. Seen.
#[must_use]
pub fn of(viscosity: DynamicViscosity) -> DrinkClass {
    match viscosity.get::<pascal_second>() {
        thin if thin <= 0.050 => DrinkClass::Thin,
        nectar if nectar <= 0.350 => DrinkClass::Nectar,
        honey if honey <= 1.750 => DrinkClass::Honey,
        _ => DrinkClass::Pudding,
    }
}

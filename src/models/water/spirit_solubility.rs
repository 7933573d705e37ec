//! How much less sugar a gram of water takes up beside spirit.

use crate::models::interpolation::linear;
use crate::units::{
    AlcoholByVolume, Band, Checked,
    quantity::{Ratio, ratio},
};

/// Strength of the spirit, and grams of sucrose per gram of its water over those in water alone.
const TABLE: [(f64, f64); 8] =
    [(0.0, 1.0), (0.10, 0.95), (0.20, 0.89), (0.30, 0.84), (0.40, 0.75), (0.50, 0.65), (0.60, 0.51), (0.70, 0.33)];

/// The sucrose that a gram of water takes up beside ethanol, over what it takes up alone.
///
/// # Equation
/// Straight lines between the points of a table.
///
/// # Units
/// Dimensionless; the strength is that of all water and ethanol without the sugar.
///
/// # Range
/// 0 to 70 %vol; held at the end beyond. The table is for 14 °C and is used for rooms.
///
/// # Error
/// 95 % within a factor of 1.12 beside spirit, growing from none at 0 to that at 10 %vol (a choice of this project: the table is recalled, and
/// its grams per 100 ml of solution were turned into grams per gram of water with 0.62 ml for a gram of sugar).
///
/// # Worked value
/// Spirit of 40 %vol takes up 58.0 g of sucrose in 100 ml of solution, water 87.5 g (Scheibler). Of the 100 ml 64.0 are spirit, 60.7 g with 40.5 g
/// of water; beside 87.5 g of sucrose there are 45.8 g of water: 1.43 over 1.91 is 0.75.
/// ```
/// use cordial::models::water::sucrose_beside_spirit;
/// use cordial::units::{AlcoholByVolume, Checked, quantity::ratio};
/// let relative = sucrose_beside_spirit(AlcoholByVolume::from_base(0.40)?);
/// assert!((relative.value.get::<ratio>() - (58.0 / 40.5) / (87.5 / 45.8)).abs() < 0.01);
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// Scheibler's table at 14 °C as handbooks of sugar analysis print it (memory).
#[must_use]
pub fn sucrose_beside_spirit(strength: AlcoholByVolume) -> Band<Ratio> {
    let relative = linear(&TABLE, strength.base());
    let factor = 1.0 + 0.12 * (strength.base() / 0.10).min(1.0);
    Band::within_factor(relative, factor).map(Ratio::new::<ratio>)
}

//! How much sugar a gram of water takes up before crystals are left.

use crate::units::{
    Temperature,
    quantity::{Ratio, ratio},
};

/// Sucrose over water at saturation, by mass.
///
/// # Equation
/// `s = 64.447 + 0.08222 t + 1.6169e-3 t² - 1.558e-6 t³ - 4.63e-8 t⁴` per cent of the solution; the ratio is `s / (100 - s)`.
///
/// # Units
/// `t` in °C; the result is a mass ratio.
///
/// # Range
/// 0 to 100 °C; held at the ends outside. Pure water only: other sugars and ethanol lower it, and no table for ethanol was found.
///
/// # Error
/// Two published series differ by 0.3 to 0.4 % of the solution at 20 °C: this curve follows the lower one.
///
/// # Worked value
/// Sugar-technology table: 200.7 g per 100 g of water at 20 °C, 289.4 g at 60 °C.
/// ```
/// use cordial::{models::water::sucrose_solubility, units::{Checked, Temperature, quantity::ratio}};
/// for (celsius, table) in [(20.0, 2.007), (60.0, 2.894)] {
///     let computed = sucrose_solubility(Temperature::from_base(celsius)?).get::<ratio>();
///     assert!((computed - table).abs() < 0.01, "{celsius}: {computed}");
/// }
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// Vavrinecz 1962; known from memory, checked against a table that was seen.
#[must_use]
pub fn sucrose_solubility(temperature: Temperature) -> Ratio {
    let t = temperature.celsius().clamp(0.0, 100.0);
    let percent = 64.447 + t * (0.08222 + t * (1.6169e-3 + t * (-1.558e-6 - t * 4.63e-8)));
    Ratio::new::<ratio>(percent / (100.0 - percent))
}

/// Lactose over water at saturation, by mass: 0.20 at room temperature.
///
/// # Range
/// 15 to 25 °C, where the final solubility runs from 0.169 to 0.216.
///
/// # Source
/// Hudson 1908 in Lowe, *Experimental Cookery*: 14.5 % at 15 °C, 17.8 % at 25 °C (seen); the round middle is a choice of this project.
#[must_use]
pub fn lactose_solubility() -> Ratio {
    Ratio::new::<ratio>(0.20)
}

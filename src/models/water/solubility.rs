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

/// Lactose over water at saturation, by mass, once all its forms have come to rest.
///
/// # Equation
/// `s = 0.119 exp(0.0228 t + 5e-5 t²)`
///
/// # Units
/// `t` in °C; the result is the mass of anhydrous lactose over that of water.
///
/// # Range
/// 0 to 40 °C; held at the ends outside. Pure water only.
///
/// # Error
/// Within 1 % of the table. Lactose comes to rest over days: fresh solutions hold less of it at first.
///
/// # Worked value
/// Hudson's final solubility: 11.9, 16.9, 21.6 and 31.5 g per 100 g of water at 0, 15, 25 and 39 °C.
/// ```
/// use cordial::{models::water::lactose_solubility, units::{Checked, Temperature, quantity::ratio}};
/// for (celsius, table) in [(0.0, 0.119), (15.0, 0.169), (25.0, 0.216), (39.0, 0.315)] {
///     let computed = lactose_solubility(Temperature::from_base(celsius)?).get::<ratio>();
///     assert!((computed / table - 1.0).abs() < 0.01, "{celsius}: {computed}");
/// }
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// Hudson 1908 in Lowe, *Experimental Cookery* (seen); fitted here (computed).
#[must_use]
pub fn lactose_solubility(temperature: Temperature) -> Ratio {
    let t = temperature.celsius().clamp(0.0, 40.0);
    Ratio::new::<ratio>(0.119 * (t * (0.0228 + 5e-5 * t)).exp())
}

/// Glucose over water at saturation with its monohydrate, by mass.
///
/// # Equation
/// `s = 47.7 + 0.70 (t - 20)` per cent of the solution; the ratio is `s / (100 - s)`.
///
/// # Units
/// `t` in °C; the result is the mass of anhydrous glucose over that of water.
///
/// # Range
/// 15 to 30 °C; held at the ends outside. Pure water only.
///
/// # Error
/// Commercial dextrose was printed at 49.7 % at 20 °C, two points higher.
///
/// # Worked value
/// Handbook values: 91.2 g per 100 g of water at 20 °C, 104.9 g at 25 °C.
/// ```
/// use cordial::{models::water::glucose_solubility, units::{Checked, Temperature, quantity::ratio}};
/// for (celsius, handbook) in [(20.0, 0.912), (25.0, 1.049)] {
///     let computed = glucose_solubility(Temperature::from_base(celsius)?).get::<ratio>();
///     assert!((computed - handbook).abs() < 0.001, "{celsius}: {computed}");
/// }
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// A line through two handbook values after Jackson and Silsbee 1922 (memory).
#[must_use]
pub fn glucose_solubility(temperature: Temperature) -> Ratio {
    let percent = 47.7 + 0.70 * (temperature.celsius().clamp(15.0, 30.0) - 20.0);
    Ratio::new::<ratio>(percent / (100.0 - percent))
}

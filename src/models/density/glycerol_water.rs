//! Glycerol in water.

use super::kilograms_per_cubic_meter;
use crate::models::range::{OutOfRange, within};
use crate::units::quantity::Density;
use crate::units::{Checked, MassFraction, Temperature, Unit};
use std::f64::consts::PI;

/// The density of a solution of glycerol in water.
///
/// # Equation
/// With `w` the mass fraction of glycerol and `t` the temperature: `(1 + c sin(pi w^1.31)^0.81) / (w / rho_g + (1 - w) / rho_w)`,
/// `c = 1.78e-6 t^2 - 1.82e-4 t + 1.41e-2`, `rho_g = 1273.3 - 0.6121 t`, `rho_w = 1000 (1 - |(t - 3.98) / 615|^1.71)`.
///
/// # Units
/// °C, kg/m³.
///
/// # Range
/// Every strength, 15 to 30 °C (memory).
///
/// # Error
/// 0.1 % (memory).
///
/// # Worked value
/// Pure glycerol weighs 1261.1 kg/m³ at 20 °C (handbook: memory):
/// ```
/// # use cordial::models::density::glycerol_water;
/// # use cordial::units::{Measure, quantity::kilogram_per_cubic_meter};
/// let density = glycerol_water::density(Measure::parse("100 %")?.check()?, Measure::parse("20 Cel")?.check()?)?;
/// assert!((density.get::<kilogram_per_cubic_meter>() / 1261.1 - 1.0).abs() < 0.001);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Volk & Kähler (2018) Exp. Fluids 59:75. Seen.
///
/// # Errors
/// [`OutOfRange`] outside 15 to 30 °C.
pub fn density(glycerol: MassFraction, at: Temperature) -> Result<Density, OutOfRange> {
    let t = within(&(15.0..=30.0), at, Unit::Celsius, "the density of glycerol in water")?;
    let w = glycerol.base();
    let (pure, water) = (1273.3 - 0.6121 * t, 1000.0 * (1.0 - ((t - 3.98) / 615.0).abs().powf(1.71)));
    let contraction = 1.78e-6 * t * t - 1.82e-4 * t + 1.41e-2;
    // At w = 1 rounding may leave the sine just below zero.
    let shape = (w.powf(1.31) * PI).sin().max(0.0).powf(0.81);
    Ok(kilograms_per_cubic_meter((1.0 + contraction * shape) / (w / pure + (1.0 - w) / water)))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;

    #[test]
    fn the_range_is_guarded() {
        assert!(density(MassFraction::ZERO, Temperature::from_base(31.0).unwrap()).is_err());
    }
}

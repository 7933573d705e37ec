//! Glycerol in water.

use crate::models::range::{OutOfRange, within};
use crate::units::quantity::{DynamicViscosity, pascal_second};
use crate::units::{Band, Checked, MassFraction, Temperature, Unit};

/// The viscosity of a solution of glycerol in water.
///
/// # Equation
/// `mu_w^alpha mu_g^(1 - alpha)`, with `c` the mass fraction of glycerol, `alpha = 1 - c + a b c (1 - c) / (a c + b (1 - c))`,
/// `a = 0.705 - 0.0017 t`, `b = (4.9 + 0.036 t) a^2.5`, `mu_w = 1.790 exp((-1230 - t) t / (36100 + 360 t))` and
/// `mu_g = 12100 exp((-1233 + t) t / (9900 + 70 t))`.
///
/// # Units
/// `t` in °C, `mu` in mPa s; the result in Pa s with its 95 % band.
///
/// # Range
/// Every strength, 0 to 100 °C.
///
/// # Error
/// 3 % against the values of Segur & Oberstar at 20 °C (memory); the band is 5 %, as its author states (memory).
///
/// # Worked value
/// Half glycerol, half water: 6.0 mPa s at 20 °C (Segur & Oberstar 1951: memory):
/// ```
/// # use cordial::models::flow::glycerol_viscosity;
/// # use cordial::units::{Measure, quantity::pascal_second};
/// let viscosity = glycerol_viscosity::glycerol(Measure::parse("50 %")?.check()?, Measure::parse("20 Cel")?.check()?)?;
/// assert!((viscosity.value.get::<pascal_second>() / 0.0060 - 1.0).abs() < 0.03);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Cheng (2008) Ind. Eng. Chem. Res. 47:3285. Seen.
///
/// # Errors
/// [`OutOfRange`] outside 0 to 100 °C.
pub fn glycerol(glycerol: MassFraction, at: Temperature) -> Result<Band<DynamicViscosity>, OutOfRange> {
    let t = within(&(0.0..=100.0), at, Unit::Celsius, "the viscosity of glycerol in water")?;
    let c = glycerol.base();
    let water = 1.790e-3 * ((-1230.0 - t) * t / (36_100.0 + 360.0 * t)).exp();
    let pure = 12.100 * ((-1233.0 + t) * t / (9900.0 + 70.0 * t)).exp();
    let a = 0.705 - 0.0017 * t;
    let b = (4.9 + 0.036 * t) * a.powf(2.5);
    let share_of_water = 1.0 - c + a * b * c * (1.0 - c) / (a * c + b * (1.0 - c));
    let viscosity = water.powf(share_of_water) * pure.powf(1.0 - share_of_water);
    Ok(Band::within_factor(viscosity, 1.05).map(DynamicViscosity::new::<pascal_second>))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;

    #[test]
    fn the_range_is_guarded() {
        assert!(glycerol(MassFraction::ZERO, Temperature::from_base(-1.0).unwrap()).is_err());
    }
}

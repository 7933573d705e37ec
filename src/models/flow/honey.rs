//! Honey.

use crate::models::range::{OutOfRange, within};
use crate::units::quantity::{DynamicViscosity, pascal_second};
use crate::units::{Band, MassFraction, Temperature, Unit};

/// The viscosity of honey.
///
/// # Equation
/// `exp(-7.89050241 + 834.100725 / (t + 56.3833899))`.
///
/// # Units
/// `t` in °C; Pa s, with its 95 % band.
///
/// # Range
/// Clear honey of 16 to 19 % water, 10 to 72 °C; Newtonian. Two published honeys of 16.1 and 18.6 % lie on this one curve, so water
/// does not enter it. Outside, it matters: 42 Pa s at 13.7 % and 2 Pa s at 20 % water are stated for 25 °C, where the curve has 10.6,
/// and 1 % of water is said to act like 3.5 °C.
///
/// # Error
/// 8 % at worst on those two honeys; the band is a factor 1.6 (default), for honeys differ.
///
/// # Worked value
/// 18.96 Pa s were measured at 20.6 °C:
/// ```
/// # use cordial::models::flow::honey;
/// # use cordial::units::{Measure, quantity::pascal_second};
/// let viscosity = honey::viscosity(Measure::parse("16.1 %")?.check()?, Measure::parse("20.6 Cel")?.check()?)?;
/// assert!((viscosity.value.get::<pascal_second>() / 18.96 - 1.0).abs() < 0.12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Fitted for this project on eight values of Belitz, Grosch & Schieberle, Food Chemistry, table 19.10 (seen). Other honeys: a beekeepers'
/// leaflet, a rosemary honey of 2018, a honey data sheet (seen).
///
/// # Errors
/// [`OutOfRange`] outside the range above.
pub fn viscosity(water: MassFraction, at: Temperature) -> Result<Band<DynamicViscosity>, OutOfRange> {
    const WHAT: &str = "the viscosity of honey";
    within(&(0.16..=0.19), water, Unit::Percent, WHAT)?;
    let t = within(&(10.0..=72.0), at, Unit::Celsius, WHAT)?;
    let viscosity = (-7.890_502_41 + 834.100_725 / (t + 56.383_389_9)).exp();
    Ok(Band::within_factor(viscosity, 1.6).map(DynamicViscosity::new::<pascal_second>))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Checked;

    fn honey(percent: f64, celsius: f64) -> Result<Band<f64>, OutOfRange> {
        let water = MassFraction::from_base(percent / 100.0).unwrap();
        Ok(viscosity(water, Temperature::from_base(celsius).unwrap())?.map(|viscosity| viscosity.get::<pascal_second>()))
    }

    #[test]
    fn the_range_is_guarded_at_both_doors() {
        assert_eq!(honey(20.0, 25.0).unwrap_err().to_string(), "the viscosity of honey is known from 16 % to 19 %, found `20 %`");
        assert!(honey(17.0, 9.0).is_err());
    }
}

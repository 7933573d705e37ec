//! Syrups.

use crate::models::range::{OutOfRange, within};
use crate::units::quantity::{DynamicViscosity, pascal_second};
use crate::units::{Band, MassFraction, Temperature, Unit};

/// The viscosity of a solution of sucrose in water.
///
/// # Equation
/// `log10 mu = 22.46 x - 0.114 + phi (1.1 + 43.1 x^1.25)` with `x = B / (1900 - 18 B)` and `phi = (30 - t) / (91 + t)`.
///
/// # Units
/// `B` in per cent by mass (degrees Brix), `t` in °C, `mu` in mPa s; the result in Pa s with its 95 % band.
///
/// # Range
/// To 74 % by mass, 0 to 80 °C.
///
/// # Error
/// 4 % at 20 °C, 12 % elsewhere, as against the handbook; the band is 12 %.
///
/// # Worked value
/// 60 % sucrose: 58.49 mPa s at 20 °C (CRC Handbook, times 1.002 mPa s of water):
/// ```
/// # use cordial::models::flow::syrup_viscosity;
/// # use cordial::units::{Measure, quantity::pascal_second};
/// let syrup = syrup_viscosity::sucrose(Measure::parse("60 %")?.check()?, Measure::parse("20 Cel")?.check()?)?;
/// assert!((syrup.value.get::<pascal_second>() / 0.05849 - 1.0).abs() < 0.04);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Genotelle (1978), as adopted with ICUMSA SPS-5: memory, borne out by the handbook (seen).
///
/// # Errors
/// [`OutOfRange`] outside the range above.
pub fn sucrose(sucrose: MassFraction, at: Temperature) -> Result<Band<DynamicViscosity>, OutOfRange> {
    const WHAT: &str = "the viscosity of a sucrose solution";
    let brix = 100.0 * within(&(0.0..=0.74), sucrose, Unit::Percent, WHAT)?;
    let t = within(&(0.0..=80.0), at, Unit::Celsius, WHAT)?;
    let x = brix / (1900.0 - 18.0 * brix);
    let colder = (30.0 - t) / (91.0 + t);
    let milli = 10f64.powf(22.46 * x - 0.114 + colder * (1.1 + 43.1 * x.powf(1.25)));
    Ok(Band::within_factor(milli / 1000.0, 1.12).map(DynamicViscosity::new::<pascal_second>))
}

/// The viscosity of corn syrup of 77 % sugars.
///
/// # Equation
/// `15603 t^-2.44`.
///
/// # Units
/// `t` in °C; Pa s, with its 95 % band.
///
/// # Range
/// 23.5 to 46 °C, where it was calibrated; syrups of 77 % dry matter.
///
/// # Error
/// A factor 1.3 (default): one syrup, no scatter stated.
///
/// # Worked value
/// 3.88 Pa s at 30 °C (computed from the formula):
/// ```
/// # use cordial::models::flow::syrup_viscosity;
/// # use cordial::units::{Measure, quantity::pascal_second};
/// let syrup = syrup_viscosity::corn_syrup(Measure::parse("30 Cel")?.check()?)?;
/// assert!((syrup.value.get::<pascal_second>() - 3.882).abs() < 0.001);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// A calibration in a public research script. Seen.
///
/// # Errors
/// [`OutOfRange`] outside 23.5 to 46 °C.
pub fn corn_syrup(at: Temperature) -> Result<Band<DynamicViscosity>, OutOfRange> {
    let t = within(&(23.5..=46.0), at, Unit::Celsius, "the viscosity of corn syrup")?;
    Ok(Band::within_factor(15_603.0 * t.powf(-2.44), 1.3).map(DynamicViscosity::new::<pascal_second>))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Checked;

    fn milli(brix: f64, celsius: f64) -> Result<Band<f64>, OutOfRange> {
        let share = MassFraction::from_base(brix / 100.0).unwrap();
        Ok(sucrose(share, Temperature::from_base(celsius).unwrap())?.map(|viscosity| 1000.0 * viscosity.get::<pascal_second>()))
    }

    #[test]
    fn the_ranges_are_guarded_at_every_door() {
        assert!(milli(75.0, 20.0).is_err());
        assert!(milli(50.0, 81.0).is_err());
        let cold = corn_syrup(Temperature::from_base(20.0).unwrap()).unwrap_err();
        assert_eq!(cold.to_string(), "the viscosity of corn syrup is known from 23.5 Cel to 46 Cel, found `20 Cel`");
    }
}

//! Sucrose in water.

use super::kilograms_per_cubic_meter;
use crate::models::range::{OutOfRange, within};
use crate::units::quantity::Density;
use crate::units::{MassFraction, Temperature, Unit};

/// The density of a solution of sucrose in water.
///
/// # Equation
/// With `w` the mass fraction of sucrose and `d = (t - 20) / 100`: `rho_water(t) + sum_k d^k sum_i b(k,i) w^i`.
///
/// # Units
/// `sucrose` is its mass fraction (degrees Brix over 100); kg/m³ at atmospheric pressure.
///
/// # Range
/// To 85 % by mass, 0 to 80 °C (the temperatures: memory).
///
/// # Error
/// Against the handbook at 20 °C 0.3 kg/m³ to 70 %, 0.8 kg/m³ at 84 %.
///
/// # Worked value
/// 50 % sucrose weighs 1229.5 kg/m³ at 20 °C (CRC Handbook):
/// ```
/// # use cordial::models::density::sucrose_solution;
/// # use cordial::units::{Measure, quantity::kilogram_per_cubic_meter};
/// let syrup = sucrose_solution::density(Measure::parse("50 %")?.check()?, Measure::parse("20 Cel")?.check()?)?;
/// assert!((syrup.get::<kilogram_per_cubic_meter>() - 1229.5).abs() < 0.3);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// ICUMSA SPS-4 (Emmerich 1994), in public transcriptions that agree but for the fourth coefficient of the first row (-3.9643 or -3.9646:
/// 0.0003 kg/m³). Seen.
///
/// # Errors
/// [`OutOfRange`] outside the range above.
pub fn density(sucrose: MassFraction, at: Temperature) -> Result<Density, OutOfRange> {
    let sucrose = within(&(0.0..=0.85), sucrose, Unit::Percent, "the density of a sucrose solution")?;
    Ok(kilograms_per_cubic_meter(density_of(sucrose, celsius(at)?)))
}

/// The temperature, if it is one of a sucrose solution.
pub(super) fn celsius(at: Temperature) -> Result<f64, OutOfRange> {
    within(&(0.0..=80.0), at, Unit::Celsius, "the density of a solution in water")
}

/// [`density`] in kg/m³; smooth up to the amorphous sugar at 1.
pub(super) fn density_of(sucrose: f64, celsius: f64) -> f64 {
    let polynomial = |coefficients: &[f64], x: f64| coefficients.iter().rev().fold(0.0, |sum, coefficient| (sum + coefficient) * x);
    let warmer = (celsius - 20.0) / 100.0;
    let by_warmth = SOLUTE.iter().rev().fold(0.0, |sum, row| sum * warmer + polynomial(row, sucrose));
    water(celsius) + by_warmth
}

/// Water from 0 to 100 °C, kg/m³.
pub(super) fn water(t: f64) -> f64 {
    let above = 999.839_52 + t * (16.952_577 + t * (-7.990_512_7e-3 + t * (-4.624_175_7e-5 + t * (1.058_460_1e-7 - t * 2.810_300_6e-10))));
    above / (1.0 + 1.688_723_6e-2 * t)
}

/// `b(k,i)`, a row for each `k`, kg/m³.
const SOLUTE: [&[f64]; 5] = [
    &[385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890],
    &[-46.2720, -7.1720, 1.1597, 5.1126, 17.5254],
    &[59.7712, 7.2491, 12.3630, -35.4791],
    &[-47.2207, -21.6977, 27.6301],
    &[18.3184, 12.3081],
];

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Checked;
    use crate::units::quantity::kilogram_per_cubic_meter;
    use approx::assert_abs_diff_eq;

    fn kilograms(percent: f64, celsius: f64) -> Result<f64, OutOfRange> {
        let sucrose = MassFraction::from_base(percent / 100.0).unwrap();
        Ok(density(sucrose, Temperature::from_base(celsius).unwrap())?.get::<kilogram_per_cubic_meter>())
    }

    #[test]
    fn water_is_water_at_any_temperature() {
        // Computed with IAPWS-95.
        assert_abs_diff_eq!(kilograms(0.0, 5.0).unwrap(), 999.967, epsilon = 0.03);
        assert_abs_diff_eq!(kilograms(0.0, 30.0).unwrap(), 995.649, epsilon = 0.03);
    }

    #[test]
    fn other_temperatures() {
        // Computed with the formula by a second implementation; no measured table was at hand.
        for (percent, celsius, computed) in [(50.0, 5.0, 1235.792), (30.0, 60.0, 1108.421), (65.0, 60.0, 1294.214), (80.0, 80.0, 1376.623)]
        {
            assert_abs_diff_eq!(kilograms(percent, celsius).unwrap(), computed, epsilon = 0.001);
        }
    }

    #[test]
    fn the_range_is_guarded_at_both_doors() {
        let error = kilograms(86.0, 20.0).unwrap_err();
        assert_eq!(error.to_string(), "the density of a sucrose solution is known from 0 % to 85 %, found `86 %`");
        assert!(kilograms(50.0, -1.0).is_err());
        assert!(kilograms(85.0, 80.0).is_ok());
    }
}
